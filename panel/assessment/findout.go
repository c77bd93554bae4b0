package assessment

import (
	"math"
	"slices"

	"crossgrain/panel"
)

// FindOut is something about the panel that is not known, can be found out, and matters.
type FindOut struct {
	panel.Input
	Share float64 // of the doubt of the part that decides, 0 to 1
}

// findOut lists what can be measured about the panel, that which matters most to the part that
// works hardest first. It never lists what touches the paint.
func (d *doubt) findOut(p *panel.Panel, worst []Worst) []FindOut {
	k := slices.IndexFunc(worst, func(w Worst) bool { return w.Mode.SetsRange() && !w.Unlimited() && w.Share() > 0 })
	if k < 0 {
		return nil
	}
	w := worst[k]
	g := d.nearest(float64(w.RH))
	j := place(d.states[g].Demands, 0, w.Demand)
	if j < 0 {
		return nil
	}
	share := w.Share()
	var all float64
	out := make([]FindOut, 0, len(d.part))
	for i, in := range p.Inputs() {
		q := d.part[i][g][j]
		v := q.log*q.log + (q.add/share)*(q.add/share)
		all += v
		if in.Measurable && v > 0 {
			out = append(out, FindOut{in, v})
		}
	}
	for i := range out {
		out[i].Share /= all
	}
	slices.SortStableFunc(out, func(a, b FindOut) int {
		switch {
		case a.Share > b.Share:
			return -1
		case a.Share < b.Share:
			return 1
		}
		return 0
	})
	return out
}

// nearest returns the place in the grid nearest to a humidity.
func (d *doubt) nearest(rh float64) int {
	best := 0
	for i := range d.grid {
		if math.Abs(float64(d.grid[i])-rh) < math.Abs(float64(d.grid[best])-rh) {
			best = i
		}
	}
	return best
}
