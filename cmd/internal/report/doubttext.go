package report

import (
	"math"
	"strings"
)

// countSteps are the numbers of 100 that are told; between them a count has no meaning.
var countSteps = [...]float64{1, 2, 3, 5, 8, 10, 15, 20, 30, 40, 50, 60, 70, 80, 85, 90, 92, 95, 97, 98, 99}

// hundred says how many of 100, in whole numbers that can be told apart.
func hundred(n float64) string {
	switch {
	case math.IsNaN(n):
		return "–"
	case n < 0.5:
		return say("count.fewer")
	case n > 99.5:
		return say("count.more")
	}
	best := countSteps[0]
	for _, s := range countSteps {
		if math.Abs(math.Log(s/n)) < math.Abs(math.Log(best/n)) && n <= 50 || n > 50 && math.Abs(s-n) < math.Abs(best-n) {
			best = s
		}
	}
	return say("count.about", "n", whole(best))
}

// amount is a word for a count, which stands with its number.
func amount(n float64) string {
	for _, s := range []struct {
		up  float64
		key string
	}{{0.5, "count.almostnone"}, {5.5, "count.few"}, {20.5, "count.some"}, {50.5, "count.many"}, {100, "count.most"}} {
		if n < s.up {
			return say(s.key)
		}
	}
	return say("count.most")
}

// counted is a number of 100 with its word and what comes from the number of cases.
func counted(c Of100) string {
	if c.Of100 < 0.5 || c.Of100 > 99.5 {
		return say("count.ends", "word", amount(c.Of100), "n", hundred(c.Of100))
	}
	return say("count.words", "word", amount(c.Of100), "n", hundred(c.Of100), "give", give(c.Error))
}

// give is the error of a count in whole numbers, at least 1.
func give(err float64) string { return whole(math.Max(1, math.Ceil(err-0.05))) }

// clause is the way as it ends a sentence; "" where nothing parts the answer.
func (w Way) clause() string {
	if w.Words == "" {
		return ""
	}
	return ", " + w.Words
}

// OnlyWay is the only one of two ways for which a range can be offered, and its range for 5 of 100; false where it is none or both.
func (a *Assess) OnlyWay() (words string, low, high float64, ok bool) {
	if a.Doubt == nil || len(a.Doubt.Ways) < 2 {
		return "", 0, 0, false
	}
	for _, w := range a.Doubt.Ways {
		for _, r := range w.Ranges {
			if r.Chance != 5 || r.LowRHPct == nil {
				continue
			}
			if ok {
				return "", 0, 0, false
			}
			words, low, high, ok = w.Words, *r.LowRHPct, *r.HighPct, true
		}
	}
	return words, low, high, ok
}

// Counted says whether counts of 100 are given.
func (a *Assess) Counted() bool {
	return a.Doubt != nil && len(a.Doubt.Ways) > 0 && !a.gated() && a.judged()
}

// AskedOf is what was asked about, in words.
func (a *Assess) AskedOf() string { return a.asked() }

// asked is what was asked about, as it stands in a sentence.
func (a Assess) asked() string {
	if a.Doubt != nil && a.Doubt.Followed > 0 {
		return say("doubt.asked.record")
	}
	return say("doubt.asked.range", "low", whole(a.Range.LowRHPct), "high", whole(a.Range.HighRHPct), "for", a.Doubt.time())
}

// season says that each humidity is held for a season.
func (d *Doubt) season() bool { return d.HeldDays >= 89 }

// time is how long a humidity is held.
func (d *Doubt) time() string {
	switch {
	case d.season():
		return say("doubt.for.season")
	case d.HeldDays < 1.5:
		return plural("doubt.for.hours", int(math.Round(24*d.HeldDays)))
	}
	return plural("doubt.for.days", int(math.Round(d.HeldDays)))
}

// doubtParas say how many reach a limit.
func (a Assess) doubtParas() []string {
	d := a.Doubt
	out := []string{say("doubt.cases", "n", whole(float64(d.Cases)), "inputs", whole(float64(d.Inputs)))}
	if d.Followed > 0 {
		out[0] += " " + say("doubt.followed", "n", whole(float64(d.Followed)))
	}
	if d.LeftOut > 0 {
		out[0] += " " + plural("doubt.leftout", d.LeftOut)
	}
	if d.Partial {
		out[0] += " " + say("doubt.partial")
	}
	if d.DependsOn != nil {
		key := "doubt.depends"
		if d.CannotBeTold {
			key = "doubt.depends.cannot"
		}
		out = append(out, say(key, "question", d.DependsOn.Question))
	}
	switch {
	case a.gated():
		return append(out, say("doubt.gated"))
	case !a.judged():
		return append(out, say("doubt.unjudged"))
	}
	for _, w := range d.Ways {
		s := say("doubt.count", "asked", a.asked(), "count", counted(w.Count), "way", w.clause())
		if w.Evidence.Counts || len(w.Evidence.Seen) > 0 && w.Evidence.Fits {
			s += " " + say("doubt.before", "n", hundred(w.Before.Of100))
		}
		if w.Home != nil && a.Lived != nil {
			s += " " + say("doubt.home", "low", whole(a.Lived.LowRHPct), "high", whole(a.Lived.HighRHPct), "n", hundred(w.Home.Of100))
		}
		out = append(out, s)
	}
	return out
}

