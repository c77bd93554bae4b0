package record

import (
	"cmp"
	"math"
	"slices"
)

// Percentiles are order statistics of one quantity, in its unit.
type Percentiles struct{ P1, P7, P50, P93, P99 float64 }

// ladder returns the five percentiles of a series.
func (s *series) ladder() Percentiles {
	p := percentiles(s.v, s.w, s.even, 1, 7, 50, 93, 99)
	return Percentiles{p[0], p[1], p[2], p[3], p[4]}
}

// percentiles returns the percentiles p (0 to 100) of v; NaN when v is empty. v is not changed.
//
// With even weights: the values in order x(0) ... x(n-1), position (n-1)p/100, linear between
// neighbours. With uneven weights w (s): each value stands in the middle of its weight on the axis
// of summed weight, the first value at 0 %, the last at 100 %, linear between neighbours. Equal
// weights give the first form.
func percentiles(v, w []float64, even bool, p ...float64) []float64 {
	out := make([]float64, len(p))
	if len(v) == 0 {
		for i := range out {
			out[i] = math.NaN()
		}
		return out
	}
	if even {
		x := sorted(v)
		for i, q := range p {
			out[i] = orderStatistic(x, q)
		}
		return out
	}
	return weighted(v, w, p)
}

// orderStatistic returns a percentile of values in order.
func orderStatistic(x []float64, p float64) float64 {
	h := float64(len(x)-1) * p / 100
	i := int(h)
	if i >= len(x)-1 {
		return x[len(x)-1]
	}
	return x[i] + (h-float64(i))*(x[i+1]-x[i])
}

// weighted returns percentiles of values that weigh differently, for rising p.
func weighted(v, w, p []float64) []float64 {
	type part struct{ v, w float64 }
	parts := make([]part, len(v))
	for i := range v {
		parts[i] = part{v[i], w[i]}
	}
	slices.SortFunc(parts, func(a, b part) int { return cmp.Compare(a.v, b.v) })
	total := -(parts[0].w + parts[len(parts)-1].w) / 2
	for _, x := range parts {
		total += x.w
	}
	out := make([]float64, len(p))
	i, pos := 0, 0.0 // position of value i
	for k, q := range p {
		want := total * q / 100
		for i < len(parts)-1 {
			next := pos + (parts[i].w+parts[i+1].w)/2
			if next > want {
				break
			}
			i, pos = i+1, next
		}
		out[k] = parts[i].v
		if i < len(parts)-1 && want > pos {
			out[k] += (want - pos) / ((parts[i].w + parts[i+1].w) / 2) * (parts[i+1].v - parts[i].v)
		}
	}
	return out
}

// sorted returns the values in rising order.
func sorted(v []float64) []float64 {
	x := slices.Clone(v)
	slices.Sort(x)
	return x
}
