package survey

import (
	"math"
	"strings"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Plan is how a panel is brought from the climate of one store to that of another: in which months to begin, and by which humidities.
type Plan struct {
	// Start are the months (1 to 12) in which the two stores are nearest to one another; none where neither has a season.
	Start    []int
	From, To moisture.RH   // means of the two stores in the month in which it begins, or of their bands
	Steps    []moisture.RH // humidities to be held one after the other, the last that of the new store; none: at once
	Weeks    int           // at each, until its thickest board has followed, by the slow end of what is not known
	Many     float64       // of 100 such panels reaching a limit anywhere between the two humidities
	Why      Planless      // why there is no plan; "" where there is one
}

// Planless says why there is no plan for a move.
type Planless string

// The reasons.
const (
	Worse   Planless = "worse"   // the way asks more of it than either store
	Unknown Planless = "unknown" // how much the way asks was not counted so far out
)

// Total is how many weeks the move takes.
func (p *Plan) Total() int { return len(p.Steps) * p.Weeks }

// stepPoints is the largest change of humidity in one step, a fraction (working choice: what conservators call a small change,
// common practice); atOnce is the difference below which no steps are needed.
const (
	stepPoints = 0.05
	atOnce     = 0.05
)

// plan makes the plans of all moves.
func (r *Result) plan() {
	for i := range r.Placement.Moves {
		m := &r.Placement.Moves[i]
		m.Plan = r.Rows[m.Row].plan(&r.Stores.List[m.From], &r.Stores.List[m.To], max(m.Was, m.Is))
	}
}

// plan makes the plan of one panel. staying is how many of 100 reach a limit in the worse of the two stores.
func (r *Row) plan(from, to *Store, staying float64) Plan {
	a, b := from.months(), to.months()
	p := Plan{From: a[0], To: b[0]}
	if from.Record != nil || to.Record != nil {
		p.Start = nearest(a, b)
		p.From, p.To = a[p.Start[0]-1], b[p.Start[0]-1]
	}
	low, high := min(p.From, p.To), max(p.From, p.To)
	_, many, ok := assessment.CountOver(r.maps, low, high)
	switch p.Many = many; {
	case !ok:
		p.Why = Unknown
		return p
	case many > staying+moveCost:
		p.Why = Worse
		return p
	}
	p.Weeks = r.slowWeeks()
	if high-low <= atOnce {
		return p
	}
	n := int(math.Ceil(float64((high-low)/stepPoints) - 1e-9))
	for k := 1; k <= n; k++ {
		p.Steps = append(p.Steps, p.From+(p.To-p.From)*moisture.RH(k)/moisture.RH(n))
	}
	return p
}

// months is the mean humidity of a store in each month, January first: of its record, or the middle of its band.
func (s *Store) months() (out [12]moisture.RH) {
	for m := range out {
		out[m] = (s.Low + s.High) / 2
	}
	if s.Record == nil {
		return out
	}
	mean := moisture.RH(s.Record.Stats().MeanRH)
	for m, v := range s.Record.Monthly(record.Humidity) {
		if out[m] = moisture.RH(v.Value); math.IsNaN(v.Value) {
			out[m] = mean // no readings of that month
		}
	}
	return out
}

// nearest lists the months in which two stores are within two points of their smallest difference, the one of that first.
func nearest(a, b [12]moisture.RH) []int {
	best := 0
	apart := func(m int) float64 { return math.Abs(float64(a[m] - b[m])) }
	for m := range a {
		if apart(m) < apart(best) {
			best = m
		}
	}
	out := []int{best + 1}
	for m := range a {
		if m != best && apart(m) <= apart(best)+0.02 {
			out = append(out, m+1)
		}
	}
	return out
}

// slow is how many standard deviations the thickness lies on the slow side: about 5 in 100 are slower.
const slow = 1.645

// slowWeeks is the time to nine tenths and a half of a step, in whole weeks, of the thickest board that the description allows.
func (r *Row) slowWeeks() int {
	week := func(z []float64) time.Duration {
		var longest time.Duration
		o, err := r.Panel.Realise(z)
		if err != nil {
			return 0
		}
		c, err := response.Prepare(o, response.Quick)
		if err != nil {
			return 0
		}
		boards, err := c.Boards()
		if err != nil {
			return 0
		}
		for _, b := range boards {
			longest = max(longest, b.Window)
		}
		return longest
	}
	longest := max(week(nil), week(thick(r.Panel)))
	return max(1, int(math.Ceil(longest.Hours()/(7*24)-1e-9)))
}

// thick moves every thickness of a panel to the slow side.
func thick(p *panel.Panel) []float64 {
	inputs := p.Inputs()
	z := make([]float64, len(inputs))
	for i, in := range inputs {
		if strings.HasSuffix(in.Path, "thickness_mm") {
			z[i] = slow
		}
	}
	return z
}
