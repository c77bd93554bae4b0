package report

import (
	"io"
	"math"
	"time"
)

// Insured is what an insurer is told of one panel: what an event of hours and days may do, apart from what months and years may do. It
// names no part and no cause; every number is of 100 such panels, within a time.
type Insured struct {
	Head
	Paper     *Paper       `json:"paper,omitempty"`
	Invented  bool         `json:"invented"`
	Accession string       `json:"accession"`
	Title     string       `json:"title"`
	HeightMM  float64      `json:"height_mm"` // 0: not told
	WidthMM   float64      `json:"width_mm"`
	Woods     string       `json:"woods"`
	Gated     bool         `json:"examine_first"` // no figures before its conservator has answered
	Event     []InsuredRow `json:"event"`         // hours and days
	Slow      []InsuredRow `json:"slow_change"`   // months and years
	Notes     []string     `json:"event_notes"`
	SlowNotes []string     `json:"slow_notes"`
	Fixed     []string     `json:"fixed"` // what this calculation cannot say
	Cautions  []string     `json:"cautions"`
}

// InsuredRow is one count: of 100 such panels, between Low and High reach a limit within the hours.
type InsuredRow struct {
	What  string  `json:"what"`
	Hours float64 `json:"within_hours"`
	Low   float64 `json:"of_100_low"`
	High  float64 `json:"of_100_high"`
}

// insuredHours are the times that an event is told for.
var insuredHours = [...]float64{8, 48, 168}

// insured begins the sheet of one panel.
func insured(h Head, p *Paper, about Panel, invented bool) Insured {
	h.Kind, h.PanelDigest = "insured", ""
	own := *p
	return Insured{
		Head: h, Paper: &own, Invented: invented, Accession: about.Accession, Title: about.Title, HeightMM: about.HeightMM, WidthMM: about.WidthMM, Woods: about.Woods,
		Fixed: []string{say("insured.fixed.opened"), say("insured.fixed.limit"), say("insured.fixed.such")}, Cautions: Cautions(),
	}
}

// readings counts for each reading of the air how many reach a limit within each time, from the times by which 5, 50 and 95 of 100 have.
func (d *Insured) readings(chart []WaitReading, low, high float64) {
	var dry, damp []WaitReading
	for _, r := range chart {
		switch {
		case r.RHPct < low-1e-9:
			dry = append(dry, r)
		case r.RHPct > high+1e-9:
			damp = append(damp, r)
		}
	}
	for _, side := range [][]WaitReading{dry[max(0, len(dry)-alarmSide):], damp[:min(len(damp), alarmSide)]} {
		for _, r := range side {
			for _, h := range insuredHours {
				few, many := reachedBy(r.Act, h)
				d.Event = append(d.Event, InsuredRow{say("insured.air", "rh", whole(r.RHPct)), h, few, many})
			}
		}
	}
	if len(d.Event) > 0 {
		d.Notes = append(d.Notes, say("insured.air.from"))
	}
}

// reachedBy says between how many of 100 have reached it after so many hours; quick, middle and slow are when 5, 50 and 95 have.
func reachedBy(span []*float64, hours float64) (low, high float64) {
	edges := [...]float64{0, 5, 50, 95, 100}
	n := 0
	for n < len(span) && span[n] != nil && hours >= *span[n] {
		n++
	}
	return edges[n], edges[n+1]
}

// reached says the same of a share of the limit as described and its band of 5 to 95 in 100.
func reached(share, low, high float64) (float64, float64) {
	switch {
	case low >= 1:
		return 95, 100
	case share >= 1:
		return 50, 95
	case high >= 1:
		return 5, 50
	}
	return 0, 5
}

