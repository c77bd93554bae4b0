package assessment

import (
	"time"

	"crossgrain/moisture"
	"crossgrain/panel"
)

// Enclosure is a closed case with a panel in it.
type Enclosure interface {
	// After returns the humidity in the case when it has stood closed for a time in a room that stays
	// as it is.
	After(in Enclosed, room moisture.RH, closed time.Duration) (moisture.RH, error)
	// Opening returns how long it takes to open the case little by little in the room, so that its
	// humidity nowhere changes by more than so many points within 24 hours.
	Opening(in Enclosed, room moisture.RH, perDay float64) (time.Duration, error)
}

// Enclosed is the panel in the case, as its air feels it.
type Enclosed struct {
	From     moisture.RH // in balance with which case and panel begin
	T        moisture.Celsius
	WoodKg   float64 // dry
	Isotherm moisture.Isotherm
	Follows  time.Duration // time constant with which the wood comes to balance
}

// Closed is how long it takes to open a case little by little in another room.
type Closed struct {
	Room   moisture.RH
	PerDay float64 // points by which the humidity in the case may change within 24 hours
	Time   time.Duration
	Why    string // why there is no time, in words; empty when there is one
}

// openingPerDay is the change of humidity within a day that opening may bring, in points (assumption).
const openingPerDay = 5

// enclosed is the panel as the air of a case feels it.
func (r *Result) enclosed(from moisture.RH) Enclosed {
	var slowest time.Duration
	for _, b := range r.Windows {
		slowest = max(slowest, b.Window)
	}
	return Enclosed{
		From: from, T: r.Object.Temperature, Isotherm: r.Object.Boards[0].Sorption.Mean,
		WoodKg:  r.Carried.WeightKg / 1.1, // about 10 % of it is water
		Follows: slowest / 3,              // 95 in 100 come in three time constants
	}
}

// air is the humidity at the panel after a change of the reading from one humidity to another.
func (w *Wait) air(r *Result, from, to moisture.RH) func(time.Duration) (moisture.RH, error) {
	if w.around == nil {
		return func(time.Duration) (moisture.RH, error) { return to, nil }
	}
	in := r.enclosed(from)
	return func(t time.Duration) (moisture.RH, error) { return w.around.After(in, to, t) }
}

// opening works out how long it takes to open the case in the room asked about.
func (r *Result) opening(q Question) *Closed {
	out := &Closed{Room: q.Room, PerDay: openingPerDay}
	var err error
	if out.Time, err = q.Case.Opening(r.enclosed(r.Object.UsedTo), q.Room, openingPerDay); err != nil {
		out.Why = err.Error()
	}
	return out
}

// Panel is the panel as the air of a case feels it, in balance with the humidity it is used to.
func (q Question) Panel(p *panel.Panel) (Enclosed, error) {
	o, err := p.Realise(nil)
	if err != nil {
		return Enclosed{}, err
	}
	c, err := q.prepare(o)
	if err != nil {
		return Enclosed{}, err
	}
	r := Result{Object: o}
	if r.Windows, err = c.Boards(); err != nil {
		return Enclosed{}, err
	}
	if r.Carried, err = c.Carried(); err != nil {
		return Enclosed{}, err
	}
	return r.enclosed(o.UsedTo), nil
}
