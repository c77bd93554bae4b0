package figure

import (
	"math"
	"slices"
)

// mostPoints is how many points of one long series are drawn.
const mostPoints = 2000

// thinned keeps at most about most points of a long series: of each short stretch its lowest and its
// highest, in their order, so that no peak is lost. Where the series is interrupted (NaN), so is what
// is kept.
func thinned(x, y []float64, most int) (xs, ys []float64) {
	n := min(len(x), len(y))
	if n <= most {
		return x[:n], y[:n]
	}
	width := (x[n-1] - x[0]) / float64(most/2)
	if !(width > 0) {
		return x[:n], y[:n]
	}
	keep := func(i int) { xs, ys = append(xs, x[i]), append(ys, y[i]) }
	for i := 0; i < n; {
		if !usable(y[i]) {
			if len(ys) > 0 && usable(ys[len(ys)-1]) {
				xs, ys = append(xs, x[i]), append(ys, math.NaN())
			}
			i++
			continue
		}
		cell := math.Floor((x[i] - x[0]) / width)
		lo, hi := i, i
		for i < n && usable(y[i]) && math.Floor((x[i]-x[0])/width) == cell {
			if y[i] < y[lo] {
				lo = i
			}
			if y[i] > y[hi] {
				hi = i
			}
			i++
		}
		keep(min(lo, hi))
		if lo != hi {
			keep(max(lo, hi))
		}
	}
	return xs, ys
}

// spread98 are the values between which 98 of 100 lie; ok is false where there is none.
func spread98(v []float64) (lo, hi float64, ok bool) {
	if len(v) == 0 {
		return 0, 0, false
	}
	s := slices.Clone(v)
	slices.Sort(s)
	k := len(s) / 100
	return s[k], s[len(s)-1-k], true
}
