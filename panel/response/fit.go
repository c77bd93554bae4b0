package response

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/restraint"
	"crossgrain/tables"
)

// fit adds the demand on the room around the panel: the play across the grain that it uses up by
// widening, the depth that it uses up by warping, and the play of sliders in their notches.
func (c *Case) fit(s *State) {
	if f := c.o.Frame; f != nil && f.ClearWidth > 0 {
		room := f.ClearWidth - c.o.Across // when the fit was measured
		wider := positive(s.Width - c.widthAt(f.ClearRH))
		s.Demands = append(s.Demands, Demand{FrameBound, "frame", wider, math.Max(room, 0.01), "mm", tables.MeasuredHere})
	}
	if f := c.o.Frame; f != nil && f.ClearDepth > 0 {
		var thick float64
		for i := range c.boards {
			thick = math.Max(thick, c.boards[i].Thickness)
		}
		s.Demands = append(s.Demands, Demand{FrameBound, "frame.depth", math.Abs(c.o.Warp + s.Cup), math.Max(f.ClearDepth-thick, 0.01), "mm", tables.Estimate})
	}
	if k := c.o.Cradle; k != nil && k.Play > 0 && k.SliderCount > 0 {
		b := &c.boards[0] // its curve stands for the sliders' wood, which differs little (assumption)
		du := b.mc(s.RH, c.o.Temperature) - b.mc(k.PlayRH, c.o.Temperature)
		if k.PlayRH == 0 {
			du = b.mc(s.RH, c.o.Temperature) - b.used
		}
		left, _ := restraint.NotchPlay(k.Play, k.SliderWidth, (k.SliderWood.SwellR+k.SliderWood.SwellT)/2, float64(du))
		s.Demands = append(s.Demands, Demand{SlotExhausted, "cradle", positive(k.Play - left), k.Play, "mm", tables.Estimate})
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
