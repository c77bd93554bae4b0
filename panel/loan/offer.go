package loan

import (
	"math"

	"crossgrain/moisture"
)

// Offered is what an offer changes.
type Offered struct {
	Text, Venue string  // venue: "" of the whole loan
	Low, High   float64 // % RH
	Day         float64 // points within 24 hours; NaN where it names none
	Panels      []OfferedPanel
}

// OfferedPanel is one panel under an offer.
type OfferedPanel struct {
	Name        string
	Now, Then   Of100 // of 100 that reach a limit: in what is proposed, and in what is offered
	HasNow      bool
	Counted     bool // false: the offer goes beyond the humidities that were counted
	DayExceeded bool // the offer allows a quicker change than is proposed
}

// offers answers the terms of the loan and those of each venue.
func (l *Loan) offers(res *Result) (out []Offered) {
	add := func(text, venue string, place Place) {
		low, high := humidityOf(place.Terms)
		o := Offered{Text: text, Venue: venue, Low: 100 * low, High: 100 * high, Day: dayOf(place.Terms)}
		for i := range res.Panels {
			if r := &res.Panels[i]; r.Proposed != nil || r.Assessed.Doubt != nil && len(r.Gates) == 0 {
				o.Panels = append(o.Panels, r.under(o, res.For(r)))
			}
		}
		out = append(out, o)
	}
	if l.Offer != "" {
		add(l.Offer, "", Place{Text: l.Offer, Terms: l.Offered})
	}
	for _, v := range l.Venues {
		if v.Text != "" {
			add(v.Text, v.Title, v.Place)
		}
	}
	return out
}

// under counts one panel in what is proposed for it, and in an offer.
func (r *PanelResult) under(o Offered, p *Proposal) OfferedPanel {
	out := OfferedPanel{Name: r.Name}
	if p == nil {
		p = r.Proposed
	}
	if p != nil {
		out.Now, out.HasNow = countOver(r.Assessed.Doubt, moisture.Percent(p.Low), moisture.Percent(p.High))
		out.DayExceeded = !math.IsNaN(o.Day) && o.Day > p.Day+1e-9
	}
	out.Then, out.Counted = countOver(r.Assessed.Doubt, moisture.Percent(o.Low), moisture.Percent(o.High))
	return out
}
