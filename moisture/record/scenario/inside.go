package scenario

import (
	"fmt"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/tables"
)

// Condensation is a stretch of time in which water stands as liquid in a case.
type Condensation struct {
	From, To time.Time
	Most     float64 // g of liquid at the worst; 0 in an open case, where it is not counted
	Ends     bool    // false: there is liquid at the end of the record
}

// Balance is what became of the water of a case, g, over a record.
type Balance struct {
	Before, After float64 // in air, buffer and wood, and liquid
	CameIn        float64 // through leaks, negative when it went out
}

// Result is the climate in a case and what happened on the way.
type Result struct {
	Record       *record.Record
	Condensation []Condensation
	Balance      Balance
}

// Inside returns the climate in the case at the readings of a room; see [Case.Run].
func (c Case) Inside(room *record.Record) (*record.Record, error) {
	res, err := c.Run(room)
	return res.Record, err
}

// Run works out the climate in the case at every reading of the room. Between readings the room goes
// evenly from one to the next, over gaps too, which the notes say. The steps are implicit (second
// order, L-stable), as fine as the quickest thing in the case asks, so that any interval of readings
// will do; water is kept to rounding. Where the case is saturated, humidity stays at 100 %, what is
// too much is held as liquid that evaporates again, and Condensation and the notes say when.
//
// The record needs a temperature at every reading; those and all numbers of the case outside their
// ranges are errors.
func (c Case) Run(room *record.Record) (Result, error) {
	if err := c.Validate(); err != nil {
		return Result{}, err
	}
	if err := usable(room); err != nil {
		return Result{}, err
	}
	out := blank("in the case, "+room.Name, len(room.Times))
	out.Zone, out.Times = room.Zone, append(out.Times, room.Times...)
	w := newWalk(c, room)
	res := Result{Record: out, Balance: Balance{Before: w.water()}}
	for i := range room.Times {
		if i > 0 {
			w.interval(room, i)
		}
		out.RH, out.T = append(out.RH, w.h), append(out.T, w.t)
		res.Condensation = wet(res.Condensation, room.Times, i, w.liquid, w.dew)
	}
	res.Balance.After, res.Balance.CameIn = w.water(), w.in
	c.remarks(res, room)
	return res, nil
}

func usable(room *record.Record) error {
	switch {
	case room == nil || len(room.Times) < 2:
		return fmt.Errorf("the room's record needs at least two readings")
	case len(room.RH) != len(room.Times) || len(room.T) != len(room.Times):
		return fmt.Errorf("the room's record needs a humidity and a temperature at every reading: the balance of a case hangs on both")
	}
	for i, at := range room.Times {
		if err := tables.InRange("humidity of the room", 100*room.RH[i], 0, 100, "%", at.String()); err != nil {
			return err
		}
		if err := tables.InRange("temperature of the room", room.T[i], coldest, hottest, "°C", at.String()); err != nil {
			return err
		}
		if i > 0 && !at.After(room.Times[i-1]) {
			return fmt.Errorf("times of the room's record must rise, got %s after %s", at, room.Times[i-1])
		}
	}
	return nil
}

// wet adds reading i to the stretches with liquid.
func wet(list []Condensation, times []time.Time, i int, liquid float64, dew bool) []Condensation {
	n := len(list)
	running := n > 0 && !list[n-1].Ends
	switch is := liquid > 0 || dew; {
	case is && running:
		list[n-1].To, list[n-1].Most = times[i], max(list[n-1].Most, liquid)
	case is:
		list = append(list, Condensation{From: times[i], To: times[i], Most: liquid})
	case running:
		list[n-1].Ends = true
	}
	return list
}

func (c Case) remarks(res Result, room *record.Record) {
	r := res.Record
	note(r, "", "computed climate in a closed case: %g L of air, %g air changes per day, buffer %g kg at %g g per kg and point, wood %g kg, temperature lag %g h, closed at %s",
		c.Volume, c.Exchange, c.Buffer.Mass, c.Buffer.Capacity, c.Wood.Mass, c.Lag, c.Start)
	for _, g := range room.Gaps() {
		note(r, "", "the room has no readings from %s to %s; taken as going evenly", g.From, g.To)
	}
	for _, w := range res.Condensation {
		note(r, "RH", "water condenses in the case from %s to %s%s", w.From, w.To, w.amount())
	}
	r.Notes = append(r.Notes, room.Notes...)
}

func (w Condensation) amount() string {
	if w.Most == 0 {
		return ""
	}
	return fmt.Sprintf(", up to %.2g g", w.Most)
}
