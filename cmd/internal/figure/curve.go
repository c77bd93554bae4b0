package figure

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// curve is one line of a chart, named where it ends.
type curve struct {
	name, note string // note: a number, in quiet letters beneath
	x, y       []float64
	sign       stroke
	within     bool // named inside the chart, along its course, not at the right
}

// band is the room between two curves.
type band struct {
	x, lo, hi []float64
	tone      stroke // its colour, made pale; its dash for the edges
}

// runs cuts a series at what is not a number and carries it to the canvas.
func runs(sx, sy scale, x, y []float64) [][]vg.Point {
	var out [][]vg.Point
	var run []vg.Point
	for i := range min(len(x), len(y)) {
		q := at(sx.at(x[i]), sy.at(y[i]))
		if !usable(x[i]) || !usable(y[i]) || math.IsNaN(float64(q.X+q.Y)) {
			if run != nil {
				out, run = append(out, run), nil
			}
			continue
		}
		q.X, q.Y = clampLength(q.X), clampLength(q.Y)
		run = append(run, q)
	}
	if run != nil {
		out = append(out, run)
	}
	return out
}

func clampLength(v vg.Length) vg.Length { return max(-5e4, min(v, 5e4)) }

// clip keeps what of the lines lies in r.
func clip(r vg.Rectangle, lines [][]vg.Point) [][]vg.Point {
	c := draw.Canvas{Rectangle: r}
	var out [][]vg.Point
	for _, line := range c.ClipLinesXY(lines...) {
		if len(line) > 1 {
			out = append(out, line)
		}
	}
	return out
}

// polygons are the closed outlines of a band, clipped to r.
func (b band) polygons(r vg.Rectangle, sx, sy scale) [][]vg.Point {
	n := min(len(b.x), len(b.lo), len(b.hi))
	gap := make([]float64, n)
	for i := range gap {
		gap[i] = b.hi[i] - b.lo[i] + b.x[i] // not a number where one of them is not
	}
	c := draw.Canvas{Rectangle: r}
	var out [][]vg.Point
	for i := 0; i < n; {
		j := i
		for j < n && usable(gap[j]) {
			j++
		}
		if j-i > 1 {
			poly := joined(runs(sx, sy, b.x[i:j], b.hi[i:j]))
			low := joined(runs(sx, sy, b.x[i:j], b.lo[i:j]))
			for k := len(low) - 1; k >= 0; k-- {
				poly = append(poly, low[k])
			}
			if poly = c.ClipPolygonXY(poly); len(poly) > 2 {
				out = append(out, poly)
			}
		}
		i = max(j, i+1)
	}
	return out
}

func joined(lines [][]vg.Point) []vg.Point {
	var out []vg.Point
	for _, l := range lines {
		out = append(out, l...)
	}
	return out
}

// at is the value of a series at x by straight lines between its points; NaN outside it.
func valueAt(xs, ys []float64, x float64) float64 {
	for i := 1; i < min(len(xs), len(ys)); i++ {
		a, b := xs[i-1], xs[i]
		if !(a <= x && x <= b || b <= x && x <= a) {
			continue
		}
		switch {
		case x == a:
			return ys[i-1]
		case x == b:
			return ys[i]
		}
		return ys[i-1] + (ys[i]-ys[i-1])*(x-a)/(b-a)
	}
	if len(xs) == 1 && len(ys) > 0 && xs[0] == x {
		return ys[0]
	}
	return math.NaN()
}

// crossings are the x at which a series passes level.
func crossings(xs, ys []float64, level float64) []float64 {
	var out []float64
	for i := 1; i < min(len(xs), len(ys)); i++ {
		a, b := ys[i-1]-level, ys[i]-level
		if !usable(a) || !usable(b) || !usable(xs[i-1]) || !usable(xs[i]) {
			continue
		}
		if a < 0 && b >= 0 || a >= 0 && b < 0 {
			out = append(out, xs[i-1]+(xs[i]-xs[i-1])*a/(a-b))
		}
	}
	return out
}
