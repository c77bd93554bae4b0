package species

import (
	"math"

	"crossgrain/tables"
)

// Ortho are the constants of an orthotropic plane for a crack: 1 along the growth of the crack, 2
// along its normal; Nu12 is the strain along 2 of a stress along 1. MPa.
type Ortho struct{ E1, E2, Nu12, G12 float64 }

// bracket is sqrt[ sqrt(a22/a11) + (2 a12 + a66)/(2 a11) ].
func (o Ortho) bracket() float64 {
	a11, a22, a12, a66 := 1/o.E1, 1/o.E2, -o.Nu12/o.E1, 1/o.G12
	return math.Sqrt(math.Sqrt(a22/a11) + (2*a12+a66)/(2*a11))
}

// ModeI returns E* of G = K²/E* for opening, plane stress, MPa.
//
//	1/E* = sqrt(a11 a22/2) sqrt[ sqrt(a22/a11) + (2 a12 + a66)/(2 a11) ]
//
// Source: Sih, Paris and Irwin 1965.
func (o Ortho) ModeI() float64 { return 1 / (math.Sqrt(1/(2*o.E1*o.E2)) * o.bracket()) }

// ModeII returns E* of G = K²/E* for sliding, plane stress, MPa. Source: as [Ortho.ModeI].
func (o Ortho) ModeII() float64 { return o.E1 * math.Sqrt2 / o.bracket() }

// Energy returns G in N/mm from K in MPa m^0.5 and E* in MPa.
func Energy(k, e float64) float64 { return k * k * 1000 / e }

// The running toughness of a crack where none was measured: the start value times the low end of
// the ratio four to ten seen between start and plateau, kept between two round energies. Assumption.
const (
	plateauRatio = 4
	plateauLow   = 0.2 // N/mm
	plateauHigh  = 0.6 // N/mm
)

func plateau(start float64) float64 {
	return max(start, min(max(plateauRatio*start, plateauLow), plateauHigh))
}

// startEnergies turns the wood's own K_Ic into energies, J/m2, with its own moduli; a modulus it
// lacks is a stand-in, which makes the energy an estimate.
func (w *Wood) startEnergies(own []Property) []Property {
	draft := *w
	draft.props = own
	var out []Property
	for _, dir := range [...]string{"TL", "RL"} {
		k, ok := draft.own(Toughness, dir)
		if !ok {
			continue
		}
		o, grade := draft.crackPlane(dir)
		p := Property{Name: ToughnessStart, Direction: dir, CV: energyCV(k.CV), Datum: tables.Datum{
			Value: 1000 * Energy(k.Value, o.ModeI()), Unit: "J/m2", Source: k.Source, Locator: k.Locator,
			Status: "derived", Note: "K squared over E* (Sih, Paris and Irwin 1965) with the moduli of the wood",
			Grade: tables.Worse(k.Grade, grade),
		}}
		out = append(out, p.spread())
	}
	return out
}

// energyCV is the coefficient of variation of K squared.
func energyCV(cv float64) float64 {
	s := 2 * logSigma(cv)
	return math.Sqrt(math.Expm1(s * s))
}

// crackPlane returns the constants for a crack along the grain (TL or RL) and the weakest evidence.
func (w *Wood) crackPlane(dir string) (Ortho, tables.Grade) {
	n, shear := "T", "LT"
	if dir == "RL" {
		n, shear = "R", "LR"
	}
	grade := tables.Several
	get := func(name, dir string) float64 {
		p, _, _ := w.value(name, dir)
		grade = tables.Worse(grade, p.Grade)
		return p.Value
	}
	// nu_LT serves RL as well: the term it enters is small and nu_LR is near it (Table 5-2).
	return Ortho{
		E1: get(Modulus, "L"), E2: get(Modulus, n), Nu12: get(Poisson, "LT"), G12: get(ShearModulus, shear),
	}, grade
}
