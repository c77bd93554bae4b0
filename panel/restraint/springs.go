package restraint

import (
	"fmt"
	"math"
)

// SpringRow is one line of the table of springs: so many on each batten.
type SpringRow struct {
	Count   int
	Least   float64 // rate of each that carries the panel within the sag allowed, N/mm; 0 = not asked
	Most    float64 // rate of each that keeps the limits of restraint, N/mm; +Inf = any; 0 = none does
	Fits    bool    // Least is not above Most
	Rate    float64 // the answer is for this rate, N/mm: Least, or Most when no sag was asked; 0 = none
	Share   float64 // of the warp held back, the larger
	Preload float64 // each needs so as to stay in touch under warp and weight, N
	Settle  float64 // under the panel's weight borne on the springs, mm
}

// Springs returns, for each number of springs on each batten of a width and depth, mm, which rates do
// for the limits of restraint and for the weight. With the battens borne and the panel on n springs of
// rate k on each of m battens it settles by W/(m n k); the share held comes from [Sprung], which rises
// with k. Both linear springs. Fewer than three hold no warp. Counts 1 to 100; Battens at least 1.
func (e Easing) Springs(width, depth float64, counts []int) ([]SpringRow, error) {
	if _, err := e.At(width, depth); err != nil {
		return nil, err
	}
	if e.Battens == 0 {
		return nil, fmt.Errorf("springs need 1 or more battens, got none")
	}
	out := make([]SpringRow, len(counts))
	for i, n := range counts {
		if n < 1 || n > 100 {
			return nil, fmt.Errorf("springs on each batten must be 1 to 100, got %d", n)
		}
		r, err := e.springs(n, e.bar(1, width, depth))
		if err != nil {
			return nil, err
		}
		out[i] = r
	}
	return out, nil
}

func (e Easing) springs(n int, bar float64) (SpringRow, error) {
	r := SpringRow{Count: n}
	each := e.weight() / float64(n*e.Battens)
	if e.Sag > 0 {
		r.Least = each / (e.Sag * e.T)
	}
	var err error
	if r.Most, err = e.mostRate(n, bar); err != nil {
		return r, err
	}
	r.Fits = r.Least <= r.Most
	r.Rate = r.Least
	if r.Rate == 0 {
		r.Rate = r.Most
	}
	if r.Rate == 0 {
		return r, nil
	}
	var hold [2]Lifting
	for end := range hold {
		if hold[end], err = e.sprung(n, bar, r.Rate, end).Bend(e.curvature()); err != nil {
			return r, err
		}
		r.Share = max(r.Share, hold[end].Share)
		r.Preload = max(r.Preload, hold[end].Preload+each)
	}
	r.Settle = each / r.Rate
	return r, nil
}

func (e Easing) sprung(n int, bar, rate float64, end int) Sprung {
	return Sprung{Panel: e.panel(end) * e.Left, Bar: bar, At: e.at(n), Rate: rate, Width: e.Across}
}

// mostRate returns the largest rate within the limits of restraint by bisection: what a spring holds
// rises with its rate.
func (e Easing) mostRate(n int, bar float64) (float64, error) {
	within := func(k float64) (bool, error) {
		for end := range 2 {
			l, err := e.sprung(n, bar, k, end).Bend(e.curvature())
			if err != nil {
				return false, err
			}
			strip := e.Along / float64(e.Battens)
			line := 6*l.Moment/(strip*e.bears()*e.bears()) + e.friction()
			if (e.Share > 0 && l.Share > e.Share) || (e.Stress > 0 && line > e.Stress) {
				return false, nil
			}
		}
		return true, nil
	}
	if ok, err := within(math.Inf(1)); ok || err != nil {
		return math.Inf(1), err
	}
	lo, hi := -12.0, 12.0 // powers of ten, N/mm
	if ok, err := within(math.Pow(10, lo)); !ok || err != nil {
		return 0, err
	}
	for range 60 {
		mid := (lo + hi) / 2
		ok, err := within(math.Pow(10, mid))
		if err != nil {
			return 0, err
		}
		if ok {
			lo = mid
		} else {
			hi = mid
		}
	}
	return math.Pow(10, lo), nil
}
