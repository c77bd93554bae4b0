package moisture

import "math"

// root finds the zero of a rising function between lo and hi: Newton steps kept inside a shrinking
// bracket, halved where a step would leave it. f returns value and slope.
func root(lo, hi float64, f func(float64) (v, slope float64)) float64 {
	x := (lo + hi) / 2
	for range 200 {
		v, slope := f(x)
		switch {
		case v == 0:
			return x
		case v > 0:
			hi = x
		default:
			lo = x
		}
		next := x - v/slope
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-x) <= 4e-16*math.Abs(x) || next == lo || next == hi {
			return next
		}
		x = next
	}
	return x
}
