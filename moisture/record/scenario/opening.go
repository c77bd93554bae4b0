package scenario

import (
	"errors"
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/tables"
)

// Stage is a stretch of opening a case in stages.
type Stage struct {
	Exchange float64 // air changes per day, +Inf when it stands open
	Hours    float64 // to wait in this stage; 0 for the last
	From, To moisture.RH
}

// nearEnough is how near the temperature of a case must have come to the room's before it is opened,
// K (common practice asks for a crate at the temperature of the room; the figure is an assumption).
const nearEnough = 1.0

// Opening returns how long to wait, closed and in each further stage (ajar: rising air changes per
// day), so that the humidity in the case nowhere changes by more than perDay (0.5 to 50 points)
// within 24 hours, the moment of opening included. The room stays as it is; the case is first left
// closed until its temperature lies within 1 K of the room's, and changes of humidity count from when
// it has that temperature. Where even the closed case, or a stage that is more open, changes too fast,
// the error says so with the number.
func (c Case) Opening(room Climate, perDay float64, ajar ...float64) ([]Stage, error) {
	if err := c.ready(room); err != nil {
		return nil, err
	}
	if err := tables.InRange("change", perDay, 0.5, 50, "points per 24 h", ""); err != nil {
		return nil, err
	}
	if c.open() {
		return nil, errors.New("the case must be closed, got an infinite air exchange")
	}
	p, d, g, err := c.pair(room, float64(room.T))
	if err != nil {
		return nil, err
	}
	rates := []float64{c.Exchange}
	for _, n := range ajar {
		if err := tables.InRange("air exchange when ajar", n, rates[len(rates)-1], 1e5, "changes per day", "each stage more open than the one before"); err != nil {
			return nil, err
		}
		rates = append(rates, n)
	}
	return c.stages(p, d, g, append(rates, math.Inf(1)), perDay/100)
}

func (c Case) stages(p pair, d, g float64, rates []float64, limit float64) ([]Stage, error) {
	way := course{{p: p, d: d, g: g}}
	if now := way.worst(0); now > limit+1e-9 {
		return nil, fmt.Errorf("even closed the case changes by %.3g points in 24 h; a tighter case or a nearer room is needed", 100*now)
	}
	least := 0.0
	if d := math.Abs(float64(c.Start.T) - p.t); d > nearEnough {
		least = c.Lag * math.Log(d/nearEnough)
	}
	var out []Stage
	for i, n := range rates[:len(rates)-1] {
		from := way[len(way)-1].from
		next := p.with(rates[i+1])
		fits := func(wait float64) bool { return way.then(from+wait, next).worst(from+wait) <= limit+1e-9 }
		wait := least
		if !fits(wait) {
			const longest = 1e6 // h
			if !fits(longest) {
				return nil, fmt.Errorf("at %g air changes per day the case does not come near enough to the room for the next stage", n)
			}
			wait = bisect(wait, longest, fits)
		}
		way, least = way.then(from+wait, next), 0
		out = append(out, Stage{n, wait, way.rh(from), way.rh(from + wait)})
	}
	last := moisture.RH(p.rest)
	return append(out, Stage{math.Inf(1), 0, out[len(out)-1].To, last}), nil
}

// with is the case with another air exchange, changes per day.
func (p pair) with(exchange float64) pair {
	p.leak = exchange / 24 * p.air
	return p
}

// course is the departure of the air from the room over the stages; each begins at an hour.
type course []struct {
	p          pair
	from, d, g float64
}

// then goes over to another air exchange after so many hours.
func (w course) then(hours float64, p pair) course {
	last := w[len(w)-1]
	d, g := last.p.after(last.d, last.g, hours-last.from)
	if math.IsInf(p.leak, 1) {
		d = 0
	}
	next := append(course{}, w...)
	last.p, last.from, last.d, last.g = p, hours, d, g
	return append(next, last)
}

// at is the departure after so many hours; before the first stage it is that of the start. A moment
// of change counts to the stage before.
func (w course) at(hours float64) float64 {
	for i := len(w) - 1; i > 0; i-- {
		if hours > w[i].from {
			d, _ := w[i].p.after(w[i].d, w[i].g, hours-w[i].from)
			return d
		}
	}
	d, _ := w[0].p.after(w[0].d, w[0].g, max(hours, 0))
	return d
}

func (w course) rh(hours float64) moisture.RH { return moisture.RH(w[0].p.rest + w.at(hours)) }

// worst is the greatest change within any 24 hours that hold the given moment, looked at every
// quarter of an hour.
func (w course) worst(moment float64) float64 {
	const (
		day, step = 24.0, 0.25
		justAfter = 1e-9
	)
	most := 0.0
	for s := moment - day; s <= moment; s += step {
		most = max(most, math.Abs(w.at(s+day+justAfter)-w.at(s)))
	}
	return most
}
