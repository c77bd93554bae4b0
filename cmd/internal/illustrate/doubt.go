package illustrate

import (
	"fmt"
	"math"
	"strings"
	"time"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/panel/assessment"
)

// doubtFigures draws how many of 100, what the panel itself has shown and what to find out; the map of limits is for the annex.
func doubtFigures(meta figure.Meta, doc *report.Assess, r *assessment.Result) (main, annex []figure.Figure) {
	d := doc.Doubt
	if d == nil || len(d.Ways) == 0 {
		return nil, nil
	}
	if doc.Counted() {
		main = append(main, ofHundred(meta, doc).Draw())
	}
	if f := seen(meta, d); len(f.Groups) > 0 {
		main = append(main, f.Draw())
	}
	if f, ok := findOut(meta, doc); ok {
		main = append(main, f.Draw())
	}
	for i, w := range d.Ways {
		if len(w.Map.Of100) == 0 {
			continue
		}
		m := figure.LimitMap{Meta: meta, LowPct: w.Map.LowRHPct, HighPct: w.Map.HighRHPct, Of100: w.Map.Of100}
		if w.Words != "" {
			m.ID, m.Title = fmt.Sprintf("limit-map-%d", i+1), "How many of 100 for which limits, "+w.Words+"?"
		}
		name := "asked about"
		if d.Followed > 0 {
			name = "the record's own range"
		}
		m.Marks = append(m.Marks, figure.LimitMark{Name: name, Span: figure.Span{LowPct: doc.Range.LowRHPct, HighPct: doc.Range.HighRHPct}})
		if l := doc.Lived; l != nil {
			m.Marks = append(m.Marks, figure.LimitMark{Name: "lived through", Span: figure.Span{LowPct: l.LowRHPct, HighPct: l.HighRHPct}})
		}
		annex = append(annex, m.Draw())
	}
	return main, annex
}

// surely is the normal deviate below which 95 in 100 lie.
const surely = 1.645

// ofHundred sets what was asked about beside what the panel has lived through and beside what the description alone gives.
func ofHundred(meta figure.Meta, doc *report.Assess) figure.OfHundred {
	f := figure.OfHundred{Meta: meta, What: "reach a limit"}
	add := func(name, note string, c report.Of100) {
		f.Situations = append(f.Situations, figure.Situation{Name: name, Note: note, Low: c.Of100 - surely*c.Error, High: c.Of100 + surely*c.Error})
	}
	for _, w := range doc.Doubt.Ways {
		name := doc.AskedOf()
		if w.Words != "" {
			name = strings.ToUpper(w.Words[:1]) + w.Words[1:]
		}
		add(name, "", w.Count)
		if w.Home != nil && doc.Lived != nil {
			note := fmt.Sprintf("from %.0f to %.0f %% RH", doc.Lived.LowRHPct, doc.Lived.HighRHPct)
			if w.Words != "" {
				note += ", " + w.Words
			}
			add("In the climate it has lived through", note, *w.Home)
		}
	}
	if len(doc.Doubt.Ways) > 1 {
		f.When = strings.ToLower(doc.AskedOf()[:1]) + doc.AskedOf()[1:]
	}
	return f
}

// findOut draws what would narrow the answer; false where nothing does.
func findOut(meta figure.Meta, doc *report.Assess) (figure.FindOut, bool) {
	part, list := doc.ToFindOut()
	f := figure.FindOut{Meta: meta, Part: part}
	for _, n := range list {
		f.Low, f.High = n.Now[0], n.Now[1]
		f.Findings = append(f.Findings, figure.Finding{
			What: n.What, Means: n.Means, By: n.By, Minutes: n.Minutes, Touches: n.Touches, Low: n.After[0], High: n.After[1],
		})
	}
	return f, len(list) > 0
}

// seen sets what was measured beside the cases, a group for each way and each thing that was measured.
func seen(meta figure.Meta, d *report.Doubt) figure.Seen {
	f := figure.Seen{Meta: meta}
	for _, w := range d.Ways {
		at := map[string]int{}
		for _, s := range w.Evidence.Seen {
			name := report.SeenWords(s)
			if w.Words != "" {
				name += ", " + w.Words
			}
			i, ok := at[name]
			if !ok {
				i = len(f.Groups)
				at[name] = i
				g := figure.SeenGroup{Name: name, Warp: s.What == assessment.SeenWarp}
				if s.Rests {
					g.Note = "from where it is taken to stand at rest"
				}
				f.Groups = append(f.Groups, g)
			}
			v := figure.SeenValue{
				Name: s.Day(), RHPct: s.RHPct, Measured: s.Measured - s.RestMM, Error: s.Error,
				Expected: figure.Cases{Low: s.Before[0], Middle: math.NaN(), High: s.Before[1]},
			}
			if v.Name == "" {
				v.Name = s.Name
			}
			if w.Evidence.Fits {
				v.Left = &figure.Cases{Low: s.After[0], Middle: math.NaN(), High: s.After[1]}
			}
			f.Groups[i].Values = append(f.Groups[i].Values, v)
		}
		f.NoneFits = f.NoneFits || len(w.Evidence.Seen) > 0 && !w.Evidence.Fits
	}
	return f
}

// casesOn is the band of the cases on the days of a drawing, each the middle of up to every days; open where there are none.
func casesOn(r *assessment.Result, what, part string, first time.Time, days []float64, every int) (out figure.CaseBand) {
	if r.Doubt == nil {
		return out
	}
	c := r.Doubt.Curve(what, part)
	if c == nil {
		return out
	}
	at := map[int]int{}
	for i, t := range c.Time {
		at[int(math.Round(midnight(t).Sub(first).Hours()/24))] = i
	}
	for _, d := range days {
		low, high := math.Inf(1), math.Inf(-1)
		for day := int(math.Ceil(d - float64(every)/2 - 1e-9)); float64(day) < d+float64(every)/2-1e-9; day++ {
			if i, ok := at[day]; ok {
				low, high = min(low, c.Low[i]), max(high, c.High[i])
			}
		}
		if low > high {
			low, high = math.NaN(), math.NaN()
		}
		out.Low, out.High = append(out.Low, low), append(out.High, high)
	}
	return out
}
