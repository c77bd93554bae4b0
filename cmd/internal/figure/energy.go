package figure

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// Energy is an annex figure: what drives a crack over its length, against what the wood bears.
type Energy struct {
	Meta
	Name            string
	LengthMM        []float64
	Curves          []EnergyCurve // at most six are drawn
	ToughnessJM2    float64
	LowJM2, HighJM2 float64 // of the toughness; nought: not given
	NowMM           float64 // nought: not given
}

// EnergyCurve is the energy release at one humidity, in J/m2.
type EnergyCurve struct {
	RHPct float64
	JM2   []float64
}

// Draw lays the figure out.
func (e Energy) Draw() Figure {
	title := "How does what drives the crack change with its length?"
	if n := clean(e.Name); n != "" {
		title = "How does what drives it change with its length? (" + n + ")"
	}
	m := e.or("energy-"+slug(clean(e.Name)), title)
	lo, hi, ok := extent(e.LengthMM)
	if !ok || !(hi > lo) {
		lo, hi = 0, max(1, hi)
	}
	c := chart{meta: m, x: around("Length of the crack / mm", min(lo, 0), hi), empty: noCurve}
	all, desc := [][]float64{{e.ToughnessJM2, e.HighJM2}}, ""
	for i, cv := range e.Curves[:min(len(e.Curves), 6)] {
		c.curves = append(c.curves, curve{name: "at " + rh(cv.RHPct) + " % RH", x: e.LengthMM, y: cv.JM2, sign: series(i)})
		all = append(all, cv.JM2)
		v, where := peak(e.LengthMM, cv.JM2)
		desc += "At " + rh(cv.RHPct) + " % RH at most " + fixed(round2(v), 0) + " J/m², at " + mm(where) + " mm. "
	}
	c.y = energyAxis(all)
	if given(e.LowJM2) && given(e.HighJM2) {
		c.bands = []band{{[]float64{c.x.lo, c.x.hi}, []float64{e.LowJM2, e.LowJM2}, []float64{e.HighJM2, e.HighJM2}, stroke{hair, quiet, nil}}}
	}
	if given(e.ToughnessJM2) {
		c.rules = append(c.rules, rule{at: e.ToughnessJM2, name: "what the wood bears", sign: stroke{limit, ink, []vg.Length{4, 2}}})
	}
	if given(e.NowMM) {
		c.rules = append(c.rules, rule{at: e.NowMM, upright: true, name: "today " + mm(e.NowMM) + " mm", sign: stroke{limit, quiet, nil}})
	}
	return c.figure(e.sentence(), desc)
}

// energyAxis is by decades where the values span more than fifty times.
func energyAxis(all [][]float64) axis {
	lo, hi := math.Inf(1), 0.0
	for _, s := range all {
		for _, v := range s {
			if usable(v) && v > 0 {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
	}
	const name = "Energy release / (J/m²)"
	if !(hi > 50*lo) {
		return around(name, 0, hi)
	}
	lo = max(math.Pow(10, math.Floor(math.Log10(lo))), hi*1e-4)
	hi = math.Pow(10, math.Ceil(math.Log10(hi)))
	return axis{name: name, lo: lo, hi: hi, log: true, ticks: decades(lo, hi), write: func(v float64) string {
		return fixed(v, digits(v))
	}}
}

func (e Energy) sentence() string {
	if !given(e.NowMM) || !given(e.ToughnessJM2) || len(e.Curves) == 0 {
		return "Where a curve lies above what the wood bears, the crack lengthens until the curve falls below it."
	}
	worst, where := math.NaN(), math.NaN()
	for _, c := range e.Curves {
		if v := valueAt(e.LengthMM, c.JM2, e.NowMM); usable(v) && !(worst >= v) {
			worst, where = v, c.RHPct
		}
	}
	if !usable(worst) {
		return "The energy at its length of today could not be calculated."
	}
	return "At its length of today the most is " + fixed(round2(worst), 0) + " J/m², at " + rh(where) +
		" % RH; the wood bears about " + fixed(round2(e.ToughnessJM2), 0) + " J/m²."
}
