package panel

import (
	"math"

	"crossgrain/tables"
)

// warpPoints is how near to the humidity that the panel is used to a warp must have been measured to be that of the settled
// panel, points of relative humidity (working choice).
const warpPoints = 3

// warp takes the present shape from what was observed nearest to the humidity the panel is used to; of two as near, the first
// in the file. It is the shape of rest, on top of which the calculated warp comes. Where something touches the panel and none
// was measured, taking it as flat is an assumption.
func (d *draft) warp() {
	var best Observation
	near := math.Inf(1)
	for _, s := range d.p.observed() {
		if off := math.Abs(s.RH.Percent() - d.nominal); s.HasCup && off <= warpPoints+1e-9 && off < near {
			best, near = s, off
		}
	}
	if d.o.WarpKnown = !math.IsInf(near, 1); !d.o.WarpKnown {
		if len(d.o.Battens) > 0 || d.o.Cradle != nil || d.o.Frame != nil {
			d.note(Assumption{
				Path: "observed.cup_mm", What: "present warp", Unit: "mm", Grade: tables.Estimate,
				Text: "present warp: not measured near the humidity it is used to, taken as 0 mm (assumption: flat)",
			})
		}
		return
	}
	k := d.o.Across / best.Over // a parabola: it goes with the square of the chord
	d.o.Warp = k * k * d.number(part{table: "observed", name: best.Name}, "cup_mm", "history", guess{})
}
