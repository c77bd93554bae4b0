package chance

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// Share returns the share of the weight that hits (0..1) and its standard error. nil weights are equal.
//
// The error is the half width of the score interval at one standard deviation (E. B. Wilson, Journal of
// the American Statistical Association 22 (1927) 209-212), which is not 0 for no hits: 0 of n gives
// 1/(2(n+1)). With weights, the variance is that of a weighted mean, sum w^2 (hit-share)^2 / (sum w)^2,
// and n the effective number of points. Points that are spread more evenly than random have a smaller
// error than that. Without any weight both are NaN.
func Share(w []float64, hit []bool) (share, err float64) {
	w = orEqual(w, len(hit))
	n := Effective(w)
	if n == 0 {
		return math.NaN(), math.NaN()
	}
	largest := floats.Max(w)
	var sum, hits float64
	for i, h := range hit {
		sum += w[i] / largest
		if h {
			hits += w[i] / largest
		}
	}
	share = hits / sum
	var v float64
	for i, h := range hit {
		d := share
		if h {
			d = 1 - share
		}
		d *= w[i] / largest / sum
		v += d * d
	}
	return share, math.Sqrt(v+1/(4*n*n)) / (1 + 1/n)
}

// Effective returns the effective number of points, (sum w)^2 / sum w^2: how many points of equal weight
// know a mean as well (L. Kish, Survey Sampling, Wiley 1965). It is 0 without any weight.
func Effective(w []float64) float64 {
	if len(w) == 0 {
		return 0
	}
	largest := floats.Max(w)
	if largest == 0 {
		return 0
	}
	var sum, squares float64
	for _, v := range w {
		v /= largest
		sum += v
		squares += v * v
	}
	return sum * sum / squares
}

// orEqual returns w, or n ones for nil.
func orEqual(w []float64, n int) []float64 {
	if w != nil {
		if len(w) != n {
			panic("chance: as many weights as points are needed")
		}
		return w
	}
	w = make([]float64, n)
	for i := range w {
		w[i] = 1
	}
	return w
}
