package figure

import (
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// Shares asks at which humidity something gives way: shares of limit over RH, the worst two only.
type Shares struct {
	Meta
	Setting
	RHPct  []float64
	Curves []ShareCurve // worst first
}

// ShareCurve is one way for one part to give way.
type ShareCurve struct {
	Name             string    // such as "Join left-middle opens"
	Share, Low, High []float64 // fractions of the limit, as described and 5 and 95 in 100
}

// shareCap is the most tenths shown; curves go on beyond it.
const shareCap = 18.0

// Draw lays the figure out.
func (s Shares) Draw() Figure {
	m := s.or("at-which-humidity", "At which humidity?")
	c := chart{meta: m, x: s.axis(s.RHPct), zones: s.zones(), rules: s.rules(), empty: noCurve}
	top, desc := 0.0, ""
	for i, cv := range s.worst() {
		y, lo, hi := scaled(cv.Share, 10), scaled(cv.Low, 10), scaled(cv.High, 10)
		c.bands = append(c.bands, band{s.RHPct, lo, hi, series(i)})
		c.curves = append(c.curves, curve{name: clean(cv.Name), x: s.RHPct, y: y, sign: series(i), within: true})
		for _, x := range crossings(s.RHPct, cv.Share, 1) {
			c.points = append(c.points, point{x: x, y: 10, name: rh(x) + " %", open: i > 0})
		}
		if _, b, ok := extent(y, hi); ok {
			top = max(top, b)
		}
		desc += listed(clean(cv.Name), s.RHPct, cv.Share, " tenths of the limit", tenths)
	}
	c.y = axis{name: "Tenths of the limit", lo: 0, hi: min(shareCap, max(12, 2*math.Ceil(top/2))), write: rh}
	c.y.ticks = ticks(0, c.y.hi, 2)
	c.rules = append(c.rules, rule{at: 10, name: "limit", sign: stroke{limit, ink, []vg.Length{4, 2}}})
	return c.figure(s.sentence(), desc)
}

func (s Shares) worst() []ShareCurve { return s.Curves[:min(2, len(s.Curves))] }

func scaled(v []float64, k float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		out[i] = k * v[i]
	}
	return out
}

// sentence says for each curve where the limit is reached, or how near it comes.
func (s Shares) sentence() string {
	var out []string
	for _, c := range s.worst() {
		out = append(out, clean(c.Name)+": "+s.reached(c)+".")
	}
	if len(out) == 0 {
		return "Nothing here has a limit."
	}
	return strings.Join(out, " ")
}

func (s Shares) reached(c ShareCurve) string {
	lo, hi := math.NaN(), math.NaN()
	for _, x := range crossings(s.RHPct, c.Share, 1) {
		switch falls := valueAt(s.RHPct, c.Share, x+0.01) < 1; {
		case falls && !(lo > x):
			lo = x // the highest end of a stretch beyond the limit
		case !falls && !(hi < x):
			hi = x
		}
	}
	worst, where := peak(s.RHPct, c.Share)
	switch {
	case usable(lo) && usable(hi) && lo < hi:
		return "beyond its limit below " + rh(lo) + " and above " + rh(hi) + " % RH"
	case usable(lo):
		return "beyond its limit below " + rh(lo) + " % RH"
	case usable(hi):
		return "beyond its limit above " + rh(hi) + " % RH"
	case !usable(worst):
		return "no numbers"
	case worst >= 1:
		return "beyond its limit throughout"
	}
	return "at most " + ofLimit(worst) + ", at " + rh(where) + " % RH"
}

// peak is the greatest value of a series and where it is.
func peak(x, y []float64) (value, where float64) {
	value, where = math.NaN(), math.NaN()
	for i := range min(len(x), len(y)) {
		if usable(y[i]) && !(value >= y[i]) {
			value, where = y[i], x[i]
		}
	}
	return value, where
}
