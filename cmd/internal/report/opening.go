package report

import (
	"slices"
	"strings"
)

// Opening composes the three sentences that open an assessment, each of at most 25 words and
// three numbers: the answer; what decides it and how sure; what to do or find out. It reads only
// the document.
func (a Assess) Opening() []string {
	return []string{a.answer(), a.decides(), a.todo()}
}

// opening returns the sentences of the document, or composes them where it has none.
func (a Assess) opening() []string {
	if len(a.Sentences) > 0 {
		return a.Sentences
	}
	return a.Opening()
}

func (a Assess) gated() bool {
	return a.CalculatedRange.Nominal == nil && strings.HasPrefix(a.CalculatedRange.Why, "gate")
}

// answer says whether the range asked about lies inside the calculated one.
func (a Assess) answer() string {
	n, u := a.CalculatedRange.Nominal, a.CalculatedRange.Unfavourable
	low, high := a.Range.LowRHPct, a.Range.HighRHPct
	switch {
	case a.gated():
		return say("open.gate")
	case n == nil && a.Doubt == nil:
		if w, ok := a.hardest(); ok {
			return say("open.usedto", "part", the(w.Part), "rh", whole(a.UsedTo.RHPct))
		}
		return say("open.nojudge")
	case a.Doubt != nil && len(a.Doubt.Ways) > 0 && a.judged():
		return a.counting()
	case a.againstHistory():
		return say("open.history", "low", whole(n.LowRHPct), "high", whole(n.HighRHPct),
			"lived", between(a.Lived.LowRHPct, a.Lived.HighRHPct))
	case a.reaches(n, low, false) && a.reaches(n, high, true):
		if !a.judged() && a.unlooked("panel.back") {
			return say("open.fits.unlooked", "low", whole(max(low, n.LowRHPct)), "high", whole(min(high, n.HighRHPct)))
		}
		inside := say("open.fits", "low", whole(low), "high", whole(high))
		if low < n.LowRHPct-0.5 || high > n.HighRHPct+0.5 { // beyond a cap nothing is promised
			low, high = max(low, n.LowRHPct), min(high, n.HighRHPct)
			inside = say("open.fits.capped", "low", whole(low), "high", whole(high))
		}
		if u != nil && a.reaches(u, low, false) && a.reaches(u, high, true) {
			return inside
		}
		return say("open.depends", "low", whole(low), "high", whole(high))
	case !a.reaches(n, low, false) && !a.reaches(n, high, true):
		return say("open.both", "low", whole(n.LowRHPct), "high", whole(n.HighRHPct), "cause", CauseWords(n.LowBy))
	case a.reaches(n, high, true):
		return say("open.below", "rh", whole(n.LowRHPct), "cause", CauseWords(n.LowBy))
	}
	return say("open.above", "rh", whole(n.HighRHPct), "cause", CauseWords(n.HighBy))
}

// judged says whether some part is held back so that its limit could be reached: of a panel that nothing holds no count says anything.
func (a Assess) judged() bool {
	_, ok := a.hardest()
	return ok
}

// counting answers by how many of 100 reach a limit.
func (a Assess) counting() string {
	d := a.Doubt
	low, high := whole(a.Range.LowRHPct), whole(a.Range.HighRHPct)
	asked := say("open.asked.range", "low", low, "high", high)
	if d.Followed > 0 {
		asked = say("open.asked.record")
	}
	w := d.Ways[0]
	switch {
	case len(d.Ways) == 2:
		return say("open.fork", "asked", asked, "n", hundred(w.Count.Of100), "way", w.Words, "m", hundred(d.Ways[1].Count.Of100), "other", d.Ways[1].Words)
	case a.againstHistory() && d.Followed == 0 && d.season():
		return upperFirst(say("open.count.history", "n", hundred(w.Count.Of100), "low", low, "high", high, "lived", between(a.Lived.LowRHPct, a.Lived.HighRHPct)))
	}
	return say("open.count", "asked", a.asked(), "n", hundred(w.Count.Of100), "way", "")
}

// againstHistory says whether the calculated range is narrower than what the panel has lived
// through unharmed.
func (a Assess) againstHistory() bool {
	n := a.CalculatedRange.Nominal
	return n != nil && a.Lived != nil && (!a.reaches(n, a.Lived.LowRHPct, false) || !a.reaches(n, a.Lived.HighRHPct, true))
}

