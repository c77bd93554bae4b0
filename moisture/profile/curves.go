package profile

import (
	"math"

	"crossgrain/moisture"
)

// steps is how many intervals of humidity the curves are tabulated in.
const steps = 256

// knot holds, for one interval of humidity, cubics in t = 0..1 for the first curve (mean or
// wetting), the drying curve and the potential of permeability. They join in value and slope.
type knot struct{ a, d, p [4]float64 }

// curves are the tabulated functions of one wood.
type curves struct {
	k    [steps]knot
	bend float64 // bound on |curvature|/(2 slope) below 95 % RH, for the end of the iteration
}

type curve func(h float64) (v, slope float64)

// cubic returns the coefficients over one interval from values and slopes at its ends.
func cubic(f curve, lo, hi float64) [4]float64 {
	w := hi - lo
	v0, s0 := f(lo)
	v1, s1 := f(hi)
	s0, s1 = s0*w, s1*w
	return [4]float64{v0, s0, 3*(v1-v0) - 2*s0 - s1, 2*(v0-v1) + s0 + s1}
}

func tabulate(first, drying, potential curve) *curves {
	c := &curves{}
	for i := range c.k {
		lo, hi := float64(i)/steps, float64(i+1)/steps
		k := &c.k[i]
		k.a, k.p = cubic(first, lo, hi), cubic(potential, lo, hi)
		if drying != nil {
			k.d = cubic(drying, lo, hi)
		}
		if hi <= 0.95 {
			c.bend = max(c.bend, bend(k.a)+bend(k.p), bend(k.d)+bend(k.p))
		}
	}
	return c
}

// bend is |curvature|/(2 slope) in the middle of a cubic, per unit of humidity.
func bend(c [4]float64) float64 {
	slope := c[1] + c[2] + 0.75*c[3]
	if slope <= 0 {
		return 0
	}
	return math.Abs(2*c[2]+3*c[3]) / (2 * slope) * steps
}

// place finds the interval of h and the place in it; beyond 0 and 1 it gives the last interval.
func place(h float64) (i int, t float64) {
	x := min(max(h, 0), 1) * steps
	i = min(int(x), steps-1)
	return i, x - float64(i)
}

// at evaluates a cubic and its slope per unit of humidity.
func at(c *[4]float64, t float64) (v, slope float64) {
	return c[0] + t*(c[1]+t*(c[2]+t*c[3])), (c[1] + t*(2*c[2]+3*t*c[3])) * steps
}

// ofIsotherm turns a sorption curve into a function of humidity.
func ofIsotherm(f moisture.Isotherm, t moisture.Celsius) curve {
	return func(h float64) (float64, float64) {
		return float64(f.MC(moisture.RH(h), t)), f.Slope(moisture.RH(h), t)
	}
}

// branch is one tabulated branch as an isotherm for the memory of turning points, so that memory and
// solver read the same numbers.
type branch struct {
	c      *curves
	drying bool
}

func (b branch) coefficients(i int) *[4]float64 {
	if b.drying {
		return &b.c.k[i].d
	}
	return &b.c.k[i].a
}

// MC returns the moisture content at RH 0..1.
func (b branch) MC(h moisture.RH, _ moisture.Celsius) moisture.MC {
	i, t := place(float64(h))
	k := b.coefficients(i)
	return moisture.MC(k[0] + t*(k[1]+t*(k[2]+t*k[3])))
}

// Slope returns du/dh at RH 0..1.
func (b branch) Slope(h moisture.RH, _ moisture.Celsius) float64 {
	i, t := place(float64(h))
	_, s := at(b.coefficients(i), t)
	return s
}

// RH is not needed by the memory of turning points.
func (b branch) RH(moisture.MC, moisture.Celsius) (moisture.RH, error) {
	return 0, errNoInverse
}
