package report

import (
	"math"
	"strings"

	"crossgrain/moisture"
)

// actionWord is the word of a cell: WAIT, CALL, ACT.
func actionWord(action string) string {
	switch action {
	case "act":
		return say("fault.act")
	case "call":
		return say("fault.call")
	}
	return say("fault.wait")
}

// words names the readings of a row.
func (r FaultRow) words() string {
	switch {
	case r.LowRHPct <= 0:
		return say("fault.row.under", "rh", whole(r.HighRHPct))
	case r.HighRHPct >= 100:
		return say("fault.row.over", "rh", whole(r.LowRHPct))
	}
	return say("fault.row.between", "low", whole(r.LowRHPct), "high", whole(r.HighRHPct))
}

// readingWords says whose reading counts on a card.
func (c FaultCard) readingWords() string {
	switch {
	case c.Reading == "case":
		return say("fault.reading.case")
	case c.ClosedCase:
		return say("fault.reading.around")
	}
	return say("fault.reading.room")
}

// caseWords describes the closed case; empty without one.
func (c FaultCard) caseWords() string {
	if c.Case == nil {
		return ""
	}
	return say("fault.case", "litres", plain(c.Case.VolumeL), "changes", plain(c.Case.ChangesPerDay), "buffer", plain(c.Case.BufferKg))
}

// how says how to read a card and where its hours come from.
func (c FaultCard) how() []string {
	if len(c.Panels) > 0 {
		return c.crateHow()
	}
	var out []string
	if len(c.Rows) > 0 {
		out = append(out, say("fault.how.find"), say("fault.how.words"), c.fromWords())
		if c.First != "" {
			out = append(out, say("fault.how.first", "cause", CauseWords(c.First)))
		}
		if l := c.Lived; l != nil {
			out = append(out, say(c.livedKey(), "low", whole(l.LowRHPct), "high", whole(l.HighRHPct)))
		}
		if c.CountedMM != nil {
			out = append(out, say("fault.how.thin", "mm", whole(*c.CountedMM)))
		}
		if c.BareBack {
			out = append(out, say("fault.how.bare"))
		}
		out = append(out, say("fault.how.quick"))
	}
	if c.ClosedCase {
		out = append(out, say("fault.how.case"))
	}
	return nonEmpty(append(out, c.caseWords(), airWords())...)
}

// livedKey is how the card tells of what the panel has lived through.
func (c FaultCard) livedKey() string {
	switch c.LivedHow {
	case "counted":
		return "fault.how.lived.counted"
	case "against":
		return "fault.how.lived.against"
	}
	return "fault.how.lived"
}

func (c FaultCard) fromWords() string {
	dry, damp := *c.FromDry, *c.FromDamp
	switch {
	case c.Passed:
		return say("fault.how.passed", "rh", whole(dry))
	case c.SeasonWhy != "":
		return say("fault.how.noseason", "rh", whole(dry), "why", plainLine(c.SeasonWhy))
	case dry == damp:
		return say("fault.how.from", "rh", whole(dry))
	}
	return say("fault.how.season", "dry", whole(dry), "damp", whole(damp))
}

// airWords says what cooling and warming alone do to the humidity of air; Magnus form.
func airWords() string {
	to := func(h moisture.RH, from, to moisture.Celsius) string {
		out, err := moisture.MagnusWMO.RHAt(h, from, to)
		if err != nil {
			return whole(math.NaN())
		}
		return whole(out.Percent())
	}
	return say("fault.how.air", "warm", bothDegrees(20), "cold", bothDegrees(12), "chill", bothDegrees(10),
		"back", bothDegrees(20), "h", whole(50), "then", to(0.5, 20, 12), "damp", whole(70), "dry", to(0.7, 10, 20))
}

// bothDegrees writes a temperature in °C and °F.
func bothDegrees(c float64) string {
	return say("fault.how.temp", "c", whole(c), "f", whole(32+1.8*c))
}

// shortTime writes hours as 8h, 3d, 1w, for the narrow cells of the door sheet. Times are cut, never
// rounded up.
func shortTime(h float64) string {
	switch {
	case h < 1:
		return say("fault.short.under")
	case h < 24:
		return say("fault.short.hour", "n", whole(math.Floor(h)))
	case h < 168:
		return say("fault.short.day", "n", whole(math.Floor(h/24)))
	}
	return say("fault.short.week", "n", whole(math.Floor(h/168)))
}

// where names a panel by its place.
func where(place, name string) string {
	if p := plainLine(place); p != "" {
		return p + ", " + name
	}
	return name
}

// table is the grid of a card or of a store in words.
func (g FaultGrid) table(last string, more func(row int) string) Table {
	t := Table{Align: "r", Head: []string{say("fault.head.reading")}}
	for _, h := range g.ColumnsH {
		t.Head = append(t.Head, stood(h))
	}
	if last != "" {
		t.Head = append(t.Head, last)
	}
	for i, r := range g.Rows {
		row := []string{r.words()}
		for _, c := range g.Cells[i] {
			row = append(row, actionWord(c))
		}
		if last != "" {
			row = append(row, more(i))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// shownFirst are the panels that the door sheet names in a row.
const shownFirst = 2

// firstOf names the panels that come first at a row.
func (d *FaultDoor) firstOf(row int) string {
	var out []string
	for i, t := range d.Order[row] {
		if i == shownFirst {
			out = append(out, say("fault.door.more", "n", whole(float64(len(d.Order[row])-shownFirst))))
			break
		}
		out = append(out, say("fault.door.turn", "who", where(t.Place, t.Accession), "time", shortTime(t.CallH)))
	}
	return strings.Join(out, "; ")
}

// turns lists the cells of a panel on the door sheet: from when to call and to act.
func (p FaultTurns) turns() [][]string {
	const week = 168
	var out [][]string
	for i := range p.CallH {
		cell := []string{say("fault.door.cell.none")}
		if c := p.CallH[i]; c != nil && *c <= week {
			cell = []string{say("fault.door.cell.call", "time", shortTime(*c))}
		}
		if a := p.ActH[i]; a != nil && *a <= week {
			cell = append(cell, say("fault.door.cell.act", "time", shortTime(*a)))
		}
		out = append(out, cell)
	}
	return out
}

// actions are the three first actions.
func firstActions() []string {
	return []string{say("fault.first.one"), say("fault.first.two"), say("fault.first.three")}
}

// actionWords says what the three words ask for.
func actionWords() []string {
	return []string{
		say("fault.wait") + ": " + say("fault.does.wait"), say("fault.call") + ": " + say("fault.does.call"),
		say("fault.act") + ": " + say("fault.does.act"),
	}
}

// stood names a column.
func stood(h float64) string {
	if h == 168 {
		return say("fault.week")
	}
	return lasting(h)
}
