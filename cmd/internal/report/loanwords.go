package report

import (
	"math"
	"slices"
	"strings"
	"time"

	"crossgrain/panel/loan"
)

// label is how a panel is named: by its number, else by its name in the loan file.
func (p LoanPanel) label() string {
	if n := plainLine(p.Accession); n != "" {
		return n
	}
	return plainLine(p.Name)
}

// manyOf says of how many in 100: one number, or two where the ways of an unknown differ.
func manyOf(few, many *float64) string {
	switch {
	case few == nil || many == nil:
		return say("loan.untold")
	case hundred(*few) == hundred(*many):
		return hundred(*few)
	}
	return say("range.cell", "low", hundred(*few), "high", hundred(*many))
}

// loanDay writes a civil date with its month in letters.
func loanDay(s string) string {
	if t, err := time.Parse(time.DateOnly, s); err == nil {
		return t.Format("2 January 2006")
	}
	return plainLine(s)
}

// notes are the findings, what cannot be told, and what is left to the conservator.
func (d *Loan) notes(r *loan.Result, label map[string]string) {
	find := func(list *[]LoanNote, id, panel, text string) { *list = append(*list, LoanNote{id, panel, text}) }
	for i := range d.Panels {
		p, one := &d.Panels[i], &r.Panels[i]
		name := p.label()
		for _, g := range p.Gates {
			find(&d.Findings, "gate", p.Name, say("loan.find.gate", "panel", name, "text", g.Text))
			find(&d.Ask, "answer", p.Name, asking(name, g, one))
		}
		if f := one.Assessed.Doubt; f != nil && f.Fork != nil {
			key := "loan.untold.fork"
			if len(p.Gates) > 0 {
				key = "loan.untold.depends"
			}
			find(&d.Undecided, "fork", p.Name, say(key, "panel", name, "question", plainLine(f.Fork.Question)))
		}
		if len(p.Gates) > 0 {
			continue
		}
		d.rangeNotes(p, one, find)
		d.legNotes(p, find)
		if r.Loan.Home.Record != "" && p.Home == nil {
			find(&d.Undecided, "home", p.Name, say("loan.untold.home", "panel", name))
		}
		if one.Tight {
			find(&d.Findings, "tight", p.Name, say("loan.find.tight", "panel", name, "points", whole(p.Own.Max24hPct)))
		}
		if one.Closed != "" {
			find(&d.Undecided, "closed", p.Name, say("loan.untold.closed", "panel", name, "why", plainLine(one.Closed)))
		}
		if p.NoAlarms != "" {
			find(&d.Undecided, "alarms", p.Name, say("loan.untold.alarms", "panel", name, "why", plainLine(p.NoAlarms)))
		}
		if len(p.FindOut) > 0 {
			find(&d.Ask, "find_out", p.Name, say("loan.ask.find", "panel", name, "what", p.FindOut[0].What, "means", p.FindOut[0].Means, "minutes", whole(p.FindOut[0].Minutes)))
		}
	}
	if d.Proposed == nil && r.Common != nil && d.OneRoom {
		find(&d.Findings, "common", "", say("loan.find.common", "dry", label[r.Common.LowBy], "low", whole(r.Common.Low.Percent()), "damp", label[r.Common.HighBy], "high", whole(r.Common.High.Percent())))
	}
	for _, room := range r.Rooms {
		if c := room.Common; room.Proposed == nil && c != nil && c.LowBy != c.HighBy {
			find(&d.Findings, "common", "", say("loan.find.room", "room", plainLine(room.Name), "dry", label[c.LowBy], "low", whole(c.Low.Percent()), "damp", label[c.HighBy], "high", whole(c.High.Percent())))
		}
	}
	d.recordNotes(find)
	find(&d.Ask, "examine", "", say("loan.ask.examine"))
	find(&d.Ask, "agree", "", say("loan.ask.agree"))
}

