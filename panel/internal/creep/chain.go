package creep

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"
)

// Chain is a spring with Kelvin elements in a row:
//
//	eps(t) = sigma/E0 [ 1 + Sum g_k (1 - exp(-t/tau_k)) ]
//
// Tau are the retardation times in s, above 0; G the compliances relative to that of the spring, 0
// or more. Form: linear viscoelasticity, as fitted by Maas & Wittel (Holzforschung, in press).
type Chain struct{ Tau, G []float64 }

// Validate says what is wrong with the chain: lists of unlike length, a time that is not above 0 s,
// a negative compliance, a value that is not finite.
func (c Chain) Validate() error {
	if len(c.Tau) != len(c.G) {
		return fmt.Errorf("creep chain must have one compliance for each time, got %d and %d", len(c.G), len(c.Tau))
	}
	for k := range c.Tau {
		if !(c.Tau[k] > 0) || math.IsInf(c.Tau[k], 1) {
			return fmt.Errorf("retardation time must be above 0 s and finite, got %g", c.Tau[k])
		}
		if !(c.G[k] >= 0) || math.IsInf(c.G[k], 1) {
			return fmt.Errorf("creep compliance must be 0 or more and finite, got %g", c.G[k])
		}
	}
	return nil
}

// Compliance returns J(t)/J0, the strain over the elastic strain t seconds after a constant stress
// came on.
func (c Chain) Compliance(t float64) float64 {
	j := 1.0
	for k, g := range c.G {
		j -= g * math.Expm1(-t/c.Tau[k])
	}
	return j
}

// Relaxation returns the stress left of 1, t seconds after a constant strain came on.
func (c Chain) Relaxation(t float64) float64 { return c.Modes().At(t) }

// Ramp returns stress over elastic stress at the end of a strain that grew evenly for t seconds.
func (c Chain) Ramp(t float64) float64 { return c.Modes().Ramp(t) }

// Sine returns |E*|/E0 under a strain that swings as a sine of the given period in s.
func (c Chain) Sine(period float64) float64 {
	j := complex(1, 0)
	for k, g := range c.G {
		j += complex(g, 0) / complex(1, 2*math.Pi*c.Tau[k]/period)
	}
	return 1 / cmplx.Abs(j)
}

// Modes is the answer of a chain to constant strain:
//
//	sigma(t)/sigma(0) = End + Sum Weight_j exp(-Rate_j t)
type Modes struct {
	End          float64   // what is left for ever
	Rate, Weight []float64 // 1/s; -
}

// Modes returns the relaxation of the chain as a sum of exponentials, exact but for rounding. The
// rates are the zeros of 1 + Sum g/(1 - tau p): one lies between each two neighbouring 1/tau and
// one above the greatest, so each is found by halving. Elements without compliance fall away.
func (c Chain) Modes() Modes {
	p := make([]pole, 0, len(c.G))
	for k, g := range c.G {
		if g > 0 {
			p = append(p, pole{1 / c.Tau[k], g})
		}
	}
	slices.SortFunc(p, func(a, b pole) int {
		switch {
		case a.rate < b.rate:
			return -1
		case a.rate > b.rate:
			return 1
		}
		return 0
	})
	p = merge(p)
	sum := 0.0
	for _, e := range p {
		sum += e.g
	}
	v := make([]float64, 2*len(p))
	m := Modes{End: 1 / (1 + sum), Rate: v[:len(p)], Weight: v[len(p):]}
	for j := range p {
		low, high := p[j].rate, p[j].rate*(1+sum) // above the last pole the sum of the others only helps
		if j+1 < len(p) {
			high = p[j+1].rate
		}
		m.Rate[j] = zero(p, low, high)
		m.Weight[j] = weight(p, m.Rate[j])
	}
	return m
}

// pole is a Kelvin element by its rate 1/tau.
type pole struct{ rate, g float64 }

// merge joins elements of the same rate: they act as one.
func merge(p []pole) []pole {
	out := p[:0]
	for _, e := range p {
		if n := len(out); n > 0 && out[n-1].rate == e.rate {
			out[n-1].g += e.g
			continue
		}
		out = append(out, e)
	}
	return out
}

// zero finds the rate between low and high at which 1 + Sum g r/(r - p) vanishes; the sum rises
// from minus infinity at low.
func zero(p []pole, low, high float64) float64 {
	for range 60 {
		mid := (low + high) / 2
		f := 1.0
		for _, e := range p {
			f += e.g * e.rate / (e.rate - mid)
		}
		if f < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// weight is the residue of 1/(s C(s)) at s = -q, C(s) = 1 + Sum g/(1 + tau s).
func weight(p []pole, q float64) float64 {
	var d float64
	for _, e := range p {
		u := 1 - q/e.rate
		d += e.g / e.rate / (u * u)
	}
	return 1 / (q * d)
}

// At returns the stress left of 1 after t seconds of constant strain.
func (m Modes) At(t float64) float64 {
	r := m.End
	for j, w := range m.Weight {
		r += w * math.Exp(-m.Rate[j]*t)
	}
	return r
}

// Ramp returns stress over elastic stress at the end of an even ramp of t seconds: the mean of At.
func (m Modes) Ramp(t float64) float64 {
	if t == 0 {
		return 1
	}
	r := m.End
	for j, w := range m.Weight {
		x := m.Rate[j] * t
		r -= w * math.Expm1(-x) / x
	}
	return r
}
