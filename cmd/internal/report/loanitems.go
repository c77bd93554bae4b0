package report

import (
	"math"
	"slices"
	"strings"
)

// items are the nineteen headings of one schedule.
func (d Loan) items(p *LoanPanel, figs []*figureView) []sheetItem {
	t, figures := p.Terms, p.Terms != nil
	out := make([]sheetItem, headings)
	none := []string{say("loan.nofigures")}
	set := func(n int, it sheetItem) { out[n-1] = it }
	lines := func(n int, texts ...string) { set(n, sheetItem{Lines: nonEmpty(texts...)}) }

	set(1, sheetItem{Strong: []string{d.Paper.Words() + " " + say("loan.only")}})
	set(2, sheetItem{Lines: nonEmpty(d.work(p)...)})
	if len(figs) > 1 {
		out[1].Sides = []sideView{{figs[0].Drawing, say("loan.seen.front")}, {figs[1].Drawing, say("loan.seen.back")}}
	}
	set(3, sheetItem{Lines: []string{d.parties()}, Table: d.legTable()})
	lines(4, p.condition()...)
	set(5, sheetItem{Strong: p.Sentences})
	if figures {
		rh := t.words()
		set(6, sheetItem{Strong: rh[:3], Lines: d.measured()})
		lines(7, d.closed(t)...)
		set(8, d.alarms(p))
	} else {
		set(6, sheetItem{Strong: none})
		lines(7, say("loan.nofigures.stay"))
		lines(8, say("loan.alarm.none"))
	}
	set(9, sheetItem{Lines: d.calls(), Call: len(d.Contacts) < 2})
	lines(10, d.display(p)...)
	lines(11, d.journey(p)...)
	lines(12, say("loan.readings"))
	lines(13, p.inspections()...)
	lines(14, d.back(p)...)
	if figures {
		it := sheetItem{}
		for _, r := range p.Notes {
			it.Lines = append(it.Lines, r.Text)
		}
		if len(figs) > 2 {
			it.Drawing = figs[2]
		}
		set(15, it)
	} else {
		lines(15, texts(d.about(p.Name))...)
	}
	lines(16, d.borrowed()...)
	lines(17, p.doubt(d)...)
	lines(18, say("loan.notcovered"))
	set(19, d.signing(19))
	for i := range out {
		out[i].N, out[i].Title = i+1, say("loan.h."+whole(float64(i+1)))
	}
	return out
}

// measured says where the climate is read, at venues that say where their logger stands too.
func (d Loan) measured() []string {
	out := []string{say("loan.measured")}
	for _, g := range d.Legs {
		if g.Logger != "" && g.Kind == "on show" {
			if s := say("loan.measured.venue", "venue", plainLine(g.Venue), "where", plainLine(g.Logger)); !slices.Contains(out, s) {
				out = append(out, s)
			}
		}
	}
	return out
}

// about are the findings on one panel.
func (d Loan) about(panel string) (out []LoanNote) {
	for _, n := range d.Findings {
		if n.Panel == panel {
			out = append(out, n)
		}
	}
	return out
}

// work describes the panel in size and wood.
func (d Loan) work(p *LoanPanel) []string {
	inch := func(mm float64) string { return oneDecimal(mm / 25.4) }
	cm := func(mm float64) string { return oneDecimal(mm / 10) }
	return []string{plainLine(p.Title), say("loan.size", "number", p.label(), "h", cm(p.HeightMM), "w", cm(p.WidthMM), "hin", inch(p.HeightMM), "win", inch(p.WidthMM), "wood", p.Woods), p.Frame, p.hangs()}
}

// hangs says in which room it hangs; empty where that is not told.
func (p *LoanPanel) hangs() string {
	if p.Room == "" {
		return ""
	}
	return say("loan.room", "room", plainLine(p.Room))
}

// legTable lists the legs.
func (d Loan) legTable() *Table {
	t := &Table{Head: []string{say("loan.col.leg"), say("loan.col.from"), say("loan.col.to"), say("loan.col.where")}}
	for _, g := range d.Legs {
		where := strings.Trim(plainLine(g.Venue)+", "+plainLine(g.Room), ", ")
		if g.InCase {
			where = strings.Trim(where+", "+say("loan.incase"), ", ")
		}
		t.Rows = append(t.Rows, []string{g.Kind, loanDay(g.From), loanDay(g.To), where})
	}
	return t
}

// condition is what is relied on.
func (p *LoanPanel) condition() []string {
	out := []string{say("loan.condition.open")}
	if p.InspectedBy != "" {
		out = []string{say("loan.condition", "who", plainLine(p.InspectedBy), "day", loanDay(p.Inspected))}
	}
	if len(p.Answered) > 0 {
		var parts []string
		for _, a := range p.Answered {
			parts = append(parts, PartWords(a))
		}
		out = append(out, say("loan.condition.answered", "parts", strings.Join(parts, ", "), "who", plainLine(p.AnsweredBy), "day", loanDay(p.AnsweredOn)))
	}
	for _, g := range p.Gates {
		out = append(out, g.Text)
	}
	if len(p.Gates) == 0 {
		out = append(out, say("loan.condition.none"))
	}
	return out
}

// closed says what happens from arrival to hanging.
func (d Loan) closed(t *LoanTerms) []string {
	switch {
	case d.Case == nil:
		return []string{say("loan.close.nocase")}
	case d.Case.SealedShow:
		return []string{say("loan.close.sealed")}
	case t.ClosedHours == nil:
		return []string{say("loan.close.usual", "days", plural("loan.days", int(t.DaysClosed)))}
	}
	return []string{say("loan.close", "days", plural("loan.days", int(t.DaysClosed)), "hours", whole(math.Ceil(*t.ClosedHours)))}
}

