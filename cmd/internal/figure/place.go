package figure

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// spread moves labels along one line so that none overlaps another and all lie within lo..hi, each
// as near as possible to where it wants to be. want must rise; size is the extent of each label.
// Returned are their middles. Where they do not fit at all they are set evenly.
func spread(want, size []vg.Length, lo, hi vg.Length) []vg.Length {
	type block struct {
		from, n   int
		size, sum vg.Length // whole extent; sum of wanted starts less the offsets within the block
	}
	var blocks []block
	start := func(b block) vg.Length {
		return max(lo, min(b.sum/vg.Length(b.n), hi-b.size))
	}
	for i := range want {
		w := want[i]
		if !finite(at(w, 0)) {
			w = lo
		}
		blocks = append(blocks, block{i, 1, size[i], w - size[i]/2})
		for k := len(blocks) - 1; k > 0; k-- {
			a, b := blocks[k-1], blocks[k]
			if start(a)+a.size <= start(b) {
				break
			}
			a.sum += b.sum - vg.Length(b.n)*a.size
			a.n += b.n
			a.size += b.size
			blocks = append(blocks[:k-1], a)
		}
	}
	out := make([]vg.Length, len(want))
	for _, b := range blocks {
		y := start(b)
		for i := b.from; i < b.from+b.n; i++ {
			out[i] = y + size[i]/2
			y += size[i]
		}
	}
	return out
}

// places finds room for labels among what is drawn already.
type places struct {
	area  vg.Rectangle
	boxes []vg.Rectangle // texts, points: never covered
	lines [][]vg.Point   // curves: covered only if there is no other way
	faint [][]vg.Point   // edges of bands: better not covered
}

// keep marks a rectangle as taken.
func (pl *places) keep(r vg.Rectangle) { pl.boxes = append(pl.boxes, r) }

// put chooses the first best of the candidates, lower left corners of a label of size w by h, and
// takes its room. It tells how much of a line it covers, infinity where every candidate would cover a
// text or leave the area.
func (pl *places) put(w, h vg.Length, candidates []vg.Point) (vg.Rectangle, float64) {
	best, cost := vg.Rectangle{}, math.Inf(1)
	for i, q := range candidates {
		if !finite(q) {
			continue
		}
		r := box(q.X, q.Y, q.X+w, q.Y+h)
		if c := pl.cost(r) + float64(i)*0.02; c < cost { // earlier ones are better
			best, cost = r, c
		}
	}
	if !math.IsInf(cost, 1) {
		pl.keep(best)
	}
	return best, cost
}

// cost is infinite where a label may not lie, else the length of curve that it would cover.
func (pl *places) cost(r vg.Rectangle) float64 {
	a := pl.area
	if r.Min.X < a.Min.X || r.Min.Y < a.Min.Y || r.Max.X > a.Max.X || r.Max.Y > a.Max.Y {
		return math.Inf(1)
	}
	for _, b := range pl.boxes {
		if overlap(r, b) {
			return math.Inf(1)
		}
	}
	return length(r, pl.lines) + length(r, pl.faint)/60
}

// length is how much of the lines lies in r.
func length(r vg.Rectangle, lines [][]vg.Point) float64 {
	var c float64
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			c += covered(r, line[i-1], line[i])
		}
	}
	return c
}

func overlap(a, b vg.Rectangle) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// covered is the length of the segment a-b that lies in r (Liang and Barsky's clipping).
func covered(r vg.Rectangle, a, b vg.Point) float64 {
	if !finite(a) || !finite(b) {
		return 0
	}
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	t0, t1 := 0.0, 1.0
	for _, e := range [...][2]float64{
		{-dx, float64(a.X - r.Min.X)}, {dx, float64(r.Max.X - a.X)},
		{-dy, float64(a.Y - r.Min.Y)}, {dy, float64(r.Max.Y - a.Y)},
	} {
		switch p, q := e[0], e[1]; {
		case p == 0 && q < 0:
			return 0
		case p < 0:
			t0 = max(t0, q/p)
		case p > 0:
			t1 = min(t1, q/p)
		}
	}
	if t1 <= t0 {
		return 0
	}
	return (t1 - t0) * math.Hypot(dx, dy)
}

func hypot(q vg.Point) vg.Length { return vg.Length(math.Hypot(float64(q.X), float64(q.Y))) }
