package treatment

import (
	"context"
	"math"
	"slices"
	"strings"
	"time"

	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Letting is how much of what holds the panel lets go.
type Letting string

// How much.
const (
	LetsNothing Letting = "nothing" // nothing that holds it is changed, or nothing holds it
	LetsPart    Letting = "part"    // something that held it stays: between nothing and all
	LetsAll     Letting = "all"     // everything that held it goes, whatever is put in its place later
	LetsUnknown Letting = "unknown" // members go, but what comes back is not worked out (closed forms)
)

// Stage is what has come by a time after the work: changes from the moment before it, least and greatest, mm.
type Stage struct {
	When        string // at_once two_days half_year first_year
	Warp, Width [2]float64
}

// letGo is what the panel as it is does when everything across its grain comes off, at the end of the record, or else of
// a made year between the ends of the range, in the climate it lives in. Nil where nothing holds it or at setting quick.
func letGo(ctx context.Context, a *assessment.Result) (*response.LetGo, error) {
	switch {
	case a.Year != nil:
		return a.Year.LetGo, nil
	case a.Setting == response.Quick:
		return nil, nil
	}
	c, err := response.Prepare(a.Object, a.Setting)
	if err != nil {
		return nil, err
	}
	if c.Refine() != "" { // told by the answer
		return nil, nil
	}
	y, err := c.Follow(ctx, madeYear{float64(a.Low), float64(a.High)}, drop{})
	if err != nil {
		return nil, err
	}
	return y.LetGo, nil
}

// madeYear is a year whose humidity goes evenly between two, from the middle up to the damp end, to the dry and back.
type madeYear struct{ low, high float64 }

// RunningMean belongs to a series; it gives the ends, for any window.
func (m madeYear) RunningMean(time.Duration) (low, mid, high float64, err error) {
	return m.low, (m.low + m.high) / 2, m.high, nil
}

// Even gives the year in even steps.
func (m madeYear) Even(step time.Duration) ([]response.Stretch, error) {
	n := int(365 * 24 * time.Hour / step)
	s := response.Stretch{Start: time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC), RH: make([]float64, n)}
	for i := range s.RH {
		s.RH[i] = (m.low+m.high)/2 + (m.high-m.low)/2*math.Sin(2*math.Pi*(float64(i)+0.5)/float64(n))
	}
	return []response.Stretch{s}, nil
}

// drop takes states and keeps none.
type drop struct{}

func (drop) Take(*response.State) error { return nil }

// members are the paths of what lies across the grain of the panel as it is.
func members(p *panel.Panel) []string {
	var out []string
	for _, n := range p.Names("batten") {
		if p.Text("batten."+n+".empty") != "yes" && p.Text("batten."+n+".fixing") != "nothing" {
			out = append(out, "batten."+n)
		}
	}
	if p.Has("cradle") {
		out = append(out, "cradle")
	}
	return out
}

// let tells how much lets go and what that brings.
func (o *Option) let(p *panel.Panel, back *response.LetGo) {
	all := members(p)
	gone, eased := 0, 0
	for _, m := range all {
		table, _, _ := strings.Cut(m, ".")
		switch under := func(path string) bool { return strings.HasPrefix(path, m+".") }; {
		case slices.Contains(o.Removed, m), slices.Contains(o.Removed, table), slices.Contains(o.Changed, m+".empty") && o.Panel.Text(m+".empty") == "yes":
			gone++
		case slices.ContainsFunc(o.Changed, under), slices.ContainsFunc(o.Removed, under):
			eased++
		}
	}
	switch {
	case gone+eased == 0:
		o.Letting = LetsNothing
		return
	case back == nil:
		o.Letting = LetsUnknown
		return
	case gone == len(all):
		o.Letting = LetsAll
	default:
		o.Letting = LetsPart
	}
	stage := func(when string, a, b response.Stands) {
		h := back.Held
		s := Stage{
			When: when,
			Warp: [2]float64{min(a.Warp, b.Warp) - h.Warp, max(a.Warp, b.Warp) - h.Warp}, Width: [2]float64{min(a.Width, b.Width) - h.Width, max(a.Width, b.Width) - h.Width},
		}
		if o.Letting == LetsPart {
			s.Warp, s.Width = withNothing(s.Warp), withNothing(s.Width)
		}
		o.Time = append(o.Time, s)
	}
	stage("at_once", back.AtOnce, back.AtOnce)
	stage("two_days", back.Hours[0], back.Hours[1])
	stage("half_year", back.Weeks[0], back.Weeks[1])
	stage("first_year", back.Year[0], back.Year[1])
}

// withNothing widens a range of changes to no change.
func withNothing(v [2]float64) [2]float64 { return [2]float64{min(v[0], 0), max(v[1], 0)} }

// twice is what two readings with a straightedge may differ by without anything having moved, mm (twice the precision
// of one, common practice).
const twice = 1.0

// Sheet says what should be seen by when, and at which reading to stop and ask.
type Sheet struct {
	Rows []Check
	// Low and High are the humidity in which no limit is reached by calculation, 0..1; both 0: none is told.
	Low, High float64
	Season    [2]float64 // warp that comes and goes with the humidity over the states, mm
	Lines     []string   // joins, splits and checks to look at: any of them longer means stop
}

// Check is one row of the sheet: changes from before the work, mm.
type Check struct {
	When  string
	Warp  [2]float64 // to be seen
	Width [2]float64
	Stop  [2]float64 // warp beyond which to stop
}

// sheet makes the monitoring sheet. What an option that lets nothing go should show is no change.
func (o *Option) sheet() {
	if o.Answer == nil {
		return
	}
	s := Sheet{Season: o.Does.Warp}
	stages := o.Time
	if o.Letting == LetsNothing && !o.Nothing {
		for _, when := range []string{"at_once", "two_days", "half_year", "first_year"} {
			stages = append(stages, Stage{When: when})
		}
	}
	for _, t := range stages { // not to have moved at all is no reason to stop
		still := withNothing(t.Warp)
		s.Rows = append(s.Rows, Check{t.When, t.Warp, t.Width, [2]float64{still[0] - twice, still[1] + twice}})
	}
	limits := o.Answer.Range.Unfavourable
	if limits == nil {
		limits = o.Answer.Range.Nominal
	}
	if limits != nil {
		s.Low, s.High = float64(limits.Low), float64(limits.High)
	}
	if n := len(o.Answer.States); n > 0 {
		for _, l := range o.Answer.States[0].Lines {
			s.Lines = append(s.Lines, l.Part)
		}
	}
	o.Sheet = s
}
