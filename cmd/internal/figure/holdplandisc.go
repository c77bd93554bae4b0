package figure

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// sign is how a fixing is drawn: one without a force as idle, whatever it does else.
func (f HeldFixing) sign() Holding {
	if !f.carries() || f.Does < Bears || f.Does > Idle {
		return Idle
	}
	return f.Does
}

// radius is that of a disc; never so small that it is lost.
func (d *holdSheet) radius(f HeldFixing) vg.Length {
	if f.sign() == Idle {
		return idleDisc
	}
	return max(discLeast, d.per*vg.Length(math.Sqrt(f.size())))
}

// drawDiscs draws the fixings, small ones over large ones, and the ways they pull.
func (d *holdSheet) drawDiscs(p pen) {
	lim := box(d.r.Min.X-8, d.r.Min.Y-8, d.r.Max.X+8, d.r.Max.Y+8)
	for i, f := range d.all {
		q := d.spot(f)
		if !overlap(lim, box(q.X-0.1, q.Y-0.1, q.X+0.1, q.Y+0.1)) {
			continue
		}
		r := d.radius(f)
		p.holdDisc(f.sign(), q, r)
		if i == 0 && f.carries() {
			p.dot(nil, stroke{limit, ink, nil}, q, r+hardRing)
		}
	}
	for i, f := range d.all {
		d.pull(p, i, f)
	}
}

// holdDisc is the sign of one fixing.
func (p pen) holdDisc(sign Holding, q vg.Point, r vg.Length) {
	edge := stroke{limit, ink, nil}
	switch sign {
	case Bears:
		p.dot(ink, stroke{hair, white, nil}, q, r)
	case Slides:
		p.dot(white, stroke{}, q, r)
		p.halfDisc(q, r)
		p.dot(nil, edge, q, r-0.3)
	case Yields:
		p.dot(ink, stroke{hair, white, nil}, q, r)
		p.line(stroke{max(hair, r/2.5), white, nil}, at(q.X-r*0.72, q.Y), at(q.X+r*0.72, q.Y))
	default:
		p.dot(white, edge, q, r)
	}
}

func (p pen) halfDisc(q vg.Point, r vg.Length) {
	var poly []vg.Point
	for i := range 25 {
		sin, cos := math.Sincos(math.Pi + math.Pi*float64(i)/24)
		poly = append(poly, q.Add(at(r*vg.Length(cos), r*vg.Length(sin))))
	}
	p.shape(ink, stroke{}, poly)
}

const (
	arrowMost  vg.Length = 9
	arrowLeast vg.Length = 4.5
)

// pull draws the way the ith fixing pulls the panel, from its rim outwards, where there is room before
// the next disc and the edge of the panel.
func (d *holdSheet) pull(p pen, i int, f HeldFixing) {
	q := d.spot(f)
	dir := d.at(f.AcrossMM+f.PullAcross, f.AlongMM+f.PullAlong).Sub(q)
	n := hypot(dir)
	if !f.carries() || !finite(q) || !finite(dir) || !(n > 0) {
		return
	}
	dir = dir.Scale(1 / n)
	from := d.radius(f) + 1.5
	if i == 0 {
		from += hardRing
	}
	room := d.room(i, q, dir, from)
	if room < arrowLeast {
		return
	}
	p.arrow(q.Add(dir.Scale(from)), dir, min(room, arrowMost))
}

// room is how long an arrow may be that leaves disc i in the direction dir.
func (d *holdSheet) room(i int, q, dir vg.Point, from vg.Length) vg.Length {
	room := arrowMost
	for l := vg.Length(0); l <= arrowMost; l += 0.5 {
		tip := q.Add(dir.Scale(from + l))
		if tip.X < d.r.Min.X-6 || tip.X > d.r.Max.X+6 || tip.Y < d.r.Min.Y-3 || tip.Y > d.r.Max.Y+3 {
			return l - 0.5
		}
		for k, f := range d.all {
			if k != i && hypot(d.spot(f).Sub(tip)) < d.radius(f)+1.5 {
				return l - 0.5
			}
		}
	}
	return room
}

// arrow points in the direction dir, on white where it crosses a line.
func (p pen) arrow(q, dir vg.Point, l vg.Length) {
	tip := q.Add(dir.Scale(l))
	side := at(-dir.Y, dir.X)
	head := []vg.Point{tip.Sub(dir.Scale(3)).Add(side.Scale(2.2)), tip, tip.Sub(dir.Scale(3)).Sub(side.Scale(2.2))}
	for _, s := range []stroke{{2.6, white, nil}, {data, vermilion, nil}} {
		p.lines(s, []vg.Point{q, tip}, head)
	}
}

// key explains the discs in one row: a force as an area, then the signs that are drawn.
func (d *holdSheet) key(p pen, y vg.Length) {
	x := margin
	y += 5
	put := func(half vg.Length, words string, sign func(q vg.Point)) {
		sign(at(x+half, y))
		x += 2*half + 4
		p.text(words, at(x, y-3), smallText, left)
		x += smallText.width(words) + 12
	}
	if d.per > 0 {
		n := keyForce(d.all[0].size())
		r := d.per * vg.Length(math.Sqrt(n))
		put(r, force(n)+", "+weight(n), func(q vg.Point) { p.dot(nil, stroke{limit, ink, nil}, q, r) })
	}
	var has [4]bool
	arrows := false
	for _, f := range d.all {
		has[f.sign()] = true
		arrows = arrows || f.carries() && (math.Abs(f.PullAcross) > 0 || math.Abs(f.PullAlong) > 0)
	}
	for i, word := range [...]string{"bears", "slides", "yields", "carries nothing"} {
		if has[i] {
			r := vg.Length(4.5)
			if Holding(i) == Idle {
				r = idleDisc
			}
			put(r, word, func(q vg.Point) { p.holdDisc(Holding(i), q, r) })
		}
	}
	if arrows {
		put(5, "the way the panel is pulled", func(q vg.Point) { p.arrow(at(q.X-5, q.Y), at(1, 0), 10) })
	}
}

// keyForce is a round force of at most n newtons.
func keyForce(n float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(n)))
	for _, m := range [...]float64{5, 2} {
		if m*p <= n {
			return m * p
		}
	}
	return p
}
