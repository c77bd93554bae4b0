package report

import (
	"fmt"
	"math"
	"strings"
)

// worstShown is how many parts the table of what gives way first shows.
const worstShown = 7

// shownWorst returns the modes shown and how many are left out.
func (a Assess) shownWorst() (shown []Mode, rest int) {
	for _, m := range a.Worst {
		if m.Share == nil && m.Demand == 0 {
			continue
		}
		if len(shown) < worstShown {
			shown = append(shown, m)
		} else {
			rest++
		}
	}
	return shown, rest
}

func (a Assess) rangeTable() Table {
	t := Table{Head: []string{say("range.head.case"), say("range.head.range"), say("range.head.dry"), say("range.head.damp")}}
	for _, c := range []struct {
		l    *Limits
		what string
	}{{a.CalculatedRange.Nominal, "range.nominal"}, {a.CalculatedRange.Unfavourable, "range.unfavourable"}} {
		if a.Doubt != nil && c.what == "range.unfavourable" {
			t.Rows = append(t.Rows, a.chanceRows()...)
			continue
		}
		if c.l != nil {
			t.Rows = append(t.Rows, []string{
				say(c.what), between(c.l.LowRHPct, c.l.HighRHPct), CauseWords(c.l.LowBy), CauseWords(c.l.HighBy),
			})
		}
	}
	return t
}

// WhyNoRange says why a range is missing; empty when both are there.
func (a Assess) WhyNoRange() string {
	c := a.CalculatedRange
	switch {
	case c.Nominal != nil && (c.Unfavourable != nil || a.Doubt != nil): // of cases every range says so itself
		return ""
	case c.Nominal != nil:
		return say("range.none.unfavourable")
	case a.gated():
		return say("range.none.gate")
	}
	if part := partOfWhy(c.Why); part != "" {
		return say("range.none.usedto", "part", the(part))
	}
	return say("range.none.other", "why", c.Why)
}

// partOfWhy finds the part in a reason that begins with "mode:part ".
func partOfWhy(why string) string {
	var first string
	if _, err := fmt.Sscan(why, &first); err != nil {
		return ""
	}
	_, part, _ := strings.Cut(first, ":")
	return part
}

func (a Assess) moveTable() Table {
	t := Table{Align: "r", Head: []string{
		say("move.head.rh"), say("move.head.width"), say("move.head.held"), say("move.head.warp"),
		say("move.head.warprange"), say("move.head.passing"),
	}}
	for _, s := range a.States {
		low, high := s.CupLowMM, s.CupHighMM
		width := short(moved(s.WidthChangeMM, s.WidthChangeLoopMM))
		if len(s.CupBandMM) == 2 {
			low, high = s.CupBandMM[0], s.CupBandMM[1]
			width = widthRange(s.WidthBandMM[0], s.WidthBandMM[1])
		}
		t.Rows = append(t.Rows, []string{
			stateName(s), width, held(s.HeldPct), short(warped(s.CupMM)), warpRange(low, high), short(warped(s.CupPassingMM)),
		})
	}
	return t
}

// stateName is the humidity of a state, with its label when it comes from a record.
func stateName(s State) string {
	if s.Label != "" {
		return s.Label + ", " + whole(s.RHPct)
	}
	return whole(s.RHPct)
}

// widthRange is a change of width between two ends, of one sense or of both.
func widthRange(low, high float64) string {
	if math.Max(math.Abs(low), math.Abs(high)) < 0.05 || low*high >= 0 && math.Min(math.Abs(low), math.Abs(high)) >= 0.05 {
		return short(moved(low, high))
	}
	return say("warp.between", "low", short(moved(low, low)), "high", short(moved(high, high)))
}

func warpRange(low, high float64) string {
	l, h := short(warped(low)), short(warped(high))
	switch {
	case l == h:
		return l
	case low*high > 0 && high > 0 && low >= 0.05: // one sense: name it once
		return short(say("warp.rounded", "mm", span(millimetres(low), millimetres(high))))
	case low*high > 0 && high <= -0.05:
		return short(say("warp.hollow", "mm", span(millimetres(high), millimetres(low))))
	}
	return say("warp.between", "low", l, "high", h)
}

func (a Assess) restraintTable() Table {
	t := Table{Align: "lrrrrl", Head: []string{
		say("restraint.head.part"), say("restraint.head.state"), say("restraint.head.force"),
		say("restraint.head.fixing"), say("restraint.head.slip"), say("restraint.head.held"),
	}}
	for _, r := range a.Restraints {
		if r.idle() {
			continue
		}
		for k, i := range a.ends() {
			part := PartWords(r.Part)
			if r.What != "" {
				part += ": " + r.What
			}
			if k > 0 {
				part = ""
			}
			t.Rows = append(t.Rows, []string{
				part, whole(a.States[i].RHPct), force(at(r.ForceN, i)), force(at(r.FixingN, i)),
				millimetres(at(r.SlipMM, i)), held(at(r.HeldPct, i)),
			})
		}
	}
	return t
}