// words is the count, always of 100.
func (r InsuredRow) words() string {
	few, many := hundred(r.Low), hundred(r.High)
	switch {
	case r.Low == 5 && r.High == 50 || r.Low == 50 && r.High == 95:
		return say("range.cell", "low", whole(r.Low), "high", whole(r.High))
	case r.High <= 5 && r.Low == 0 && r.High > r.Low:
		return say("insured.fewer", "n", whole(r.High))
	case r.Low >= 95 && r.High > r.Low:
		return say("insured.more", "n", whole(r.Low))
	case few == many:
		return few
	}
	return say("range.cell", "low", few, "high", many)
}

// insuredTable lists counts: those of one time a row each, those of the same times side by side.
func insuredTable(rows []InsuredRow) *Table {
	if len(rows) == 0 {
		return nil
	}
	if t := sideBySide(rows); t != nil {
		return t
	}
	t := &Table{Align: "lll", Head: []string{say("insured.head.what"), say("insured.head.within"), say("insured.head.count")}}
	last := ""
	for _, r := range rows {
		what := r.What
		if what == last {
			what = ""
		}
		last = r.What
		t.Rows = append(t.Rows, []string{what, say("insured.within", "time", lasting(r.Hours)), r.words()})
	}
	return t
}

// sideBySide has a column for each time; nil where not every row has all of them.
func sideBySide(rows []InsuredRow) *Table {
	n := len(insuredHours)
	if len(rows)%n != 0 {
		return nil
	}
	t := &Table{Align: "llll", Head: []string{say("insured.head.what")}}
	for _, h := range insuredHours {
		t.Head = append(t.Head, say("insured.head.hours", "time", lasting(h)))
	}
	for i := 0; i < len(rows); i += n {
		line := []string{rows[i].What}
		for k, h := range insuredHours {
			r := rows[i+k]
			if r.What != rows[i].What || r.Hours != h {
				return nil
			}
			line = append(line, r.words())
		}
		t.Rows = append(t.Rows, line)
	}
	return t
}

// Insured is the sheet of panel i of a loan.
func (d Loan) Insured(i int) Insured {
	p := &d.Panels[i]
	out := insured(d.Head, d.Sheet(i), Panel{Accession: p.Accession, Title: p.Title, HeightMM: p.HeightMM, WidthMM: p.WidthMM, Woods: p.Woods}, d.Invented)
	out.Gated = p.Terms == nil
	if out.Gated {
		return out
	}
	out.readings(p.chart, p.Terms.LowRHPct, p.Terms.HighRHPct)
	season := p.heldDays * 24
	out.Slow = append(out.Slow, InsuredRow{say("insured.kept", "low", whole(p.Terms.LowRHPct), "high", whole(p.Terms.HighRHPct)), season, 0, d.Of100})
	for _, g := range p.Legs {
		if g.Few != nil && g.Many != nil {
			out.Slow = append(out.Slow, InsuredRow{say("insured.leg", "leg", d.legDays(g), "low", whole(g.WoodLow), "high", whole(g.WoodHigh)), season, *g.Few, *g.Many})
		}
	}
	out.SlowNotes = append(out.SlowNotes, say("insured.season"))
	return out
}

// legDays names a leg by its kind and days, not by its place.
func (d Loan) legDays(g LoanPart) string {
	for _, leg := range d.Legs {
		if leg.Name == g.Name {
			return say("insured.leg.days", "kind", leg.Kind, "from", loanDay(leg.From), "to", loanDay(leg.To))
		}
	}
	return legWords(g)
}

