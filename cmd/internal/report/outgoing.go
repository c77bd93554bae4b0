package report

import (
	"fmt"
	"slices"
)

// Outgoing is the loan as the borrower of panel i may have it: nothing of other panels, no paths, nothing of where a panel is kept or of
// what the lender weighs among themselves.
func (d Loan) Outgoing(i int) Loan {
	p := d.Panels[i]
	d.Paper = d.Sheet(i)
	d.Status = d.Paper.Status
	of := func(n LoanNote) bool { return n.Panel != p.Name }
	keep := func(list []LoanNote) []LoanNote { return slices.DeleteFunc(slices.Clone(list), of) }
	d.Findings, d.Undecided, d.Ask = keep(d.Findings), keep(d.Undecided), keep(d.Ask)
	d.Proposed, d.Reasons, d.Sentences, d.Offers, d.Inputs = p.Terms, p.Notes, p.Sentences, nil, d.Paper.Inputs
	d.Proposed = p.Terms.without(p.Name)
	d.Borrowers = slices.Clone(d.Borrowers)
	for k := range d.Borrowers {
		d.Borrowers[k].Record = ""
	}
	p.File, p.Terms = "", p.Terms.without(p.Name)
	d.Panels = []LoanPanel{p}
	return d
}

// without are the terms on the paper of one panel: what other panels set is not told by whom.
func (t *LoanTerms) without(self string) *LoanTerms {
	if t == nil {
		return nil
	}
	out := *t
	for _, end := range []struct{ panel, by *string }{{&out.LowPanel, &out.LowBy}, {&out.HighPanel, &out.HighBy}, {&out.DayPanel, nil}} {
		if *end.panel == self {
			continue
		}
		if *end.panel = ""; end.by != nil {
			*end.by = ""
		}
	}
	return &out
}

// Outgoing is the assessment as a borrower may have it: no words about where it is kept, no paths.
func (a Assess) Outgoing() Assess {
	a.UsedTo.Words = ""
	a.NotUsed = nil
	if a.Record != nil {
		r := *a.Record
		r.File = ""
		a.Record = &r
	}
	return a
}

// Outgoing is the event sheet of panel i alone, without its place and without paths.
func (f FaultEvent) Outgoing(i int) FaultEvent {
	p := f.Panels[i]
	p.Accession, p.Place, p.File = f.called(i), "", ""
	f.Name, f.Record.File = p.Accession, ""
	f.Panels, f.Failed = []EventPanel{p}, nil
	f.PanelDigest = p.Digest
	return f
}

// called is the number of a panel, or its place in the list where it has none: never its file.
func (f FaultEvent) called(i int) string {
	if n := plainLine(f.Panels[i].Accession); n != "" {
		return n
	}
	return say("event.called", "n", fmt.Sprint(i+1))
}
