package figure

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
)

func rgba(c color.Color) color.NRGBA { return color.NRGBAModel.Convert(c).(color.NRGBA) }

func (f *field) drawRules(p pen) {
	for _, r := range f.rules {
		switch {
		case r.upright && f.sx.holds(r.at):
			x := f.sx.at(r.at)
			line := []vg.Point{at(x, f.r.Min.Y), at(x, f.r.Max.Y)}
			p.lines(r.sign, line)
			f.places.lines = append(f.places.lines, line)
		case !r.upright && f.sy.holds(r.at):
			y := f.sy.at(r.at)
			line := []vg.Point{at(f.r.Min.X, y), at(f.r.Max.X, y)}
			p.lines(r.sign, line)
			f.places.lines = append(f.places.lines, line)
		}
	}
}

// drawPoints draws each point and keeps its room free of names.
func (f *field) drawPoints(p pen) {
	for _, q := range f.points {
		if !f.sx.holds(q.x) || !f.sy.holds(q.y) {
			continue
		}
		m := at(f.sx.at(q.x), f.sy.at(q.y))
		fill := ink
		if q.open {
			fill = white
		}
		p.dot(fill, stroke{1, white, nil}, m, 3.2)
		p.dot(fill, stroke{limit, ink, nil}, m, 2.4)
		f.places.keep(box(m.X-3, m.Y-3, m.X+3, m.Y+3))
	}
	for _, q := range f.points {
		if f.sx.holds(q.x) && f.sy.holds(q.y) && q.name != "" {
			f.label(p, q.name, boldText, f.around(q))
		}
	}
}

// around are places for the name of a point: above and below it, left and right, then farther off.
func (f *field) around(q point) func(w, h vg.Length) []vg.Point {
	m := at(f.sx.at(q.x), f.sy.at(q.y))
	return func(w, h vg.Length) []vg.Point {
		var out []vg.Point
		for _, d := range [...]vg.Length{4, 7, 12, 18} {
			out = append(out,
				at(m.X+d, m.Y+d/2), at(m.X-w-d, m.Y+d/2), at(m.X+d, m.Y-h-d/2), at(m.X-w-d, m.Y-h-d/2),
				at(m.X-w/2, m.Y+d), at(m.X-w/2, m.Y-h-d))
		}
		return out
	}
}

// label sets a name at the best of its places, on white where it covers a line.
func (f *field) label(p pen, s string, l letters, candidates func(w, h vg.Length) []vg.Point) bool {
	s = l.fit(s, f.r.Max.X-f.r.Min.X-8)
	if s == "" {
		return false
	}
	w, h := l.width(s)+5, l.size+2
	r, cost := f.places.put(w, h, candidates(w, h))
	if math.IsInf(cost, 1) {
		return false
	}
	if length(r, f.places.lines) > 1 {
		p.rect(veil(white, 0.85), stroke{}, r)
	}
	p.text(s, at(r.Min.X+2.5, r.Min.Y+2.6), l, left)
	return true
}

// nameRules writes the name of each rule along it.
func (f *field) nameRules(p pen) {
	for _, r := range f.rules {
		if r.name == "" || r.upright && !f.sx.holds(r.at) || !r.upright && !f.sy.holds(r.at) {
			continue
		}
		f.label(p, r.name, quietText, func(w, h vg.Length) []vg.Point {
			if r.upright {
				return f.besideUpright(r, w, h)
			}
			return f.besideLevel(r, w, h)
		})
	}
}

// nameZones writes the name of each zone at its foot.
func (f *field) nameZones(p pen) {
	for _, z := range f.zones {
		lo, hi := f.sx.clamp(z.lo), f.sx.clamp(z.hi)
		if z.name == "" || !(hi > lo) {
			continue
		}
		f.label(p, z.name, quietText, func(w, h vg.Length) []vg.Point {
			var out []vg.Point
			for i := range 4 {
				for _, y := range [...]vg.Length{f.r.Min.Y + 2 + vg.Length(i)*(h+1), f.r.Max.Y - h - 2 - vg.Length(i)*(h+1)} {
					out = append(out, at(lo+3, y), at(hi-w-3, y), at((lo+hi-w)/2, y))
				}
			}
			return out
		})
	}
}

func (f *field) besideUpright(r rule, w, h vg.Length) []vg.Point {
	var out []vg.Point
	x := f.sx.at(r.at)
	for i := range 12 {
		y := f.r.Max.Y - h - 2 - vg.Length(i)*(h+2)
		if r.atBottom {
			y = f.r.Min.Y + 2 + vg.Length(i)*(h+2)
		}
		out = append(out, at(x+3, y), at(x-w-3, y))
	}
	return out
}

