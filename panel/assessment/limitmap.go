package assessment

import (
	"cmp"
	"math"
	"slices"

	"crossgrain/moisture"
)

// LimitMap counts for every pair of a low and a high limit.
type LimitMap struct {
	Low, High []moisture.RH // Low falls from the used-to humidity, High rises
	Of100     [][]float64   // [low][high]
}

// limitMap counts on a grid of limits.
func (l *limited) limitMap(low, high moisture.RH) LimitMap {
	used := l.h.grid[l.used]
	m := LimitMap{Low: l.limitsTo(used, low), High: l.limitsTo(used, high)}
	for _, lo := range m.Low {
		row := make([]float64, len(m.High))
		for k, hi := range m.High {
			row[k] = l.between(lo, hi).Of100
		}
		m.Of100 = append(m.Of100, row)
	}
	return m
}

// limitsTo are the limits of the map, every two points, and close on both sides of the end of what the panel has lived through, where
// its past ceases to count.
func (l *limited) limitsTo(from, to moisture.RH) []moisture.RH {
	const step, beyond = 0.02, 0.001
	sign := moisture.RH(1)
	past := l.w.evidence.Lived.High
	if to < from {
		sign, past = -1, l.w.evidence.Lived.Low
	}
	out := []moisture.RH{from}
	for rh := from + sign*step; sign*(to-rh) > 1e-9; rh += sign * step {
		out = append(out, rh)
	}
	out = append(out, to)
	if l.w.evidence.Survival && sign*(past-from) > 0 && sign*(to-past) > beyond {
		out = append(out, past, past+sign*beyond)
	}
	slices.SortFunc(out, func(a, b moisture.RH) int { return cmp.Compare(sign*a, sign*b) })
	return slices.Compact(out)
}

// Over is how many of 100 reach a limit between two humidities and the used-to one, by straight lines between the limits of the map; false
// beyond those.
func (m *LimitMap) Over(low, high moisture.RH) (of100 float64, ok bool) {
	if len(m.Low) == 0 || len(m.High) == 0 {
		return 0, false
	}
	i, f, ok := within(m.Low, min(low, m.Low[0]))
	j, g, fine := within(m.High, max(high, m.High[0]))
	if !ok || !fine {
		return 0, false
	}
	at := func(i, j int) float64 { return m.Of100[min(i, len(m.Low)-1)][min(j, len(m.High)-1)] }
	return (1-f)*((1-g)*at(i, j)+g*at(i, j+1)) + f*((1-g)*at(i+1, j)+g*at(i+1, j+1)), true
}

// within finds a humidity among limits that rise or fall: between which two it lies, and how far on its way.
func within(limits []moisture.RH, at moisture.RH) (i int, part float64, ok bool) {
	const rounding = 1e-9
	for i := range len(limits) - 1 {
		a, b := float64(limits[i]), float64(limits[i+1])
		if p := (float64(at) - a) / (b - a); p >= -rounding && p <= 1+rounding {
			return i, min(max(p, 0), 1), true
		}
	}
	last := len(limits) - 1
	return last, 0, math.Abs(float64(at-limits[last])) < rounding
}

// CountOver is that of maps for all ways in which an unknown may turn out: the fewest and the most; false where one cannot be told.
func CountOver(maps []LimitMap, low, high moisture.RH) (few, many float64, ok bool) {
	for i := range maps {
		n, ok := maps[i].Over(low, high)
		if !ok {
			return 0, 0, false
		}
		if i == 0 {
			few, many = n, n
		}
		few, many = min(few, n), max(many, n)
	}
	return few, many, len(maps) > 0
}

// Maps are the maps of limits of all ways.
func (d *Doubt) Maps() (out []LimitMap) {
	for i := range d.Ways {
		out = append(out, d.Ways[i].Map)
	}
	return out
}
