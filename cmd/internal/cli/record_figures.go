package cli

import (
	"fmt"
	"math"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/illustrate"
	"crossgrain/cmd/internal/report"
)

// recordFigures draws the figures of a record, in the order of the report; the annex comes last.
func recordFigures(doc *report.RoomRecord, st *study) []illustrate.Drawn {
	meta := figure.Meta{Invented: doc.Invented}
	p := plainOf(st.rec, st.mean)
	course := figure.RecordCourse{
		Meta: meta, Start: p.start, Days: p.days, RHPct: p.rh, MeanPct: p.mean, TC: p.tc,
		MeanWords: "mean of 30 days", LowPct: math.NaN(), HighPct: math.NaN(),
	}
	if doc.Band.Applies {
		course.LowPct, course.HighPct = doc.Band.LowDeparture, doc.Band.HighDeparture
	}
	out := []illustrate.Drawn{{Figure: course.Draw(), Table: monthTable(doc)}}
	if o := outside(meta, p.start, st, doc); len(o.Strips) > 0 {
		out = append(out, illustrate.Drawn{Figure: o.Draw()})
	}
	out = append(out, illustrate.Drawn{Figure: dayHours(meta, st).Draw()})
	if st.wood != nil {
		w, fig := moistureOf(st.rec, st.wood, p.start)
		doc.Wood, fig.Meta = w, meta
		out = append(out, illustrate.Drawn{Figure: fig.Draw(), Annex: true})
	}
	return out
}

// dayHours is the map of the departures from the moving mean, or of the humidity where there is none.
func dayHours(meta figure.Meta, st *study) figure.DayHours {
	f := figure.DayHours{Meta: meta}
	if len(st.rec.Times) == 0 {
		return f
	}
	value := make([]float64, len(st.rec.RH))
	for i, h := range st.rec.RH {
		value[i] = 100 * h
		if st.mean != nil {
			value[i] -= 100 * st.mean[i]
		}
	}
	f.Start = plainOf(st.rec.Between(st.rec.Times[0], st.rec.Times[0].Add(1)), nil).start
	f.Cells, f.Departure = cells(st.rec, value), st.mean != nil
	return f
}

// monthTable holds the means of the months behind the first figure.
func monthTable(doc *report.RoomRecord) *report.Table {
	t := &report.Table{Head: []string{"Month", "Mean, % RH", "Mean, °C", "Hours read"}, Align: "lrrr"}
	for _, m := range doc.Cycles.Year {
		c := "–"
		if !math.IsNaN(m.TC) {
			c = fmt.Sprintf("%.1f", m.TC)
		}
		t.Rows = append(t.Rows, []string{fmt.Sprint(m.Part), fmt.Sprintf("%.1f", m.RHPct), c, fmt.Sprintf("%.0f", m.Hours)})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}
