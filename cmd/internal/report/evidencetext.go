package report

import (
	"math"
	"slices"
	"strings"
	"time"
)

// evidenceParas say what the panel itself has shown, and what that counts for.
func (a Assess) evidenceParas() []string {
	var out []string
	for i, w := range a.Doubt.Ways {
		e := w.Evidence
		lead := ""
		if w.Words != "" {
			lead = upperFirst(w.Words) + ": "
		}
		var s []string
		switch {
		case a.Lived != nil && e.Counts:
			s = append(s, say("evidence.past", "low", whole(a.Lived.LowRHPct), "high", whole(a.Lived.HighRHPct), "cases", whole(float64(a.Doubt.Cases)),
				"dropped", whole(float64(e.Dropped)), "partly", whole(float64(e.Partly)))+" "+say("evidence.past.limits"))
		case a.Lived != nil && e.Why != "":
			s = append(s, say("evidence.past.not", "low", whole(a.Lived.LowRHPct), "high", whole(a.Lived.HighRHPct), "why", e.Why))
		case a.Lived != nil:
			s = append(s, say("evidence.past.against"))
		}
		if len(e.Seen) > 0 {
			key := "evidence.fits"
			if !e.Fits {
				key = "evidence.misfits"
			}
			s = append(s, say(key))
		}
		if slices.ContainsFunc(e.Seen, func(s Seen) bool { return s.Rests }) {
			s = append(s, say("seen.rest"))
		}
		if len(e.RestMM) == 2 && e.Fits {
			s = append(s, say("evidence.rest", "warp", warpRange(e.RestMM[0], e.RestMM[1]), "over", whole(e.RestOver)))
		}
		if c := w.causes(); c != "" && (e.Counts || e.Fits) {
			s = append(s, say("evidence.causes", "list", c))
		}
		if i == 0 {
			for _, u := range e.Unused {
				s = append(s, say("evidence.unused", "what", u))
			}
		}
		for k := range s {
			if k == 0 {
				s[k] = lead + s[k]
			}
			out = append(out, s[k])
		}
	}
	return out
}

// causesShown is how many causes are told.
const causesShown = 4

// causes lists what the evidence says of inputs, in words.
func (w Way) causes() string {
	var out []string
	for _, c := range w.Causes {
		if len(out) == causesShown {
			break
		}
		out = append(out, c.words())
	}
	return strings.Join(out, "; ")
}

// words is a cause: a side, a property drawn in spreads, or a number.
func (c Cause) words() string {
	mid, was := (c.After[0]+c.After[1])/2, (c.Before[0]+c.Before[1])/2
	side := func(low, high string) string {
		if mid < was {
			return say("cause.side", "what", c.What, "side", say(low))
		}
		return say("cause.side", "what", c.What, "side", say(high))
	}
	switch {
	case strings.HasSuffix(c.Path, ".heart_side"):
		return side("cause.back", "cause.front")
	case strings.HasSuffix(c.Path, ".lean"):
		return side("cause.left", "cause.right")
	case c.Unit == "" || c.Unit == "fraction" || c.Unit == "standard deviations":
		return side("cause.less", "cause.more")
	}
	unit := c.Unit
	if unit == "deg" {
		unit = "degrees"
	}
	return say("cause.range", "what", c.What, "after", span(plain(round2(c.After[0])), plain(round2(c.After[1])))+" "+unit,
		"before", span(plain(round2(c.Before[0])), plain(round2(c.Before[1]))))
}

// round2 rounds to two digits.
func round2(v float64) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	p := math.Pow(10, 1-math.Floor(math.Log10(math.Abs(v))))
	return math.Round(v*p) / p
}

func (a Assess) seenTable() Table {
	t := Table{Align: "lrrrr", Head: []string{
		say("seen.head.what"), say("seen.head.rh"), say("seen.head.measured"), say("seen.head.before"), say("seen.head.after"),
	}}
	for _, w := range a.Doubt.Ways {
		for _, s := range w.Evidence.Seen {
			what := SeenWords(s)
			if s.When != "" {
				what += ", " + s.Day()
			}
			one := func(v []float64) string {
				if s.What == "warp" {
					return warpRange(v[0], v[1])
				}
				return span(seenMM(s, v[0]), seenMM(s, v[1]))
			}
			measured := seenMM(s, s.Measured-s.RestMM)
			if s.What == "warp" {
				measured = short(warped(s.Measured - s.RestMM))
			}
			if s.Rests {
				measured += " *"
			}
			if w.Words != "" {
				what += w.clause()
			}
			t.Rows = append(t.Rows, []string{what, whole(s.RHPct), measured, one(s.Before), one(s.After)})
		}
	}
	return t
}

// SeenWords says what was measured.
func SeenWords(s Seen) string {
	return say("seen."+s.What, "part", PartWords(s.Part), "over", whole(s.OverMM))
}

// Day is when it was measured, in words.
func (s Seen) Day() string {
	if t, err := time.Parse(time.DateOnly, s.When); err == nil {
		return t.Format("2 January 2006")
	}
	return plainLine(s.When)
}

func seenMM(s Seen, v float64) string {
	if s.What == "width" {
		return oneDecimal(v)
	}
	return oneDecimal(math.Max(v, 0))
}
