package figure

import (
	"math"
	"strconv"

	"gonum.org/v1/plot/vg"
)

// above and below are the room that a shape takes over and under the line through its ends.
func (d drawing) above(s SectionShape) vg.Length {
	_, hi, ok := extent(s.lifted())
	up := 0.0
	if ok {
		up = max(0, hi)
	}
	room := vg.Length(d.thick/2+d.times*up)*d.per + 3
	if s.Bend() <= -0.05 {
		room = max(room, vg.Length(d.thick/2)*d.per+13)
	}
	return room
}

func (d drawing) below(s SectionShape) vg.Length {
	lo, _, ok := extent(s.lifted())
	down := 0.0
	if ok {
		down = max(0, -lo)
	}
	room := vg.Length(d.thick/2+d.times*down)*d.per + 3
	if s.Bend() >= 0.05 {
		room = max(room, vg.Length(d.thick/2)*d.per+13)
	}
	if s.UsedTo {
		room += 15 // numbers of the boards
	}
	return room
}

func (d drawing) rowHeight(s SectionShape) vg.Length {
	if d.width == 0 {
		return 0
	}
	return rowWords + d.above(s) + d.below(s) + 10
}

// frame carries millimetres of the undeformed section to the canvas, deformed.
type frame struct {
	d      drawing
	x0, y0 vg.Length // left end, middle of the thickness
	x      []float64
	dx, dz []float64 // centred, from the line through the ends, magnified
}

func (d drawing) frame(s SectionShape, y vg.Length) frame {
	f := frame{d: d, x0: Width/2 - vg.Length(d.width/2)*d.per, y0: y, dz: scaled(s.lifted(), d.times)}
	n := min(len(s.XMM), len(s.DxMM))
	f.x = s.XMM
	if n > 1 {
		mid := (s.DxMM[0] + s.DxMM[n-1]) / 2
		f.dx = make([]float64, n)
		for i := range f.dx {
			f.dx[i] = d.times * (s.DxMM[i] - mid)
		}
	}
	return f
}

func (f frame) moved(series []float64, x float64) float64 {
	if len(series) == 0 {
		return 0
	}
	n := min(len(f.x), len(series))
	v := valueAt(f.x, series, max(f.x[0], min(x, f.x[n-1])))
	if !usable(v) {
		return 0
	}
	return v
}

// at is the place of the point x from the left edge, z above the middle of the thickness. Sections
// across the panel stay square to its middle; near a join the slope is taken within a..b, the board.
func (f frame) at(x, z, a, b float64) vg.Point {
	h := (b - a) / 16
	l, r := max(a, x-h), min(b, x+h)
	slope := 0.0
	if r > l {
		slope = (f.moved(f.dz, r) - f.moved(f.dz, l)) / (r - l)
	}
	phi := math.Atan(slope)
	px := x + f.moved(f.dx, x) - z*math.Sin(phi)
	pz := f.moved(f.dz, x) + z*math.Cos(phi)
	return at(f.x0+vg.Length(px)*f.d.per, f.y0+vg.Length(pz)*f.d.per)
}

// edge is a line at height z over the board a..b.
func (f frame) edge(z, a, b float64) []vg.Point {
	const n = 24
	out := make([]vg.Point, 0, n+1)
	for i := range n + 1 {
		out = append(out, f.at(a+(b-a)*float64(i)/n, z, a, b))
	}
	return out
}

func (f frame) outline(b SectionBoard, from float64) []vg.Point {
	top := f.d.thick / 2 // painted faces lie flush
	out := f.edge(top, from, from+b.WidthMM)
	low := f.edge(top-b.ThicknessMM, from, from+b.WidthMM)
	for i := len(low) - 1; i >= 0; i-- {
		out = append(out, low[i])
	}
	return out
}

// row draws one shape with its words above it; y is the top of the row.
func (d drawing) row(p pen, s SectionShape, y vg.Length) {
	words := s.words(true)
	if label := clean(s.Label); label != "" && s.UsedTo {
		words = ""
	}
	x := margin
	label := boldText.fit(s.Label, 150)
	p.text(label, at(x, y-9), boldText, left)
	x += boldText.width(label) + 8
	p.text(plainText.fit(words, Width-margin-x), at(x, y-9), plainText, left)
	f := d.frame(s, y-rowWords-d.above(s))
	if !s.UsedTo {
		d.former(p, f.y0)
	}
	from := 0.0
	for _, b := range d.Boards {
		f.board(p, b, from)
		from += b.WidthMM
	}
	d.painted(p, f)
	if s.UsedTo {
		d.numbers(p, f)
	} else {
		d.bend(p, s, f)
	}
}

// former draws the shape it is used to, dashed.
func (d drawing) former(p pen, y vg.Length) {
	f := frame{d: d, x0: Width/2 - vg.Length(d.width/2)*d.per, y0: y}
	from := 0.0
	for _, b := range d.Boards {
		o := f.outline(b, from)
		p.shape(nil, stroke{0.7, blue, []vg.Length{3, 2}}, o)
		from += b.WidthMM
	}
}

func (f frame) board(p pen, b SectionBoard, from float64) {
	o := f.outline(b, from)
	p.shape(veil(wood, 0.9), stroke{}, o)
	f.rings(p, b, from)
	p.shape(nil, stroke{1, ink, nil}, o)
}

// painted marks the painted face by a thick line on it.
func (d drawing) painted(p pen, f frame) {
	from := 0.0
	var lines [][]vg.Point
	for _, b := range d.Boards {
		lift := 1.1 / float64(d.per)
		lines = append(lines, f.edge(d.thick/2+lift, from, from+b.WidthMM))
		from += b.WidthMM
	}
	p.lines(stroke{2.2, vermilion, nil}, lines...)
}

// numbers writes the number of each board under it, as many as there is room for.
func (d drawing) numbers(p pen, f frame) {
	from, last := 0.0, vg.Length(math.Inf(-1))
	for i, b := range d.Boards {
		x := f.at(from+b.WidthMM/2, 0, from, from+b.WidthMM).X
		t := strconv.Itoa(i+1) + " " + clean(b.Name)
		room := vg.Length(b.WidthMM)*d.per - 6
		if t = plainText.fit(t, room); t == "" || room < 24 {
			t = strconv.Itoa(i + 1)
		}
		if w := plainText.width(t); x-w/2 > last+3 {
			p.text(t, at(x, f.y0-vg.Length(d.thick/2)*d.per-13), plainText, middle)
			last = x + w/2
		}
		from += b.WidthMM
	}
}

// bend writes the millimetres at the middle between the line through the ends and the shape.
func (d drawing) bend(p pen, s SectionShape, f frame) {
	b := s.Bend()
	if !usable(b) || math.Abs(b) < 0.05 {
		return
	}
	z := -d.thick / 2
	if b < 0 {
		z = d.thick / 2
	}
	chord := f.y0 + vg.Length(z)*d.per
	m := f.at(d.width/2, z, 0, d.width)
	sign := stroke{limit, ink, nil}
	p.line(sign, at(m.X, chord), m)
	p.line(sign, at(m.X-3, chord), at(m.X+3, chord))
	y := chord - 10.5
	if b < 0 {
		y = chord + 4
	}
	p.text(mm(math.Abs(b))+" mm", at(m.X, y), boldText, middle)
}
