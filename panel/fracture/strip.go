package fracture

import "math"

// StripRelease returns the energy released by each mm of a long crack along the middle of a strip of
// clear height H (mm) across the grain whose long edges are held, N/mm:
//
//	G = eps^2 E H/2
//
// eps is the held strain, E (MPa) the modulus across the grain of the duration in question. Exact
// for cracks and ligaments much longer than H; within 1 % from a/H = 0.75 on. Poisson's effect would
// add 1.5 % (spruce). Strip between rigid edges, textbook (Rivlin & Thomas 1953).
func StripRelease(eps, E, H float64) float64 { return eps * eps * E * H / 2 }

// StripLimit returns the held strain at which a long crack in that strip runs, for the toughness gc
// in N/mm:
//
//	eps = sqrt(2 Gc/(E H))
//
// It falls as the square root of the height: wide spacing of what holds a panel is the danger.
func StripLimit(gc, E, H float64) float64 { return math.Sqrt(2 * gc / (E * H)) }

// EffectiveHeight returns the height of the strip between rigid edges that stores as much as one of
// height H (mm) whose edge gives: k is the stiffness (N/mm) of the yielding edges in a row with it,
// b (mm) the length along the grain that they serve, t (mm) the thickness, E in MPa:
//
//	H' = H + E t b/k
//
// k = +Inf gives H. From the compliance of strip and springs in a row.
func EffectiveHeight(H, E, t, b, k float64) float64 { return H + E*t*b/k }

// FlattenedRelease returns the energy released by each mm of a long crack in a panel that would like
// the curvature kappa (1/mm) but is held flat, N/mm of length and mm of thickness:
//
//	G = D kappa^2 H/(2 t) = E t^2 kappa^2 H/24,   D = E t^3/12
//
// It equals the energy of a held strain kappa t/sqrt(12). Derived here: all the bending energy of
// the strip is set free.
func FlattenedRelease(kappa, E, t, H float64) float64 { return E * t * t * kappa * kappa * H / 24 }

// loading returns the square of the strain that drives a crack: held strain and flattened curvature
// together. Pressed edges close the crack: what is left is the part of the thickness that bending
// still pulls open, (1 - |eps|/(kappa t/2))^3 of the bending (estimate; exact for the stress on the
// part that is pulled).
func loading(eps, kappa, t float64) float64 {
	bend := kappa * kappa * t * t / 12
	if eps >= 0 {
		return eps*eps + bend
	}
	outer := math.Abs(kappa) * t / 2
	if -eps >= outer {
		return 0
	}
	open := 1 + eps/outer
	return bend * open * open * open
}
