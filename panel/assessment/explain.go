package assessment

import (
	"cmp"
	"math"
	"slices"

	"crossgrain/panel"
	"crossgrain/panel/internal/chance"
)

// Cause is an input that what was measured, or what the panel has lived through, says more of than its description did.
type Cause struct {
	panel.Input
	Before, After Band // 5 to 95 in 100
}

// causes lists the inputs whose middle or spread the evidence moves, the most first.
func causes(p *panel.Panel, z [][]float64, w []float64) []Cause {
	if w == nil {
		return nil
	}
	type moved struct {
		Cause
		by float64
	}
	var list []moved
	for i, in := range p.Inputs() {
		var sw, s, ss float64
		v := make([]float64, len(z))
		for k := range z {
			sw, s, ss = sw+w[k], s+w[k]*z[k][i], ss+w[k]*z[k][i]*z[k][i]
			v[k] = in.Value(z[k][i])
		}
		mean := s / sw
		left := math.Sqrt(max(0, ss/sw-mean*mean))
		// a shift counts beyond the chance one of as many realisations as are left
		least := max(shifted, 3/math.Sqrt(chance.Effective(w)))
		if math.Abs(mean) < least && left > narrower {
			continue
		}
		list = append(list, moved{Cause{in, bandOf(v, nil), bandOf(v, w)}, math.Abs(mean) + 1 - left})
	}
	slices.SortStableFunc(list, func(a, b moved) int { return cmp.Compare(b.by, a.by) })
	out := make([]Cause, len(list))
	for i := range list {
		out[i] = list[i].Cause
	}
	return out
}

// How far an input must have moved to be told: its middle by so many standard deviations, or what is left of its spread
// (assumption).
const (
	shifted  = 0.3
	narrower = 0.85
)