// alarmSide is how many readings are listed on each side of the range.
const alarmSide = 4

// alarms is the table of readings outside the range and what to do after which time.
func (d Loan) alarms(p *LoanPanel) sheetItem {
	if len(p.Alarms) == 0 {
		return sheetItem{Lines: []string{say("loan.alarm.none"), say("loan.alarm.slow")}}
	}
	t := &alarmTable{Head: []string{say("loan.alarm.reading")}}
	for _, h := range d.AlarmHours {
		t.Head = append(t.Head, lasting(h))
	}
	var dry, damp []LoanAlarm
	for _, a := range p.Alarms {
		switch {
		case a.RHPct < p.Terms.LowRHPct-1e-9:
			dry = append(dry, a)
		case a.RHPct > p.Terms.HighRHPct+1e-9:
			damp = append(damp, a)
		}
	}
	dry, damp = dry[max(0, len(dry)-alarmSide):], damp[:min(len(damp), alarmSide)]
	for _, a := range append(slices.Clone(dry), damp...) {
		row := alarmRow{Reading: say("loan.alarm.rh", "rh", whole(a.RHPct))}
		for _, h := range d.AlarmHours {
			word := a.word(h)
			row.Cells = append(row.Cells, alarmCell{say("loan.alarm." + word), word})
		}
		t.Rows = append(t.Rows, row)
	}
	return sheetItem{Alarms: t, Lines: []string{say("loan.alarm.how"), say("loan.alarm.slow")}}
}

// word is wait, call or act after so many hours at a reading.
func (a LoanAlarm) word(hours float64) string {
	switch {
	case a.Act != nil && hours >= *a.Act:
		return "act"
	case a.Call != nil && hours >= *a.Call:
		return "call"
	}
	return "wait"
}

func (d Loan) calls() (out []string) {
	for _, c := range d.Contacts {
		var rest []string
		for _, x := range []string{c.Phone, c.Zone, c.Language} {
			if x != "" {
				rest = append(rest, plainLine(x))
			}
		}
		out = append(out, plainLine(c.Name)+": "+strings.Join(rest, ", "))
	}
	return out
}

// display is how it hangs.
func (d Loan) display(p *LoanPanel) []string {
	out := []string{say("loan.display")}
	if p.FrameRoomMM != nil {
		out = append(out, say("loan.display.room", "mm", whole(*p.FrameRoomMM)))
	}
	if c := d.Case; c != nil && c.SealedShow {
		out = append(out, say("loan.display.sealed", "kg", oneDecimal(c.BufferKg)))
	} else {
		out = append(out, say("loan.display.open"))
	}
	return out
}

// journey is how it travels.
func (d Loan) journey(p *LoanPanel) []string {
	if d.Case == nil {
		return []string{say("loan.journey.nocase")}
	}
	rh := d.Case.RHPct
	if rh == 0 {
		rh = p.UsedTo.RHPct
	}
	out := []string{say("loan.journey", "rh", whole(rh), "litres", whole(d.Case.Litres), "kg", oneDecimal(d.Case.BufferKg), "changes", oneDecimal(d.Case.Changes))}
	if d.Case.Assumed {
		out = append(out, say("loan.journey.assumed"))
	}
	return out
}

// inspections say when it is looked at and what counts as change.
func (p *LoanPanel) inspections() []string {
	out := []string{say("loan.inspect")}
	var parts []string
	for _, a := range p.Answered {
		parts = append(parts, PartWords(a))
	}
	for _, g := range p.Gates {
		if g.Part != "" {
			parts = append(parts, PartWords(g.Part))
		}
	}
	if len(parts) > 0 {
		out = append(out, say("loan.inspect.parts", "parts", strings.Join(parts, ", ")))
	}
	low, high := 0.0, 0.0
	for _, g := range p.Legs {
		if g.How != "" {
			low, high = math.Min(low, g.WarpLow), math.Max(high, g.WarpHigh)
		}
	}
	if len(p.Legs) > 0 {
		out = append(out, say("loan.inspect.warp", "hollow", whole(math.Ceil(-low)), "round", whole(math.Ceil(high))))
	}
	return out
}

// back is the return.
func (d Loan) back(p *LoanPanel) []string {
	if p.Terms == nil {
		return []string{say("loan.return.none")}
	}
	return []string{say("loan.return", "rh", whole(p.UsedTo.RHPct), "points", whole(p.Terms.Max24hPct))}
}

// borrowed is what the borrower's records show.
func (d Loan) borrowed() (out []string) {
	for _, k := range d.Borrowers {
		if len(k.Months) > 0 {
			out = append(out, k.words())
		}
		if len(k.Missing) > 0 {
			out = append(out, say("loan.untold.season", "venue", plainLine(k.Venue), "months", strings.Join(k.Missing, ", ")))
		}
	}
	if len(out) == 0 {
		out = []string{say("loan.kept.none")}
	}
	return out
}

// doubt says what was assumed and what would narrow it.
func (p *LoanPanel) doubt(d Loan) []string {
	out := []string{plural("loan.assumed", p.Assumed)}
	for i, f := range p.FindOut {
		if i < 2 {
			out = append(out, say("loan.narrow", "what", f.What, "means", f.Means, "minutes", whole(f.Minutes)))
		}
	}
	for _, n := range d.Undecided {
		if n.Panel == p.Name {
			out = append(out, n.Text)
		}
	}
	return out
}

// signing is the place for the three who agree.
func (d Loan) signing(n int) sheetItem {
	it := sheetItem{Title: say("loan.h." + whole(float64(n))), Sign: []string{say("loan.sign.conservator"), say("loan.sign.lender"), say("loan.sign.borrower")}}
	if d.Status == "draft" {
		it.Lines = []string{say("loan.sign.draft")}
	}
	return it
}