// asking is what the conservator must answer about one finding.
func asking(name string, g Gate, one *loan.PanelResult) string {
	switch {
	case g.ID == "depends":
		f := one.Assessed.Doubt.Fork
		return say("loan.ask.depends", "panel", name, "question", plainLine(f.Question), "means", f.Means, "minutes", whole(f.Minutes))
	case slices.ContainsFunc(one.Gates, func(x loan.Gate) bool { return x.ID == g.ID && x.Part == g.Part && x.Open }):
		return say("loan.ask.answer", "panel", name, "part", PartWords(g.Part))
	}
	return say("loan.ask.gate", "panel", name, "part", PartWords(g.Part))
}

type noting func(list *[]LoanNote, id, panel, text string)

// rangeNotes are about the range of one panel.
func (d *Loan) rangeNotes(p *LoanPanel, one *loan.PanelResult, find noting) {
	name := p.label()
	switch {
	case p.Range == nil:
		find(&d.Findings, "none", p.Name, say("loan.find.none", "panel", name, "n", whole(d.Of100), "rh", whole(p.UsedTo.RHPct)))
		find(&d.Ask, "none", p.Name, say("loan.ask.none", "panel", name))
	case p.Own == nil:
		find(&d.Findings, "narrow", p.Name, say("loan.find.narrow", "panel", name, "low", whole(p.Range.LowRHPct), "high", whole(p.Range.HighRHPct)))
	case p.Terms != nil && p.Lived != nil && (p.Terms.LowRHPct < p.Lived.LowRHPct-1e-9 || p.Terms.HighRHPct > p.Lived.HighRHPct+1e-9):
		find(&d.Findings, "lived", p.Name, say("loan.find.lived", "panel", name, "low", whole(p.Lived.LowRHPct), "high", whole(p.Lived.HighRHPct)))
	}
	if t := p.Terms; t != nil && (p.UsedTo.RHPct < t.LowRHPct-1e-9 || p.UsedTo.RHPct > t.HighRHPct+1e-9) {
		find(&d.Findings, "elsewhere", p.Name, say("loan.find.elsewhere", "panel", name, "rh", whole(p.UsedTo.RHPct)))
	}
	if p.Range == nil || one.Assessed.Doubt == nil {
		return
	}
	for _, w := range one.Assessed.Doubt.Ways {
		for _, r := range w.Ranges {
			if r.Chance == d.Of100 && r.Trusts {
				find(&d.Findings, "past", p.Name, say("loan.find.past", "panel", name))
				return
			}
		}
	}
}

// legNotes tell what each leg asks of one panel.
func (d *Loan) legNotes(p *LoanPanel, find noting) {
	legs := p.Legs
	if p.Home != nil {
		legs = append([]LoanPart{*p.Home}, legs...)
	}
	for _, g := range legs {
		where := legWords(g)
		if g.Bridged > 0 {
			find(&d.Findings, "bridged", p.Name, say("loan.find.bridged", "panel", p.label(), "leg", where, "hours", whole(g.Bridged)))
		}
		switch {
		case g.How == "":
			find(&d.Undecided, "climate", p.Name, say("loan.untold.climate", "panel", p.label(), "leg", where))
		case g.Few == nil:
			find(&d.Undecided, "beyond", p.Name, say("loan.untold.beyond", "panel", p.label(), "leg", where, "low", whole(g.WoodLow), "high", whole(g.WoodHigh)))
		case g.Kind == "home" && g.How == "terms":
			find(&d.Findings, "leg", p.Name, say("loan.find.home", "panel", p.label(), "low", whole(g.WoodLow), "high", whole(g.WoodHigh), "n", manyOf(g.Few, g.Many)))
		case g.Worst == "":
			find(&d.Findings, "leg", p.Name, say("loan.find.leg.nothing", "panel", p.label(), "leg", where, "low", whole(g.WoodLow), "high", whole(g.WoodHigh)))
		default:
			find(&d.Findings, "leg", p.Name, say("loan.find.leg", "panel", p.label(), "leg", where, "low", whole(g.WoodLow), "high", whole(g.WoodHigh),
				"n", manyOf(g.Few, g.Many), "what", CauseWords(g.Worst)))
		}
	}
}

// legWords names a leg in a sentence.
func legWords(g LoanPart) string {
	switch g.Kind {
	case "home", "return":
		return say("loan.leg." + g.Kind)
	}
	return say("loan.leg.named", "kind", g.Kind, "name", plainLine(g.Name))
}

