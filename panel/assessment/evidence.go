package assessment

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/internal/chance"
)

// Evidence is what the panel itself has shown, and what that makes of the realisations.
type Evidence struct {
	Seen   []Seen
	Unused []string // what was recorded and tells nothing, in words
	// Fits says that some realisation explains all that was measured; where none does, nothing is weighed by it.
	Fits bool
	Rest *Band // mm, of the warp at the humidity it is used to over the chord RestOver, from what was measured; nil: no warp was
	// RestOver is the chord of the first warp.
	RestOver float64
	Lived    panel.Lived
	Survival bool // what it has lived through was counted
	Dropped  int  // realisations that would have reached a limit even if the extremes had stood for weeks only
	Partly   int  // that would have if they had stood for a season
	Of       int  // all realisations
	Counts   float64
	// Counts is how many realisations of equal weight those that are left are worth.
}

// Seen is one thing that was measured beside what the realisations make of it, before and after they were weighed. Lengths mm.
type Seen struct {
	Name, When, What, Part string
	RH                     moisture.RH
	Over                   float64 // chord of a warp
	Measured, Error        float64 // Error: one standard deviation of instrument and model together
	Before, After          Band    // 5 to 95 in 100 of the realisations, counted from where it stands at rest
	Rests                  bool    // where it stands at rest is not known, so only its difference from others counts
	Rest                   float64 // where it is then taken to stand at rest, from all that was measured there
}

// weighed is how much every realisation counts: where the panel has lived, and beyond, where only what was measured counts.
type weighed struct {
	inside, beyond []float64
	evidence       *Evidence
}

// weigh weighs the realisations by what was measured and by what the panel has lived through.
func (h *held) weigh(ones []*one) (*weighed, error) {
	n := len(ones)
	e := &Evidence{Of: n, Lived: h.lived}
	w := &weighed{evidence: e}
	logL := make([]float64, n)
	if len(h.seen) > 0 {
		rest := h.likelihood(ones, logL)
		if e.Fits = h.fits(ones); !e.Fits {
			clear(logL)
		}
		var err error
		if w.beyond, err = chance.Weights(logL); err != nil {
			return nil, err
		}
		h.tell(e, ones, w.beyond, rest)
	}
	past := h.survival(ones, e)
	if past != nil {
		for i := range logL {
			logL[i] += math.Log(past[i])
		}
		inside, err := chance.Weights(logL)
		if err != nil || chance.Effective(inside) < few {
			e.Survival = false // hardly any case is left: the model and the past contradict one another
		} else {
			w.inside = inside
		}
	}
	if w.inside == nil {
		w.inside = w.beyond
	}
	e.Counts = float64(n)
	if w.inside != nil {
		e.Counts = chance.Effective(w.inside)
	}
	return w, nil
}

// few is how many realisations must be left at least (assumption).
const few = 10

// groups lists the observations that share one unknown rest.
func (h *held) groups() map[string][]int {
	out := map[string][]int{}
	for i, s := range h.seen {
		k := s.what
		if s.what == SeenGap {
			k += s.At
		}
		out[k] = append(out[k], i)
	}
	return out
}

// spread is the matrix of covariances of a group of observations for one realisation: instrument and model by themselves,
// the rest in common.
func (h *held) covariance(group []int) *mat.SymDense {
	c := mat.NewSymDense(len(group), nil)
	for a, i := range group {
		for b := a; b < len(group); b++ {
			v := h.seen[i].rest * h.seen[group[b]].rest
			if a == b {
				v += h.seen[i].instrument*h.seen[i].instrument + h.seen[i].model*h.seen[i].model
			}
			c.SetSym(a, b, v)
		}
	}
	return c
}

// misfits returns for one realisation and group what was measured less what it tells.
func (h *held) misfits(o *one, group []int) *mat.VecDense {
	d := mat.NewVecDense(len(group), nil)
	for a, i := range group {
		d.SetVec(a, h.seen[i].value-o.seen[i])
	}
	return d
}

