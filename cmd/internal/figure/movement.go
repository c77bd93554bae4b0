package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Movement asks how much the boards move: change of width over RH, free to move, for the panel as a
// band from its scanning loop to its mean curve, and for each board.
type Movement struct {
	Meta
	Setting
	RHPct          []float64
	LoopMM, MeanMM []float64 // whole panel; longer is positive
	Cases          CaseBand  // of the whole panel, over other cases of it; may be empty
	Boards         []BoardMovement
}

// BoardMovement is one board's change of width along the mean curve.
type BoardMovement struct {
	Name string
	MM   []float64
}

// mostNamed is how many boards are named one by one.
const mostNamed = 5

// Draw lays the figure out.
func (m Movement) Draw() Figure {
	meta := m.or("movement", "How much do the boards move?")
	lo, hi := m.ends(m.RHPct)
	c := chart{
		meta: meta, words: "If nothing held it back. Band: how much less it may be. Numbers: at " + rh(lo) + " and " + rh(hi) + " % RH.",
		x: m.axis(m.RHPct), zones: m.zones(), rules: m.rules(), empty: noCurve, height: 200,
	}
	all := [][]float64{m.LoopMM, m.MeanMM}
	note := func(y []float64) string { return m.pair(y) + " mm" }
	c.bands = []band{{m.RHPct, lesser(m.LoopMM, m.MeanMM), greater(m.LoopMM, m.MeanMM), series(0)}}
	if m.Cases.any() {
		m.Cases.under(&c, m.RHPct, blue)
		all = append(all, m.Cases.Low, m.Cases.High)
		c.words += " " + caseWords
	}
	c.curves = []curve{{name: "whole panel", note: note(m.MeanMM), x: m.RHPct, y: m.MeanMM, sign: series(0)}}
	desc := listed("Whole panel", m.RHPct, m.MeanMM, " mm", signed)
	if len(m.Boards) > 1 {
		for i, b := range m.Boards {
			all = append(all, b.MM)
			desc += listed(clean(b.Name), m.RHPct, b.MM, " mm", signed)
			cv := curve{x: m.RHPct, y: b.MM, sign: series(1 + i%5)}
			cv.sign.width = data
			if slices.Contains(m.named(), i) {
				cv.name, cv.note = clean(b.Name), note(b.MM)
			}
			c.curves = append(c.curves, cv)
		}
		if n := len(m.Boards) - mostNamed; n > 0 {
			c.words += fmt.Sprintf(" The %d boards that move most are named.", mostNamed)
		}
	}
	a, b, _ := extent(all...)
	c.y = around("Change of width / mm", min(a, 0), max(b, 0))
	return c.figure(m.sentence(), desc)
}

// named are the boards that are named: those that move most.
func (m Movement) named() []int {
	idx := make([]int, len(m.Boards))
	for i := range idx {
		idx[i] = i
	}
	reach := func(i int) float64 {
		lo, hi, ok := extent(m.Boards[i].MM)
		if !ok {
			return -1
		}
		return hi - lo
	}
	slices.SortStableFunc(idx, func(a, b int) int { return cmp.Compare(reach(b), reach(a)) })
	return idx[:min(len(idx), mostNamed)]
}

// signed writes a change of length with its sign.
func signed(v float64) string {
	s := mm(v)
	if v > 0 && usable(v) && s != "0.0" {
		s = "+" + s
	}
	return s
}

// pair is a series at the two ends.
func (m Movement) pair(y []float64) string {
	lo, hi := m.ends(m.RHPct)
	return signed(valueAt(m.RHPct, y, lo)) + " and " + signed(valueAt(m.RHPct, y, hi))
}

func (m Movement) sentence() string {
	lo, hi := m.ends(m.RHPct)
	part := func(at float64) string {
		a, b := valueAt(m.RHPct, m.LoopMM, at), valueAt(m.RHPct, m.MeanMM, at)
		v := b
		if !usable(v) {
			v = a
		}
		word := "wider"
		if v < 0 {
			word = "narrower"
		}
		return span(math.Abs(a), math.Abs(b), mm) + " mm " + word + " at " + rh(at) + " % RH"
	}
	if !usable(valueAt(m.RHPct, m.MeanMM, lo)) && !usable(valueAt(m.RHPct, m.LoopMM, lo)) {
		return "The movement could not be calculated."
	}
	if lo == hi {
		return "Free to move, the panel would become " + part(lo) + "."
	}
	return "Free to move, the panel would become " + part(lo) + " and " + part(hi) + "."
}

func lesser(a, b []float64) []float64 { return pairwise(a, b, math.Min) }

func greater(a, b []float64) []float64 { return pairwise(a, b, math.Max) }

func pairwise(a, b []float64, f func(x, y float64) float64) []float64 {
	out := make([]float64, min(len(a), len(b)))
	for i := range out {
		out[i] = f(a[i], b[i])
	}
	return out
}
