package chance

import (
	"cmp"
	"math"
	"slices"
)

// Quantile returns the value below which the share p (0..1) of the weight of x lies. x need not be
// sorted; nil weights are equal. Each value stands at the middle of its weight and values between are
// linear: with equal weights type 5 of Hyndman and Fan, The American Statistician 50 (1996) 361-365 (and
// of R). Below the first middle it is the smallest value, above the last the largest. (The linear kind of
// gonum is type 4, which treats the two ends differently.)
//
// Values without weight do not count. Equal values are taken by rising weight, so the order of x does not
// matter. The answer is NaN without any weight, for a p that is none, and when a value with weight is NaN.
func Quantile(x, w []float64, p float64) float64 {
	w = orEqual(w, len(x))
	if !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	type point struct{ x, w float64 }
	var points []point
	var sum float64
	for i, v := range x {
		if w[i] == 0 {
			continue
		}
		if math.IsNaN(v) {
			return v
		}
		points = append(points, point{v, w[i]})
		sum += w[i]
	}
	if len(points) == 0 {
		return math.NaN()
	}
	slices.SortFunc(points, func(a, b point) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.w, b.w)) })
	want := p * sum
	at := points[0].w / 2
	if want <= at {
		return points[0].x
	}
	for i, b := range points[1:] {
		a := points[i]
		next := at + (a.w+b.w)/2
		if want < next {
			return between(a.x, b.x, (want-at)/(next-at))
		}
		at = next
	}
	return points[len(points)-1].x
}

// between is linear from a (t = 0) to b (t = 1), also when one of them is infinite.
func between(a, b, t float64) float64 {
	if t == 0 || a == b {
		return a
	}
	return (1-t)*a + t*b
}
