package figure

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// chart is the common drawing of curves over an axis.
type chart struct {
	meta   Meta
	words  string // quiet words above it
	x, y   axis
	zones  []zone
	bands  []band
	curves []curve
	rules  []rule
	points []point
	height vg.Length // of the field, 0: 190 pt
	empty  string    // what is said where there is no curve
}

// axis is one axis of a chart. Its name carries the unit.
type axis struct {
	name   string
	lo, hi float64
	log    bool
	ticks  []float64
	write  func(float64) string
}

// zone is a part of the lower axis, tinted.
type zone struct {
	lo, hi float64
	name   string
}

// rule is a straight line across the chart with its name on it.
type rule struct {
	at       float64
	upright  bool
	name     string
	sign     stroke
	atBottom bool // an upright one is named at its lower end
}

// point is a place on a curve with a number at it.
type point struct {
	x, y float64
	name string
	open bool // drawn as a ring
}

// linear is an axis that holds lo..hi with round ends.
func linear(name string, lo, hi float64) axis {
	if !(hi > lo) {
		lo, hi = lo-1, lo+1
	}
	d := step(hi-lo, 7)
	ts := ticks(lo, hi, d)
	n := digits(d)
	return axis{name: name, lo: lo, hi: hi, ticks: ts, write: func(v float64) string { return fixed(v, n) }}
}

// around is a linear axis whose ends are round numbers beyond lo..hi.
func around(name string, lo, hi float64) axis {
	switch {
	case lo == 0 && !(hi > 0):
		hi = 1
	case !(hi > lo):
		lo, hi = lo-1, lo+1
	}
	half := step(hi-lo, 6) / 2
	return linear(name, half*math.Floor(lo/half+1e-9), half*math.Ceil(hi/half-1e-9))
}

func humidity(lo, hi float64) axis {
	return axis{name: rhName, lo: lo, hi: hi, ticks: ticks(lo, hi, 10), write: rh}
}

const (
	namesWidth vg.Length = 150 // most room for names at the right
	fieldGap   vg.Length = 8

	axisNameRow vg.Length = 15 // over the field: the name of the upright axis, the mark
)

// figure lays the chart out and makes the Figure of it.
func (c chart) figure(sentence, desc string) Figure {
	field := c.height
	if field == 0 {
		field = 190
	}
	head := headHeight(c.meta, c.words)
	h := head + axisNameRow + field + bottomAxisHeight + margin
	return c.meta.figure(h, sentence, desc, func(p pen) {
		p.head(c.meta, h, c.words)
		f := c.layout(box(margin, margin+bottomAxisHeight, Width-margin, h-head-axisNameRow))
		f.draw(p)
	})
}

// field is a chart with its place on the canvas.
type field struct {
	chart
	sx, sy scale
	r      vg.Rectangle
	drawn  [][][]vg.Point // each curve, clipped
	places *places
}

func (c chart) layout(r vg.Rectangle) *field {
	var numbers, names vg.Length
	for _, t := range c.y.ticks {
		numbers = max(numbers, plainText.width(c.y.write(t)))
	}
	for _, cv := range c.curves {
		if !cv.within {
			names = max(names, min(namesWidth, max(plainText.width(clean(cv.name)), smallText.width(clean(cv.note)))))
		}
	}
	if names > 0 {
		names += fieldGap + 4
	}
	f := &field{chart: c, r: box(r.Min.X+numbers+tick+4, r.Min.Y, r.Max.X-max(names, 8), r.Max.Y)}
	f.sx = scale{c.x.lo, c.x.hi, f.r.Min.X, f.r.Max.X, c.x.log}
	f.sy = scale{c.y.lo, c.y.hi, f.r.Min.Y, f.r.Max.Y, c.y.log}
	f.places = &places{area: f.r}
	for _, cv := range c.curves {
		lines := clip(f.r, runs(f.sx, f.sy, cv.x, cv.y))
		f.drawn = append(f.drawn, lines)
		f.places.lines = append(f.places.lines, lines...)
	}
	for _, b := range c.bands {
		f.places.faint = append(f.places.faint, clip(f.r, runs(f.sx, f.sy, b.x, b.lo))...)
		f.places.faint = append(f.places.faint, clip(f.r, runs(f.sx, f.sy, b.x, b.hi))...)
	}
	return f
}

func (f *field) draw(p pen) {
	f.drawZones(p)
	f.drawBands(p)
	f.drawAxes(p)
	f.drawRules(p)
	if !f.any() {
		for _, t := range f.y.ticks { // the words keep off the grid
			y := f.sy.at(t)
			f.places.lines = append(f.places.lines, []vg.Point{at(f.r.Min.X, y), at(f.r.Max.X, y)})
		}
		f.nameRules(p)
		f.label(p, f.empty, plainText, f.central)
		return
	}
	for i, lines := range f.drawn {
		p.lines(f.curves[i].sign, lines...)
	}
	f.drawPoints(p)
	f.nameRules(p)
	f.nameWithin(p)
	f.nameZones(p)
	f.nameAtRight(p)
}

// central are places in the middle of the field and above and below it.
func (f *field) central(w, h vg.Length) []vg.Point {
	m := f.r.Min.Add(f.r.Size().Scale(0.5))
	var out []vg.Point
	for i := range 10 {
		d := vg.Length(i) * 7
		out = append(out, at(m.X-w/2, m.Y-h/2+d), at(m.X-w/2, m.Y-h/2-d))
	}
	return out
}

func (f *field) any() bool {
	for _, lines := range f.drawn {
		if len(lines) > 0 {
			return true
		}
	}
	return false
}

func (f *field) drawZones(p pen) {
	for _, z := range f.zones {
		if lo, hi := f.sx.clamp(z.lo), f.sx.clamp(z.hi); hi > lo {
			p.rect(pale, stroke{}, box(lo, f.r.Min.Y, hi, f.r.Max.Y))
		}
	}
}

func (f *field) drawBands(p pen) {
	for _, b := range f.bands {
		c := rgba(b.tone.color)
		for _, poly := range b.polygons(f.r, f.sx, f.sy) {
			p.shape(veil(c, 0.13), stroke{}, poly)
		}
		edge := stroke{hair, veil(c, 0.6), b.tone.dash}
		p.lines(edge, clip(f.r, runs(f.sx, f.sy, b.x, b.lo))...)
		p.lines(edge, clip(f.r, runs(f.sx, f.sy, b.x, b.hi))...)
	}
}

func (f *field) drawAxes(p pen) {
	for _, t := range f.y.ticks {
		y := f.sy.at(t)
		sign := stroke{hair, faint, nil}
		if t == 0 {
			sign = stroke{hair, grey(0x9A), nil}
		}
		p.line(sign, at(f.r.Min.X, y), at(f.r.Max.X, y))
		p.text(f.y.write(t), at(f.r.Min.X-tick-2, y-3.1), plainText, right)
	}
	p.text(f.y.name, at(margin, f.r.Max.Y+7.5), plainText, left)
	p.bottomAxis(f.sx, f.r.Min.Y, f.x.ticks, f.x.write, f.x.name)
}
