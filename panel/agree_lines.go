package panel

import (
	"fmt"
	"math"
)

// joinAgrees looks at one join: two neighbouring boards, described once, open within the panel.
func (r *reader) joinAgrees(pt part) {
	if v, ok := r.panel.values[pt.at("between")]; ok && !v.cannotTell {
		r.neighbours(pt, v.names)
	}
	r.alongAgrees(pt, "open_from", "open_mm")
	given := func(k string) bool { return r.has(pt.at(k)) }
	if r.panel.word(pt.at("condition")) == "sound" && (given("open_mm") || given("open_from") || given("start_mm")) {
		r.at(pt, "condition", "is sound, but an open part is described", `write "opened before" for a join that stands open in part`)
	}
}

func (r *reader) neighbours(pt part, names []string) {
	i, j := r.panel.boardIndex(names[0]), r.panel.boardIndex(names[1])
	for n, at := range [...]int{i, j} {
		if at < 0 {
			r.missingBoard(pt, "between", names[n])
		}
	}
	switch {
	case i < 0 || j < 0:
	case names[0] == names[1]:
		r.at(pt, "between", "names the board "+shown(names[0])+" twice", "")
	case i-j != 1 && j-i != 1:
		r.at(pt, "between", fmt.Sprintf("%s and %s are not neighbours", shown(names[0]), shown(names[1])),
			"the order of boards in the file is their order across")
	default:
		if other, ok := r.panel.joinAt[min(i, j)]; ok && other.name != pt.name {
			r.at(pt, "between", "the join of these two boards is described twice, as "+other.path()+" too", "")
		}
	}
}

// splitAgrees looks at one split or check: within its board and the panel.
func (r *reader) splitAgrees(pt part) {
	size, what := r.across(), "the panel"
	if name := r.panel.Text(pt.at("board")); name != "" && name != cannotTell {
		if r.panel.boardIndex(name) < 0 {
			r.missingBoard(pt, "board", name)
			return
		}
		if q, ok := r.panel.Number("board." + name + ".width_mm"); ok {
			size, what = q.High, "its board"
		}
		r.depthAgrees(pt, name)
	}
	if _, x, ok := r.got(pt, "across_mm"); ok && x > size+within {
		r.at(pt, "across_mm", fmt.Sprintf("must lie within %s, 0 to %s mm, got %s", what, showNumber(size), showNumber(x)),
			"it is measured from the left edge of the board")
	}
	r.alongAgrees(pt, "from", "length_mm")
}

func (r *reader) depthAgrees(pt part, board string) {
	_, d, ok := r.got(pt, "depth_mm")
	q, okT := r.panel.Number("board." + board + ".thickness_mm")
	if !okT {
		q, okT = r.panel.Number("panel.thickness_mm")
	}
	if ok && okT && d > q.High {
		r.at(pt, "depth_mm", fmt.Sprintf("must not exceed the board's thickness, %s mm, got %s", showNumber(q.High), showNumber(d)),
			"leave depth_mm out when it goes through")
	}
}

// alongAgrees looks at a place along the grain given as an end and a length, or as start and end.
func (r *reader) alongAgrees(pt part, from, length string) {
	size := r.along()
	p := r.panel
	if end := p.word(pt.at(from)); end != "" && (end == "top" || end == "bottom") == p.GrainLevel() {
		hint := `with upright grain it is "top" or "bottom"`
		if p.GrainLevel() {
			hint = `with level grain it is "left" or "right"`
		}
		r.at(pt, from, fmt.Sprintf("%s is not an end of the grain", shown(end)), hint)
	}
	if _, l, ok := r.got(pt, length); ok && l > size {
		r.at(pt, length, fmt.Sprintf("must not exceed the panel along the grain, %s mm, got %s", showNumber(size), showNumber(l)), "")
	}
	start, _, okS := r.got(pt, "start_mm")
	_, end, okE := r.got(pt, "end_mm")
	if okE && end > size+within {
		r.at(pt, "end_mm", fmt.Sprintf("must not exceed the panel along the grain, %s mm, got %s", showNumber(size), showNumber(end)), "")
	}
	if okS && start > size {
		r.at(pt, "start_mm", fmt.Sprintf("must not exceed the panel along the grain, %s mm, got %s", showNumber(size), showNumber(start)), "")
	}
	switch {
	case okS && okE && start >= end:
		r.at(pt, "end_mm", fmt.Sprintf("must be more than start_mm, %s mm, got %s", showNumber(start), showNumber(end)), "")
	case okS != okE && !r.broken[pt.at("start_mm")] && !r.broken[pt.at("end_mm")]:
		k, other := "start_mm", "end_mm"
		if okE {
			k, other = other, k
		}
		r.at(pt, k, "needs "+other+" as well", "or write "+from+" and "+length)
	case okS && okE && (r.has(pt.at(length)) || r.has(pt.at(from))):
		r.at(pt, "start_mm", "says the same as "+from+" and "+length+" in another way", "keep one of the two")
	}
}

