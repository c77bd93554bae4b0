package loan

import (
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
	out.Few, out.Many, ok = assessment.CountOver(d.Maps(), low, high)
	return out, ok
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
