package figure

import (
	"cmp"
	"slices"
	"strconv"

	"gonum.org/v1/plot/vg"
)

// fill fills the panel, from the first level outwards.
func (d *pullSheet) fill(p pen) {
	if d.step == 0 {
		return
	}
	less := make([]float64, len(d.values))
	for k := range d.values {
		less[k] = -d.values[k]
	}
	var hatch [][]vg.Point
	for l := range levels {
		outline, _ := d.n.region(d.values, float64(l+1)*d.step)
		p.area(pulls(l), stroke{}, d.v, outline)
	}
	for l := range levels {
		outline, pieces := d.n.region(less, float64(l+1)*d.step)
		p.area(presses(l), stroke{}, d.v, outline)
		polys := make([][]vg.Point, len(pieces))
		for k := range pieces {
			polys[k] = d.v.line(pieces[k])
		}
		hatch = append(hatch, hatched(weaves(l), polys)...)
	}
	p.lines(hatchSign, hatch...)
}

// isolines are the lines along which the values pass a level; closed ones come back to their start.
func (n net) isolines(values []float64, level float64) [][]vertex {
	t := n.tracer(values)
	var edges [][2]int
	for i := range n.parts {
		for _, tri := range n.triangles(i) {
			if _, cut, ok := t.above(tri, 0, level); ok && !hasNaN(values, tri) {
				edges = append(edges, cut)
			}
		}
	}
	has := map[[2]int]bool{}
	for _, e := range edges {
		has[e] = true
	}
	var out [][]vertex
	for _, line := range chains(edges) {
		if has[[2]int{line[len(line)-1], line[0]}] {
			line = append(line, line[0])
		}
		out = append(out, t.vertices(line))
	}
	return out
}

func hasNaN(v []float64, tri [3]int) bool {
	s := v[tri[0]] + v[tri[1]] + v[tri[2]]
	return s != s
}

// contours draws the lines of the levels, the largest pull and press, and writes their numbers.
func (d *pullSheet) contours(p pen) {
	inner := box(d.r.Min.X+1, d.r.Min.Y+1, d.r.Max.X-1, d.r.Max.Y-1)
	pl := &places{area: inner}
	if d.step == 0 {
		return
	}
	type lined struct {
		level int
		lines [][]vg.Point
	}
	var all []lined
	for l := -levels; l <= levels; l++ {
		if l == 0 {
			continue
		}
		var dash []vg.Length
		if l < 0 {
			dash = []vg.Length{3, 1.6}
		}
		c := lined{level: l}
		for _, line := range d.n.isolines(d.values, float64(l)*d.step) {
			c.lines = append(c.lines, thinLine(d.v.line(line)))
		}
		c.lines = clip(d.r, c.lines)
		p.lines(stroke{thin, ink, dash}, c.lines...)
		all = append(all, c)
	}
	d.markPeaks(p, pl)
	for _, c := range all {
		d.nameContour(p, pl, c.level, c.lines)
	}
}

// nameContour writes the number of a level on its lines, the longest first.
func (d *pullSheet) nameContour(p pen, pl *places, level int, lines [][]vg.Point) {
	text := minus(strconv.FormatFloat(float64(level)*d.step, 'g', 3, 64))
	w, h := smallText.width(text)+3, smallText.size+0.5
	lines = slices.Clone(lines)
	slices.SortStableFunc(lines, func(a, b []vg.Point) int { return cmp.Compare(lengthOf(b), lengthOf(a)) })
	for _, line := range lines[:min(len(lines), mostNumbers)] {
		if lengthOf(line) < 1.4*w {
			return
		}
		var want []vg.Point
		for _, q := range middleFirst(along(line, 15)) {
			want = append(want, at(q.X-w/2, q.Y-h/2))
		}
		d.onWhite(p, pl, text, smallText.in(ink), w, h, want)
	}
}

// mostNumbers is how many lines of one level have their number on them.
const mostNumbers = 6

func lengthOf(line []vg.Point) vg.Length {
	l := vg.Length(0)
	for i := 1; i < len(line); i++ {
		l += hypot(line[i].Sub(line[i-1]))
	}
	return l
}

// middleFirst are points from the middle of a line outwards.
func middleFirst(q []vg.Point) []vg.Point {
	var out []vg.Point
	m := len(q) / 2
	for i := range q {
		if k := m + (i+1)/2*(1-2*(i%2)); k >= 0 && k < len(q) {
			out = append(out, q[k])
		}
	}
	return out
}

func (d *pullSheet) onWhite(p pen, pl *places, text string, l letters, w, h vg.Length, want []vg.Point) {
	r, cost := pl.put(w, h, want)
	if cost > 1e6 {
		return
	}
	p.rect(veil(white, 0.85), stroke{}, r)
	p.text(text, at(r.Min.X+1.5, r.Min.Y+1.6), l, left)
}

// markPeaks draws a dot at the largest pull, a ring at the largest press, each with its number.
func (d *pullSheet) markPeaks(p pen, pl *places) {
	for _, q := range d.peaks {
		if !q.ok {
			continue
		}
		m := d.at(q.x, q.z)
		if !finite(m) {
			continue
		}
		if q.mpa > 0 {
			p.dot(ink, stroke{0.7, white, nil}, m, 2.6)
		} else {
			p.dot(white, stroke{limit, ink, nil}, m, 2.3)
		}
		pl.keep(box(m.X-3, m.Y-3, m.X+3, m.Y+3))
	}
	for _, q := range d.peaks {
		if m := d.at(q.x, q.z); q.ok && finite(m) {
			text := q.text() + " MPa"
			w, h := boldText.width(text)+3, boldText.size+1
			var want []vg.Point
			for _, e := range [...]vg.Length{4, 8, 14, 22} {
				want = append(want, at(m.X+e, m.Y-h/2), at(m.X-w-e, m.Y-h/2), at(m.X-w/2, m.Y+e), at(m.X-w/2, m.Y-h-e),
					at(m.X+e, m.Y+e), at(m.X+e, m.Y-h-e), at(m.X-w-e, m.Y+e), at(m.X-w-e, m.Y-h-e))
			}
			d.onWhite(p, pl, text, boldText, w, h, want)
		}
	}
}

// joins draws the joins alone, thin.
func (d *pullSheet) joins(p pen) {
	from, _ := d.boards()
	for i, b := range d.Boards {
		if i > 0 {
			dash := dashed(b.Assumed || d.Boards[i-1].Assumed || d.joinAssumed(from[i]))
			p.line(stroke{limit, ink, dash}, d.sheet.at(from[i], 0), d.sheet.at(from[i], d.AlongMM))
		}
	}
	for _, j := range d.Joins {
		for _, o := range j.Open {
			d.opening(p, j.AcrossMM, o, true, false)
		}
	}
}
