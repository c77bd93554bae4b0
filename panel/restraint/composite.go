package restraint

import "fmt"

// Layer is one layer of a strip glued without slip: panel, ground or bar.
type Layer struct {
	E, Width, Thickness float64 // MPa, mm
	Z                   float64 // height of its middle, mm, painted face up
	Strain              float64 // its free strain
}

// Composite is a stack of layers free to bend.
type Composite struct {
	EA, EI  float64 // N, N mm2
	Centre  float64 // height of the centre of stiffness, mm
	Strain  float64 // at that height
	Bow     float64 // curvature, 1/mm, positive = upper side convex
	HeldTo0 float64 // moment that would keep it flat, N mm
}

// NewComposite returns the strain and curvature of a glued stack that is free to bend:
//
//	A = Sum E b t,  z_c = Sum E b t z/A,  D = Sum E b [t^3/12 + t (z - z_c)^2]
//	e_0 = Sum E b t e/A,  kappa = Sum E b t e (z - z_c)/D
//
// Every layer needs a modulus, width and thickness above 0. Beam theory with plane sections; for
// two layers it is Timoshenko's bi-metal strip (J. Opt. Soc. Am. 11, 1925, 233).
func NewComposite(layers []Layer) (Composite, error) {
	var c Composite
	for i, l := range layers {
		if !(l.E > 0 && l.Width > 0 && l.Thickness > 0) {
			return c, fmt.Errorf("layer %d: modulus, width and thickness must be above 0 MPa and mm, got %g, %g, %g", i+1, l.E, l.Width, l.Thickness)
		}
		a := l.E * l.Width * l.Thickness
		c.EA += a
		c.Centre += a * l.Z
		c.Strain += a * l.Strain
	}
	if c.EA == 0 {
		return c, fmt.Errorf("stack needs at least one layer, got none")
	}
	c.Centre /= c.EA
	c.Strain /= c.EA
	for _, l := range layers {
		a, z := l.E*l.Width*l.Thickness, l.Z-c.Centre
		c.EI += a * (l.Thickness*l.Thickness/12 + z*z)
		c.HeldTo0 += a * l.Strain * z
	}
	c.Bow = c.HeldTo0 / c.EI
	return c, nil
}

// Stress returns the stress in a layer at height z, MPa, tension positive:
//
//	sigma = E [e_0 + kappa (z - z_c) - e]
func (c Composite) Stress(l Layer, z float64) float64 {
	return l.E * (c.Strain + c.Bow*(z-c.Centre) - l.Strain)
}

// FlatStress returns the stress in a layer when the stack is held flat, MPa.
func (c Composite) FlatStress(l Layer) float64 { return l.E * (c.Strain - l.Strain) }

// Sagitta returns the height of an arc of the curvature kappa, 1/mm, over a chord, mm: kappa w^2/8.
func Sagitta(kappa, chord float64) float64 { return kappa * chord * chord / 8 }