// Insured is the sheet of an assessment.
func (a Assess) Insured() Insured {
	out := insured(a.Head, a.Paper, a.Panel, a.Invented)
	out.Gated = len(a.Gates) > 0
	if out.Gated {
		return out
	}
	if a.Wait != nil {
		out.readings(a.Wait.Readings, a.UsedTo.RHPct, a.UsedTo.RHPct)
	}
	d := a.Doubt
	if d == nil || len(d.Ways) == 0 || d.CannotBeTold {
		out.SlowNotes = append(out.SlowNotes, say("insured.slow.none"))
		return out
	}
	hours, what := d.HeldDays*24, say("insured.held", "low", whole(a.Range.LowRHPct), "high", whole(a.Range.HighRHPct))
	if y := a.Year; y != nil {
		hours, what = y.hours(), say("insured.record", "low", whole(a.Range.LowRHPct), "high", whole(a.Range.HighRHPct))
	}
	few, many := math.Inf(1), 0.0
	for _, w := range d.Ways {
		few, many = min(few, w.Count.Of100), max(many, w.Count.Of100)
	}
	row := InsuredRow{what, hours, few, many}
	if hours <= eventLong {
		out.Event = append(out.Event, row)
		out.SlowNotes = append(out.SlowNotes, say("insured.slow.none"))
		return out
	}
	out.Slow = append(out.Slow, row)
	if a.Year == nil {
		out.SlowNotes = append(out.SlowNotes, say("insured.season"))
	}
	return out
}

// Insured is the sheet of panel i of an event.
func (f FaultEvent) Insured(i int) Insured {
	p := f.Panels[i]
	out := insured(f.Head, f.Paper, Panel{Accession: f.called(i), Title: p.Title}, f.Invented)
	out.SlowNotes = []string{say("insured.slow.event")}
	if out.Gated = len(p.Gates) > 0; out.Gated {
		return out
	}
	row := InsuredRow{What: say("insured.event", "first", clockWords(f.Record.First), "last", clockWords(f.Record.Last), "low", whole(f.Record.MinPct), "high", whole(f.Record.MaxPct)), Hours: f.Record.Hours, High: 5}
	before := false
	for _, e := range p.Parts {
		if e.Before {
			before = true
			continue
		}
		if low, high := reached(e.Share, e.ShareLow, e.ShareHigh); high > row.High {
			row.Low, row.High = low, high
		}
	}
	out.Event = []InsuredRow{row}
	if before {
		out.Notes = append(out.Notes, say("insured.before"))
	}
	if f.Record.Hours > eventLong {
		out.Event, out.Slow = nil, out.Event
		out.Notes = append(out.Notes, f.Record.tooLong())
	}
	return out
}

// hours is how long the record is that was followed; 0 where its ends cannot be read.
func (y *Year) hours() float64 {
	first, err := time.Parse(isoMinute, y.First)
	last, wrong := time.Parse(isoMinute, y.Last)
	if err != nil || wrong != nil {
		return 0
	}
	return last.Sub(first).Hours()
}

// insuredPage is what the template of the sheet shows.
type insuredPage struct {
	shell
	Name, About string
	Sections    []section
	Cautions    []string
}

// WriteHTML writes the sheet as one page, by the rules of [Assess.WriteHTML].
func (d Insured) WriteHTML(w io.Writer, fontCSS string) error {
	name := plainLine(d.Title)
	if name == "" {
		name = plainLine(d.Accession)
	}
	p := &insuredPage{shell: shell{Title: say("insured.title", "name", name), Invented: d.Invented, Paper: d.Paper}, Name: plainLine(d.Accession), Cautions: d.Cautions}
	if d.HeightMM > 0 {
		p.About = say("head.size", "height", whole(d.HeightMM), "width", whole(d.WidthMM)) + ", " + d.Woods + "."
	}
	if d.Gated {
		p.Sections = []section{{Title: say("insured.event.title"), Paras: []string{say("insured.gated")}, Whole: true}}
	} else {
		p.Sections = []section{
			{Title: say("insured.event.title"), Table: insuredTable(d.Event), Paras: d.Notes, Lead: say("insured.event.lead")},
			{Title: say("insured.slow.title"), Table: insuredTable(d.Slow), Paras: d.SlowNotes, Whole: true, Lead: say("insured.slow.lead")},
		}
	}
	p.Sections = append(p.Sections, section{Title: say("insured.fixed.title"), Paras: d.Fixed, Whole: true})
	p.Running = running(p.shell.Title, d.Paper.Running()+". "+d.Paper.Rests()+" "+say("caution.foot"), d.Invented)
	return p.shell.write(w, "insured.html", "page.css", "", fontCSS, p)
}
