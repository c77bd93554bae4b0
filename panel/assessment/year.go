package assessment

import (
	"context"
	"fmt"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel/response"
)

// along follows the record hour by hour and keeps of it what the report needs: each mode and part at
// its worst, with its time, and the driest, the middle and the dampest state of the wood.
type along struct {
	year         *response.Year
	worst        []timed
	driest, damp response.State
	any          bool
	low, high    moisture.RH
	since        time.Time // what was before only leads up to it
}

// timed is a demand with the state it was found in.
type timed struct {
	response.Demand
	rh    moisture.RH
	time  time.Time
	first time.Time   // when its share first reached 1; zero: never
	at    moisture.RH // then
}

func followed(ctx context.Context, c *response.Case, q Question) (*along, error) {
	a := &along{low: 1, since: q.Since}
	var err error
	a.year, err = c.Follow(ctx, course{q.Record}, a)
	if err == nil && !a.any {
		err = fmt.Errorf("the record has no step after %s to tell of", q.Since.Format("2 Jan 2006 15:04"))
	}
	return a, err
}

// Take keeps what stands out of one state.
func (a *along) Take(s *response.State) error {
	if s.Time.Before(a.since) {
		return nil
	}
	for _, rh := range s.BoardRH {
		a.low, a.high = min(a.low, rh), max(a.high, rh)
	}
	if !a.any || s.MC < a.driest.MC {
		a.driest = *s
	}
	if !a.any || s.MC > a.damp.MC {
		a.damp = *s
	}
	a.any = true
	for j, d := range s.Demands {
		t := timed{Demand: d, rh: s.RH, time: s.Time}
		if d.Share() >= 1 {
			t.first, t.at = s.Time, s.RH
		}
		a.keep(j, t)
	}
	return nil
}

// keep takes a demand if it is the worst of its mode and part so far; j is where it is likely to stand.
func (a *along) keep(j int, t timed) {
	if j >= len(a.worst) || !a.worst[j].same(t) {
		for j = range a.worst {
			if a.worst[j].same(t) {
				break
			}
		}
		if j >= len(a.worst) || !a.worst[j].same(t) {
			a.worst = append(a.worst, t)
			return
		}
	}
	w := &a.worst[j]
	if !w.first.IsZero() && (t.first.IsZero() || w.first.Before(t.first)) {
		t.first, t.at = w.first, w.at
	}
	if t.Share() > w.Share() || t.Unlimited() && t.Value > w.Value {
		*w = t
	}
	w.first, w.at = t.first, t.at
}

func (t timed) same(o timed) bool { return t.Mode == o.Mode && t.Part == o.Part }

// states are the three states that are told in full.
func (a *along) states(c *response.Case, d *doubt) ([]State, error) {
	var mean moisture.RH
	days := 0
	for _, day := range a.year.Days {
		if day.Time.AddDate(0, 0, 1).After(a.since) {
			mean += moisture.RH(day.RH[0]+day.RH[1]) / 2
			days++
		}
	}
	middle, err := c.Settle([]moisture.RH{mean / moisture.RH(days)})
	if err != nil {
		return nil, err
	}
	a.driest.Label, middle[0].Label, a.damp.Label = "driest", "middle", "dampest"
	var out []State
	for _, s := range []response.State{a.driest, middle[0], a.damp} {
		out = append(out, State{State: s, Bands: d.bands(&s)})
	}
	return out, nil
}

// worstOf lists each mode and part at its worst moment with its doubt.
func (a *along) worstOf(d *doubt) []Worst {
	out := make([]Worst, 0, len(a.worst))
	for j, t := range a.worst {
		out = append(out, Worst{Demand: t.Demand, Band: d.at(t.rh, j, t.Demand).band(t.Share()), RH: t.rh, Time: t.time, First: t.first, FirstRH: t.at})
	}
	byShare(out)
	return out
}
