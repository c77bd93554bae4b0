package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Forces asks how hard battens and fixings work: forces over RH.
type Forces struct {
	Meta
	Setting
	RHPct  []float64
	Curves []ForceCurve // at most six are drawn, those with the greatest force
	Words  string       // quiet words above, such as what a force below nought means
}

// ForceCurve is the force in one member or on one fixing, in N.
type ForceCurve struct {
	Name string
	N    []float64
}

const mostForces = 6

// Draw lays the figure out.
func (f Forces) Draw() Figure {
	m := f.or("forces", "How hard do battens and fixings work?")
	c := chart{meta: m, words: clean(f.Words), x: f.axis(f.RHPct), zones: f.zones(), rules: f.rules(), empty: noCurve, height: 200}
	greatest := f.greatest()
	all, desc := [][]float64{{0}}, ""
	for i, cv := range greatest[:min(len(greatest), mostForces)] {
		v, at := f.most(cv)
		c.curves = append(c.curves, curve{
			name: clean(cv.Name), note: force(math.Abs(v)) + ", " + weight(v) + ", at " + rh(at) + " %",
			x: f.RHPct, y: cv.N, sign: series(i),
		})
		all = append(all, cv.N)
		desc += listed(clean(cv.Name), f.RHPct, cv.N, " N", func(v float64) string { return fixed(round2(v), 0) })
	}
	if n := len(greatest) - mostForces; n > 0 {
		c.words = strings.TrimSpace(c.words + fmt.Sprintf(" The %d greatest; %d more carry less.", mostForces, n))
	}
	lo, hi, _ := extent(all...)
	c.y = around("Force / N", lo, hi)
	return c.figure(f.sentence(greatest), desc)
}

// most is the greatest force of a curve within the range asked about, and where.
func (f Forces) most(c ForceCurve) (n, at float64) {
	lo, hi := f.ends(f.RHPct)
	n, at = math.NaN(), math.NaN()
	look := func(x float64) {
		if v := valueAt(f.RHPct, c.N, x); usable(v) && !(math.Abs(n) >= math.Abs(v)) {
			n, at = v, x
		}
	}
	look(lo)
	look(hi)
	for _, x := range f.RHPct {
		if x >= lo && x <= hi {
			look(x)
		}
	}
	return n, at
}

func (f Forces) greatest() []ForceCurve {
	out := slices.Clone(f.Curves)
	size := func(c ForceCurve) float64 {
		n, _ := f.most(c)
		if !usable(n) {
			return -1
		}
		return math.Abs(n)
	}
	slices.SortStableFunc(out, func(a, b ForceCurve) int { return cmp.Compare(size(b), size(a)) })
	return out
}

func (f Forces) sentence(greatest []ForceCurve) string {
	if len(greatest) == 0 {
		return "Nothing holds this panel that could carry a force."
	}
	n, at := f.most(greatest[0])
	if !usable(n) {
		return "The forces could not be calculated."
	}
	return "Greatest force: " + force(math.Abs(n)) + " (" + weight(n) + "), " + clean(greatest[0].Name) + ", at " + rh(at) + " % RH."
}
