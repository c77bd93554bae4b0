package loan

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/assessment"
)

// Of100 is how many of 100 such panels reach a limit: the fewest and the most over the ways in which an
// unknown may turn out.
type Of100 struct{ Few, Many float64 }

// countOver reads off how many reach a limit between two humidities and the used-to one; ok is false
// beyond the humidities that were counted.
func countOver(d *assessment.Doubt, low, high moisture.RH) (out Of100, ok bool) {
	if d == nil || len(d.Ways) == 0 {
		return out, false
	}
	for i := range d.Ways {
		n, ok := readMap(&d.Ways[i].Map, low, high)
		if !ok {
			return Of100{}, false
		}
		if i == 0 {
			out = Of100{n, n}
		}
		out = Of100{min(out.Few, n), max(out.Many, n)}
	}
	return out, true
}

// readMap goes by straight lines between the limits of the map.
func readMap(m *assessment.LimitMap, low, high moisture.RH) (float64, bool) {
	if len(m.Low) == 0 || len(m.High) == 0 {
		return 0, false
	}
	i, f, ok := between(m.Low, min(low, m.Low[0]))
	j, g, fine := between(m.High, max(high, m.High[0]))
	if !ok || !fine {
		return 0, false
	}
	at := func(i, j int) float64 { return m.Of100[min(i, len(m.Low)-1)][min(j, len(m.High)-1)] }
	return (1-f)*((1-g)*at(i, j)+g*at(i, j+1)) + f*((1-g)*at(i+1, j)+g*at(i+1, j+1)), true
}

// between finds a humidity among limits that rise or fall.
func between(limits []moisture.RH, at moisture.RH) (i int, f float64, ok bool) {
	const rounding = 1e-9
	for i := range len(limits) - 1 {
		a, b := float64(limits[i]), float64(limits[i+1])
		if f := (float64(at) - a) / (b - a); f >= -rounding && f <= 1+rounding {
			return i, math.Min(math.Max(f, 0), 1), true
		}
	}
	last := len(limits) - 1
	return last, 0, math.Abs(float64(at-limits[last])) < rounding
}

// rangeFor returns the range for a chance of n in 100, of ways that differ the part they share; nil
// where there is none.
func rangeFor(d *assessment.Doubt, n float64) *Range {
	if d == nil {
		return nil
	}
	var out *Range
	for i := range d.Ways {
		for _, r := range d.Ways[i].Ranges {
			switch {
			case r.Chance != n:
			case r.None:
				return nil
			case out == nil:
				out = &Range{r.Low, r.High, r.LowBy, r.HighBy}
			default:
				out = out.and(Range{r.Low, r.High, r.LowBy, r.HighBy})
			}
		}
	}
	return out
}
