package illustrate

import (
	"fmt"
	"math"
	"strings"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/panel/assessment"
)

// Assessment draws the figures of an assessment, in the order of the report; the annex comes last.
func Assessment(doc *report.Assess, r *assessment.Result) []Drawn {
	meta := figure.Meta{Invented: doc.Invented}
	set := figure.Setting{UsedToPct: doc.UsedTo.RHPct, LowPct: doc.Range.LowRHPct, HighPct: doc.Range.HighRHPct}
	out := []Drawn{{Figure: Back(meta, r)}}
	moved, stressed := endGrainFigures(meta, r)
	if moved != nil {
		out = append(out, Drawn{Figure: *moved})
	} else {
		out = append(out, Drawn{Figure: sectionFigure(meta, doc, r)})
	}
	if r.Year != nil {
		out = append(out, Drawn{Figure: yearFigure(meta, doc, r).Draw()})
	}
	out = append(out, Drawn{Figure: rangeFigure(meta, doc, r)}, Drawn{Figure: givesWay(meta, doc)})
	doubted, limits := doubtFigures(meta, doc, r)
	for _, f := range doubted {
		out = append(out, Drawn{Figure: f})
	}
	if w := doc.Wait; w != nil && w.Withheld == "" {
		f := waitFigure(meta, doc, r.Wait)
		if w.ByRoom != nil {
			f.Reading = "case"
			room := waitFigure(meta, doc, r.Wait.ByRoom)
			room.ID, room.Title, room.Reading = "how-long-room", "How long can it wait in its closed case?", "room"
			out = append(out, Drawn{Figure: room.Draw(), Table: w.ByRoom.Table()})
		}
		out = append(out, Drawn{Figure: f.Draw(), Table: w.Table()})
	}
	if shares := worstShares(meta, set, doc); len(shares.Curves) > 0 {
		out = append(out, Drawn{Figure: shares.Draw(), Table: sharesTable(shares)})
	}
	out = append(out, Drawn{Figure: movement(meta, set, doc, r).Draw(), Table: movementTable(doc)})
	for _, l := range doc.Lines {
		out = append(out, Drawn{Figure: crack(meta, set, doc, l).Draw()})
	}
	if f := forces(meta, set, r); len(f.Curves) > 0 {
		out = append(out, Drawn{Figure: f.Draw(), Table: forcesTable(f)})
	}
	held, pulled := heldFigures(meta, r)
	for _, f := range held {
		out = append(out, Drawn{Figure: f})
	}
	for _, f := range pulled {
		out = append(out, Drawn{Figure: f, Annex: true})
	}
	for _, f := range limits {
		out = append(out, Drawn{Figure: f, Annex: true})
	}
	for _, l := range doc.Lines {
		if e := energy(meta, l, r); len(e.LengthMM) > 0 {
			out = append(out, Drawn{Figure: e.Draw(), Annex: true})
		}
	}
	if r.Year != nil && len(r.Year.Profiles) > 0 {
		out = append(out, Drawn{Figure: thicknessFigure(meta, r).Draw(), Annex: true})
	}
	if stressed != nil {
		out = append(out, Drawn{Figure: *stressed, Annex: true})
	}
	for _, s := range sorption(meta, set, r) {
		out = append(out, Drawn{Figure: s.Draw(), Annex: true})
	}
	return out
}

// sweep returns one number of every state of the sweep.
func sweep(doc *report.Assess, f func(report.State) float64) []float64 {
	out := make([]float64, len(doc.Sweep))
	for i, s := range doc.Sweep {
		out[i] = f(s)
	}
	return out
}

func humidities(doc *report.Assess) []float64 {
	return sweep(doc, func(s report.State) float64 { return s.RHPct })
}

