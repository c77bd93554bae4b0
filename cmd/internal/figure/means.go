package figure

import (
	"strconv"
	"time"

	"gonum.org/v1/plot/vg"
)

// Means is an annex figure: what of the air's humidity reached each board, as running means.
type Means struct {
	Meta
	Start  time.Time
	Days   []float64   // since Start
	Curves []MeanCurve // at most six are drawn
	Setting
}

// MeanCurve is one running mean.
type MeanCurve struct {
	Name  string // such as "air", "left, 21 days"
	RHPct []float64
}

// Draw lays the figure out.
func (m Means) Draw() Figure {
	meta := m.or("running-means", "What of the air's humidity reached the wood?")
	lo, hi, ok := extent(m.Days)
	if lo, hi = max(-1e5, lo), min(hi, 1e5); !ok || !(hi > lo) {
		lo, hi = 0, 1
	}
	c := chart{meta: meta, x: months(m.Start, lo, hi), empty: noCurve}
	var all [][]float64
	desc := ""
	for i, cv := range m.Curves[:min(len(m.Curves), 6)] {
		sign := series(i)
		sign.width = data
		a, b, _ := extent(cv.RHPct)
		c.curves = append(c.curves, curve{name: clean(cv.Name), note: span(a, b, rh) + " %", x: m.Days, y: cv.RHPct, sign: sign})
		all = append(all, cv.RHPct)
		desc += clean(cv.Name) + ": " + span(a, b, rh) + " % RH. "
	}
	a, b := rhRange(all...)
	c.y = humidity(a, b)
	if given(m.UsedToPct) {
		c.rules = []rule{{at: m.UsedToPct, name: "used to " + rh(m.UsedToPct) + " %", sign: stroke{limit, quiet, []vg.Length{4, 2}}}}
	}
	return c.figure(m.sentence(), desc)
}

func (m Means) sentence() string {
	if len(m.Curves) == 0 {
		return "There is no record to show."
	}
	if len(m.Curves) == 1 {
		return "The thicker the board, the later and the less it feels the air."
	}
	a0, a1, _ := extent(m.Curves[0].RHPct)
	b0, b1, _ := extent(m.Curves[1].RHPct)
	return "Of " + span(a0, a1, rh) + " % RH (" + clean(m.Curves[0].Name) + "), " + span(b0, b1, rh) + " % reached the wood (" + clean(m.Curves[1].Name) + ")."
}

// months is an axis of days with a tick at the first of each month, or of each third or twelfth.
func months(start time.Time, lo, hi float64) axis {
	day := func(t time.Time) float64 { return t.Sub(start).Hours() / 24 }
	from := start.Add(time.Duration(lo * 24 * float64(time.Hour)))
	every := 1
	switch months := (hi - lo) / 30.4; {
	case months > 60:
		every = 12
	case months > 24:
		every = 6
	case months > 13:
		every = 3
	}
	date := func(v float64) string {
		return start.Add(time.Duration(v * 24 * float64(time.Hour))).Format("January 2006")
	}
	a := axis{name: date(lo) + " to " + date(hi), lo: lo, hi: hi}
	at := time.Date(from.Year(), 1, 1, 0, 0, 0, 0, start.Location())
	for k := 0; k < 4000 && day(at) <= hi; k++ {
		if day(at) >= lo {
			a.ticks = append(a.ticks, day(at))
		}
		at = at.AddDate(0, every, 0)
	}
	a.write = func(v float64) string {
		t := start.Add(time.Duration((v + 0.1) * 24 * float64(time.Hour)))
		if t.Month() == time.January {
			return strconv.Itoa(t.Year())
		}
		return t.Format("Jan")
	}
	return a
}
