package report

import (
	"strings"
	"time"

	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

// Doubt is the answer by many cases: panels of this description, everything that is not known drawn within its spread.
type Doubt struct {
	Cases    int     `json:"cases_held"`
	Followed int     `json:"cases_through_record"`
	Asked    []int   `json:"cases_asked_for"` // held, through a record
	Partial  bool    `json:"stopped_early"`
	LeftOut  int     `json:"cases_left_out"` // could not be taken through the record
	Inputs   int     `json:"inputs_drawn"`
	HeldDays float64 `json:"held_days"` // how long each humidity is held for the ranges
	// DependsOn is what parts the answer; null: nothing. CannotBeTold: its ways differ by more than tenfold.
	DependsOn    *DependsOn `json:"depends_on"`
	CannotBeTold bool       `json:"cannot_be_told"`
	Ways         []Way      `json:"ways"`
}

// DependsOn is an unknown with few answers.
type DependsOn struct {
	Path     string  `json:"path"`
	Part     string  `json:"part"`
	Question string  `json:"question"`
	Means    string  `json:"means"`
	Minutes  float64 `json:"minutes"`
	By       string  `json:"by"`
}

// Of100 is a count with the standard error that comes from so many cases and no more.
type Of100 struct {
	Of100 float64 `json:"of_100"`
	Error float64 `json:"error"`
}

// Way is the answer for one way in which the unknown turns out; the only one where nothing parts it.
type Way struct {
	Words    string        `json:"words"`
	Count    Of100         `json:"reach_a_limit"`                  // in what was asked about
	Before   Of100         `json:"reach_a_limit_without_evidence"` // before what was measured and lived through counted
	Home     *Of100        `json:"reach_a_limit_where_it_lived"`   // null: not recorded
	Parts    []PartOf100   `json:"parts"`
	Ranges   []ChanceRange `json:"ranges"`
	Seasons  []SeasonRange `json:"seasons"` // of a record that is the climate it lives in
	Map      LimitMap      `json:"limit_map"`
	MovesMM  []float64     `json:"free_movement_mm"` // of the width between the ends of what was asked about, 5 and 95 in 100
	Evidence DoubtEvidence `json:"evidence"`
	Causes   []Cause       `json:"causes"`
	Decides  string        `json:"decides"` // mode:part whose spread is explained below; "" for none
	First    []string      `json:"matters_most"`
	FindOut  []Narrowing   `json:"find_out"`
	Left     float64       `json:"unexplained_share"`
	SameOrd  float64       `json:"same_order_share"`
	Models   []ModelApart  `json:"models_apart"`
	Curves   []Curve       `json:"curves"` // of a record
}

// PartOf100 is how many of 100 reach the limit of one part.
type PartOf100 struct {
	Mode string `json:"mode"`
	Part string `json:"part"`
	Of100
}

// ChanceRange is the range inside which at most so many of 100 reach a limit.
type ChanceRange struct {
	Chance   float64  `json:"at_most_of_100"`
	LowRHPct *float64 `json:"low_rh_pct"` // null: none is left around the climate it is used to
	HighPct  *float64 `json:"high_rh_pct"`
	LowBy    string   `json:"low_by"`
	HighBy   string   `json:"high_by"`
	Count    Of100    `json:"count"`
	ByPast   bool     `json:"rests_on_its_past"`
}

// SeasonRange is a range for a while in one season of the climate it lives in, from where the wood stands then.
type SeasonRange struct {
	Season string  `json:"season"` // dry, damp
	From   float64 `json:"wood_at_rh_pct"`
	Days   float64 `json:"held_days"`
	Cases  int     `json:"cases"`
	ChanceRange
}

// LimitMap counts of 100 for every pair of a low and a high limit.
type LimitMap struct {
	LowRHPct  []float64   `json:"low_rh_pct"`
	HighRHPct []float64   `json:"high_rh_pct"`
	Of100     [][]float64 `json:"of_100"` // a row for each low limit
}

// DoubtEvidence is what the panel itself has shown.
type DoubtEvidence struct {
	Seen     []Seen    `json:"measured"`
	Unused   []string  `json:"not_used"`
	Fits     bool      `json:"fits"`
	RestMM   []float64 `json:"warp_at_rest_mm"` // 5 and 95 in 100, over rest_over_mm; empty: no warp was measured
	RestOver float64   `json:"rest_over_mm"`
	Counts   bool      `json:"past_counts"`
	Why      string    `json:"past_why_not"`
	Dropped  int       `json:"cases_dropped"`
	Partly   int       `json:"cases_in_part"`
	Worth    float64   `json:"cases_left_worth"`
}

// Seen is one thing measured beside what the cases say.
type Seen struct {
	Name     string    `json:"name"`
	When     string    `json:"when"`
	What     string    `json:"what"` // warp, gap, width
	Part     string    `json:"part"`
	RHPct    float64   `json:"rh_pct"`
	OverMM   float64   `json:"over_mm"`
	Measured float64   `json:"measured_mm"`
	Error    float64   `json:"error_mm"` // of instrument and calculation together
	Before   []float64 `json:"before_mm"`
	After    []float64 `json:"after_mm"`
	Rests    bool      `json:"only_differences"` // where it stands at rest is not known; before and after count from there
	RestMM   float64   `json:"rest_mm"`          // where it is then taken to stand
}

// Cause is an input that the evidence says more of than the description did.
type Cause struct {
	Path   string    `json:"path"`
	What   string    `json:"what"`
	Unit   string    `json:"unit"`
	Before []float64 `json:"before"`
	After  []float64 `json:"after"`
}

// Narrowing is something to find out and what the answer would be worth then.
type Narrowing struct {
	Path    string    `json:"path"`
	What    string    `json:"what"`
	Means   string    `json:"means"`
	Minutes float64   `json:"minutes"`
	By      string    `json:"by"`
	Touches bool      `json:"touches_wood"`
	Share   float64   `json:"share_of_doubt"`
	Now     []float64 `json:"share_now"` // of limit, 5 and 95 in 100
	After   []float64 `json:"share_after"`
}

// ModelApart is how far a rougher model, which the cases go by, is from the finer one for the panel as described. Cases are put right by it.
type ModelApart struct {
	Mode    string  `json:"mode"`
	Part    string  `json:"part"`
	Rough   float64 `json:"rough_share"`
	Fine    float64 `json:"fine_share"`
	Spread  float64 `json:"spread_of_log_share"` // of the cases; 0: not judged
	Refused bool    `json:"not_counted"`
}

// Curve is the band of a curve by days, 5 and 95 in 100.
type Curve struct {
	What string    `json:"what"`
	Part string    `json:"part,omitempty"`
	Day  []string  `json:"day"`
	Low  []float64 `json:"low"`
	High []float64 `json:"high"`
}

func doubtOf(r *assessment.Result) *Doubt {
	d := r.Doubt
	if d == nil {
		return nil
	}
	out := &Doubt{
		Cases: d.Held, Followed: d.Course, Asked: d.Asked[:], Partial: d.Partial, LeftOut: d.LeftOut, Inputs: d.Inputs,
		CannotBeTold: d.Apart, HeldDays: d.For.Hours() / 24,
	}
	if f := d.Fork; f != nil {
		out.DependsOn = &DependsOn{f.Path, f.Part, f.Question, f.Means, f.Minutes, f.By}
	}
	for i := range d.Ways {
		out.Ways = append(out.Ways, wayOf(&d.Ways[i]))
	}
	return out
}

func of(c assessment.Count) Of100 { return Of100{c.Of100, c.Error} }

func pair(b assessment.Band) []float64 { return []float64{b.Low, b.High} }

func wayOf(w *assessment.Ways) Way {
	out := Way{
		Words: w.Words, Count: of(w.Count), Before: of(w.Before), MovesMM: pair(w.Moves), Evidence: evidenceOf(w.Evidence),
		Parts: []PartOf100{}, Ranges: []ChanceRange{}, Seasons: []SeasonRange{}, Causes: []Cause{}, First: []string{}, FindOut: []Narrowing{}, Models: []ModelApart{},
		Curves: []Curve{},
	}
	if w.Home != nil {
		c := of(*w.Home)
		out.Home = &c
	}
	for _, p := range w.Parts {
		out.Parts = append(out.Parts, PartOf100{string(p.Mode), p.Part, of(p.Count)})
	}
	for _, r := range w.Ranges {
		out.Ranges = append(out.Ranges, chanceOf(r))
	}
	for _, r := range w.Seasons {
		one := SeasonRange{Season: "dry", From: r.From.Percent(), Days: r.For.Hours() / 24, Cases: r.Of, ChanceRange: chanceOf(r.RangeFor)}
		if r.Damp {
			one.Season = "damp"
		}
		out.Seasons = append(out.Seasons, one)
	}
	out.Map = LimitMap{LowRHPct: []float64{}, HighRHPct: []float64{}, Of100: w.Map.Of100}
	for _, rh := range w.Map.Low {
		out.Map.LowRHPct = append(out.Map.LowRHPct, rh.Percent())
	}
	for _, rh := range w.Map.High {
		out.Map.HighRHPct = append(out.Map.HighRHPct, rh.Percent())
	}
	for _, c := range w.Causes {
		out.Causes = append(out.Causes, Cause{c.Path, c.What, c.Unit, pair(c.Before), pair(c.After)})
	}
	if n := w.Narrow; n != nil {
		out.Decides, out.Left, out.SameOrd = string(n.Mode)+":"+n.Part, n.Unexplained, n.SameOrder
		out.First = append(out.First, n.First...)
		for _, l := range n.List {
			out.FindOut = append(out.FindOut, Narrowing{l.Path, l.What, l.Means, l.Minutes, l.By, l.Touches, l.Share, pair(l.Now), pair(l.After)})
		}
	}
	for _, list := range [][]assessment.Bias{w.Biases, w.Closed} {
		for _, b := range list {
			out.Models = append(out.Models, ModelApart{string(b.Mode), b.Part, b.Rough, b.Fine, b.Spread, b.Refused})
		}
	}
	for _, c := range w.Curves {
		k := Curve{What: c.What, Part: c.Part, Low: c.Low, High: c.High}
		for _, t := range c.Time {
			k.Day = append(k.Day, t.Format(time.DateOnly))
		}
		out.Curves = append(out.Curves, k)
	}
	return out
}

func chanceOf(r assessment.RangeFor) ChanceRange {
	c := ChanceRange{Chance: r.Chance, LowBy: r.LowBy, HighBy: r.HighBy, Count: of(r.Count), ByPast: r.Trusts}
	if !r.None {
		c.LowRHPct, c.HighPct = number(r.Low.Percent()), number(r.High.Percent())
	}
	return c
}

func evidenceOf(e *assessment.Evidence) DoubtEvidence {
	out := DoubtEvidence{
		Seen: []Seen{}, Unused: append([]string{}, e.Unused...), Fits: e.Fits, RestMM: []float64{}, RestOver: e.RestOver,
		Counts: e.Survival, Why: e.Lived.Why, Dropped: e.Dropped, Partly: e.Partly, Worth: e.Counts,
	}
	if e.Rest != nil {
		out.RestMM = pair(*e.Rest)
	}
	for _, s := range e.Seen {
		out.Seen = append(out.Seen, Seen{
			s.Name, s.When, s.What, s.Part, s.RH.Percent(), s.Over, s.Measured, s.Error, pair(s.Before), pair(s.After), s.Rests, s.Rest,
		})
	}
	return out
}

// findOutOf lists what to find out: what parts the answer first, then what narrows the way in which most reach a limit.
func findOutOf(r *assessment.Result) []FindOut {
	d := r.Doubt
	if d == nil {
		var out []FindOut
		for _, f := range r.FindOut {
			out = append(out, FindOut{f.Path, f.What, f.Means, f.Minutes, f.Share, f.Who()})
		}
		return out
	}
	var out []FindOut
	if f := d.Fork; f != nil {
		out = append(out, FindOut{f.Path, whether(f), f.Means, f.Minutes, 1, f.By})
	}
	worst := &d.Ways[0]
	for i := range d.Ways {
		if d.Ways[i].Count.Of100 > worst.Count.Of100 {
			worst = &d.Ways[i]
		}
	}
	if worst.Narrow != nil {
		for _, l := range worst.Narrow.List {
			out = append(out, FindOut{l.Path, l.What, l.Means, l.Minutes, l.Share, l.By})
		}
	}
	return out
}

// whether turns the question of a fork into a clause.
func whether(f *panel.Fork) string {
	return say("doubt.whether", "what", strings.TrimPrefix(f.Ways[0].Words, "if "))
}
