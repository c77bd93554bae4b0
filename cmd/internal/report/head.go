package report

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

func (a Assess) title() string {
	if t := plainLine(a.Panel.Title); t != "" {
		return t
	}
	if t := plainLine(a.Panel.Accession); t != "" {
		return t
	}
	return say("panel.untitled")
}

// about describes the panel in one line.
func (a Assess) about() string {
	p := a.Panel
	parts := []string{say("head.size", "height", whole(p.HeightMM), "width", whole(p.WidthMM))}
	if p.Boards == 1 {
		parts = append(parts, say("head.boards.one", "wood", p.Woods))
	} else {
		parts = append(parts, say("head.boards.many", "n", whole(float64(p.Boards)), "wood", p.Woods))
	}
	parts = append(parts, say("head.thick", "t", millimetres(p.ThicknessMM)), say("head.grain", "grain", p.Grain))
	return strings.Join(parts, ", ") + "."
}

// climate says the climate it is used to and what was asked.
func (a Assess) climate() []string {
	rh, temp := whole(a.UsedTo.RHPct), whole(a.UsedTo.TemperatureC)
	used := say("head.usedto", "rh", rh, "temp", temp)
	if w := plainLine(a.UsedTo.Words); w != "" {
		used = say("head.usedto.words", "rh", rh, "temp", temp, "words", w)
	}
	asked := "head.asked." + a.Range.From
	switch {
	case a.Year != nil:
		asked = "head.asked.followed"
	case !known(asked):
		asked = "head.asked.asked"
	}
	return []string{used, say(asked, "low", whole(a.Range.LowRHPct), "high", whole(a.Range.HighRHPct))}
}

// basis says how much was described and how much assumed.
func (a Assess) basis() string {
	s := say("head.facts", "n", whole(float64(a.Panel.Described))) + " " + plural("head.assumed", len(a.Assumed))
	if a.Evidence != "" {
		s += " " + say("head.evidence", "evidence", a.Evidence)
	}
	return s + " " + say("head.front")
}

func upperFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
