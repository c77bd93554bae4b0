package figure

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// vertex is a place on the side a-b of a triangle, the share t from a to b; a node where a is b.
type vertex struct {
	a, b int
	t    float64
}

// tracer gives every vertex one number, so that triangles side by side share theirs.
type tracer struct {
	v     []float64 // at the nodes
	known map[[3]int]int
	all   []vertex
}

func (n net) tracer(v []float64) *tracer { return &tracer{v: v, known: map[[3]int]int{}} }

func (t *tracer) number(key [3]int, q vertex) int {
	i, ok := t.known[key]
	if !ok {
		i = len(t.all)
		t.known[key], t.all = i, append(t.all, q)
	}
	return i
}

func (t *tracer) node(k int) int { return t.number([3]int{k, k, -1}, vertex{k, k, 0}) }

// cross is where the side a-b passes the level, the nth of its kind.
func (t *tracer) cross(a, b, nth int, level float64) int {
	a, b = min(a, b), max(a, b)
	return t.number([3]int{a, b, nth}, vertex{a, b, (level - t.v[a]) / (t.v[b] - t.v[a])})
}

func (t *tracer) vertices(line []int) []vertex {
	out := make([]vertex, len(line))
	for i, k := range line {
		out[i] = t.all[k]
	}
	return out
}

// above is the part of a triangle where the values are at or above the level, anticlockwise; cut is
// the side of it that lies along the level, from its first to its second end.
func (t *tracer) above(tri [3]int, nth int, level float64) (poly []int, cut [2]int, ok bool) {
	for i := range tri {
		a, b := tri[i], tri[(i+1)%3]
		in, then := t.v[a] >= level, t.v[b] >= level
		if in {
			poly = append(poly, t.node(a))
		}
		if in != then {
			c := t.cross(a, b, nth, level)
			poly, ok = append(poly, c), true
			if in {
				cut[0] = c
			} else {
				cut[1] = c
			}
		}
	}
	return poly, cut, ok
}

// ringCourse is a piece of the nth ring.
type ringCourse struct {
	nth    int
	course []vertex
}

// mostRings is how many rings of a board are drawn; of more, none.
const mostRings = 500

// rings are the lines of equal distance from the pith, gap mm apart, in the wood.
func (n net) rings(gap float64) []ringCourse {
	if len(n.parts) == 0 || !n.fits(n.RingMM) {
		return nil
	}
	t := n.tracer(n.withMiddles(n.RingMM))
	lo, hi, _ := extent(n.used(n.RingMM))
	if !(gap > 0) || (hi-lo)/gap > mostRings {
		return nil
	}
	edges := make([][][2]int, int((hi-lo)/gap)+2)
	for i := range n.parts {
		if n.coat[i] {
			continue
		}
		for _, tri := range n.triangles(i) {
			a, b, _ := extent([]float64{t.v[tri[0]], t.v[tri[1]], t.v[tri[2]]})
			for k := max(0, int(math.Floor((a-lo)/gap-0.5))); k < len(edges) && lo+(float64(k)+0.5)*gap <= b; k++ {
				if _, cut, ok := t.above(tri, k, lo+(float64(k)+0.5)*gap); ok {
					edges[k] = append(edges[k], cut)
				}
			}
		}
	}
	var out []ringCourse
	for k, e := range edges {
		for _, line := range chains(e) {
			out = append(out, ringCourse{k, t.vertices(line)})
		}
	}
	return out
}

// thinLine leaves out points of a line that lie within 0.04 points of what is left (Douglas and Peucker 1973).
func thinLine(q []vg.Point) []vg.Point {
	if len(q) < 3 {
		return q
	}
	a, b := q[0], q[len(q)-1]
	d, far, worst := b.Sub(a), 0, 0.04
	for i := 1; i < len(q)-1; i++ {
		e := q[i].Sub(a)
		off := math.Abs(float64(d.X*e.Y-d.Y*e.X)) / max(1e-9, float64(hypot(d)))
		if d.X*e.X+d.Y*e.Y <= 0 || hypot(e) > hypot(d) {
			off = float64(min(hypot(e), hypot(q[i].Sub(b))))
		}
		if off > worst {
			far, worst = i, off
		}
	}
	if far == 0 {
		return []vg.Point{a, b}
	}
	return append(thinLine(q[:far+1]), thinLine(q[far:])[1:]...)
}
