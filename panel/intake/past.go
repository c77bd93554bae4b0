package intake

import (
	"strconv"
	"strings"

	"crossgrain/panel"
)

// warp puts a warp with its direction and the humidity at which it was measured; without them it is kept.
func (d *draft) warp() {
	toward := d.word(WarpToward)
	flat := answerOf(d.row.Value(Warp)) == nothing
	var s span
	if !flat {
		var ok bool
		if s, ok = d.length(Warp); !ok {
			d.note(WarpToward)
			d.note(WarpAtRH)
			return
		}
	}
	rh, err := strconv.ParseFloat(strings.TrimSpace(strings.Replace(strings.TrimRight(d.row.Value(WarpAtRH), "% RHrh"), ",", ".", 1)), 64)
	if err != nil || !flat && toward != "viewer" && toward != "wall" || s.low != s.high {
		d.ask(WarpBare, Warp, "")
		d.note(WarpToward)
		d.note(WarpAtRH)
		return
	}
	cup := "0"
	if flat {
		d.note(WarpToward)
	} else {
		cup = panel.Quote(map[bool]string{true: "-"}[toward == "wall"] + strings.TrimPrefix(s.typed[0], "-"))
	}
	d.put(Warp, "observed.list", "cup_mm", cup)
	d.put(WarpAtRH, "observed.list", "rh_pct", strconv.FormatFloat(rh, 'f', -1, 64))
	if day := d.row.Value(LastInspected); answerOf(day) == other {
		d.put(LastInspected, "observed.list", "date", when(day))
	}
}

// when writes a year or a date as the panel file holds it.
func when(cell string) string {
	if n, err := strconv.Atoi(strings.TrimSuffix(cell, ".0")); err == nil && n > 0 {
		return strconv.Itoa(n)
	}
	return panel.Quote(strings.TrimSuffix(cell, " 00:00:00"))
}

// climate puts where it has lived. "Here since" belongs to the climate it is used to only where the list
// does not say that it came from another.
func (d *draft) climate() {
	from := answerOf(d.row.Value(CameFrom))
	if from == other {
		d.put(CameFrom, "used_to", "climate", panel.Quote(strings.ToLower(d.row.Value(CameFrom))))
	} else {
		d.note(CameFrom)
	}
	d.date(HereSince, "since", from != other)
	d.date(LastInspected, "last_inspected", true)
	switch d.word(ChangedSince) {
	case "none":
		d.put(ChangedSince, "used_to", "unchanged", "true")
	case "yes":
		d.put(ChangedSince, "used_to", "unchanged", "false")
	case "?":
		d.put(ChangedSince, "used_to", "unchanged", `"?"`)
	}
	switch w := d.word(Enclosure); w {
	case "":
	case "none":
		d.put(Enclosure, "enclosure", "seal", `"open"`)
	case "yes":
		d.ask(NotAWord, Enclosure, wordsFor(Enclosure))
	default:
		d.put(Enclosure, "enclosure", "seal", panel.Quote(w))
	}
}

// date puts a year or a date where its key may hold it, and keeps it otherwise.
func (d *draft) date(f Field, key string, may bool) {
	if cell := d.row.Value(f); may && answerOf(cell) == other {
		d.put(f, "used_to", key, when(cell))
	} else {
		d.note(f)
	}
}