// squares returns d' C^-1 d of a group for every realisation, and the rest of each, the most likely one.
func (h *held) squares(ones []*one, group []int) (square, rest []float64) {
	c := h.covariance(group)
	var chol mat.Cholesky
	if !chol.Factorize(c) {
		return make([]float64, len(ones)), nil // cannot be: instruments have errors
	}
	square, rest = make([]float64, len(ones)), make([]float64, len(ones))
	var x mat.VecDense
	for k, o := range ones {
		d := h.misfits(o, group)
		if err := chol.SolveVecTo(&x, d); err != nil {
			continue
		}
		square[k] = mat.Dot(d, &x)
		for a, i := range group {
			rest[k] += h.seen[i].rest * h.seen[group[0]].rest * x.AtVec(a)
		}
	}
	return square, rest
}

// likelihood adds the logarithm of the likelihood of what was measured, and returns for every sight the rest of each realisation.
func (h *held) likelihood(ones []*one, logL []float64) (rest [][]float64) {
	rest = make([][]float64, len(h.seen))
	groups := h.groups()
	for i := range h.seen { // in the order of the file, each group once
		for _, g := range groups {
			if g[0] != i {
				continue
			}
			sq, r := h.squares(ones, g)
			for k, v := range sq {
				logL[k] -= v / 2
			}
			for _, k := range g {
				rest[k] = r
			}
		}
	}
	return rest
}

// fits says whether some realisation explains what was measured: its misfit is no rarer than 1 in 100.
func (h *held) fits(ones []*one) bool {
	limit := distuv.ChiSquared{K: float64(len(h.seen))}.Quantile(0.99)
	total := make([]float64, len(ones))
	for _, g := range h.groups() {
		sq, _ := h.squares(ones, g)
		for k, v := range sq {
			total[k] += v
		}
	}
	best := math.Inf(1)
	for _, v := range total {
		best = min(best, v)
	}
	return best <= limit
}

// tell sets what was measured beside what the realisations make of it.
func (h *held) tell(e *Evidence, ones []*one, w []float64, rest [][]float64) {
	x := make([]float64, len(ones))
	for i := range h.seen {
		s := &h.seen[i]
		for k, o := range ones {
			x[k] = o.seen[i]
		}
		t := Seen{
			Name: s.Name, When: s.When, What: s.what, RH: s.RH, Measured: s.value, Error: math.Hypot(s.instrument, s.model),
			Before: bandOf(x, nil), After: bandOf(x, w),
		}
		if t.Rests = s.rest > t.Error; t.Rests {
			t.Rest = stat.Mean(rest[i], w)
		}
		switch s.what {
		case SeenGap:
			t.Part = s.At
		case SeenWarp:
			t.Over = s.Over
			if e.Rest == nil {
				b := bandOf(rest[i], w)
				e.Rest, e.RestOver = &b, s.Over
			}
		}
		e.Seen = append(e.Seen, t)
	}
}

// bandOf is the range from 5 to 95 in 100.
func bandOf(x, w []float64) Band {
	return Band{chance.Quantile(x, w, 0.05), chance.Quantile(x, w, 0.95)}
}

// survival returns for every realisation how far it agrees with the panel having passed its climate unchanged: 1 wholly, 0 not
// at all; nil where that is no evidence. How long the extremes stood is not known: the wood is taken to have made between half
// of a season's change (weeks) and all of it, each as likely (assumption). A limit passed long ago in the same climate has left
// its change already, so all modes count, and they count for that climate alone.
func (h *held) survival(ones []*one, e *Evidence) []float64 {
	l := e.Lived
	if l.Low == 0 || l.Why != "" {
		return nil
	}
	e.Survival = true
	out := make([]float64, len(ones))
	for k, o := range ones {
		out[k] = survives(o.past)
		switch {
		case out[k] == 0:
			e.Dropped++
		case out[k] < 1:
			e.Partly++
		}
	}
	return out
}

// survives is how likely it is that a panel passes, when its share of limit over a season is given.
func survives(share float64) float64 { return min(max(2/share-1, 0), 1) }