// partsShown is how many parts a table of counts shows for each way.
const partsShown = 6

func (a Assess) doubtTable() Table {
	t := Table{Align: "llr", Head: []string{say("doubt.head.part"), say("doubt.head.mode"), say("doubt.head.count")}}
	if a.gated() {
		return t
	}
	many := len(a.Doubt.Ways) > 1
	for _, w := range a.Doubt.Ways {
		for i, p := range w.Parts {
			if i == partsShown {
				break
			}
			name := PartWords(p.Part)
			if many && i == 0 {
				name = upperFirst(w.Words) + ": " + name
			}
			t.Rows = append(t.Rows, []string{name, ModeWords(p.Mode), hundred(p.Of100.Of100) + " ± " + give(p.Error)})
		}
	}
	return t
}

// chanceRows are the ranges for a chance, for the table of calculated ranges.
func (a Assess) chanceRows() [][]string {
	var out [][]string
	for _, w := range a.Doubt.Ways {
		if len(w.Ranges) == 0 && w.Words != "" {
			out = append(out, []string{upperFirst(w.Words), say("range.chance.gated"), "–", "–"})
		}
		for i := len(w.Ranges) - 1; i >= 0; i-- {
			r := &w.Ranges[i]
			out = append(out, r.row(say("range.chance", "n", whole(r.Chance))+w.clause()))
		}
		for i := range w.Seasons {
			r := &w.Seasons[i]
			out = append(out, r.row(say("range.season."+r.Season, "n", whole(r.Chance), "from", whole(r.From), "for", (&Doubt{HeldDays: r.Days}).time())+w.clause()))
		}
	}
	return out
}

// row is a range for a chance in the table of calculated ranges.
func (r *ChanceRange) row(what string) []string {
	if r.ByPast {
		what += " *"
	}
	if r.LowRHPct == nil {
		return []string{what, say("range.chance.none"), "–", "–"}
	}
	return []string{what, between(*r.LowRHPct, *r.HighPct), CauseWords(r.LowBy), CauseWords(r.HighBy)}
}

// rangeWords are the remarks under the calculated ranges.
func (a Assess) rangeWords() []string {
	d := a.Doubt
	if d == nil || a.gated() {
		return nil
	}
	out := []string{say("range.chance.words", "for", d.time())}
	for _, w := range d.Ways {
		for _, r := range w.Ranges {
			if r.ByPast {
				return append(out, say("range.chance.past"))
			}
		}
	}
	return out
}

// modelParas say where the cases' model is not good enough.
func (a Assess) modelParas() []string {
	var names []string
	seen := map[string]bool{}
	for _, w := range a.Doubt.Ways {
		for _, m := range w.Models {
			name := PartWords(m.Part) + " (" + ModeWords(m.Mode) + ")"
			if m.Refused && !seen[name] {
				seen[name] = true
				names = append(names, name)
			}
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []string{say("doubt.refused", "list", strings.Join(names, "; "))}
}

// modelTable sets the model of the cases beside the finer one, for the annex.
func (a Assess) modelTable() Table {
	t := Table{Align: "llrrrl", Head: []string{
		say("models.head.part"), say("models.head.mode"), say("models.head.rough"), say("models.head.fine"), say("models.head.spread"), say("models.head.counted"),
	}}
	for _, w := range a.Doubt.Ways {
		for _, m := range w.Models {
			if math.Max(m.Rough, m.Fine) < 0.005 {
				continue
			}
			spread, yes := "–", say("models.shifted")
			if m.Spread > 0 {
				spread = say("models.spread", "n", twoDigits(math.Exp(m.Spread)))
			}
			if m.Refused {
				yes = say("models.no")
			}
			part := PartWords(m.Part)
			if w.Words != "" {
				part += w.clause()
			}
			t.Rows = append(t.Rows, []string{part, ModeWords(m.Mode), oneDecimal(10 * m.Rough), oneDecimal(10 * m.Fine), spread, yes})
		}
	}
	return t
}
