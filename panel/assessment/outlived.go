package assessment

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/response"
)

// Outlived is what the panel has lived through, as far as it moves the chart of waiting times.
type Outlived struct {
	Low, High moisture.RH // the range in which it counts, and not beyond
	Dry, Damp bool        // whether it moves the figures on that side
	Against   bool        // the calculation says that hardly a panel of this description would have passed it: it is not counted
	used      moisture.RH
	dry, damp map[key]offset
}

// offset is where a share stands in its doubt, once what the panel has lived through is counted: standard normals of the middle, and
// of the distance from there that is one standard deviation.
type offset struct{ middle, wide float64 }

// outlived weighs the doubt of each part by the panel having passed its climate unchanged, as [held.survival] weighs realisations: at
// the ends of that climate the wood is taken to have made between half of a season's change and all of it. Nil where that is no evidence.
func (r *Result) outlived(d *doubt) *Outlived {
	l := r.Panel.Lived()
	if l.Low == 0 || l.Why != "" {
		return nil
	}
	o := &Outlived{Low: l.Low, High: l.High, used: r.Object.UsedTo}
	var ok [2]bool
	o.dry, ok[0] = r.offsets(d, l.Low)
	o.damp, ok[1] = r.offsets(d, l.High)
	if o.Against = !ok[0] || !ok[1]; o.Against {
		o.dry, o.damp = nil, nil
	}
	o.Dry, o.Damp = len(o.dry) > 0 && l.Low < r.Object.UsedTo, len(o.damp) > 0 && l.High > r.Object.UsedTo
	return o
}

// offsets are those of the parts whose doubt the panel having passed a humidity narrows; false where hardly any of it is left.
func (r *Result) offsets(d *doubt, rh moisture.RH) (map[key]offset, bool) {
	out := map[key]offset{}
	at := nearestState(r.Sweep, rh)
	if at == nil {
		return out, true
	}
	for j, dem := range at.Demands {
		if !dem.Mode.SetsRange() || dem.Unlimited() {
			continue
		}
		by, left := passed(dem.Share(), d.at(at.RH, j, dem))
		if left < leastLeft {
			return nil, false
		}
		if by != (offset{0, 1}) {
			out[key{dem.Mode, dem.Part}] = by
		}
	}
	return out, true
}

// nearestState finds the state of a humidity that stands on the grid.
func nearestState(states []State, rh moisture.RH) *State {
	for i := range states {
		if math.Abs(float64(states[i].RH-rh)) < 1e-6 {
			return &states[i]
		}
	}
	return nil
}

// leastLeft is how much of the doubt of a part must agree with the past at least, or they contradict one another: as few realisations
// of a thousand.
const leastLeft = few / 1000.0

// passed weighs the doubt of a share over a season by the panel having passed it, see [survives]; left is how much of the doubt agrees.
func passed(share float64, s spread) (by offset, left float64) {
	const far, step = 4.0, 0.02
	const n = int(2*far/step) + 1
	var sums [n]float64
	var all float64
	for i := range n {
		z := -far + step*float64(i)
		weight := math.Exp(-z * z / 2)
		all += weight
		left += weight * survives(max(s.high(share, z), 1e-9))
		sums[i] = left
	}
	if left >= all*(1-1e-6) {
		return offset{0, 1}, 1
	}
	at := func(part float64) float64 {
		for i := range n {
			if sums[i] >= part*left {
				return -far + step*float64(i)
			}
		}
		return far
	}
	middle := at(0.5)
	return offset{middle, (at(0.95) - middle) / z95}, left / all
}

// topIn returns the greatest share of the modes that set the range while the air reads rh, the spread of its doubt, and which it is.
// Inside the climate that the panel has lived through its past counts.
func (o *Outlived) topIn(d *doubt, s *response.State, rh moisture.RH) (share float64, wide spread, by string) {
	most := 0.0
	for j, dem := range s.Demands {
		if !dem.Mode.SetsRange() || dem.Share() <= 0 {
			continue
		}
		v, w := dem.Share(), d.at(s.RH, j, dem)
		if off, ok := o.at(rh, key{dem.Mode, dem.Part}); ok {
			v, w = max(0, w.high(v, off.middle)), spread{w.log * off.wide, w.add * off.wide}
		}
		if v > most {
			most, share, wide, by = v, v, w, string(dem.Mode)+":"+dem.Part
		}
	}
	return share, wide, by
}

// at is the offset of a part at a reading; false where the past says nothing of it.
func (o *Outlived) at(rh moisture.RH, k key) (offset, bool) {
	if o == nil || rh < o.Low-1e-9 || rh > o.High+1e-9 {
		return offset{}, false
	}
	side := o.damp
	if rh < o.used {
		side = o.dry
	}
	off, ok := side[k]
	return off, ok
}