func givesWay(meta figure.Meta, doc *report.Assess) figure.Figure {
	g := figure.GivesWay{Meta: meta}
	for _, m := range doc.Worst {
		if m.Share == nil {
			continue
		}
		b := figure.Bar{Name: ModeName(m), RHPct: m.RHPct, Share: *m.Share, Low: *m.ShareLow, High: *m.ShareHigh}
		if m.Mode == "handling" {
			b.RHPct = 0 // it does not depend on humidity
		}
		g.Bars = append(g.Bars, b)
	}
	return g.Draw()
}

// ModeName names a mode and part for a drawing.
func ModeName(m report.Mode) string {
	part := report.PartWords(m.Part)
	return strings.ToUpper(part[:1]) + part[1:] + ": " + report.ModeWords(m.Mode)
}

// worstShares draws the two worst parts that set the range over humidity.
func worstShares(meta figure.Meta, set figure.Setting, doc *report.Assess) figure.Shares {
	f := figure.Shares{Meta: meta, Setting: set, RHPct: humidities(doc)}
	seen := map[string]bool{}
	for _, w := range doc.Worst {
		if w.Share == nil || !w.SetsRange || *w.Share == 0 || seen[w.Mode] || len(f.Curves) == 2 {
			continue
		}
		seen[w.Mode] = true // two members alike would lie on one another
		c := figure.ShareCurve{Name: ModeName(w)}
		for _, s := range doc.Sweep {
			m := modeOf(s, w)
			c.Share, c.Low, c.High = append(c.Share, value(m.Share)), append(c.Low, value(m.ShareLow)), append(c.High, value(m.ShareHigh))
		}
		f.Curves = append(f.Curves, c)
	}
	return f
}

func modeOf(s report.State, like report.Mode) report.Mode {
	for _, m := range s.Modes {
		if m.Mode == like.Mode && m.Part == like.Part {
			return m
		}
	}
	return report.Mode{}
}

func value(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}

func movement(meta figure.Meta, set figure.Setting, doc *report.Assess, r *assessment.Result) figure.Movement {
	f := figure.Movement{
		Meta: meta, Setting: set, RHPct: humidities(doc),
		LoopMM: sweep(doc, func(s report.State) float64 { return s.WidthChangeLoopMM }),
		MeanMM: sweep(doc, func(s report.State) float64 { return s.WidthChangeMM }),
	}
	for _, s := range doc.Sweep {
		if len(s.WidthBandMM) == 2 {
			f.Cases.Low, f.Cases.High = append(f.Cases.Low, s.WidthBandMM[0]), append(f.Cases.High, s.WidthBandMM[1])
		}
	}
	for i, b := range r.Object.Boards {
		row := figure.BoardMovement{Name: "board " + b.Name}
		for _, s := range r.Sweep {
			row.MM = append(row.MM, s.BoardChange[i])
		}
		f.Boards = append(f.Boards, row)
	}
	return f
}

func crack(meta figure.Meta, set figure.Setting, doc *report.Assess, l report.Line) figure.Crack {
	meta.ID = "crack-" + safeID(l.Part)
	f := figure.Crack{
		Meta: meta, Setting: set, Name: report.PartWords(l.Part), NowMM: l.LengthMM, HeightMM: alongGrain(doc),
	}
	for _, at := range l.At {
		f.RHPct = append(f.RHPct, at.RHPct)
		f.StopsMM = append(f.StopsMM, value(at.StopsMM))
		f.StopsHighMM = append(f.StopsHighMM, value(at.StopsHighMM))
	}
	return f
}

func alongGrain(doc *report.Assess) float64 {
	if doc.Panel.Grain == "level" {
		return doc.Panel.WidthMM
	}
	return doc.Panel.HeightMM
}

