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
	// Start are the months (1 to 12) in which the two stores are nearest to one another; none where neither has a season, or where the
	// wood follows so slowly that the way takes more than half a year and goes by the means of the years.
	Start    []int
	Arrives  int           // month in which it has followed the last step when it begins in the first of Start; 0 where Start is empty
	From, To moisture.RH   // means of the old store in the month in which it begins, of the new one in that in which it arrives; or of their bands
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
	weeks, ok := r.slowWeeks()
	if !ok {
		p.Why = Unknown
		return p
	}
	p.Weeks = weeks
	n := stepsOver(p.From, p.To)
	if from.Record != nil || to.Record != nil {
		n = p.way(a, b)
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
	all := moisture.RH(s.Record.Stats().MeanRH)
	for m, v := range s.Record.Monthly(record.Humidity) {
		if out[m] = moisture.RH(v.Value); math.IsNaN(v.Value) {
			out[m] = all // no readings of that month
		}
	}
	return out
}

// halfYear is in weeks.
const halfYear = 26

// mean is the mean of the months.
func mean(of [12]moisture.RH) (sum moisture.RH) {
	for _, v := range of {
		sum += v / 12
	}
	return sum
}

// stepsOver is how many steps a difference takes; 0: it may be made at once.
func stepsOver(from, to moisture.RH) int {
	by := math.Abs(float64(to - from))
	if by <= atOnce+1e-9 {
		return 0
	}
	return int(math.Ceil(by/stepPoints - 1e-9))
}

// way takes the humidities of the season or, where that has turned before the wood has followed, those of the years; it returns the
// number of steps.
func (p *Plan) way(a, b [12]moisture.RH) int {
	if n := p.season(a, b); n*p.Weeks <= halfYear {
		return n
	}
	p.Start, p.Arrives, p.From, p.To = nil, 0, mean(a), mean(b)
	return stepsOver(p.From, p.To)
}

// season finds the months to begin in and takes the humidities of the first of them; it returns the number of steps. The new store counts
// as it is when the panel arrives there, which for a thick panel is in another season.
func (p *Plan) season(a, b [12]moisture.RH) int {
	var apart [12]float64
	var steps, there [12]int
	for m := range a {
		for there[m] = m; ; { // more steps arrive later; there is an end, because steps only become more
			n := stepsOver(a[m], b[there[m]])
			if n <= steps[m] {
				break
			}
			steps[m] = n
			there[m] = arrival(m, n*p.Weeks)
		}
		apart[m] = math.Abs(float64(a[m] - b[there[m]]))
	}
	p.Start = nearest(apart)
	m := p.Start[0] - 1
	p.Arrives, p.From, p.To = there[m]+1, a[m], b[there[m]]
	return steps[m]
}

// arrival is the month, from 0, that is so many weeks after the middle of a month.
func arrival(month, weeks int) int {
	const perMonth = 365.25 / 7 / 12
	return (month + int(math.Round(float64(weeks)/perMonth))) % 12
}

// nearest lists the months, from 1, in which two stores are within two points of their smallest difference, the one of that first.
func nearest(apart [12]float64) []int {
	best := 0
	for m := range apart {
		if apart[m] < apart[best] {
			best = m
		}
	}
	out := []int{best + 1}
	for m := range apart {
		if m != best && apart[m] <= apart[best]+0.02 {
			out = append(out, m+1)
		}
	}
	return out
}

// slow is how many standard deviations thickness and coatings lie on the slow side: about 5 in 100 are slower.
const slow = 1.645

// slowWeeks is the time to nine tenths and a half of a step, in whole weeks, of the slowest board that the description allows; false where
// that cannot be worked out.
func (r *Row) slowWeeks() (weeks int, ok bool) {
	var longest time.Duration
	for _, z := range [...][]float64{nil, slowest(r.Panel)} {
		o, err := r.Panel.Realise(z)
		if err != nil {
			return 0, false
		}
		c, err := response.Prepare(o, response.Quick)
		if err != nil {
			return 0, false
		}
		boards, err := c.Boards()
		if err != nil {
			return 0, false
		}
		for _, b := range boards {
			longest = max(longest, b.Window)
		}
	}
	return max(1, int(math.Ceil(longest.Hours()/(7*24)-1e-9))), true
}

// slowest moves every thickness and every coating of a panel to the slow side.
func slowest(p *panel.Panel) []float64 {
	inputs := p.Inputs()
	z := make([]float64, len(inputs))
	for i, in := range inputs {
		if strings.Contains(in.Path, ".thickness") || strings.HasSuffix(in.Path, ".vapour_sd_m") {
			z[i] = slow
		}
	}
	return z
}