// recordNotes tell what the borrower's records show and what they do not hold.
func (d *Loan) recordNotes(find noting) {
	for _, k := range d.Borrowers {
		if len(k.Missing) > 0 {
			find(&d.Undecided, "season", "", say("loan.untold.season", "venue", plainLine(k.Venue), "months", strings.Join(k.Missing, ", ")))
		}
		if len(k.Months) > 0 {
			find(&d.Findings, "record", "", k.words())
		}
	}
}

// words say what a record of the borrower shows.
func (k LoanKept) words() string {
	s := say("loan.kept", "venue", plainLine(k.Venue), "months", strings.Join(k.Months, ", "), "low", whole(k.LowPct), "high", whole(k.HighPct))
	if k.Max24hPct != nil {
		s += " " + say("loan.kept.day", "points", whole(*k.Max24hPct))
	}
	if k.InsidePct != nil {
		s += " " + say("loan.kept.inside", "range", k.InsideMeasure, "n", ofHundred(*k.InsidePct))
		if *k.LongestHours > 0 {
			s += " " + say("loan.kept.longest", "time", lengthWords(*k.LongestHours), "day", dateWords(k.LongestFrom))
		}
	}
	return s
}

// reasons give one line for each condition. On the sheet of one panel (self) no other panel is named; ""
// is the sheet of all.
func (d *Loan) reasons(t *LoanTerms, label map[string]string, self string) []LoanReason {
	if t == nil {
		return nil
	}
	end := func(by, panel string) string {
		switch {
		case by == "cap":
			return say("loan.why.cap")
		case self != "" && panel != self:
			return say("loan.why.other")
		}
		return say("loan.why.end", "cause", CauseWords(by), "panel", label[panel])
	}
	out := []LoanReason{
		{"low", say("loan.why.low", "rh", whole(t.LowRHPct), "n", whole(d.Of100), "why", end(t.LowBy, t.LowPanel))},
		{"high", say("loan.why.high", "rh", whole(t.HighRHPct), "n", whole(d.Of100), "why", end(t.HighBy, t.HighPanel))},
	}
	who := label[t.DayPanel]
	if self != "" && t.DayPanel != self {
		who = say("loan.why.other.panel")
	}
	day := say("loan.why.day.custom", "panel", who)
	if t.DayByChart {
		day = say("loan.why.day", "panel", who)
	}
	out = append(out, LoanReason{"max_24h", day}, LoanReason{"temperature", say("loan.why.temperature")})
	switch {
	case d.Case == nil:
		out = append(out, LoanReason{"closed", say("loan.why.nocase")})
	case d.Case.SealedShow:
		out = append(out, LoanReason{"closed", say("loan.why.sealed")})
	case t.ClosedHours == nil:
		out = append(out, LoanReason{"closed", say("loan.why.closed.usual")})
	default:
		out = append(out, LoanReason{"closed", say("loan.why.closed", "hours", whole(math.Ceil(*t.ClosedHours)))})
	}
	return out
}

// offer answers one offer: a paragraph that can be pasted into a reply.
func (d *Loan) offer(o loan.Offered, label map[string]string) LoanOffer {
	out := LoanOffer{Text: o.Text, Venue: o.Venue, LowRHPct: o.Low, HighRHPct: o.High, Max24hPct: number(o.Day)}
	quicker := false
	for _, p := range o.Panels {
		one := LoanOfferPanel{Panel: p.Name, Quicker: p.DayExceeded}
		if p.HasNow {
			one.Now = number(p.Now.Many)
		}
		name := label[p.Name]
		switch {
		case !p.Counted:
			out.Answer = append(out.Answer, say("loan.offer.beyond", "panel", name))
		case one.Now == nil:
			one.Then, one.ThenHigh = number(p.Then.Few), number(p.Then.Many)
			out.Answer = append(out.Answer, say("loan.offer.alone", "panel", name, "then", manyOf(one.Then, one.ThenHigh)))
		default:
			one.Then, one.ThenHigh = number(p.Then.Few), number(p.Then.Many)
			key := "loan.offer.panel"
			if hundred(p.Now.Many) == hundred(p.Then.Many) {
				key = "loan.offer.same"
			}
			slots := []string{"panel", name, "then", manyOf(one.Then, one.ThenHigh)}
			if key == "loan.offer.panel" {
				slots = append(slots, "now", hundred(p.Now.Many))
			}
			out.Answer = append(out.Answer, say(key, slots...))
		}
		quicker = quicker || p.DayExceeded
		out.Panels = append(out.Panels, one)
	}
	if quicker {
		out.Answer = append(out.Answer, say("loan.offer.quicker", "points", whole(o.Day)))
	}
	for _, p := range d.Panels {
		if len(p.Gates) > 0 {
			out.Answer = append(out.Answer, say("loan.offer.gated", "panel", p.label()))
		}
	}
	return out
}

