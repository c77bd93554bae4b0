package report

import (
	"math"
	"strings"
)

// Opening composes the three sentences that open a record, each of at most 25 words and three
// numbers: the answer; what decides it and how sure; what to do or find out. It reads only the
// document.
func (r RoomRecord) Opening() []string {
	return []string{r.answer(), r.decides(), r.todo()}
}

func (r RoomRecord) opening() []string {
	if len(r.Sentences) > 0 {
		return r.Sentences
	}
	return r.Opening()
}

// hardest are the terms, and the clause of them, that were kept for the smallest share of the time.
func (r RoomRecord) hardest() (t *RecordTerms, c *RecordClause) {
	for i := range r.Terms {
		for k := range r.Terms[i].Clauses {
			x := &r.Terms[i].Clauses[k]
			if !math.IsNaN(x.InsidePct) && (c == nil || x.InsidePct < c.InsidePct) {
				t, c = &r.Terms[i], x
			}
		}
	}
	return t, c
}

// kept says whether the clause was kept all the time; what a rounding could hide does not count.
func (c *RecordClause) kept() bool { return c.OutsideHours <= 0 }

func (r RoomRecord) answer() string {
	if _, c := r.hardest(); c != nil {
		if c.kept() {
			return say("record.open.kept", "n", whole(float64(len(r.Terms))))
		}
		return say("record.open.outside", "clause", c.Words, "n", ofHundred(100-c.InsidePct))
	}
	if r.Rows == 0 || math.IsNaN(r.RH.MeanPct) {
		return say("record.open.empty")
	}
	return say("record.open.stayed", "low", whole(r.RH.MinPct), "high", whole(r.RH.MaxPct), "mean", whole(r.RH.MeanPct))
}

func (r RoomRecord) decides() string {
	if _, c := r.hardest(); c != nil && !c.kept() {
		return say("record.open.longest", "length", lengthWords(c.LongestHours), "day", dateWords(c.LongestFrom))
	}
	if r.Changes.Max24h == nil {
		return say("record.open.covered") + " " + r.coverWords()
	}
	return say("record.open.change", "points", whole(*r.Changes.Max24h)) + " " + r.coverWords()
}

// dampShare is the share of the time above 75 % RH from which damp stands before all else (assumption:
// weeks of it mean mould; 5 of 100 hours are 18 days a year).
const dampShare = 0.05

func (r RoomRecord) todo() string {
	if t, c := r.hardest(); c != nil && !c.kept() {
		if needsConfirming(t) {
			return say("record.open.confirm")
		}
		return say("record.open.when")
	}
	switch {
	case len(r.Flags) > 0 && r.flagged() > 0:
		return plural("record.open.flags", r.flagged())
	case r.Hours.Above75 > dampShare*r.Hours.Covered:
		return say("record.open.damp", "n", ofHundred(100*r.Hours.Above75/r.Hours.Covered))
	case !r.Band.Applies:
		return say("record.open.noband")
	case r.Band.LowDeparture > -10 && r.Band.HighDeparture < 10:
		return say("record.open.steady", "n", whole(max(-r.Band.LowDeparture, r.Band.HighDeparture)))
	}
	return say("record.open.band", "low", whole(-r.Band.LowDeparture), "high", whole(r.Band.HighDeparture))
}

// needsConfirming says whether the figures of the terms are known from memory only.
func needsConfirming(t *RecordTerms) bool {
	return strings.Contains(t.Evidence, "memory") && !t.Confirmed
}

// flagged counts the readings that look like faults and were left in.
func (r RoomRecord) flagged() int {
	n := 0
	for _, f := range r.Flags {
		if !f.Removed {
			n += f.Count
		}
	}
	return n
}
