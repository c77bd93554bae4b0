package survey

import (
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel/assessment"
)

// Curve is how many panels need a better room against the width of its band.
type Curve struct {
	Middle moisture.RH // of every band: the middle of what the panels are used to
	Panels int         // that are counted
	Steps  []Step
}

// Step is one width of the band.
type Step struct {
	Width     moisture.RH
	Low, High moisture.RH
	Need      int   // panels of which more than 5 of 100 would reach a limit in it
	New       []int // rows that join at this width
}

// curve counts, by the maps of the panels, which reach from 30 to 70 % RH.
func (r *Result) curve() {
	const step, widest = 4, 40 // points
	var rows []int
	var used []float64
	for i := range r.Rows {
		if row := &r.Rows[i]; len(row.maps) > 0 && !row.unfigured && row.Failed == "" && len(row.Also) < 2 {
			rows, used = append(rows, i), append(used, float64(row.UsedTo))
		}
	}
	if len(rows) == 0 {
		return
	}
	slices.Sort(used)
	mid := moisture.Percent(math.Round(100 * used[len(used)/2]))
	c := Curve{Middle: min(max(mid, 0.40), 0.60), Panels: len(rows)}
	need := map[int]bool{}
	for w := step; w <= widest; w += step {
		s := Step{Width: moisture.Percent(float64(w))}
		s.Low, s.High = c.Middle-s.Width/2, c.Middle+s.Width/2
		if s.Low < countedLow-1e-9 || s.High > countedHigh+1e-9 {
			break
		}
		for _, i := range rows {
			if _, many, ok := assessment.CountOver(r.Rows[i].maps, s.Low, s.High); ok && many > someOf100 && !need[i] {
				need[i] = true
				s.New = append(s.New, i)
			}
		}
		s.Need = len(need)
		c.Steps = append(c.Steps, s)
	}
	r.Curve = c
}
