package response

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/tables"
)

// fit adds the demand on the room in the frame: how much of the play across the grain the panel
// has used by widening, and of the depth by warping.
func (c *Case) fit(s *State) {
	f := c.o.Frame
	if f == nil {
		return
	}
	if f.ClearWidth > 0 {
		room := f.ClearWidth - c.o.Across // when the fit was measured
		wider := positive(s.Width - c.widthAt(f.ClearRH))
		s.Demands = append(s.Demands, Demand{FrameBound, "frame", wider, math.Max(room, 0.01), "mm", tables.MeasuredHere})
	}
}

// widthAt returns the free change of width at a humidity, from the used-to humidity.
func (c *Case) widthAt(rh moisture.RH) float64 {
	if rh == 0 || rh == c.o.UsedTo {
		return 0
	}
	var w float64
	for i := range c.boards {
		b := &c.boards[i]
		w += b.across(b.mc(rh, c.o.Temperature)-b.used) * b.Width
	}
	return w
}