// reaches says whether no limit stands between the used-to humidity and rh; a cap is no limit.
func (a Assess) reaches(l *Limits, rh float64, high bool) bool {
	if high {
		return rh <= l.HighRHPct+0.5 || strings.HasPrefix(l.HighBy, "cap")
	}
	return rh >= l.LowRHPct-0.5 || strings.HasPrefix(l.LowBy, "cap")
}

// the names a part inside a sentence: parts with a name of their own take no article.
func the(part string) string {
	if _, _, named := strings.Cut(part, "."); named && !strings.HasPrefix(part, "face.") {
		return PartWords(part)
	}
	return "the " + PartWords(part)
}

// hardest is the mode and part with the greatest share among those that set the range.
func (a Assess) hardest() (Mode, bool) {
	i := slices.IndexFunc(a.Worst, func(m Mode) bool { return m.SetsRange && m.Share != nil && *m.Share > 0 })
	if i < 0 {
		return Mode{}, false
	}
	return a.Worst[i], true
}

func (a Assess) decides() string {
	w, ok := a.hardest()
	if !ok {
		return say("open.worst.none")
	}
	part, rh := the(w.Part), whole(w.RHPct)
	if w.ShareLow == nil || w.ShareHigh == nil || tenths(w.ShareLow) == tenths(w.ShareHigh) {
		return say("open.worst", "part", part, "rh", rh, "share", shareWords(w.Share), "evidence", a.Evidence)
	}
	if *w.ShareHigh > 10**w.ShareLow && *w.ShareHigh > 1 {
		return say("open.worst.unknown", "part", part, "rh", rh, "evidence", a.Evidence)
	}
	return say("open.worst.doubt", "part", part, "rh", rh, "share", shareWords(w.Share),
		"low", tenths(w.ShareLow), "high", tenths(w.ShareHigh), "evidence", a.Evidence)
}

func (a Assess) todo() string {
	if a.gated() {
		return say("open.ask")
	}
	what := a.measurable()
	if a.Doubt != nil && a.Doubt.DependsOn != nil && what != "" {
		if l := a.toKeep(); l != nil && !a.Doubt.CannotBeTold {
			return say("open.find", "what", what, "low", whole(l.LowRHPct), "high", whole(l.HighRHPct))
		}
		return say("open.find.only", "what", what)
	}
	if a.againstHistory() {
		return withMeasure("open.stay", what, "lived", between(a.Lived.LowRHPct, a.Lived.HighRHPct))
	}
	if l := a.toKeep(); l != nil {
		return withMeasure("open.keep", what, "low", whole(l.LowRHPct), "high", whole(l.HighRHPct))
	}
	if w, ok := a.hardest(); ok {
		return withMeasure("open.look", what, "part", the(w.Part))
	}
	switch {
	case a.unlooked("panel.back") && a.unlooked("panel.cracks"):
		return say("open.unlooked")
	case a.unlooked("panel.back"):
		return say("open.unlooked.back")
	case a.unlooked("panel.cracks"):
		return say("open.unlooked.cracks")
	case what != "":
		return say("open.measure", "what", what)
	}
	return say("open.nothing")
}

// unlooked says whether something that every answer hangs on was taken as not there because nobody told of it.
func (a Assess) unlooked(path string) bool {
	return slices.ContainsFunc(a.Assumed, func(s Assumed) bool { return s.Path == path })
}

// toKeep is the range to keep when the one asked about goes beyond the calculated one.
func (a Assess) toKeep() *Limits {
	n := a.CalculatedRange.Nominal
	if n == nil || a.reaches(n, a.Range.LowRHPct, false) && a.reaches(n, a.Range.HighRHPct, true) {
		return nil
	}
	if u := a.CalculatedRange.Unfavourable; u != nil {
		return u
	}
	return n
}

// withMeasure says a phrase, in its longer form when there is something to measure.
func withMeasure(key, what string, slots ...string) string {
	if what == "" {
		return say(key, slots...)
	}
	return say(key+".measure", append(slots, "what", what)...)
}

// measurable names what is worth finding out first: the most that matters and can be measured.
func (a Assess) measurable() string {
	least := 0.02
	if a.Doubt != nil {
		least = worthIt
	}
	if len(a.FindOut) > 0 && a.FindOut[0].DoubtShare >= least {
		return plainLine(a.FindOut[0].What)
	}
	return ""
}