func forces(meta figure.Meta, set figure.Setting, r *assessment.Result) figure.Forces {
	f := figure.Forces{Meta: meta, Setting: set, Words: "Above nought the wood is pulled, because it is kept from shrinking; below, it is pressed."}
	if len(r.Sweep) == 0 {
		return f
	}
	for k, first := range r.Sweep[0].Restraints {
		name := report.PartWords(first.Part)
		member, fixing := figure.ForceCurve{Name: name}, figure.ForceCurve{Name: name + ", one fixing"}
		for _, s := range r.Sweep {
			q := s.Restraints[k]
			member.N = append(member.N, q.Force)
			var top float64
			for _, n := range q.Fixing {
				top = math.Max(top, math.Abs(n))
			}
			fixing.N = append(fixing.N, top)
		}
		f.Curves = append(f.Curves, member, fixing)
	}
	for _, s := range r.Sweep {
		f.RHPct = append(f.RHPct, s.RH.Percent())
	}
	return f
}

// safeID turns a path into an id of letters, digits and hyphens.
func safeID(part string) string {
	return strings.Map(func(c rune) rune {
		if c >= 'a' && c <= 'z' || c >= '0' && c <= '9' {
			return c
		}
		return '-'
	}, strings.ToLower(part))
}

func sharesTable(f figure.Shares) *report.Table {
	t := &report.Table{Caption: "Tenths of the limit", Head: []string{"At % RH"}, Align: "r"}
	for _, c := range f.Curves {
		t.Head, t.Align = append(t.Head, c.Name, "doubt"), t.Align+"rr"
	}
	for i, rh := range f.RHPct {
		row := []string{fmt.Sprintf("%.0f", rh)}
		for _, c := range f.Curves {
			row = append(row, fmt.Sprintf("%.1f", 10*c.Share[i]), fmt.Sprintf("%.1f to %.1f", 10*c.Low[i], 10*c.High[i]))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func movementTable(doc *report.Assess) *report.Table {
	t := &report.Table{
		Caption: "Change of the whole width", Align: "rrr",
		Head: []string{"At % RH", "along a loop, mm", "along the mean curve, mm"},
	}
	cases := len(doc.Sweep) > 0 && len(doc.Sweep[0].WidthBandMM) == 2
	if cases {
		t.Head, t.Align = append(t.Head, "5 to 95 in 100 cases, mm"), t.Align+"r"
	}
	for _, s := range doc.Sweep {
		row := []string{fmt.Sprintf("%.0f", s.RHPct), fmt.Sprintf("%.1f", s.WidthChangeLoopMM), fmt.Sprintf("%.1f", s.WidthChangeMM)}
		if cases && len(s.WidthBandMM) == 2 {
			row = append(row, fmt.Sprintf("%.1f to %.1f", s.WidthBandMM[0], s.WidthBandMM[1]))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func forcesTable(f figure.Forces) *report.Table {
	t := &report.Table{Caption: "Load, N", Head: []string{"At % RH"}, Align: "r"}
	for _, c := range f.Curves {
		t.Head, t.Align = append(t.Head, c.Name), t.Align+"r"
	}
	for i, rh := range f.RHPct {
		row := []string{fmt.Sprintf("%.0f", rh)}
		for _, c := range f.Curves {
			row = append(row, fmt.Sprintf("%.0f", c.N[i]))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// Brief draws the few figures that stand beside a description while it is made: the panel from the back, its section, the range,
// how many of 100 and what to find out. They rest on the closed forms where nothing finer was worked out.
func Brief(doc *report.Assess, r *assessment.Result) []Drawn {
	meta := figure.Meta{Invented: doc.Invented}
	out := []Drawn{{Figure: Back(meta, r)}, {Figure: sectionFigure(meta, doc, r)}, {Figure: rangeFigure(meta, doc, r)}}
	if doc.Counted() {
		out = append(out, Drawn{Figure: ofHundred(meta, doc).Draw()})
	}
	if doc.Doubt != nil && len(doc.Doubt.Ways) > 0 {
		if f, ok := findOut(meta, doc); ok {
			out = append(out, Drawn{Figure: f.Draw()})
		}
	}
	return out
}
