package intake

import (
	"regexp"
	"strconv"
	"strings"

	"crossgrain/panel"
)

// lines puts cracks and open joins.
func (d *draft) lines() {
	cell := d.row.Value(Cracks)
	cracks, joins := answerOf(cell), answerOf(d.row.Value(OpenJoins))
	switch { // one key holds both answers
	case cracks == nothing && joins == nothing:
		d.put(Cracks, "panel", "cracks", `"none"`)
	case (cracks == cannotTell || joins == cannotTell) && (cracks == cannotTell || cracks == nothing || cracks == blank):
		d.put(Cracks, "panel", "cracks", `"?"`)
	}
	switch cracks {
	case blank:
	case nothing, cannotTell:
		d.note(Cracks)
	case yes: // it is there, not described
		d.put(Cracks, "split.1", "", "")
	default:
		d.cracks(cell)
	}
	d.joins()
}

func (d *draft) cracks(cell string) {
	c, _ := d.row.column(Cracks)
	cracks, unread, unitless := parseCracks(cell, c.Unit)
	if len(unread) > 0 {
		d.ask(NotRead, Cracks, "top 120 mm; left 40 mm from bottom; none")
	}
	if unitless {
		d.ask(NoUnit, Cracks, string(Cracks))
	}
	for i, k := range cracks {
		table := "split." + strconv.Itoa(i+1)
		d.put(Cracks, table, "", "")
		if !k.fits(d.level()) {
			d.ask(CrackGrain, Cracks, map[bool]string{false: "upright", true: "level"}[d.level()])
			continue
		}
		d.put(Cracks, table, "from", panel.Quote(k.from))
		if k.length != nil {
			d.put(Cracks, table, "length_mm", k.length.toml())
		}
		if across, ok := k.across(d.level()); ok {
			d.put(Cracks, table, "across_mm", across)
		} else if k.place != nil {
			d.note(Cracks) // counted from the other edge
		}
	}
}

var joinPair = regexp.MustCompile(`^(\d+)\s*(?:-|/|and|und|et)\s*(\d+)$`)

// joins puts joins that have opened: "yes" where there are two boards, or "1-2; 2-3".
func (d *draft) joins() {
	cell := d.row.Value(OpenJoins)
	var pairs [][2]string
	switch answerOf(cell) {
	case blank:
		return
	case nothing, cannotTell:
		d.note(OpenJoins)
		return
	case yes:
		if n, _ := guessed(d.row.Value(Boards)); strings.TrimSuffix(n, ".0") == "2" {
			pairs = [][2]string{{"1", "2"}}
		}
	default:
		for _, piece := range strings.FieldsFunc(dashes.Replace(cell), func(r rune) bool { return r == ';' || r == ',' }) {
			m := joinPair.FindStringSubmatch(strings.TrimSpace(strings.ToLower(piece)))
			if m == nil {
				pairs = nil
				break
			}
			pairs = append(pairs, [2]string{m[1], m[2]})
		}
	}
	if len(pairs) == 0 {
		d.ask(JoinUnclear, OpenJoins, "1-2; 2-3")
		return
	}
	for _, p := range pairs {
		table := "join." + p[0] + "-" + p[1]
		d.put(OpenJoins, table, "between", "["+panel.Quote(p[0])+", "+panel.Quote(p[1])+"]")
		d.put(OpenJoins, table, "condition", `"opened before"`)
	}
}

// state puts paint and warp.
func (d *draft) state() {
	switch d.word(Flaking) {
	case "none", "sound":
		d.put(Flaking, "face.front", "paint", `"sound"`)
	case "flaking", "yes":
		d.put(Flaking, "face.front", "paint", `"flaking"`)
	case "?":
		d.put(Flaking, "face.front", "paint", `"?"`)
	case "past":
		d.note(Flaking)
	}
	d.warp()
}