func (f *field) besideLevel(r rule, w, h vg.Length) []vg.Point {
	var out []vg.Point
	y := f.sy.at(r.at)
	for i := range 8 {
		x := f.r.Min.X + 3 + vg.Length(i)/7*(f.r.Max.X-f.r.Min.X-w-6)
		out = append(out, at(x, y+1.5), at(x, y-h-1.5))
	}
	return out
}

// nameWithin writes names along the course of their curves, the free places first.
func (f *field) nameWithin(p pen) {
	for i, c := range f.curves {
		if !c.within || len(f.drawn[i]) == 0 {
			continue
		}
		name := c.name
		if c.note != "" {
			name += ", " + c.note
		}
		f.label(p, name, plainText.in(dark(c.sign.color)), func(w, h vg.Length) []vg.Point {
			var out []vg.Point
			for _, q := range f.outermost(f.drawn[i]) {
				for _, d := range [...]vg.Length{4, 9} {
					out = append(out, at(q.X+d, q.Y+d/2), at(q.X-w-d, q.Y+d/2), at(q.X-w/2, q.Y+d), at(q.X+d, q.Y-h-d/2), at(q.X-w-d, q.Y-h-d/2), at(q.X-w/2, q.Y-h-d))
				}
			}
			return out
		})
	}
}

// along are n places on a line, evenly by length.
func along(line []vg.Point, n int) []vg.Point {
	if len(line) < 2 {
		return line
	}
	cum := make([]float64, len(line))
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		cum[i] = cum[i-1] + float64(hypot(d))
	}
	out := make([]vg.Point, 0, n)
	k := 1
	for j := range n {
		t := cum[len(cum)-1] * (float64(j) + 0.5) / float64(n)
		for k < len(cum)-1 && cum[k] < t {
			k++
		}
		s := 0.0
		if cum[k] > cum[k-1] {
			s = (t - cum[k-1]) / (cum[k] - cum[k-1])
		}
		out = append(out, line[k-1].Add(line[k].Sub(line[k-1]).Scale(vg.Length(s))))
	}
	return out
}

// outermost are places on a curve, those farthest from the middle of the chart first: there curves
// lie apart.
func (f *field) outermost(lines [][]vg.Point) []vg.Point {
	var out []vg.Point
	for _, line := range lines {
		out = append(out, along(line, 40)...)
	}
	mid := (f.r.Min.X + f.r.Max.X) / 2
	slices.SortStableFunc(out, func(a, b vg.Point) int {
		return cmp.Compare(math.Abs(float64(b.X-mid)), math.Abs(float64(a.X-mid)))
	})
	return out
}

// dark is a colour dark enough for letters.
func dark(c color.Color) color.NRGBA {
	n := rgba(c)
	switch n {
	case vermilion:
		return color.NRGBA{0xA8, 0x4A, 0x00, 0xFF}
	case green:
		return color.NRGBA{0x00, 0x6B, 0x4E, 0xFF}
	case blue:
		return color.NRGBA{0x00, 0x5A, 0x8E, 0xFF}
	}
	return n
}

// nameAtRight writes names in a column at the right, each by the end of its curve.
func (f *field) nameAtRight(p pen) {
	type end struct {
		i     int
		q     vg.Point
		lines []string
	}
	var ends []end
	room := Width - margin - f.r.Max.X - fieldGap
	for i, c := range f.curves {
		if c.within || len(f.drawn[i]) == 0 || c.name == "" {
			continue
		}
		last := f.drawn[i][len(f.drawn[i])-1]
		e := end{i, last[len(last)-1], []string{plainText.fit(c.name, room)}}
		if c.note != "" {
			e.lines = append(e.lines, smallText.fit(c.note, room))
		}
		ends = append(ends, e)
	}
	slices.SortStableFunc(ends, func(a, b end) int { return cmp.Compare(a.q.Y, b.q.Y) })
	want, size := make([]vg.Length, len(ends)), make([]vg.Length, len(ends))
	for i, e := range ends {
		want[i], size[i] = e.q.Y, vg.Length(len(e.lines))*10.5+2
	}
	for i, y := range spread(want, size, f.r.Min.Y-6, f.r.Max.Y+1) {
		e := ends[i]
		x := f.r.Max.X + fieldGap
		c := f.curves[e.i]
		p.lines(stroke{hair, grey(0x9A), nil}, []vg.Point{e.q.Add(at(1, 0)), at(f.r.Max.X+1, e.q.Y), at(x-1.5, y)})
		top := y + size[i]/2 - 9
		p.text(e.lines[0], at(x, top), plainText.in(dark(c.sign.color)), left)
		if len(e.lines) > 1 {
			p.text(e.lines[1], at(x, top-10), smallText, left)
		}
	}
}
