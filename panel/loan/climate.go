package loan

import (
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/scenario"
	"crossgrain/moisture/record/terms"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Working choices where a loan file says nothing (assumptions; the air changes of a plain case are
// common practice, those of a showcase the upper figure of a trade page, see scenario.Leakages; the
// capacity is the low end for silica gel about 50 % RH, from memory).
const (
	changesAssumed  = 1.0  // a day, of a travelling case; the looser end counts as cautious
	crateLag        = 6.0  // h, with which the temperature of a case follows
	bufferGrams     = 2.0  // g per kg and point of RH
	transitDry      = 0.20 // humidity outside a case on the way, where nobody knows it
	transitDamp     = 0.80
	leadDays        = 2  // at home before the first leg
	returnDays      = 60 // at home after the last
	bridgeHours     = 24 // longest gap of a record that is bridged by a straight line
	openPerDay      = 5.0
	usualClosedDays = 1 // 24 hours from arrival, common practice
)

// humidityOf returns the range of humidity of terms; low is above high where they have none.
func humidityOf(t terms.Terms) (low, high float64) {
	for _, c := range t.Clauses {
		if c.Of == record.Humidity && c.Window == 0 && !math.IsInf(c.Low, 0) && !math.IsInf(c.High, 0) {
			return c.Low, c.High
		}
	}
	return 1, 0
}

// dayOf returns the change of humidity within 24 hours that terms allow, points, read as the largest
// difference of two readings; NaN where they name none.
func dayOf(t terms.Terms) float64 {
	for _, c := range t.Clauses {
		if c.Of == record.Humidity && c.Window == 24*time.Hour {
			if c.Signed {
				return 200 * c.Most
			}
			return 100 * c.Most
		}
	}
	return math.NaN()
}

// air is the climate around a panel or its case over a leg, hour by hour. dry and damp are the same
// where a record tells it.
type air struct {
	from      time.Time
	dry, damp []float64
	t         []float64
	how       string // record, terms, assumed; "" when it cannot be told
	months    Months
	bridged   float64 // h
}

// outside returns the climate of a leg outside any case.
func (l *Loan) outside(g Leg, records map[string]*record.Record, t moisture.Celsius) air {
	n := int(g.To.Sub(g.From).Hours())
	a := air{from: g.From}
	p := l.place(g)
	held := func(low, high float64, how string) {
		a.how = how
		for range n {
			a.dry, a.damp, a.t = append(a.dry, low), append(a.damp, high), append(a.t, float64(t))
		}
	}
	if p.Record != "" {
		a.months = season(records[p.Record], g.From, g.To)
		if len(a.months.Missing) == 0 && a.hourly(n, t) {
			a.how = "record"
			return a
		}
	}
	switch low, high := humidityOf(p.Terms); {
	case p.Text != "":
		held(low, high, "terms")
	case g.Kind == Transit && g.InCase && l.Case != nil:
		held(transitDry, transitDamp, "assumed")
	}
	return a
}

// hourly reads the piece of the record off hour by hour, by straight lines; false where a gap is longer
// than may be bridged.
func (a *air) hourly(n int, t moisture.Celsius) bool {
	r := a.months.Piece
	loc := r.Zone
	if loc == nil {
		loc = time.UTC
	}
	start := shifted(a.from, a.months.YearsBack, loc)
	k := 0
	for h := range n {
		at := start.Add(time.Duration(h) * time.Hour)
		for k < len(r.Times)-1 && !r.Times[k+1].After(at) {
			k++
		}
		j := min(k+1, len(r.Times)-1)
		if !r.Times[k].Before(at) {
			j = k
		}
		f, gap := 0.0, r.Times[j].Sub(r.Times[k]).Hours()
		if j > k {
			f = min(at.Sub(r.Times[k]).Hours()/gap, 1)
		}
		if away := math.Abs(at.Sub(r.Times[k]).Hours()); gap > bridgeHours || j == k && away > bridgeHours {
			return false
		}
		if gap > 2 {
			a.bridged++
		}
		v := r.RH[k] + f*(r.RH[j]-r.RH[k])
		warm := float64(t)
		if r.T != nil && !math.IsNaN(r.T[k]) {
			warm = r.T[k]
			if !math.IsNaN(r.T[j]) {
				warm += f * (r.T[j] - r.T[k])
			}
		}
		a.dry, a.damp, a.t = append(a.dry, v), append(a.damp, v), append(a.t, warm)
	}
	return true
}

// around is the case of the loan as the panel inside feels it.
type around struct{ scenario.Case }

// caseOf returns the case with one panel in it, conditioned.
func (l *Loan) caseOf(in assessment.Enclosed) around {
	c := l.Case
	if c == nil {
		return around{}
	}
	out := scenario.Case{
		Volume: c.Litres, Exchange: c.Changes, Lag: crateLag, Start: scenario.Climate{RH: in.From, T: in.T},
		Wood: scenario.Wood{Mass: in.WoodKg, Isotherm: in.Isotherm, Hours: min(1e5, max(0.1, in.Follows.Hours()))},
	}
	if c.BufferKg > 0 {
		out.Buffer = scenario.Buffer{Mass: c.BufferKg, Capacity: bufferGrams}
	}
	if c.Conditioned > 0 {
		out.Start.RH = c.Conditioned
	}
	return around{out}
}

func (c around) with(in assessment.Enclosed) scenario.Case {
	out := c.Case
	out.Start = scenario.Climate{RH: in.From, T: in.T}
	return out
}

// After and Opening make it an [assessment.Enclosure].
func (c around) After(in assessment.Enclosed, room moisture.RH, closed time.Duration) (moisture.RH, error) {
	inside, err := c.with(in).After(scenario.Climate{RH: room, T: in.T}, closed.Hours())
	return inside.RH, err
}

// Opening opens the case little by little.
func (c around) Opening(in assessment.Enclosed, room moisture.RH, perDay float64) (time.Duration, error) {
	var ajar []float64
	for _, v := range [...]float64{1, 3, 10, 30, 100, 300} {
		if v >= 1.5*c.Exchange {
			ajar = append(ajar, v)
		}
	}
	stages, err := c.with(in).Opening(scenario.Climate{RH: room, T: in.T}, perDay, ajar...)
	var hours float64
	for _, s := range stages {
		hours += s.Hours
	}
	return time.Duration(hours * float64(time.Hour)), err
}

// inside takes a course of air into the case.
func (c around) inside(rh, t []float64, from time.Time) ([]float64, error) {
	r := &record.Record{Name: "leg"}
	for i := range rh {
		r.Times = append(r.Times, from.Add(time.Duration(i)*time.Hour))
	}
	r.RH, r.T = rh, t
	in, err := c.Inside(r)
	if err != nil {
		return nil, err
	}
	return in.RH, nil
}

// course is a climate in even hours.
type course struct {
	from  time.Time
	rh, t []float64
	home  bool // the climate that the panel lives in, which it is run in to
}

// partHours is the longest part of a course away from home that is handed over in one piece: a year or
// more at about the used-to humidity would be taken for the home climate.
const partHours = 300 * 24

// RunningMean is not asked of a course that is followed.
func (c course) RunningMean(window time.Duration) (low, mid, high float64, err error) {
	r := &record.Record{RH: c.rh}
	for i := range c.rh {
		r.Times = append(r.Times, c.from.Add(time.Duration(i)*time.Hour))
	}
	return r.RunningMean(window)
}

// Even returns the means over even steps of whole hours.
func (c course) Even(step time.Duration) ([]response.Stretch, error) {
	n := int(step.Hours())
	var out []response.Stretch
	s := response.Stretch{Start: c.from}
	for i := 0; i+n <= len(c.rh); i += n {
		if !c.home && len(s.RH)*n >= partHours {
			out = append(out, s)
			s = response.Stretch{Start: c.from.Add(time.Duration(i) * time.Hour)}
		}
		var rh, t float64
		for k := range n {
			rh, t = rh+c.rh[i+k], t+c.t[i+k]
		}
		s.RH, s.T = append(s.RH, rh/float64(n)), append(s.T, t/float64(n))
	}
	return append(out, s), nil
}
