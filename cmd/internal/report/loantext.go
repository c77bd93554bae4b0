package report

import (
	"io"
	"strings"
)

// WriteText writes the loan for a terminal, no line over 80 columns.
func (d Loan) WriteText(w io.Writer) error {
	t := &textPage{}
	if d.Invented {
		t.paras(say("invented.mark") + ". " + say("invented.sentence"))
		t.line("")
	}
	t.paras(d.heading(), d.parties())
	t.line("")
	for i, s := range d.Sentences {
		t.hang("  "+whole(float64(i+1))+"  ", s)
	}
	if tb := d.panelTable(); len(tb.Rows) > 0 {
		t.titled(say("loan.text.panels"))
		t.rows(tb)
	}
	if d.OneRoom {
		t.conditions(say("loan.text.terms"), d.Proposed, d.Reasons)
	} else {
		for i := range d.Panels {
			t.conditions(say("loan.text.terms.of", "panel", d.Panels[i].label()), d.Panels[i].Terms, d.Panels[i].Notes)
		}
	}
	for _, o := range d.Offers {
		t.titled(say("loan.text.offer", "text", plainLine(o.Text)))
		t.paras(o.Answer...)
	}
	if tb := d.legsTable(); len(tb.Rows) > 0 {
		t.titled(say("loan.text.legs"))
		t.paras(say("loan.legs.lead"))
		t.rows(tb)
	}
	for _, l := range []struct {
		key  string
		list []LoanNote
	}{{"loan.text.findings", d.Findings}, {"loan.text.untold", d.Undecided}, {"loan.text.ask", d.Ask}} {
		list := withoutLegs(l.list)
		if len(list) == 0 {
			continue
		}
		t.titled(say(l.key))
		for _, n := range list {
			t.hang("- ", n)
		}
	}
	t.line("")
	t.paras(d.Cautions...)
	return t.to(w)
}

// heading names the loan, its issue and its state.
func (d Loan) heading() string {
	state := say("loan.status." + d.Status)
	s := say("loan.head", "number", plainLine(d.Number), "issue", whole(float64(d.Issue)), "date", loanDay(d.Date), "state", state)
	return strings.TrimSpace(s + " " + d.Paper.replaces())
}

// parties are title, lender, borrower and dates.
func (d Loan) parties() string {
	var out []string
	for _, x := range [...][2]string{{"loan.lender", d.Lender}, {"loan.borrower", d.Borrower}} {
		if x[1] != "" {
			out = append(out, say(x[0], "name", plainLine(x[1])))
		}
	}
	if d.Title != "" {
		out = append([]string{plainLine(d.Title) + "."}, out...)
	}
	if n := len(d.Legs); n > 0 {
		out = append(out, say("loan.dates", "from", loanDay(d.Legs[0].From), "to", loanDay(d.Legs[n-1].To)))
	}
	return strings.Join(out, " ")
}

// words are the conditions as sentences.
func (t *LoanTerms) words() []string {
	out := []string{say("loan.terms.rh", "low", whole(t.LowRHPct), "high", whole(t.HighRHPct)),
		say("loan.terms.day", "points", whole(t.Max24hPct)), t.temperature()}
	if t.DaysClosed > 0 {
		out = append(out, say("loan.terms.closed", "days", plural("loan.days", int(t.DaysClosed))))
	}
	return out
}

func (t *LoanTerms) temperature() string {
	f := func(c float64) string { return whole(c*1.8 + 32) }
	return say("loan.terms.t", "low", whole(t.TemperatureC[0]), "high", whole(t.TemperatureC[1]), "lowf", f(t.TemperatureC[0]), "highf", f(t.TemperatureC[1]))
}

// panelTable has one row a panel: what comes of it, and the one reason.
func (d Loan) panelTable() Table {
	t := Table{Head: []string{say("loan.col.panel"), say("loan.col.result"), say("loan.col.used"), say("loan.col.range"), say("loan.col.why")}, Align: "  r  "}
	for _, p := range d.Panels {
		result, rng, why := say("loan.result.figures"), "–", ""
		if p.Range != nil {
			rng = between(p.Range.LowRHPct, p.Range.HighRHPct)
			why = CauseWords(p.Range.LowBy)
			if p.Range.LowBy == "cap" {
				why = CauseWords(p.Range.HighBy)
			}
		}
		switch {
		case len(p.Gates) > 0:
			result = say("loan.result.gate")
			var parts []string
			for _, g := range p.Gates {
				parts = append(parts, PartWords(g.Part))
			}
			why = strings.Join(parts, ", ")
		case p.Range == nil:
			result, why = say("loan.result.none"), say("loan.result.none.why")
		case p.Own == nil:
			result = say("loan.result.none")
		}
		t.Rows = append(t.Rows, []string{p.label(), result, whole(p.UsedTo.RHPct), rng, why})
	}
	return t
}

// withoutLegs leaves out what the table of legs tells.
func withoutLegs(notes []LoanNote) (out []string) {
	for _, n := range notes {
		if n.ID != "leg" {
			out = append(out, n.Text)
		}
	}
	return out
}

// legsTable tells what each leg asks of each panel.
func (d Loan) legsTable() Table {
	t := Table{Align: "lllrl", Head: []string{say("loan.col.panel"), say("loan.col.leg"), say("loan.col.wood"), say("loan.col.of100"), say("loan.col.hardest")}}
	for _, p := range d.Panels {
		legs := p.Legs
		if p.Home != nil {
			legs = append([]LoanPart{*p.Home}, legs...)
		}
		for i, g := range legs {
			name := ""
			if i == 0 {
				name = p.label()
			}
			row := []string{name, legWords(g), "–", "–", ""}
			if g.How != "" {
				row[2] = span(whole(g.WoodLow), whole(g.WoodHigh))
				if row[4] = "–"; g.Worst != "" {
					row[4] = CauseWords(g.Worst)
				}
				if g.Few != nil {
					row[3] = manyOf(g.Few, g.Many)
				}
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// conditions are those of one room or of one panel, with their reasons; nothing without any.
func (t *textPage) conditions(title string, terms *LoanTerms, reasons []LoanReason) {
	if terms == nil {
		return
	}
	t.titled(title)
	t.paras(terms.words()...)
	t.line("")
	for _, r := range reasons {
		t.hang("- ", r.Text)
	}
}
