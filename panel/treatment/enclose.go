package treatment

import (
	"fmt"
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/scenario"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

// Air changes a day by how tight a case is, in words (assumption; well made show-cases are told with 0.1 to 0.2, plain
// ones with one to several, common practice).
var changes = map[string]float64{"sealed": 0.2, "ordinary": 4, "open": 100}

// What stands in for a case that is not described (assumptions).
const (
	aroundPanel = 10.0 // mm of air on each side of the panel
	behindPanel = 20.0 // mm of air before and behind it, together
	bufferGrams = 2.0  // water that a kilogram of buffer takes up, g per point: the low end for silica gel about 50 % RH (memory)
)

// Enclosure is a closed case with the panel in it.
type Enclosure struct {
	Litres, Changes, BufferKg float64
	Seal                      string
	Guessed                   bool          // volume or seal is not said
	Half, Settles             time.Duration // it goes half way, nearly all the way, to the humidity of the room; 100 years at most
	at                        scenario.Case
}

// kept says that a panel is kept in a case of which enough is told: its volume. An open one is none.
func kept(p *panel.Panel) bool {
	_, ok := p.Number("enclosure.volume_l")
	return ok && p.Text("enclosure.seal") != "open"
}

// enclose makes the case that the file describes.
func enclose(p *panel.Panel, q assessment.Question) (*Enclosure, error) {
	in, err := q.Panel(p)
	if err != nil {
		return nil, err
	}
	o, err := p.Realise(nil)
	if err != nil {
		return nil, err
	}
	var e Enclosure
	if e.Seal = p.Text("enclosure.seal"); changes[e.Seal] == 0 {
		e.Seal, e.Guessed = "ordinary", true
	}
	e.Changes = changes[e.Seal]
	if v, ok := p.Number("enclosure.volume_l"); ok {
		e.Litres = v.Nominal
	} else {
		e.Litres, e.Guessed = (o.Across+2*aroundPanel)*(o.Along+2*aroundPanel)*behindPanel*1e-6, true
	}
	if v, ok := p.Number("enclosure.buffer_kg"); ok {
		e.BufferKg = v.Nominal
	}
	e.at = scenario.Case{
		Volume: max(0.1, e.Litres), Exchange: e.Changes, Start: scenario.Climate{RH: in.From, T: in.T},
		Wood: scenario.Wood{Mass: in.WoodKg, Isotherm: in.Isotherm, Hours: min(1e5, max(0.1, in.Follows.Hours()))},
	}
	if e.BufferKg > 0 {
		e.at.Buffer = scenario.Buffer{Mass: e.BufferKg, Capacity: bufferGrams}
	}
	half, err := e.at.HalfTime()
	if err != nil {
		return nil, fmt.Errorf("the case: %w", err)
	}
	hours := func(h float64) time.Duration { return time.Duration(min(h, 100*365*24) * float64(time.Hour)) }
	e.Half, e.Settles = hours(half), hours(half*math.Log(20)/math.Ln2) // 95 in 100
	return &e, nil
}

// inside is the climate in the case. Where the room's temperature is not known it is taken to stay.
func (e *Enclosure) inside(room *record.Record) (*record.Record, error) {
	with := *room
	with.T = make([]float64, len(room.RH))
	last := float64(e.at.Start.T)
	for i := range with.T {
		if i < len(room.T) && !math.IsNaN(room.T[i]) {
			last = room.T[i]
		}
		with.T[i] = last
	}
	out, err := e.at.Inside(&with)
	if err != nil {
		return nil, fmt.Errorf("the case: %w", err)
	}
	return out, nil
}

// air is what the panel meets when the room changes at once; in no case the room itself.
func (e *Enclosure) air(from, to moisture.RH, t moisture.Celsius) func(time.Duration) (moisture.RH, error) {
	if e == nil {
		return func(time.Duration) (moisture.RH, error) { return to, nil }
	}
	c := e.at
	c.Start = scenario.Climate{RH: from, T: t}
	return func(d time.Duration) (moisture.RH, error) {
		in, err := c.After(scenario.Climate{RH: to, T: t}, d.Hours())
		return in.RH, err
	}
}
