package fracture

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// LineSpring returns how far the two sides of a part-through opening of constant depth come apart under a force N (N/mm)
// and a moment M (N) across it, as numbers without dimension: with t the thickness, E the modulus across it,
//
//	opening at mid-thickness = (nn N + nm M/t)/E,   turn = (nm N + mm M/t)/(E t)
//
//	nn = 2 (E/E*) Int pi x Ft^2 dx,  nm = 2 (E/E*) Int 6 pi x Ft Fb dx,  mm = 2 (E/E*) Int 36 pi x Fb^2 dx,   x = 0 .. depth/t
//
// from the energy release K^2/E* of an edge crack under pull and bending ([EdgeTensionTada], [EdgeBending]), integrated
// over its depth (line spring; J. R. Rice and N. Levy 1972, idea from memory). share is depth/t, 0 to 0.95; e is E and star
// E* of a crack growing through the thickness, both MPa and above 0. M and turn are positive where they open the face that
// the crack starts from. Isotropic factors: beside elements within 4 % in isotropic plates and 9 % in wood like spruce
// (tests). It holds as long as the depth is near the same over a length along the grain of some thicknesses.
func LineSpring(share, e, star float64) (nn, nm, mm float64, err error) {
	if !(share >= 0 && share <= deepest) {
		return 0, 0, 0, fmt.Errorf("depth of a part-through opening must be 0 to %g of the thickness, got %g", deepest, share)
	}
	if !(e > 0 && star > 0) || math.IsInf(e/star, 0) {
		return 0, 0, 0, fmt.Errorf("moduli of a part-through opening must be above 0 MPa, got %g and %g", e, star)
	}
	f := 2 * math.Pi * e / star
	over := func(g func(x float64) float64) float64 {
		return f * quad.Fixed(func(x float64) float64 { return x * g(x) }, 0, share, 40, nil, 0)
	}
	nn = over(func(x float64) float64 { v := EdgeTensionTada(x); return v * v })
	nm = over(func(x float64) float64 { return 6 * EdgeTensionTada(x) * EdgeBending(x) })
	mm = over(func(x float64) float64 { v := EdgeBending(x); return 36 * v * v })
	return nn, nm, mm, nil
}

// deepest is the share of the thickness beyond which nothing worth counting holds.
const deepest = 0.95
