package figure

import (
	"math"
	"time"

	"gonum.org/v1/plot/vg"
)

// RecordCourse shows a humidity record as it was: readings, their moving mean and the band around it,
// and the temperature below. NaN is a gap.
type RecordCourse struct {
	Meta
	Start   time.Time // civil time of day nought
	Days    []float64 // since Start
	RHPct   []float64
	MeanPct []float64 // moving mean at the same days; may be empty
	TC      []float64 // °C; empty without temperatures

	MeanWords       string  // such as "mean of 30 days"
	LowPct, HighPct float64 // departures of the band from the moving mean, in points; NaN: no band
}

const (
	courseHeight vg.Length = 190
	tempHeight   vg.Length = 58
	wideGap                = 0.004 // of the whole time; narrower gaps are too thin to be named
)

// Draw lays the figure out.
func (r RecordCourse) Draw() Figure {
	meta := r.or("record", "What has the room been like?")
	lo, hi, ok := extent(r.Days)
	if !ok || !(hi > lo) {
		lo, hi = 0, 1
	}
	upper, lower := r.humidity(meta, lo, hi), r.temperature(lo, hi)
	head := headHeight(meta, upper.words)
	h := head + axisNameRow + courseHeight + bottomAxisHeight + margin
	if len(lower.curves) > 0 {
		h += axisNameRow + tempHeight + rowGap
	}
	return meta.figure(h, r.sentence(), r.desc(), func(p pen) {
		p.head(meta, h, upper.words)
		if len(lower.curves) == 0 {
			drawStack(p, h-head, []chart{upper}, []vg.Length{courseHeight})
			return
		}
		drawStack(p, h-head, []chart{upper, lower}, []vg.Length{courseHeight, tempHeight})
	})
}

// humidity is the chart of the readings, their mean and the band.
func (r RecordCourse) humidity(meta Meta, lo, hi float64) chart {
	c := chart{meta: meta, words: r.words(), x: calendar(r.Start, lo, hi), empty: noCurve}
	c.y = humidity(rhRange(inRange(r.RHPct)))
	c.zones = r.gapZones(lo, hi)
	x, y := thinned(r.Days, r.RHPct, mostPoints)
	c.curves = []curve{{x: x, y: y, sign: stroke{hair, grey(0x8C), nil}}}
	if r.meaned() {
		mx, my := thinned(r.Days, r.MeanPct, mostPoints/2)
		if r.banded() {
			c.bands = []band{{mx, shifted(my, r.LowPct), shifted(my, r.HighPct), stroke{hair, blue, nil}}}
		}
		c.curves = append(c.curves, curve{x: mx, y: my, sign: stroke{strong, blue, nil}})
	}
	c.points = r.extremes()
	return c
}

func (r RecordCourse) banded() bool { return r.meaned() && usable(r.LowPct) && usable(r.HighPct) }

// meaned says whether there is a moving mean.
func (r RecordCourse) meaned() bool {
	_, _, ok := extent(r.MeanPct)
	return ok && r.MeanWords != ""
}

// words say what is what.
func (r RecordCourse) words() string {
	s := "Thin line: the readings."
	if r.meaned() {
		s += " Thick line: " + clean(r.MeanWords) + "."
	}
	if r.banded() {
		s += " Band: " + fixed(-r.LowPct, 1) + " points below it to " + fixed(r.HighPct, 1) + " above it."
	}
	return s
}

// points writes a difference of humidity without its sign.
func points(v float64) string {
	s := fixed(math.Abs(v), 1)
	if s == "1.0" {
		return "1 point"
	}
	return s + " points"
}

