package loan

import (
	"context"
	"fmt"
	"math"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Inputs are the files that a loan names, read.
type Inputs struct {
	Panels  map[string]*panel.Panel
	Records map[string]*record.Record
	Samples assessment.Samples // Held must be at least assessment.Fewest
}

// Proposal are the conditions that can be agreed. % RH, points, °C, days.
type Proposal struct {
	Low, High   float64
	LowBy       string // mode:part or "cap"
	HighBy      string
	LowOf       string // name of the panel that sets the end
	HighOf      string
	Day         float64
	DayOf       string
	ByChart     bool
	TLow, THigh float64
	Days        float64 // closed in the case from arrival; 0 without a case
	Hours       float64 // calculated; NaN where it was not
}

// PanelResult is what the loan asks of one panel.
type PanelResult struct {
	Panel
	Gates    []Gate // not empty: no figures
	Assessed *assessment.Result
	Range    *Range // calculated, for the chance asked for; nil where there is none
	Proposed *Proposal
	Tight    bool   // even the least change within a day is more than the chart allows
	Closed   string // why no time closed could be calculated
	Home     *LegResult
	Legs     []LegResult
	Alarms   []Alarm
}

// Result is the answer for a loan.
type Result struct {
	Loan   *Loan
	Panels []PanelResult
	Shared        // of all panels
	Rooms  []Room // those that panels name, in the order of the file
	Kept   []Kept
	Offers []Offered
}

// Shared is what some panels have in common.
type Shared struct {
	Common   *Range    // what those with a range share, before rounding; Low above High when nothing
	Proposed *Proposal // nil where there is none
}

// Room is a room that panels name.
type Room struct {
	Name string
	Shared
}

// Assess works the loan out. The error names the panel or the record that cannot be used.
func (l *Loan) Assess(ctx context.Context, in Inputs) (*Result, error) {
	out := &Result{Loan: l}
	for _, p := range l.Panels {
		r, err := l.panel(ctx, p, in)
		if err != nil {
			return nil, fmt.Errorf("panel %s (%s): %w", p.Name, p.File, err)
		}
		out.Panels = append(out.Panels, *r)
	}
	out.share()
	for i := range out.Panels {
		out.Panels[i].Alarms = heeded(out.Panels[i].Alarms, out.For(&out.Panels[i]))
	}
	out.Kept = l.kept(in.Records, out.Proposed)
	out.Offers = l.offers(out)
	return out, nil
}

// counted are the humidities that panels are assessed over: those in which ranges are told.
const countedLow, countedHigh = moisture.RH(0.30), moisture.RH(0.70)

// panel works one panel out.
func (l *Loan) panel(ctx context.Context, p Panel, in Inputs) (*PanelResult, error) {
	described := in.Panels[p.File]
	o, err := described.Realise(nil)
	if err != nil {
		return nil, err
	}
	if err := strayAnswers(o, p.Answered); err != nil {
		return nil, err
	}
	out := &PanelResult{Panel: p, Gates: gates(described, o, p.Answered)}
	if len(out.Gates) > 0 {
		out.Assessed = &assessment.Result{Panel: described, Object: o, Gates: described.Gates()}
		return out, nil
	}
	q := assessment.Question{Low: countedLow, High: countedHigh, Setting: response.Coarse, Samples: in.Samples}
	enclosed, err := q.Panel(described)
	if err != nil {
		return nil, err
	}
	if l.Case != nil {
		q.Case, q.Room = l.caseOf(enclosed), l.opensIn(in.Records, o.UsedTo)
	}
	if out.Assessed, err = assessment.Assess(ctx, described, q); err != nil {
		return nil, err
	}
	if g := depends(out.Assessed.Doubt); g != nil {
		out.Gates = []Gate{*g}
		return out, nil
	}
	if out.Home, err = l.atHome(ctx, out.Assessed, in.Records); err != nil {
		return nil, err
	}
	if out.Legs, err = l.through(ctx, out.Assessed, enclosed, in.Records); err != nil {
		return nil, err
	}
	out.Range = rangeFor(out.Assessed.Doubt, l.Chance)
	out.Alarms = alarmsOf(out.Assessed.Wait)
	l.propose(out)
	return out, nil
}

// opensIn is the humidity of the room in which the case is opened: the mean of the first two weeks on
// show, or the end of the terms farther from what the panel is used to; 0 where nothing tells it or the
// panel stays in its case.
func (l *Loan) opensIn(records map[string]*record.Record, used moisture.RH) moisture.RH {
	for _, g := range l.Legs {
		if g.Kind != OnShow {
			continue
		}
		a := l.outside(g, records, 20)
		if g.InCase || a.how == "" || len(a.dry) == 0 {
			return 0
		}
		first := min(len(a.dry), 14*24)
		var dry, damp float64
		for i := range first {
			dry, damp = dry+a.dry[i]/float64(first), damp+a.damp[i]/float64(first)
		}
		if math.Abs(dry-float64(used)) > math.Abs(damp-float64(used)) {
			return moisture.RH(dry)
		}
		return moisture.RH(damp)
	}
	return 0
}

// propose makes the conditions of one panel from its range.
func (l *Loan) propose(r *PanelResult) {
	if r.Range == nil {
		return
	}
	low, high, ok := r.Range.Held()
	if !ok {
		return
	}
	p := &Proposal{Low: low, High: high, LowBy: r.Range.LowBy, HighBy: r.Range.HighBy, LowOf: r.Name, HighOf: r.Name, DayOf: r.Name}
	p.Day, p.ByChart, r.Tight = changeFor(r.Assessed.Wait, high-low)
	p.TLow, p.THigh = temperatureFor(r.Assessed.Object.Temperature)
	p.Hours = math.NaN()
	if l.Case != nil {
		p.Days = usualClosedDays
		if w := r.Assessed.Wait; w != nil && w.Closed != nil {
			if r.Closed = w.Closed.Why; r.Closed == "" {
				p.Hours = w.Closed.Time.Hours()
				p.Days = max(p.Days, math.Ceil(p.Hours/24-1e-9))
			}
		}
	}
	r.Proposed = p
}

// share finds what all panels have in common, and those of each room that panels name.
func (r *Result) share() {
	r.Shared = r.together(func(*PanelResult) bool { return true })
	for _, p := range r.Panels {
		if p.Room != "" && r.room(p.Room) == nil {
			r.Rooms = append(r.Rooms, Room{p.Room, r.together(func(o *PanelResult) bool { return o.Room == p.Room })})
		}
	}
}

// room finds a room by its name; nil where no panel named it so far.
func (r *Result) room(name string) *Room {
	for i := range r.Rooms {
		if r.Rooms[i].Name == name {
			return &r.Rooms[i]
		}
	}
	return nil
}

// together finds the conditions of the panels that are there: the range they share, the smallest change, the
// temperatures they share, the longest time closed. A panel without figures takes no part.
func (r *Result) together(there func(*PanelResult) bool) (out Shared) {
	var p *Proposal
	for i := range r.Panels {
		one := &r.Panels[i]
		if !there(one) || one.Range == nil || len(one.Gates) > 0 {
			continue
		}
		if out.Common == nil {
			out.Common = &Range{one.Range.Low, one.Range.High, one.Name, one.Name}
		} else {
			out.Common = out.Common.and(Range{one.Range.Low, one.Range.High, one.Name, one.Name})
		}
		if one.Proposed == nil {
			continue
		}
		if p == nil {
			c := *one.Proposed
			p = &c
			continue
		}
		p.join(one.Proposed)
	}
	if p == nil || out.Common == nil {
		return out
	}
	low, high, ok := out.Common.Held()
	if !ok || p.TLow > p.THigh {
		return out
	}
	p.Low, p.High = low, high
	p.LowOf, p.HighOf = out.Common.LowBy, out.Common.HighBy
	for i := range r.Panels {
		if one := &r.Panels[i]; one.Range != nil && one.Name == p.LowOf {
			p.LowBy = one.Range.LowBy
		}
		if one := &r.Panels[i]; one.Range != nil && one.Name == p.HighOf {
			p.HighBy = one.Range.HighBy
		}
	}
	for p.Day > high-low && p.Day > changes[len(changes)-1] {
		p.Day--
	}
	out.Proposed = p
	return out
}

// join takes the stricter of two proposals, apart from the range.
func (p *Proposal) join(o *Proposal) {
	if o.Day < p.Day {
		p.Day, p.DayOf, p.ByChart = o.Day, o.DayOf, o.ByChart
	}
	p.TLow, p.THigh = max(p.TLow, o.TLow), min(p.THigh, o.THigh)
	if o.Days > p.Days {
		p.Days, p.Hours = o.Days, o.Hours
	}
}

// For returns the conditions of one panel: those of all in its room, else its own.
func (r *Result) For(p *PanelResult) *Proposal {
	switch {
	case len(p.Gates) > 0 || p.Range == nil:
		return nil
	case r.Loan.OneRoom:
		return r.Proposed
	case p.Room != "":
		return r.room(p.Room).Proposed
	}
	return p.Proposed
}

// Months lists the months of all legs, for the season of the loan.
func (l *Loan) Months() []time.Month {
	return monthsOf(l.Legs[0].From, l.Legs[len(l.Legs)-1].To)
}