// idle says that it is a frame that nowhere touches.
func (r Restraint) idle() bool { return r.Part == "frame" && largest(r.FixingN) < 0.5 }

// binds says where free play is used up.
func (a Assess) binds() []string {
	var out []string
	for _, b := range a.Binds {
		key := "restraint.binds"
		if strings.HasPrefix(b.Part, "frame") {
			key = "restraint.binds.frame"
		}
		out = append(out, say(key, "part", the(b.Part), "rh", whole(b.RHPct)))
	}
	return out
}

// ends are the indices of the driest and the dampest state.
func (a Assess) ends() []int {
	if len(a.States) < 2 {
		return make([]int, len(a.States))
	}
	lo, hi := 0, 0
	for i, s := range a.States {
		if s.RHPct < a.States[lo].RHPct {
			lo = i
		}
		if s.RHPct > a.States[hi].RHPct {
			hi = i
		}
	}
	return []int{lo, hi}
}

func at(v []float64, i int) float64 {
	if i < len(v) {
		return v[i]
	}
	return math.NaN()
}

func (a Assess) lineTable() Table {
	t := Table{Align: "lrrrl", Head: []string{
		say("line.head.part"), say("line.head.length"), say("line.head.state"), say("line.head.opening"), say("line.head.stops"),
	}}
	for _, l := range a.Lines {
		for k, rh := range []float64{a.Range.LowRHPct, a.Range.HighRHPct} {
			s := nearestState(l.At, rh)
			if s == nil {
				continue
			}
			part, length := PartWords(l.Part), whole(l.LengthMM)
			if k > 0 {
				part, length = "", ""
			}
			t.Rows = append(t.Rows, []string{part, length, whole(s.RHPct), millimetres(s.OpeningMM), stopWords(*s)})
		}
	}
	return t
}

func nearestState(at []LineState, rh float64) *LineState {
	var best *LineState
	for i := range at {
		if best == nil || math.Abs(at[i].RHPct-rh) < math.Abs(best.RHPct-rh) {
			best = &at[i]
		}
	}
	return best
}

func stopWords(s LineState) string {
	switch {
	case s.RunsThrough:
		return say("line.stop.through")
	case s.StopsMM == nil:
		return say("line.stop.still")
	case s.StopsHighMM != nil && whole(*s.StopsHighMM) != whole(*s.StopsMM):
		return between(*s.StopsMM, *s.StopsHighMM)
	}
	return whole(*s.StopsMM)
}

// linesInWords gives a paragraph for each join and split.
func (a Assess) linesInWords() []string {
	var out []string
	for _, l := range a.Lines {
		s := upperFirst(PartWords(l.Part)) + ": "
		switch {
		case l.GrowsRHPct != nil:
			s += say("line.grows", "rh", whole(*l.GrowsRHPct))
		case l.GrowsLowPct != nil:
			s += say("line.grows.unfavourable", "rh", whole(*l.GrowsLowPct))
		default:
			s += say("line.stays")
		}
		if n, ok := a.livedShare(l.Part); ok {
			s += " " + say("line.lived", "low", whole(a.Lived.LowRHPct), "high", whole(a.Lived.HighRHPct), "n", tenthsOf(n))
		}
		out = append(out, s)
	}
	return out
}

// livedShare is how close a line has come to growing in the humidities that the panel is known to have lived through.
func (a Assess) livedShare(part string) (most float64, ok bool) {
	if a.Lived == nil {
		return 0, false
	}
	for _, s := range a.Sweep {
		if s.RHPct < a.Lived.LowRHPct-1e-6 || s.RHPct > a.Lived.HighRHPct+1e-6 {
			continue
		}
		for _, m := range s.Modes {
			if m.Mode == "check_growth" && m.Part == part && m.Share != nil {
				most, ok = math.Max(most, *m.Share), true
			}
		}
	}
	return most, ok
}

func factTable(facts []Fact) Table {
	t := Table{Align: "lrll", Head: []string{say("fact.head.what"), say("fact.head.value"), say("fact.head.words"), say("fact.head.evidence")}}
	for _, f := range facts {
		t.Rows = append(t.Rows, []string{f.What, withUnit(plain(f.Value), f.Unit), f.Words, f.Evidence})
	}
	return t
}

func withUnit(v, unit string) string {
	if unit == "" || unit == "1" || unit == "-" {
		return v
	}
	return v + " " + unit
}
