package cli

import (
	"math"
	"strings"
	"time"

	"crossgrain/cmd/internal/report"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/terms"
)

const day24 = 24 * time.Hour

// judged adds flags, band, changes, cycles and terms to the document.
func (st *study) judged(doc *report.RoomRecord) {
	for _, f := range st.noticed {
		doc.Flags = append(doc.Flags, report.RecordFlag{
			Kind: kindWords(f.Kind), From: st.stamp(f.From), To: st.stamp(f.To), Count: f.Last - f.First + 1, Line: f.Line,
			Removed: st.removes(f), Words: f.Why,
		})
	}
	doc.Band = st.bandOf()
	st.changes(&doc.Changes)
	doc.Cycles = st.cycles()
	for _, v := range st.verdicts {
		doc.Terms = append(doc.Terms, st.termsOf(v))
	}
}

// bandOf writes the historic band down.
func (st *study) bandOf() report.RecordBand {
	b := st.band
	out := report.RecordBand{
		Applies: b.Applies, WhyNot: strings.Join(b.WhyNot, "; "), LowDeparture: 100 * b.Low, HighDeparture: 100 * b.High,
		MeanPct: 100 * b.Mean, MovingLowPct: 100 * b.Moving.Lowest, MovingHighPct: 100 * b.Moving.Highest,
		CalculatedLow: 100 * b.P7, CalculatedHigh: 100 * b.P93, WindowDays: month30.Hours() / 24, Windows: b.Used,
	}
	if b.Applies {
		out.Floor, out.Rule = st.floor, report.RecordBandRule()
	}
	return out
}

// changes are the largest changes by the reading chosen, and those in 24 h by the others.
func (st *study) changes(c *report.RecordChanges) {
	c.Reading, c.ReadingIn = st.reading.String(), st.reading.Words(day24)
	rh := st.rec.Changes(st.reading)
	c.Max1h, c.Max1hAt = st.largest(rh.Hour)
	c.Max24h, c.Max24hAt = st.largest(rh.Day)
	c.Max7d, c.Max7dAt = st.largest(rh.Week)
	if st.rec.T != nil {
		c.Max1hK, _ = st.largest(st.rec.Change(record.Temperature, time.Hour, st.reading))
		c.Max24hK, _ = st.largest(st.rec.Change(record.Temperature, day24, st.reading))
		c.Max7dK, _ = st.largest(st.rec.Change(record.Temperature, 7*day24, st.reading))
	}
	for _, h := range record.Readings() {
		if h == st.reading {
			continue
		}
		o := report.RecordChange{Reading: h.String(), Words: h.Words(day24)}
		if o.Max24h, o.At = st.largest(st.rec.Change(record.Humidity, day24, h)); o.Max24h != nil {
			c.Others = append(c.Others, o)
		}
	}
}

// largest is a change in points or K and when it begins; nil where none could be judged.
func (st *study) largest(c record.Change) (*float64, string) {
	if c.WhyNot != "" {
		return nil, ""
	}
	v := c.Largest
	if c.Of == record.Humidity {
		v *= 100
	}
	return &v, st.stamp(c.From)
}

// cycles are the means of each month and of each hour of the day, and how far both swing.
func (st *study) cycles() report.RecordCycles {
	var c report.RecordCycles
	rh, t := st.rec.Monthly(record.Humidity), st.rec.Monthly(record.Temperature)
	for i, m := range rh {
		if m.Hours > 0 {
			c.Year = append(c.Year, report.RecordMean{Part: i + 1, RHPct: 100 * m.Value, TC: t[i].Value, Hours: m.Hours})
		}
	}
	d, dt := st.rec.Daily(record.Humidity), st.rec.Daily(record.Temperature)
	for h, x := range d.Hour {
		if !math.IsNaN(x) {
			c.Day = append(c.Day, report.RecordMean{Part: h, RHPct: 100 * x, TC: dt.Hour[h], Hours: float64(d.Days)})
		}
	}
	if c.Days = d.Days; d.Days > 0 {
		half, nine := 100*d.Median, 100*d.Nine
		c.DayRange, c.DayRangeP90 = &half, &nine
	}
	if len(st.rec.Times) == 0 {
		return c
	}
	years := int(st.stats.To.Sub(st.stats.From).Hours() / 24 / 365.25)
	whole := st.rec.Between(st.stats.From, st.stats.From.AddDate(max(1, years), 0, 0))
	if y, err := whole.Yearly(record.Humidity); err == nil {
		swing := 100 * y.Amplitude
		c.Swing, c.Dampest = &swing, st.stamp(y.Maximum)
	}
	return c
}

// termsOf writes a verdict down.
func (st *study) termsOf(v terms.Verdict) report.RecordTerms {
	t := v.Terms
	out := report.RecordTerms{
		Name: t.Name, Text: t.Text, Source: t.Source, Evidence: t.Evidence(), Confirmed: st.confirmed && len(t.FromMemory()) > 0,
		InsidePct: 100 * v.Inside, Remarks: v.Remarks(),
	}
	for _, r := range v.Clauses {
		if r.Window > 0 && out.Reading == "" {
			out.Reading = v.Reading.Words(r.Window)
		}
		c := report.RecordClause{
			Words: r.String(), Text: r.Text(), Evidence: r.Known.String(), WhyNot: r.WhyNot, Unit: r.Unit(),
			InsidePct: 100 * r.Share(), InsideHours: r.Inside, OutsideHours: r.Above + r.Below, AboveHours: r.Above, BelowHours: r.Below,
			LongestHours: r.Longest.Hours, LongestFrom: st.stamp(r.Longest.From), LongestTo: st.stamp(r.Longest.To),
			Worst: r.Printed(r.Worst), WorstAt: st.stamp(r.WorstAt),
		}
		out.Clauses = append(out.Clauses, c)
	}
	return out
}
