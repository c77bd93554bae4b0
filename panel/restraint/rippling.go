package restraint

import (
	"fmt"
	"math"
)

// Rippling returns the held swelling strain at which a thin panel buckles between glued members:
//
//	eps_cr = f pi^2 t^2 / (12 L^2),  f = 1 hinged .. 4 clamped at the members
//
// t is the thickness and span the clear distance L between members, mm, above 0; clamped is 0 for
// hinged edges to 1 for clamped ones (f = 1 + 3 clamped, between them a working choice:
// assumption). Euler's strut with the free swelling as its shortening.
func Rippling(t, span, clamped float64) (float64, error) {
	if !(t > 0 && span > 0) {
		return 0, fmt.Errorf("thickness and span must be above 0 mm, got %g, %g", t, span)
	}
	if !(clamped >= 0 && clamped <= 1) {
		return 0, fmt.Errorf("clamping must lie between 0 (hinged) and 1 (clamped), got %g", clamped)
	}
	q := math.Pi * t / span
	return (1 + 3*clamped) * q * q / 12, nil
}

// Bulge returns the height of the ripple over a span, mm, once the held swelling strain is above
// the critical one; 0 below it:
//
//	w = (2 L/pi) sqrt(eps - eps_cr)
//
// from the length of a half sine wave, w small against L. A clamped span bulges in a full cosine
// wave of the same height.
func Bulge(span, strain, critical float64) float64 {
	if strain <= critical {
		return 0
	}
	return 2 * span / math.Pi * math.Sqrt(strain-critical)
}
