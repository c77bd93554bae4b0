package panel

import (
	"math"
	"slices"
)

// joins makes a join between any two neighbours, described or not.
func (d *draft) joins() {
	names, joins := d.p.boards, d.p.Names("join")
	for i := 0; i+1 < len(names); i++ {
		pt, ok := d.p.joinAt[i]
		if !ok {
			pt = part{table: "join", name: names[i] + "-" + names[i+1]}
			for slices.Contains(joins, pt.name) {
				pt.name += "'"
			}
		}
		d.o.Joins = append(d.o.Joins, d.join(pt, i))
	}
}

func (d *draft) join(pt part, i int) Join {
	right := &d.o.Boards[i+1]
	j := Join{
		Name: pt.name, X: right.Left, Left: i, Right: i + 1, Kind: d.p.word(pt.at("kind")),
		Glue:         d.words(pt, "glue", "animal", "common practice"),
		OpenedBefore: d.p.word(pt.at("condition")) == "opened before",
		OpenFace:     d.p.word(pt.at("open_face")),
		Gap:          d.known(pt, "gap_mm"), Step: d.known(pt, "step_mm"),
		GapRH:  d.humidity(pt, "measured_at_rh_pct", "lines", 0, ""),
		Filled: orNotRecorded(d.p.word(pt.at("filled"))),
		Fixed:  d.humidity(pt, "fixed_at_rh_pct", "history", fixedPoints, fixedWhy),
	}
	if d.described(pt, "open_from", "open_mm", "start_mm") {
		j.OpenStart, j.OpenEnd = d.alongGrain(pt, "open_from", "open_mm")
		j.OpenedBefore = true
		if j.OpenFace == "" {
			j.OpenFace = "through"
		}
	}
	condition := d.p.word(pt.at("condition"))
	if j.OpenedBefore {
		condition = "opened before"
	}
	g := joinStrength(j.Glue, condition)
	g.what, g.group = "join "+pt.name+", strength beside sound wood", "lines"
	j.StrengthOfSound = math.Min(1, d.assume(pt.at("strength_of_sound"), g, key{}))
	return j
}

// described says whether the file gives any of the keys.
func (d *draft) described(pt part, keys ...string) bool {
	return slices.ContainsFunc(keys, func(k string) bool { return d.p.Known(pt.at(k)) != Assumed })
}

// known returns a number that has no default: 0 when it is not recorded.
func (d *draft) known(pt part, key string) float64 {
	if !d.described(pt, key) {
		return 0
	}
	return d.number(pt, key, "lines", guess{})
}

func orNotRecorded(w string) string {
	if w == "" {
		return "not recorded"
	}
	return w
}

// alongGrain returns start and end along the grain of an open join or a split.
func (d *draft) alongGrain(pt part, from, length string) (start, end float64) {
	size := d.o.Along
	if d.described(pt, "start_mm", "end_mm") {
		start = d.number(pt, "start_mm", "lines", guess{})
		end = d.number(pt, "end_mm", "lines", guess{nominal: size, low: size, high: size, why: "its far end"})
		return math.Min(start, size), math.Min(math.Max(start, end), size)
	}
	far := "top"
	if d.o.GrainLevel {
		far = "right"
	}
	l := math.Min(size, d.number(pt, length, "lines", openGuess(size)))
	if w := d.words(pt, from, far, "assumption"); w == "bottom" || w == "left" {
		return 0, l
	}
	return size - l, size
}

func (d *draft) splits() {
	for _, pt := range d.p.parts {
		if pt.table == "split" {
			d.o.Splits = append(d.o.Splits, d.split(pt))
		}
	}
}

func (d *draft) split(pt part) Split {
	s := Split{
		Name:     pt.name,
		Face:     orNotRecorded(d.p.word(pt.at("face"))),
		Bridging: orNotRecorded(d.p.word(pt.at("paint"))),
		Filled:   orNotRecorded(d.p.word(pt.at("filled"))),
		Gap:      d.known(pt, "gap_mm"), Step: d.known(pt, "step_mm"),
		GapRH:    d.humidity(pt, "measured_at_rh_pct", "lines", 0, ""),
		AgeFresh: d.p.word(pt.at("age")) == "fresh",
	}
	s.Board, s.X = d.splitPlace(pt)
	b := &d.o.Boards[s.Board]
	s.Start, s.End = d.alongGrain(pt, "from", "length_mm")
	s.Depth, s.Through = b.Thickness, true
	if d.described(pt, "depth_mm") {
		if depth := d.number(pt, "depth_mm", "lines", guess{}); depth < b.Thickness {
			s.Depth, s.Through = depth, false
		}
	}
	return s
}

// splitPlace returns the board of a split and its place from the panel's left edge.
func (d *draft) splitPlace(pt part) (board int, x float64) {
	inset := func(i int, x float64) float64 { // a split has wood on both sides
		b := d.o.Boards[i]
		return math.Min(math.Max(x, b.Left+math.Min(0.5, b.Width/4)), b.Left+b.Width-math.Min(0.5, b.Width/4))
	}
	names := d.p.boards
	i := d.p.boardIndex(d.p.word(pt.at("board")))
	across := d.described(pt, "across_mm")
	if i < 0 && across {
		x = d.number(pt, "across_mm", "lines", guess{})
		for i = 0; i+1 < len(names) && x > d.o.Boards[i+1].Left; i++ {
		}
		return i, inset(i, x)
	}
	if i < 0 {
		i = len(names) / 2
		d.words(pt, "board", "board "+names[i], "assumption")
	}
	b := d.o.Boards[i]
	x = round(b.Width / 2)
	x = d.number(pt, "across_mm", "lines", assumption(x, x, x, Triangular, "assumption: the middle of its board"))
	return i, inset(i, b.Left+x)
}

func (d *draft) inserts() {
	for _, pt := range d.p.parts {
		if pt.table != "insert" {
			continue
		}
		w := d.memberWood(pt, "wood")
		d.o.Inserts = append(d.o.Inserts, Insert{
			Name: pt.name, Kind: orNotRecorded(d.p.word(pt.at("kind"))), Wood: w.numbers,
			X: d.known(pt, "across_mm"), Y: d.known(pt, "along_mm"),
			AcrossGrain: d.p.word(pt.at("grain")) != "along",
			Length:      d.known(pt, "length_mm"), Width: d.known(pt, "width_mm"), Depth: d.known(pt, "depth_mm"),
			Fixed: d.humidity(pt, "fixed_at_rh_pct", "history", 0, ""),
		})
	}
}
