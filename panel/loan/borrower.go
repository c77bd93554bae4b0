package loan

import (
	"math"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/moisture/record/terms"
)

// Kept is what the record of a venue shows for the months of a leg, beside what is proposed.
type Kept struct {
	Venue, Leg, Record string
	Months             Months
	Low, High          float64 // lowest and highest humidity of those months, fraction
	P7, P93            float64 // 7th and 93rd percentile
	Inside             float64 // share of the time, 0 to 1, inside the proposed range; NaN without one
	Longest            float64 // h, longest time outside it
	LongestFrom        time.Time
	Day                float64 // largest change within 24 hours, points; NaN where it cannot be told
}

// kept sets the borrower's records beside the proposal, leg by leg; p may be nil.
func (l *Loan) kept(records map[string]*record.Record, p *Proposal) (out []Kept) {
	for _, g := range l.Legs {
		v := l.venue(g.Venue)
		if v == nil || v.Record == "" {
			continue
		}
		k := Kept{Venue: v.Title, Leg: g.Name, Record: v.Record, Months: season(records[v.Record], g.From, g.To), Inside: math.NaN(), Day: math.NaN()}
		if r := k.Months.Piece; r != nil && len(r.Times) > 0 {
			s := r.Stats()
			k.Low, k.High, k.P7, k.P93 = s.MinRH, s.MaxRH, s.RH.P7, s.RH.P93
			if c := r.Change(record.Humidity, 24*time.Hour, record.WithinWindow); c.WhyNot == "" {
				k.Day = 100 * c.Largest
			}
			if p != nil {
				t := terms.Terms{Clauses: []terms.Clause{{Of: record.Humidity, Low: p.Low / 100, High: p.High / 100}}}
				j := t.Judge(r, record.WithinWindow)
				k.Inside, k.Longest, k.LongestFrom = j.Inside, j.Clauses[0].Longest.Hours, j.Clauses[0].Longest.From
			}
		}
		out = append(out, k)
	}
	return out
}
