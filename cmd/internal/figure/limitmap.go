package figure

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// LimitMap is an annex figure: how many of 100 such panels reach a limit for every pair of a lower and an
// upper limit of the humidity.
type LimitMap struct {
	Meta
	LowPct, HighPct []float64   // lower and upper limits, each rising or falling
	Of100           [][]float64 // of each lower and upper limit; NaN: not counted
	Marks           []LimitMark // such as the record's own range, what was asked; at most four are drawn
}

// LimitMark is a range marked on the map.
type LimitMark struct {
	Name string // such as "the record's own range"
	Span
}

// mapLevels are the counts that are drawn as lines.
var mapLevels = [...]float64{1, 5, 10, 20, 50, 90}

const (
	limitMapHeight vg.Length = 250
	mostMarks                = 4
	mostMarkName   vg.Length = 150
)

// Draw lays the figure out.
func (l LimitMap) Draw() Figure {
	m := l.or("limit-map", "How many of 100 for which limits?")
	words := ""
	g, ok := l.grid()
	if ok {
		words = "Lines: as many of 100 such panels reach a limit between the two limits of humidity; darker, more of them." + l.besides(g)
	}
	c := chart{meta: m, words: words, empty: "No limits were tried.", height: limitMapHeight}
	c.x, c.y = l.axis("Lower limit / % RH", g.x), l.axis("Upper limit / % RH", g.y)
	head := headHeight(m, words)
	h := head + axisNameRow + limitMapHeight + bottomAxisHeight + margin
	return m.figure(h, l.sentence(g, ok), l.desc(g, ok), func(p pen) {
		p.head(m, h, words)
		f := c.layout(box(margin, margin+bottomAxisHeight, Width-margin, h-head-axisNameRow))
		if !ok {
			f.draw(p)
			return
		}
		f.tint(p, g)
		f.drawAxes(p)
		for _, r := range g.uncounted() {
			p.hatch(stroke{hair, grey(0xB4), nil}, box(f.sx.at(r[0]), f.sy.at(r[1]), f.sx.at(r[2]), f.sy.at(r[3])), 6)
		}
		f.contours(p, g)
		l.mark(p, f, g)
	})
}

// mapGrid is the map with both limits rising.
type mapGrid struct {
	x, y []float64
	v    []float64 // of node len(y)*i + k
}

// grid puts the map in order; ok is false where nothing can be drawn.
func (l LimitMap) grid() (g mapGrid, ok bool) {
	rows, rowAt := rising(l.LowPct)
	columns, columnAt := rising(l.HighPct)
	if len(rows) < 2 || len(columns) < 2 {
		return mapGrid{}, false
	}
	g = mapGrid{x: rows, y: columns}
	for _, i := range rowAt {
		for _, k := range columnAt {
			v := math.NaN()
			if i < len(l.Of100) && k < len(l.Of100[i]) && usable(l.Of100[i][k]) {
				v = max(0, min(l.Of100[i][k], 100))
				ok = true
			}
			g.v = append(g.v, v)
		}
	}
	return g, ok
}

// rising sorts humidities that rise or fall, with where each stands; nil where they do neither.
func rising(v []float64) (out []float64, at []int) {
	down := len(v) > 1 && v[0] > v[len(v)-1]
	for i := range v {
		k := i
		if down {
			k = len(v) - 1 - i
		}
		if !(v[k] >= 0 && v[k] <= 100) || len(out) > 0 && v[k] <= out[len(out)-1] {
			return nil, nil
		}
		out, at = append(out, v[k]), append(at, k)
	}
	return out, at
}

func (l LimitMap) axis(name string, v []float64) axis {
	lo, hi, ok := extent(v)
	if !ok || !(hi > lo) {
		lo, hi = 20, 80
	}
	d := 10.0
	if hi-lo < 30 {
		d = 5
	}
	return axis{name: name, lo: lo, hi: hi, ticks: ticks(lo, hi, d), write: rh}
}

