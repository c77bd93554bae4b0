package fault

import (
	"context"
	"errors"
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Event is what a panel did in a record, by calculation.
type Event struct {
	Panel *panel.Panel
	Gates []panel.Gate
	Start moisture.RH // in balance with which it was taken to begin
	Lived bool        // the record is long enough to be its home: it was run in through the first year
	Parts []Part      // what worked hardest, greatest share first
	Slow  Slow
}

// Part is one part at its worst moment.
type Part struct {
	Demand    response.Demand
	Band      assessment.Band
	RH        moisture.RH // in balance with the wood then, mean over the width
	Time      time.Time
	First     time.Time // when its share first reached the limit; zero: never
	Before    bool      // its share was beyond the limit already when the event began
	Season    float64   // share if the mean of the record stayed for a season
	HasSeason bool
}

// Slow is what belongs to months and years and not to the event.
type Slow struct {
	Mean moisture.RH // in balance with the wood in the middle of the record
	Set  float64     // largest strain left by crushing at the end of the record
}

// leastTold is the share of a limit from which a part is listed: from there on it is to call.
const leastTold = 0.5

// mostTold are the parts that are listed at most.
const mostTold = 5

// Follow takes a panel through a record and lists what worked hardest from a moment on; what the record
// holds before leads up to it, so that the panel does not begin in a balance that it was not in. A zero
// moment is the beginning of the record. At least one part is listed where anything was loaded at all.
func Follow(ctx context.Context, p *panel.Panel, rec *record.Record, since time.Time) (*Event, error) {
	if rec == nil {
		return nil, errors.New("an event needs a record")
	}
	r, err := assessment.Assess(ctx, p, assessment.Question{Record: rec, Since: since, Setting: response.Coarse})
	if err != nil {
		return nil, err
	}
	e := &Event{Panel: p, Gates: r.Gates, Start: r.Object.UsedTo}
	if r.Year != nil {
		e.Lived = r.Year.Lived
		for _, b := range r.Year.Boards {
			e.Slow.Set = max(e.Slow.Set, math.Abs(b.Set[0]), math.Abs(b.Set[1]))
		}
	}
	middle := middleOf(r.States)
	if middle != nil {
		e.Slow.Mean = middle.RH
	}
	for _, w := range r.Worst {
		if !w.Mode.SetsRange() || w.Unlimited() || w.Share() <= 0 || len(e.Parts) == mostTold || w.Share() < leastTold && len(e.Parts) > 0 {
			continue
		}
		part := Part{Demand: w.Demand, Band: w.Band, RH: w.RH, Time: w.Time, First: w.First}
		part.Before = r.Year != nil && !w.First.IsZero() && since.After(rec.Times[0]) && w.First.Sub(since) <= r.Year.Step
		part.Season, part.HasSeason = shareIn(middle, w.Demand)
		e.Parts = append(e.Parts, part)
	}
	return e, nil
}

// middleOf finds the panel at the mean of the record, held for a season.
func middleOf(states []assessment.State) *assessment.State {
	for i := range states {
		if states[i].Label == "middle" {
			return &states[i]
		}
	}
	return nil
}

// shareIn returns the share of the same mode and part in a state.
func shareIn(s *assessment.State, like response.Demand) (float64, bool) {
	if s == nil {
		return 0, false
	}
	for _, d := range s.Demands {
		if d.Mode == like.Mode && d.Part == like.Part {
			return d.Share(), !d.Unlimited()
		}
	}
	return 0, false
}
