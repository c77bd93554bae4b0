package figure

import (
	"image/color"
	"math"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"
)

// YearCourse asks what the panel does in the course of a record: the humidity of the air above, warp
// and width below, by days, the worst moments dated. NaN is a gap and stays open.
type YearCourse struct {
	Meta
	Start           time.Time // civil time of day nought
	Days            []float64 // since Start, one a day, or one for every few days
	Every           int       // days that each point stands for; 0 stands for 1
	LowPct, HighPct []float64 // driest and dampest of the air each day
	WarpLow         []float64 // mm, painted face rounded positive
	WarpHigh        []float64
	WidthLow        []float64 // mm, change from the used-to state
	WidthHigh       []float64
	WarpCases       CaseBand // of the warp, over other cases of the panel; may be empty
	WidthCases      CaseBand
	Remembered      []float64 // mm, middle of the width of each day, of wood that remembers where it turned; may be empty
	Moments         []Moment  // when something works hardest, by time; the first nine are shown
	UsedToPct       float64
}

// CaseBand is what 5 to 95 in 100 cases of the panel keep within on each of the days, least and greatest.
type CaseBand struct{ Low, High []float64 }

// any reports whether there is something to draw.
func (b CaseBand) any() bool {
	return extremeIndex(pairwise(b.Low, b.High, mean2), 1) >= 0
}

// Moment is a day and what works hardest then.
type Moment struct {
	Day  float64
	Name string
}

// caseWords say what the outer band is.
const caseWords = "Pale, between dashed edges: 5 to 95 in 100 cases."

const (
	yearFieldHeight, yearAirHeight vg.Length = 96, 104
	momentRow                      vg.Length = 11.5
)

// Draw lays the figure out.
func (y YearCourse) Draw() Figure {
	meta := y.or("year", "What does the wood do in this time?")
	lo, hi, ok := extent(y.Days)
	if !ok || !(hi > lo) {
		lo, hi = 0, 1
	}
	y.Moments = y.Moments[:min(9, len(y.Moments))]
	charts := []chart{y.air(lo, hi), y.warp(lo, hi), y.width(lo, hi)}
	heights := []vg.Length{yearAirHeight, yearFieldHeight, yearFieldHeight}
	words := "Bands: lowest to highest of each day. Warp and width as if nothing held the panel."
	if y.Every > 1 {
		words = strings.Replace(words, "each day", "every "+count(y.Every, "day"), 1)
	}
	if y.WarpCases.any() || y.WidthCases.any() {
		words += " " + caseWords
	}
	head := headHeight(meta, words)
	list := vg.Length(len(y.Moments)) * momentRow
	if list > 0 {
		list += 6
	}
	h := head + bottomAxisHeight + list + margin
	for i := range heights {
		h += axisNameRow + heights[i]
	}
	h += vg.Length(len(heights)-1) * rowGap
	return meta.figure(h, y.sentence(), y.desc(), func(p pen) {
		p.head(meta, h, words)
		fields := drawStack(p, h-head, charts, heights)
		y.number(p, fields[0])
		y.list(p, margin+list-6)
	})
}

// numbers gives each moment its number: those of one day share it.
func (y YearCourse) numbers() []int {
	out := make([]int, len(y.Moments))
	for i := range y.Moments {
		switch {
		case i == 0:
			out[i] = 1
		case math.Abs(y.Moments[i].Day-y.Moments[i-1].Day) < 1:
			out[i] = out[i-1]
		default:
			out[i] = out[i-1] + 1
		}
	}
	return out
}

// number sets the number of each moment at the head of its line.
func (y YearCourse) number(p pen, f *field) {
	const size vg.Length = 9.5
	var want, sizes []vg.Length
	last := 0
	for i, n := range y.numbers() {
		if n != last {
			want, sizes = append(want, f.sx.clamp(y.Moments[i].Day)), append(sizes, size+1)
		}
		last = n
	}
	for i, x := range spread(want, sizes, f.r.Min.X, f.r.Max.X) {
		c := at(x, f.r.Max.Y-size/2-1)
		p.dot(white, stroke{limit, ink, nil}, c, size/2)
		p.text(string(rune('1'+i)), at(c.X, c.Y-2.8), smallBold, middle)
	}
}

