package cli

import (
	"math"
	"time"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/terms"
)

// outside are the strips of the terms, one a clause.
func outside(meta figure.Meta, start time.Time, st *study, doc *report.RoomRecord) figure.Outside {
	o := figure.Outside{Meta: meta, Start: start}
	for i, v := range st.verdicts {
		for k, r := range v.Clauses {
			c := doc.Terms[i].Clauses[k]
			s := figure.Strip{Name: c.Words, Note: c.Note()}
			if len(st.verdicts) > 1 && v.Terms.Source != "" {
				s.Name = v.Terms.Name + ": " + s.Name
			}
			s.Above, s.Below = dayShares(st.rec, r.Of, r.Side)
			if math.IsInf(r.Low, -1) || r.Window > 0 {
				s.Below = nil
			}
			o.Strips = append(o.Strips, s)
		}
	}
	return o
}

// dayShares sorts readings that lie above (+1), below (-1) or inside (0) a clause into civil days: the
// share of each day's judged time above and below. A day on which nothing was judged is NaN on both
// sides.
func dayShares(rec *record.Record, q record.Quantity, side []int8) (above, below []float64) {
	n := len(rec.Times)
	if n == 0 {
		return nil, nil
	}
	first := rec.Civil(0)
	days := dayOf(first, rec.Civil(n-1)) + 1
	if days < 1 || days > mostDays {
		return nil, nil
	}
	above, below = make([]float64, days), make([]float64, days)
	whole := make([]float64, days)
	w := rec.Weights(q)
	for i := range rec.Times {
		d := dayOf(first, rec.Civil(i))
		if d < 0 || d >= days || side[i] == terms.NotJudged {
			continue
		}
		whole[d] += w[i]
		switch {
		case side[i] > 0:
			above[d] += w[i]
		case side[i] < 0:
			below[d] += w[i]
		}
	}
	for d := range whole {
		if whole[d] == 0 {
			above[d], below[d] = math.NaN(), math.NaN()
			continue
		}
		above[d] /= whole[d]
		below[d] /= whole[d]
	}
	return above, below
}