// temperature is the chart beneath; it has no curves where there are no temperatures.
func (r RecordCourse) temperature(lo, hi float64) chart {
	a, b, ok := extent(r.TC)
	if !ok {
		return chart{}
	}
	c := chart{x: calendar(r.Start, lo, hi), zones: unnamed(r.gapZones(lo, hi))}
	if b-a < 2 {
		a, b = a-1, b+1
	}
	d := step(b-a, 4)
	n := digits(d)
	c.y = axis{name: "Temperature / °C", lo: d / 2 * math.Floor(2*a/d), hi: d / 2 * math.Ceil(2*b/d), write: func(v float64) string { return fixed(v, n) }}
	c.y.ticks = ticks(c.y.lo, c.y.hi, d)
	x, y := thinned(r.Days, r.TC, mostPoints)
	c.curves = []curve{{x: x, y: y, sign: stroke{hair, quiet, nil}}}
	return c
}

func unnamed(z []zone) []zone {
	for i := range z {
		z[i].name = ""
	}
	return z
}

// shifted is a series moved up or down.
func shifted(v []float64, by float64) []float64 {
	out := make([]float64, len(v))
	for i, x := range v {
		out[i] = x + by
	}
	return out
}

// gapZones are the stretches without readings that are wide enough to be seen.
func (r RecordCourse) gapZones(lo, hi float64) []zone {
	var out []zone
	last := math.NaN()
	for i := range min(len(r.Days), len(r.RHPct)) {
		if !usable(r.RHPct[i]) {
			continue
		}
		if i > 0 && !usable(r.RHPct[i-1]) && usable(last) && r.Days[i]-last > wideGap*(hi-lo) {
			out = append(out, zone{lo: last, hi: r.Days[i]})
			if r.Days[i]-last > 0.05*(hi-lo) {
				out[len(out)-1].name = "no readings"
			}
		}
		last = r.Days[i]
	}
	return out
}

// extremes are the driest and the dampest reading.
func (r RecordCourse) extremes() []point {
	lo, hi := r.lowest()
	if lo < 0 || lo == hi {
		return nil
	}
	at := func(i int) point {
		return point{x: r.Days[i], y: r.RHPct[i], name: rh(r.RHPct[i]) + " % on " + date(dayAt(r.Start, r.Days[i]))}
	}
	return []point{at(lo), at(hi)}
}

// lowest are the indices of the lowest and the highest reading; -1 where there is none.
func (r RecordCourse) lowest() (lo, hi int) {
	lo, hi = -1, -1
	for i := range min(len(r.Days), len(r.RHPct)) {
		switch v := r.RHPct[i]; {
		case !usable(v):
		case lo < 0:
			lo, hi = i, i
		case v < r.RHPct[lo]:
			lo = i
		case v > r.RHPct[hi]:
			hi = i
		}
	}
	return lo, hi
}

func (r RecordCourse) sentence() string {
	a, b, ok := extent(r.RHPct)
	if !ok {
		return "There is no record to show."
	}
	s := "The readings run from " + rh(a) + " to " + rh(b) + " % RH"
	if c, d, _ := extent(r.MeanPct); r.meaned() {
		s += "; their " + clean(r.MeanWords) + " from " + rh(c) + " to " + rh(d) + " %"
	}
	return s + "."
}

func (r RecordCourse) desc() string {
	s := listedDays("Readings", r.Start, r.Days, r.RHPct, " % RH", rh)
	if r.meaned() {
		s += listedDays(capital(clean(r.MeanWords)), r.Start, r.Days, r.MeanPct, " % RH", rh)
	}
	if len(r.TC) > 0 {
		s += listedDays("Temperature", r.Start, r.Days, r.TC, " °C", rh)
	}
	return s
}

// listedDays writes a series over time for readers who do not see it: at most seven values.
func listedDays(name string, start time.Time, x, y []float64, unit string, write func(float64) string) string {
	n := min(len(x), len(y))
	out, any := name+":", false
	for k := range min(n, 7) {
		i := k
		if n > 7 {
			i = k * (n - 1) / 6
		}
		if usable(x[i]) && usable(y[i]) {
			out, any = out+" "+write(y[i])+unit+" on "+date(dayAt(start, x[i]))+",", true
		}
	}
	if !any {
		return name + ": no numbers. "
	}
	return out[:len(out)-1] + ". "
}