// opening are the sentences of the whole loan, three at most: the answer, what decides it, what to do.
func (d *Loan) opening(label map[string]string) []string {
	var gated, with int
	for _, p := range d.Panels {
		switch {
		case len(p.Gates) > 0:
			gated++
		case p.Own != nil:
			with++
		}
	}
	var out []string
	switch t := d.Proposed; {
	case len(d.Panels) == 1 && t != nil:
		out = append(out, say("loan.open.one", "low", whole(t.LowRHPct), "high", whole(t.HighRHPct)))
	case d.OneRoom && t != nil:
		out = append(out, say("loan.open.room", "low", whole(t.LowRHPct), "high", whole(t.HighRHPct), "k", whole(float64(with)), "total", whole(float64(len(d.Panels)))))
		if t.LowPanel == t.HighPanel {
			out = append(out, say("loan.open.decides.both", "panel", label[t.LowPanel]))
		} else {
			out = append(out, say("loan.open.decides", "low", label[t.LowPanel], "high", label[t.HighPanel]))
		}
	case with > 0 && !d.OneRoom:
		out = append(out, say("loan.open.each", "k", whole(float64(with)), "total", whole(float64(len(d.Panels)))))
	case with > 0:
		out = append(out, say("loan.open.apart"))
	default:
		out = append(out, say("loan.open.none"))
	}
	if gated > 0 {
		return append(out, plural("loan.open.gated", gated))
	}
	for _, k := range d.Borrowers {
		switch {
		case len(k.Missing) > 0:
			return append(out, say("loan.open.season", "venue", plainLine(k.Venue)))
		case k.InsidePct != nil && *k.InsidePct < 99.5:
			return append(out, say("loan.open.kept", "venue", plainLine(k.Venue), "n", ofHundred(*k.InsidePct)))
		}
	}
	return append(out, say("loan.open.examine"))
}

// inShort are the sentences of one panel.
func (d *Loan) inShort(p *LoanPanel) []string {
	if len(p.Gates) > 0 {
		return []string{say("loan.short.gate"), p.Gates[0].Text, say("loan.short.gate.ask")}
	}
	t := p.Terms
	if t == nil {
		if p.Range == nil {
			return []string{say("loan.short.none", "rh", whole(p.UsedTo.RHPct)), say("loan.short.gate.ask")}
		}
		return []string{say("loan.short.narrow"), say("loan.short.gate.ask")}
	}
	out := []string{say("loan.short.fits", "low", whole(t.LowRHPct), "high", whole(t.HighRHPct), "n", whole(d.Of100))}
	var worst *LoanPart
	for i := range p.Legs {
		if g := &p.Legs[i]; g.Many != nil && (worst == nil || *g.Many > *worst.Many) {
			worst = g
		}
	}
	switch {
	case worst != nil && *worst.Many >= 0.5:
		out = append(out, say("loan.short.leg", "leg", legWords(*worst), "n", manyOf(worst.Few, worst.Many)))
	case p.Range.LowBy != "cap" || p.Range.HighBy != "cap":
		by := p.Range.LowBy
		if by == "cap" {
			by = p.Range.HighBy
		}
		out = append(out, say("loan.short.decides", "cause", CauseWords(by)))
	default:
		out = append(out, say("loan.short.nothing"))
	}
	if len(p.FindOut) > 0 {
		return append(out, say("loan.short.find", "what", p.FindOut[0].What))
	}
	return append(out, say("loan.open.examine"))
}
