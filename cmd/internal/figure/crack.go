package figure

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
)

// Crack asks whether a split or an open join lengthens, and where it would stop.
type Crack struct {
	Meta
	Setting
	Name            string // such as "Split top"
	NowMM, HeightMM float64
	RHPct           []float64
	StopsMM         []float64 // length at which it would stop; NaN: it does not lengthen; HeightMM: it runs through
	StopsHighMM     []float64 // the same for the unfavourable end
}

// Draw lays the figure out.
func (c Crack) Draw() Figure {
	name := clean(c.Name)
	title := "Will this crack lengthen, and where would it stop?"
	if name != "" {
		title = "Will it lengthen, and where would it stop? (" + name + ")"
	}
	m := c.or("crack-"+slug(name), title)
	stops, high := c.lengths(c.StopsMM), c.lengths(c.StopsHighMM)
	if len(high) == 0 {
		high = stops
	}
	ch := chart{
		meta: m, x: c.axis(c.RHPct), zones: c.zones(), rules: c.rules(), empty: noCurve,
		bands:  []band{{c.RHPct, lesser(stops, high), greater(stops, high), series(1)}},
		curves: []curve{{name: "where it would stop", x: c.RHPct, y: c.moving(stops), sign: stroke{1.4, vermilion, nil}, within: true}},
	}
	if lo, hi, ok := extent(stops, high); ok && hi <= c.NowMM+0.5 && lo >= c.NowMM-0.5 {
		ch.empty = "It would not lengthen anywhere on this scale."
	}
	if unlike(stops, high) {
		ch.curves = append(ch.curves, curve{name: "the unfavourable end", x: c.RHPct, y: c.moving(high), sign: stroke{limit, vermilion, []vg.Length{4, 2}}, within: true})
	}
	_, top, _ := extent(stops, high, []float64{c.NowMM, c.HeightMM})
	ch.y = around("Length of the crack / mm", 0, top*1.08)
	if given(c.NowMM) {
		name := "today " + mm(c.NowMM) + " mm"
		if _, most, ok := extent(stops); ok && most <= c.NowMM+0.5 && ch.empty == noCurve {
			name += "; as described it stays so"
		}
		ch.rules = append(ch.rules, rule{at: c.NowMM, name: name, sign: stroke{limit, ink, nil}})
	}
	if given(c.HeightMM) {
		ch.rules = append(ch.rules, rule{at: c.HeightMM, name: "from end to end, " + mm(c.HeightMM) + " mm", sign: stroke{limit, ink, []vg.Length{4, 2}}})
	}
	return ch.figure(c.sentence(stops), listed("Where it would stop", c.RHPct, stops, " mm", mm)+
		listed("Unfavourable end", c.RHPct, high, " mm", mm))
}

// lengths puts the length of today where it does not lengthen.
func (c Crack) lengths(stops []float64) []float64 {
	out := make([]float64, len(stops))
	for i, v := range stops {
		if !usable(v) {
			v = c.NowMM
		}
		out[i] = max(v, c.NowMM)
		if given(c.HeightMM) {
			out[i] = min(out[i], c.HeightMM)
		}
	}
	return out
}

// onset is the humidity nearest to what it is used to at which it lengthens, on the side of where.
func (c Crack) onset(stops []float64, where float64) float64 {
	best := math.NaN()
	for i := range min(len(stops), len(c.RHPct)) {
		x := c.RHPct[i]
		side := (x-c.UsedToPct)*(where-c.UsedToPct) > 0
		if side && stops[i] > c.NowMM+0.5 && !(math.Abs(best-c.UsedToPct) <= math.Abs(x-c.UsedToPct)) {
			best = x
		}
	}
	return best
}

// moving leaves out where it keeps the length of today, up to the points where it begins to move:
// there the line of today says it.
func (c Crack) moving(stops []float64) []float64 {
	out := slices.Clone(stops)
	still := func(i int) bool { return i < 0 || i >= len(stops) || stops[i] <= c.NowMM+0.5 }
	for i := range stops {
		if given(c.NowMM) && still(i-1) && still(i) && still(i+1) {
			out[i] = math.NaN()
		}
	}
	return out
}

func unlike(a, b []float64) bool {
	for i := range min(len(a), len(b)) {
		if math.Abs(a[i]-b[i]) > 0.5 {
			return true
		}
	}
	return false
}

func (c Crack) sentence(stops []float64) string {
	subject := clean(c.Name)
	if subject == "" {
		subject = "The crack"
	}
	if given(c.NowMM) {
		subject += ", " + mm(c.NowMM) + " mm long today,"
	}
	subject += " "
	lo, hi := c.ends(c.RHPct)
	worst, where := math.NaN(), math.NaN()
	for _, at := range [...]float64{lo, hi} {
		if v := valueAt(c.RHPct, stops, at); usable(v) && !(worst >= v) {
			worst, where = v, at
		}
	}
	switch {
	case !usable(worst):
		return subject + "could not be judged."
	case worst <= c.NowMM+0.5:
		return subject + "would not lengthen from " + rh(lo) + " to " + rh(hi) + " % RH, as described."
	case given(c.HeightMM) && worst >= c.HeightMM-0.5:
		return subject + "would run from end to end at " + rh(where) + " % RH."
	}
	out := "would stop at about " + fixed(round2(worst), 0) + " mm at " + rh(where) + " % RH."
	if on := c.onset(stops, where); usable(on) {
		out = "would lengthen from about " + rh(on) + " % RH and " + strings.Replace(out, "would ", "", 1)
	}
	return subject + out
}
