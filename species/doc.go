// Package species knows woods: their names in several languages, their values across and along the
// grain with spread, source and evidence, and the plain numbers that a calculation takes from them.
//
// # Where the values come from
//
//   - woods of panels: tables panel_wood_defaults (values) and panel_woods (what was read);
//   - woods of the Wood Handbook: Tables 4-3, 4-4, 13-5 (movement), 5-1, 5-2, 5-3b, 5-10;
//   - stand-ins where a wood lacks a value: table fits, or the relative named in table woods.
//
// A European wood never takes an American value silently: what is borrowed is listed as a [Gap]
// with its origin, and [Wood.Property] answers a missing value with a [MissingError].
//
// # Equations
//
//	ring angle, strain        RingAngle.Strain       rotation of a plane tensor
//	ring angle, modulus       RingAngle.Modulus      rotation of the compliance (Lekhnitskii)
//	same, shear prevented     RingAngle.ModulusHeld  rotation of the stiffness
//	movement from shrinkage   Coefficient            Wood Handbook eq. 13-3, memory form
//	density from gravity      (internal)             Wood Handbook 2021 eq. 4-14
//	toughness K to energy G   Ortho.ModeI, ModeII    Sih, Paris and Irwin 1965
//	moisture                  Numbers.At             slopes of table moisture_factors
//
// Units: N, mm, MPa; moisture content, humidity and strain as fractions; density in kg/m3;
// energy per area in N/mm (1000 J/m2). Values hold at 12 % moisture content and 20 °C, short loading.
package species
