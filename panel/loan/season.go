package loan

import (
	"time"

	"crossgrain/moisture/record"
)

// covered is the share of a month of a leg for which readings must stand so that it counts (assumption).
const covered = 0.8

// Months is what a record holds of the months of a stretch of time.
type Months struct {
	YearsBack     int            // the record's months lie so many years before
	Have, Missing []time.Month   // in the order of the stretch, each once
	Piece         *record.Record // of those months, in the record's own times; nil when it has none
}

// season finds the stretch of a record that holds the same months, in the year that it covers best; of
// years alike the latest.
func season(r *record.Record, from, to time.Time) Months {
	out := Months{}
	if r == nil || len(r.Times) == 0 {
		out.Missing = monthsOf(from, to)
		return out
	}
	w := r.Weights(record.Humidity)
	loc := r.Zone
	if loc == nil {
		loc = time.UTC
	}
	best := -1.0
	first, last := r.Times[0].In(loc).Year(), r.Times[len(r.Times)-1].In(loc).Year()
	for year := last; year >= first-(to.Year()-from.Year()); year-- {
		back := from.Year() - year
		share := map[time.Month][2]float64{} // seconds with readings, seconds in all
		total := 0.0
		for at := from; at.Before(to); {
			end := time.Date(at.Year(), at.Month()+1, 1, 0, 0, 0, 0, time.UTC)
			if end.After(to) {
				end = to
			}
			have := weightBetween(r, w, shifted(at, back, loc), shifted(end, back, loc))
			s := share[at.Month()]
			share[at.Month()] = [2]float64{s[0] + have, s[1] + end.Sub(at).Seconds()}
			total += have
			at = end
		}
		if total <= best {
			continue
		}
		best = total
		out = Months{YearsBack: back}
		for _, m := range monthsOf(from, to) {
			if s := share[m]; s[0] >= covered*s[1] {
				out.Have = append(out.Have, m)
			} else {
				out.Missing = append(out.Missing, m)
			}
		}
		if len(out.Have) > 0 {
			out.Piece = only(r.Between(shifted(from, back, loc), shifted(to, back, loc)), out.Have, loc)
		}
	}
	return out
}

// shifted is a civil date so many years earlier, as an instant of the record.
func shifted(t time.Time, back int, loc *time.Location) time.Time {
	return time.Date(t.Year()-back, t.Month(), t.Day(), 0, 0, 0, 0, loc)
}

func weightBetween(r *record.Record, w []float64, from, to time.Time) (s float64) {
	for i, t := range r.Times {
		if !t.Before(from) && t.Before(to) {
			s += w[i]
		}
	}
	return s
}

// only keeps the readings of the months given.
func only(r *record.Record, months []time.Month, loc *time.Location) *record.Record {
	out := &record.Record{Name: r.Name, Zone: r.Zone}
	for i, t := range r.Times {
		for _, m := range months {
			if t.In(loc).Month() != m {
				continue
			}
			out.Times, out.RH = append(out.Times, t), append(out.RH, r.RH[i])
			if r.T != nil {
				out.T = append(out.T, r.T[i])
			}
		}
	}
	return out
}

// monthsOf lists the months of a stretch, each once.
func monthsOf(from, to time.Time) (out []time.Month) {
	seen := map[time.Month]bool{}
	for at := from; at.Before(to); at = time.Date(at.Year(), at.Month()+1, 1, 0, 0, 0, 0, time.UTC) {
		if !seen[at.Month()] {
			seen[at.Month()] = true
			out = append(out, at.Month())
		}
	}
	return out
}