// triangles are two in each cell, anticlockwise; those that have no count at a corner are left out.
func (g mapGrid) triangles() [][3]int {
	var out [][3]int
	n := len(g.y)
	for i := range len(g.x) - 1 {
		for k := range n - 1 {
			a, b, c, d := n*i+k, n*(i+1)+k, n*(i+1)+k+1, n*i+k+1
			for _, t := range [...][3]int{{a, b, d}, {b, c, d}} {
				if !math.IsNaN(g.v[t[0]] + g.v[t[1]] + g.v[t[2]]) {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

// uncounted are the cells without a count at some corner: from x, y to x, y.
func (g mapGrid) uncounted() (out [][4]float64) {
	n := len(g.y)
	for i := range len(g.x) - 1 {
		for k := range n - 1 {
			if math.IsNaN(g.v[n*i+k] + g.v[n*(i+1)+k] + g.v[n*(i+1)+k+1] + g.v[n*i+k+1]) {
				out = append(out, [4]float64{g.x[i], g.y[k], g.x[i+1], g.y[k+1]})
			}
		}
	}
	return out
}

// besides says what the map does not show.
func (l LimitMap) besides(g mapGrid) string {
	out := ""
	if len(g.uncounted()) > 0 {
		out += " Hatched: not counted."
	}
	for _, m := range l.Marks {
		if m.given() && !g.holds(m) {
			out += " Beyond this map: " + strings.TrimPrefix(clean(m.Name)+", ", ", ") + m.Span.words() + "."
		}
	}
	return out
}

// holds reports whether a range lies on the map.
func (g mapGrid) holds(m LimitMark) bool {
	return cell(g.x, m.LowPct) >= 0 && cell(g.y, m.HighPct) >= 0
}

// place is where a vertex lies.
func (g mapGrid) place(q vertex) (x, y float64) {
	n := len(g.y)
	ax, ay, bx, by := g.x[q.a/n], g.y[q.a%n], g.x[q.b/n], g.y[q.b%n]
	return ax + q.t*(bx-ax), ay + q.t*(by-ay)
}

// at is the count of a pair of limits; NaN outside the map.
func (g mapGrid) at(lo, hi float64) float64 {
	i, k := cell(g.x, lo), cell(g.y, hi)
	if i < 0 || k < 0 {
		return math.NaN()
	}
	n := len(g.y)
	s, t := (lo-g.x[i])/(g.x[i+1]-g.x[i]), (hi-g.y[k])/(g.y[k+1]-g.y[k])
	a, b, c, d := g.v[n*i+k], g.v[n*(i+1)+k], g.v[n*(i+1)+k+1], g.v[n*i+k+1]
	return (1-s)*(1-t)*a + s*(1-t)*b + s*t*c + (1-s)*t*d
}

// cell is the one that holds a value; -1 for none.
func cell(v []float64, x float64) int {
	for i := range len(v) - 1 {
		if v[i] <= x && x <= v[i+1] {
			return i
		}
	}
	return -1
}

// lines are the contours of a level, in % RH.
func (g mapGrid) lines(level float64) (x, y [][]float64) {
	t := &tracer{v: g.v, known: map[[3]int]int{}}
	var edges [][2]int
	for _, tri := range g.triangles() {
		if _, cut, ok := t.above(tri, 0, level); ok {
			edges = append(edges, cut)
		}
	}
	has := map[[2]int]bool{}
	for _, e := range edges {
		has[e] = true
	}
	lines := chains(edges)
	for i, line := range lines {
		if has[[2]int{line[len(line)-1], line[0]}] { // closed
			lines[i] = append(line, line[0])
		}
	}
	return g.places(t, lines)
}

// region is where the count is at or above a level: its outlines as closed lines, in % RH.
func (g mapGrid) region(level float64) (x, y [][]float64) {
	t := &tracer{v: g.v, known: map[[3]int]int{}}
	var edges [][2]int
	for _, tri := range g.triangles() {
		poly, _, _ := t.above(tri, 0, level)
		for k := range poly {
			edges = append(edges, [2]int{poly[k], poly[(k+1)%len(poly)]})
		}
	}
	return g.places(t, chains(free(edges)))
}

// places are lines of vertices in % RH.
func (g mapGrid) places(t *tracer, lines [][]int) (x, y [][]float64) {
	for _, line := range lines {
		var xs, ys []float64
		for _, q := range t.vertices(line) {
			a, b := g.place(q)
			xs, ys = append(xs, a), append(ys, b)
		}
		x, y = append(x, xs), append(y, ys)
	}
	return x, y
}

// tint lays a veil over all that is at or above each level: the more levels, the darker.
func (f *field) tint(p pen, g mapGrid) {
	for _, level := range mapLevels {
		x, y := g.region(level)
		lines := make([][]vg.Point, len(x))
		for i := range x {
			lines[i] = joined(runs(f.sx, f.sy, x[i], y[i]))
		}
		p.closed(veil(quiet, 0.08), stroke{}, loops(lines...))
	}
}

// contours draws the lines of all levels with their counts on them.
func (f *field) contours(p pen, g mapGrid) {
	all := make([][][]vg.Point, len(mapLevels))
	for i, level := range mapLevels {
		x, y := g.lines(level)
		for k := range x {
			all[i] = append(all[i], joined(runs(f.sx, f.sy, x[k], y[k])))
		}
		f.places.lines = append(f.places.lines, all[i]...)
	}
	for i, level := range mapLevels {
		sign := stroke{0.9, blue, nil}
		if i%2 == 1 {
			sign.width = strong // every second, to be told apart
		}
		p.lines(sign, all[i]...)
		longest := -1
		for k, line := range all[i] {
			if longest < 0 || lengthOf(line) > lengthOf(all[i][longest]) {
				longest = k
			}
		}
		if longest >= 0 {
			f.levelName(p, rh(level)+" of 100", all[i][longest])
		}
	}
}

// levelName sets the name of a line upon it, or beside it where the line is short.
func (f *field) levelName(p pen, name string, line []vg.Point) {
	f.label(p, name, smallBold.in(dark(blue)), func(w, h vg.Length) []vg.Point {
		var out []vg.Point
		for _, q := range along(line, 24) {
			out = append(out, at(q.X+4, q.Y-h/2), at(q.X-w-4, q.Y-h/2), at(q.X-w/2, q.Y+2), at(q.X-w/2, q.Y-h-2))
		}
		return out
	})
}

// shown are the ranges that lie on the map.
func (l LimitMap) shown(g mapGrid) []LimitMark {
	var out []LimitMark
	for _, m := range l.Marks {
		if m.given() && g.holds(m) && len(out) < mostMarks {
			out = append(out, m)
		}
	}
	return out
}

// mark draws each range that is marked as a point, with lines to both axes.
func (l LimitMap) mark(p pen, f *field, g mapGrid) {
	shown := l.shown(g)
	for i, m := range shown {
		q := at(f.sx.at(m.LowPct), f.sy.at(m.HighPct))
		foot := []vg.Point{at(f.r.Min.X, q.Y), q, at(q.X, f.r.Min.Y)}
		p.lines(stroke{limit, ink, []vg.Length{2, 2}}, foot)
		f.places.lines = append(f.places.lines, foot)
		f.points = append(f.points, point{x: m.LowPct, y: m.HighPct, name: m.words(g), open: i%2 == 1})
	}
	f.drawPoints(p)
}

func (m LimitMark) words(g mapGrid) string {
	out := m.Span.words()
	if name := boldText.fit(m.Name, mostMarkName); name != "" {
		out = name + ", " + out
	}
	if v := g.at(m.LowPct, m.HighPct); usable(v) {
		out += ": " + whole100(v) + " of 100"
	}
	return out
}

func (l LimitMap) sentence(g mapGrid, ok bool) string {
	if !ok {
		return "No limits were tried."
	}
	out := ""
	for _, m := range l.shown(g) {
		v := g.at(m.LowPct, m.HighPct)
		if !usable(v) {
			continue
		}
		out += capital(clean(m.Name)) + ", " + m.Span.words() + ": " + whole100(v) + " of 100 such panels reach a limit. "
	}
	if out == "" {
		lo, hi, _ := extent(g.v)
		return fmt.Sprintf("From the narrowest to the widest limits %s to %s of 100 such panels reach a limit.", whole100(lo), whole100(hi))
	}
	return out
}

func (l LimitMap) desc(g mapGrid, ok bool) string {
	if !ok {
		return ""
	}
	out := ""
	for _, lo := range [...]int{0, len(g.x) / 2, len(g.x) - 1} {
		for _, hi := range [...]int{0, len(g.y) / 2, len(g.y) - 1} {
			if v := g.v[len(g.y)*lo+hi]; usable(v) {
				out += fmt.Sprintf("%s to %s %% RH: %s of 100. ", rh(g.x[lo]), rh(g.y[hi]), whole100(v))
			}
		}
	}
	return out
}
