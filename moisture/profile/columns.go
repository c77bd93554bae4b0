package profile

import (
	"errors"
	"math"

	"crossgrain/tables"
)

// UnderMember is the board where a batten, cradle member or frame rebate lies against its back: the
// member's wood, its glue or the air left between add up to sd metres of still air (a batten of 20 mm
// and mu 80 laid dry: about 1.6). Any backing board is behind the member and no longer counts.
func (w Wall) UnderMember(sd float64) Wall {
	w.Back.Sd += sd
	w.Back.Backing = nil
	return w
}

// Bevelled is the board at the distance mm from a thinned edge: the thickness rises in a straight
// line from edge (mm) to the full thickness over run (mm).
func (w Wall) Bevelled(edge, run, distance float64) (Wall, error) {
	err := errors.Join(tables.InRange("thickness at the edge", edge, 0.1, w.Thickness, "mm", ""),
		tables.InRange("width of the bevel", run, 0.1, 1e4, "mm", ""),
		tables.InRange("distance from the edge", distance, 0, 1e4, "mm", ""))
	w.Thickness = edge + (w.Thickness-edge)*min(distance/run, 1)
	return w, err
}

// Edge is an open end of a board, or one wall of an open join, check or split, taken as the face of
// wood that has no end behind it.
type Edge struct {
	D float64 // diffusion away from the face, m2/s: along the grain at an end, across it at a join
	S float64 // surface coefficient, m/s; +Inf for none
}

// Share returns the share of a step of the room (0..1) that has arrived the given distance (mm, 0 or
// more) from the face after so many seconds (0 or more):
//
//	erfc(x/2 sqrt(Dt)) - exp(S x/D + S^2 t/D) erfc(x/2 sqrt(Dt) + S sqrt(t/D))
//
// Source: Carslaw and Jaeger 1959, 2.7. Values out of range give NaN.
func (e Edge) Share(distance, seconds float64) float64 {
	if !(e.D > 0 && e.S >= 0 && distance >= 0 && seconds >= 0) {
		return math.NaN()
	}
	if seconds == 0 {
		return 0
	}
	a := distance / 1000 / (2 * math.Sqrt(e.D*seconds))
	b := e.S * math.Sqrt(seconds/e.D)
	if math.IsInf(b, 1) || b > 1e6 {
		return math.Erfc(a)
	}
	return math.Erfc(a) - math.Exp(-a*a)*scaledErfc(a+b)
}

// scaledErfc is exp(x^2) erfc(x); for large x by its series. Source: Abramowitz and Stegun 1964, 7.1.23.
func scaledErfc(x float64) float64 {
	if x < 8 {
		return math.Exp(x*x) * math.Erfc(x)
	}
	q := 1 / (2 * x * x)
	return (1 - q + 3*q*q - 15*q*q*q) / (x * math.Sqrt(math.Pi))
}

// BothWays joins two shares of a step that arrive at one place from directions at right angles, say
// through the thickness and from an open end: what is left of the step is the product of what either
// leaves. Exact for constant diffusion and a uniform start. Source: Newman's product rule, Carslaw
// and Jaeger 1959, 1.15. For a record, add up its steps.
func BothWays(a, b float64) float64 { return 1 - (1-a)*(1-b) }

// Strip returns the share of a step made by the mean over the last width mm of the board beside an
// edge, given the share made through the thickness. width must be above 0, else NaN.
func (e Edge) Strip(through, width, seconds float64) float64 {
	if !(width > 0) {
		return math.NaN()
	}
	const n = 64 // Simpson
	sum := 0.0
	for i := 0; i <= n; i++ {
		sum += simpson(i, n) * e.Share(width*float64(i)/n, seconds)
	}
	return BothWays(through, sum/(3*n))
}

func simpson(i, n int) float64 {
	switch {
	case i == 0 || i == n:
		return 1
	case i%2 == 1:
		return 4
	}
	return 2
}

// Patch returns the mean of a quantity over parts of a board with unlike columns: the values weighted
// by the shares of the area they stand for. It gives NaN when the lengths differ or no share is
// above 0.
func Patch(values, shares []float64) float64 {
	sum, of := 0.0, 0.0
	if len(values) != len(shares) {
		return math.NaN()
	}
	for i, v := range values {
		sum, of = sum+v*shares[i], of+shares[i]
	}
	return sum / of
}