// list says under the charts what the numbers are.
func (y YearCourse) list(p pen, top vg.Length) {
	last := 0
	for i, n := range y.numbers() {
		m := y.Moments[i]
		base := top - vg.Length(i+1)*momentRow + 3
		if n != last {
			p.text(string(rune('0'+n)), at(margin+4, base), smallBold, middle)
			p.text(date(dayAt(y.Start, m.Day)), at(margin+14, base), plainText, left)
		}
		last = n
		p.text(plainText.fit(clean(m.Name), Width-2*margin-80), at(margin+78, base), plainText, left)
	}
}

const rowGap vg.Length = 8

// drawStack draws charts under one another, from top down, over one common lower axis and with
// their fields in line.
func drawStack(p pen, top vg.Length, charts []chart, heights []vg.Length) []*field {
	boxes := make([]vg.Rectangle, len(charts))
	left, right := vg.Length(0), Width
	for i := range charts {
		top -= axisNameRow
		boxes[i] = box(margin, top-heights[i], Width-margin, top)
		top -= heights[i] + rowGap
		if i < len(charts)-1 {
			charts[i].x.name, charts[i].x.write = "", func(float64) string { return "" }
		}
		r := charts[i].layout(boxes[i]).r
		left, right = max(left, r.Min.X), min(right, r.Max.X)
	}
	out := make([]*field, len(charts))
	for i := range charts {
		r := charts[i].layout(boxes[i]).r
		boxes[i].Min.X += left - r.Min.X
		boxes[i].Max.X -= r.Max.X - right
		out[i] = charts[i].layout(boxes[i])
		out[i].draw(p)
	}
	return out
}

// between is a chart of a band with its middle as a line.
func (y YearCourse) between(low, high []float64, tone stroke) (c chart) {
	mid := pairwise(low, high, func(a, b float64) float64 { return (a + b) / 2 })
	c.empty = noCurve
	c.bands = []band{{y.Days, low, high, tone}}
	c.curves = []curve{{x: y.Days, y: mid, sign: stroke{data, tone.color, nil}}}
	return c
}

// under lays the band of other cases under that of the panel as described.
func (b CaseBand) under(c *chart, days []float64, color color.NRGBA) {
	if b.any() {
		c.bands = append([]band{{days, b.Low, b.High, stroke{hair, color, []vg.Length{3, 2}}}}, c.bands...)
	}
}

func (y YearCourse) air(lo, hi float64) chart {
	c := y.between(y.LowPct, y.HighPct, stroke{hair, blue, nil})
	low, high := rhRange(inRange(y.LowPct), inRange(y.HighPct))
	c.x, c.y = calendar(y.Start, lo, hi), humidity(low, high)
	if _, top, ok := extent(inRange(y.HighPct)); ok && len(y.Moments) > 0 {
		c.y.hi = max(high, top+12) // room for the numbers
	}
	c.rules, c.zones = y.moments(), y.gaps(lo, hi)
	if given(y.UsedToPct) {
		c.rules = append(c.rules, rule{at: y.UsedToPct, name: "used to " + rh(y.UsedToPct) + " %", sign: stroke{limit, quiet, nil}})
	}
	return c
}

func (y YearCourse) warp(lo, hi float64) chart {
	c := y.between(y.WarpLow, y.WarpHigh, stroke{hair, vermilion, nil})
	c.x, c.y = calendar(y.Start, lo, hi), roomy("Warp / mm (rounded above nought, hollow below)", y.WarpLow, y.WarpHigh, y.WarpCases.Low, y.WarpCases.High)
	c.rules, c.zones = y.moments(), unnamed(y.gaps(lo, hi))
	c.points = y.extremes(y.WarpLow, y.WarpHigh, bendWords)
	y.WarpCases.under(&c, y.Days, vermilion)
	return c
}