// channelAgrees refuses a channel that leaves no wood in the thickest board.
func (r *reader) channelAgrees(pt part) {
	_, d, ok := r.got(pt, "channel_depth_mm")
	thick := 0.0
	for _, name := range r.panel.boards {
		q, okT := r.panel.Number("board." + name + ".thickness_mm")
		if !okT {
			q, okT = r.panel.Number("panel.thickness_mm")
		}
		if !okT {
			return // not recorded: nothing to compare with
		}
		thick = math.Max(thick, q.High)
	}
	if ok && thick > 0 && d >= thick {
		r.at(pt, "channel_depth_mm", fmt.Sprintf("must be less than the thickness of the boards, %s mm, got %s", showNumber(thick), showNumber(d)),
			"measured from the back down to the bottom of the channel")
	}
}

// battenAgrees looks at one batten: on the panel, its fixings on it.
func (r *reader) battenAgrees(pt part) {
	r.inside(pt, "along_mm", r.along(), "along the grain")
	r.inside(pt, "from_mm", r.across(), "across the grain")
	r.inside(pt, "to_mm", r.across(), "across the grain")
	from, _, okF := r.got(pt, "from_mm")
	_, to, okT := r.got(pt, "to_mm")
	if okF && okT && from >= to {
		r.at(pt, "to_mm", fmt.Sprintf("must be more than from_mm, %s mm, got %s", showNumber(from), showNumber(to)), "")
		return
	}
	if !okT {
		to = r.across()
	}
	r.channelAgrees(pt)
	if q, ok := r.panel.Number(pt.at("width_mm")); ok && q.High > r.along() {
		r.at(pt, "width_mm", fmt.Sprintf("must not exceed the panel along the grain, %s mm, got %s", showNumber(r.along()), showNumber(q.High)), "")
	}
	at := r.panel.List(pt.at("at_mm"))
	for _, x := range at {
		if x < from-within || x > to+within {
			r.at(pt, "at_mm", fmt.Sprintf("must lie on the batten, %s to %s mm, got %s", showNumber(from), showNumber(to), showNumber(x)),
				"places are measured from the panel's left edge")
			break
		}
	}
	if _, s, ok := r.got(pt, "spacing_mm"); ok && len(at) > 0 {
		r.at(pt, "spacing_mm", "says the same as at_mm in another way", "keep one of the two")
	} else if ok && s > to-from {
		r.at(pt, "spacing_mm", fmt.Sprintf("must not exceed the batten's length, %s mm, got %s", showNumber(to-from), showNumber(s)), "")
	}
}

// battensApart reports battens that lie on one another.
func (r *reader) battensApart() {
	type bar struct {
		pt       part
		y, half  float64
		from, to float64
		side     string
	}
	var bars []bar
	for _, pt := range r.panel.parts {
		y, ok := r.panel.Number(pt.at("along_mm"))
		if pt.table != "batten" || !ok {
			continue
		}
		b := bar{pt: pt, y: y.Nominal, from: 0, to: math.Inf(1), side: r.panel.word(pt.at("side"))}
		if q, ok := r.panel.Number(pt.at("width_mm")); ok {
			b.half = q.Low / 2
		}
		if low, _, ok := r.got(pt, "from_mm"); ok {
			b.from = low
		}
		if _, high, ok := r.got(pt, "to_mm"); ok {
			b.to = high
		}
		for _, o := range bars {
			apart := math.Abs(b.y-o.y) >= b.half+o.half && b.y != o.y
			beside := b.from >= o.to || o.from >= b.to
			if !apart && !beside && (b.side == "front") == (o.side == "front") {
				r.at(pt, "along_mm", fmt.Sprintf("lies on batten.%s: centre lines at %s and %s mm, half widths %s and %s mm",
					o.pt.name, showNumber(b.y), showNumber(o.y), showNumber(b.half), showNumber(o.half)), "")
			}
		}
		bars = append(bars, b)
	}
}
