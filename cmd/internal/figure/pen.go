package figure

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// pen draws on a canvas whose origin is the lower left corner, in points. What is not finite is not
// drawn.
type pen struct {
	c    draw.Canvas
	keep bool // the medium has letters of its own for signs that ours lack
}

// align is the share of a text's width that lies to the left of its place.
type align float64

const (
	left   align = 0
	middle align = 0.5
	right  align = 1
)

func at(x, y vg.Length) vg.Point { return vg.Point{X: x, Y: y} }

func box(x0, y0, x1, y1 vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: at(min(x0, x1), min(y0, y1)), Max: at(max(x0, x1), max(y0, y1))}
}

// finite reports whether a point can be drawn: far outside the sheet is as good as nowhere.
func finite(q vg.Point) bool {
	return math.Abs(float64(q.X)) < 1e5 && math.Abs(float64(q.Y)) < 1e5 // false for NaN
}

// text sets one line with its baseline at q.
func (p pen) text(s string, q vg.Point, l letters, a align) {
	s = clean(s)
	if !p.keep {
		s = substitute(s)
	}
	if s == "" || !finite(q) {
		return
	}
	face := l.face()
	q.X -= face.Width(s) * vg.Length(a)
	p.c.SetColor(l.color)
	p.c.FillString(face, q, s)
}

// lines strokes all lines as one path.
func (p pen) lines(s stroke, lines ...[]vg.Point) {
	var path vg.Path
	for _, line := range lines {
		down := false
		for _, q := range line {
			switch {
			case !finite(q):
				down = false
			case down:
				path.Line(q)
			default:
				path.Move(q)
				down = true
			}
		}
	}
	p.stroke(s, path)
}

func (p pen) line(s stroke, a, b vg.Point) { p.lines(s, []vg.Point{a, b}) }

func (p pen) stroke(s stroke, path vg.Path) {
	if len(path) < 2 {
		return
	}
	p.c.SetColor(s.color)
	p.c.SetLineWidth(s.width)
	p.c.SetLineDash(s.dash, 0)
	p.c.Stroke(path)
}

// shape fills a polygon and strokes its outline; a nil fill or a stroke of no width leaves it out.
func (p pen) shape(fill color.Color, s stroke, poly []vg.Point) {
	if len(poly) < 3 {
		return
	}
	var path vg.Path
	for i, q := range poly {
		if !finite(q) {
			return
		}
		if i == 0 {
			path.Move(q)
		} else {
			path.Line(q)
		}
	}
	path.Close()
	p.closed(fill, s, path)
}

// loops is the path of closed lines, thinned; those that enclose nothing are left out.
func loops(lines ...[]vg.Point) (path vg.Path) {
	for _, line := range lines {
		q := thinLine(line)
		if len(q) < 3 {
			continue
		}
		path.Move(q[0])
		for _, r := range q[1:] {
			path.Line(r)
		}
		path.Close()
	}
	return path
}

// closed fills a path and strokes its outline; a nil fill or a stroke of no width leaves it out.
func (p pen) closed(fill color.Color, s stroke, path vg.Path) {
	if len(path) == 0 {
		return
	}
	if fill != nil {
		p.c.SetColor(fill)
		p.c.Fill(path)
	}
	if s.width > 0 {
		p.stroke(s, path)
	}
}

func corners(r vg.Rectangle) []vg.Point {
	return []vg.Point{r.Min, at(r.Max.X, r.Min.Y), r.Max, at(r.Min.X, r.Max.Y)}
}

func (p pen) rect(fill color.Color, s stroke, r vg.Rectangle) { p.shape(fill, s, corners(r)) }

// dot is a circle.
func (p pen) dot(fill color.Color, s stroke, q vg.Point, r vg.Length) {
	if !finite(q) || !(r > 0) {
		return
	}
	var path vg.Path
	path.Move(q.Add(at(r, 0)))
	path.Arc(q, r, 0, 2*math.Pi)
	path.Close()
	p.closed(fill, s, path)
}

// hatch fills a rectangle with slanting lines, gap apart.
func (p pen) hatch(s stroke, r vg.Rectangle, gap vg.Length) {
	w, h := r.Max.X-r.Min.X, r.Max.Y-r.Min.Y
	if !finite(r.Min) || !finite(r.Max) || w <= 0 || h <= 0 || (w+h)/gap > 2000 {
		return
	}
	var lines [][]vg.Point
	for d := gap / 2; d < w+h; d += gap {
		a, b := at(r.Min.X+d, r.Min.Y), at(r.Min.X, r.Min.Y+d)
		if d > w {
			a = at(r.Max.X, r.Min.Y+d-w)
		}
		if d > h {
			b = at(r.Min.X+d-h, r.Max.Y)
		}
		lines = append(lines, []vg.Point{a, b})
	}
	p.lines(s, lines...)
}

// invented is the mark of an invented example.
const invented = "INVENTED EXAMPLE"

// inventedWidth is the room that the mark takes.
func inventedWidth() vg.Length { return smallBold.width(invented) + 10 }

// inventedMark draws the mark with its upper right corner at q.
func (p pen) inventedMark(q vg.Point) {
	p.rect(white, stroke{0.7, ink, nil}, box(q.X-inventedWidth(), q.Y-12.5, q.X, q.Y))
	p.text(invented, at(q.X-5, q.Y-9.2), smallBold, right)
}

// head draws what stands above a drawing of height h: a line or two of quiet words at the left, the
// mark of an invented example at the right. It takes headHeight.
func (p pen) head(m Meta, h vg.Length, words string) {
	if m.Invented {
		p.inventedMark(at(Width-margin, h-margin))
	}
	y := h - margin - 9.2
	for _, line := range headLines(m, words) {
		p.text(line, at(margin, y), quietText, left)
		y -= quietText.lead()
	}
}

func headLines(m Meta, words string) []string {
	w := Width - 2*margin
	if m.Invented {
		w -= inventedWidth() + 10
	}
	return quietText.wrap(words, w, 3)
}

func headHeight(m Meta, words string) vg.Length {
	n := vg.Length(len(headLines(m, words)))
	if n == 0 {
		return margin // the mark stands in the row of what comes next
	}
	return margin + n*quietText.lead() + 8
}