func (y YearCourse) width(lo, hi float64) chart {
	c := y.between(y.WidthLow, y.WidthHigh, stroke{hair, green, nil})
	name := "Change of width / mm"
	if len(y.Remembered) > 0 {
		name += " (dashed: wood that remembers where it turned)"
		c.curves = append(c.curves, curve{x: y.Days, y: y.Remembered, sign: stroke{data, ink, []vg.Length{3, 2}}})
	}
	c.x, c.y = calendar(y.Start, lo, hi), roomy(name, y.WidthLow, y.WidthHigh, y.WidthCases.Low, y.WidthCases.High)
	c.rules, c.zones = y.moments(), unnamed(y.gaps(lo, hi))
	c.points = y.extremes(y.WidthLow, y.WidthHigh, signed)
	y.WidthCases.under(&c, y.Days, green)
	return c
}

// roomy is an axis that holds nought and the series, with room for words above and below them.
func roomy(name string, series ...[]float64) axis {
	a, b, _ := extent(series...)
	a, b = min(a, 0), max(b, 0)
	room := (b - a) / 7
	return around(name, a-room, b+room)
}

// gaps are the stretches without readings.
func (y YearCourse) gaps(lo, hi float64) []zone {
	return RecordCourse{Days: y.Days, RHPct: y.LowPct}.gapZones(lo, hi)
}

// moments are the days on which something works hardest.
func (y YearCourse) moments() []rule {
	out := make([]rule, 0, len(y.Moments)+1)
	for _, m := range y.Moments {
		out = append(out, rule{at: m.Day, upright: true, sign: stroke{thin, ink, []vg.Length{2, 2}}})
	}
	return out
}

// extremes are the lowest and the highest point of a band.
func (y YearCourse) extremes(low, high []float64, write func(float64) string) []point {
	a, b := extremeIndex(low, -1), extremeIndex(high, 1)
	if a < 0 || b < 0 {
		return nil
	}
	return []point{
		{x: y.Days[a], y: low[a], name: write(low[a]) + ", " + date(dayAt(y.Start, y.Days[a]))},
		{x: y.Days[b], y: high[b], name: write(high[b]) + ", " + date(dayAt(y.Start, y.Days[b]))},
	}
}

// extremeIndex is where a series times sign is greatest; -1 for none.
func extremeIndex(v []float64, sign float64) int {
	best := -1
	for i, x := range v {
		if usable(x) && (best < 0 || sign*x > sign*v[best]) {
			best = i
		}
	}
	return best
}

func (y YearCourse) sentence() string {
	a, b, ok := extent(y.WarpLow, y.WarpHigh)
	c, d, _ := extent(y.WidthLow, y.WidthHigh)
	if !ok {
		return "The course could not be calculated."
	}
	return "The warp runs from " + bent(a) + " to " + bent(b) + y.WarpCases.told(bent) +
		", the width from " + signed(c) + " to " + signed(d) + " mm" + y.WidthCases.told(signed) + "."
}

// told is how far 5 to 95 in 100 cases reach, in brackets.
func (b CaseBand) told(write func(float64) string) string {
	lo, hi, ok := extent(b.Low, b.High)
	if !ok || !b.any() {
		return ""
	}
	return " (5 to 95 in 100 cases: " + write(lo) + " to " + write(hi) + ")"
}

// bent writes a warp with its unit in a sentence.
func bent(v float64) string {
	s := bendWords(v)
	if n, way, ok := strings.Cut(s, " "); ok {
		return n + " mm " + way
	}
	return s
}

func (y YearCourse) desc() string {
	write := func(v float64) string { return fixed(v, 1) }
	moments := ""
	for _, m := range y.Moments {
		moments += capital(clean(m.Name)) + " on " + date(dayAt(y.Start, m.Day)) + ". "
	}
	return moments + listedDays("Air", y.Start, y.Days, pairwise(y.LowPct, y.HighPct, mean2), " % RH", rh) +
		listedDays("Warp", y.Start, y.Days, pairwise(y.WarpLow, y.WarpHigh, mean2), " mm", write) +
		listedDays("Width", y.Start, y.Days, pairwise(y.WidthLow, y.WidthHigh, mean2), " mm", write)
}

func mean2(a, b float64) float64 {
	if math.IsNaN(a) || math.IsNaN(b) {
		return math.NaN()
	}
	return (a + b) / 2
}
