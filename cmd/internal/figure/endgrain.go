package figure

import "math"

// EndGrain is the end grain of one board as a net of elements with eight nodes, in the axes of the
// panel: x from the left, z from the back to the painted face. Elements that name nodes there are
// not, or run clockwise, are left out.
type EndGrain struct {
	Name     string
	XMM, ZMM []float64 // nodes
	Elements [][8]int  // by their nodes: corners anticlockwise, then the middles of the sides after each corner
	Coat     []bool    // the element is ground or paint, not wood
	RingMM   []float64 // at each node the distance from the pith or, of straight rings, across them; nil: not known
	Assumed  bool      // rings are drawn dashed
}

// net is an EndGrain made ready: its nodes and, after them, the middles of its elements.
type net struct {
	EndGrain
	parts          [][8]int // what can be drawn
	index          []int    // of each part in Elements
	coat           []bool
	x, z           []float64
	x0, x1, z0, z1 float64    // nought without parts
	edge           [2][][]int // outline of the wood, of its coats
	rim            []int      // all nodes of the outline of both
	top            [][]int    // the face that looks up, ground and paint included
}

func (g EndGrain) net() net {
	n := net{EndGrain: g}
	if len(g.XMM) != len(g.ZMM) {
		return n
	}
	for i, e := range g.Elements {
		if g.sound(e) {
			n.parts, n.index = append(n.parts, e), append(n.index, i)
			n.coat = append(n.coat, i < len(g.Coat) && g.Coat[i])
		}
	}
	n.x, n.z = n.withMiddles(g.XMM), n.withMiddles(g.ZMM)
	n.x0, n.x1, _ = extent(n.used(g.XMM))
	n.z0, n.z1, _ = extent(n.used(g.ZMM))
	n.edge = [2][][]int{chains(free(n.sides(false, false))), chains(free(n.sides(true, false)))}
	n.faces()
	return n
}

func (g EndGrain) sound(e [8]int) bool {
	for _, k := range e {
		if k < 0 || k >= len(g.XMM) || !(math.Abs(g.XMM[k]) < 1e5 && math.Abs(g.ZMM[k]) < 1e4) {
			return false
		}
	}
	area := 0.0
	for i := range 4 {
		a, b := e[i], e[(i+1)%4]
		area += g.XMM[a]*g.ZMM[b] - g.XMM[b]*g.ZMM[a]
	}
	return area > 0
}

// used are the values at the nodes of the parts.
func (n net) used(v []float64) []float64 {
	var out []float64
	for _, e := range n.parts {
		for _, k := range e {
			out = append(out, v[k])
		}
	}
	return out
}

// fits reports whether a series has a number at every node that is used.
func (n net) fits(v []float64) bool {
	if len(v) != len(n.XMM) {
		return false
	}
	for _, x := range n.used(v) {
		if !usable(x) {
			return false
		}
	}
	return true
}

// withMiddles adds to the values at the nodes those at the middles of the parts, by the element's own
// shape functions: minus a quarter of each corner, half of each middle of a side.
func (n net) withMiddles(v []float64) []float64 {
	out := make([]float64, 0, len(v)+len(n.parts))
	out = append(out, v...)
	for _, e := range n.parts {
		c := 0.0
		for i := range 4 {
			c += v[e[4+i]]/2 - v[e[i]]/4
		}
		out = append(out, c)
	}
	return out
}

// circuit are the nodes of a part in their order along its sides.
func circuit(e [8]int) [8]int { return [8]int{e[0], e[4], e[1], e[5], e[2], e[6], e[3], e[7]} }

// triangles are the eight of part i about its middle.
func (n net) triangles(i int) [8][3]int {
	var out [8][3]int
	r := circuit(n.parts[i])
	for k := range r {
		out[k] = [3]int{len(n.XMM) + i, r[k], r[(k+1)%8]}
	}
	return out
}

// sides are the half sides of wood or of coats, or of both (all).
func (n net) sides(coat, all bool) [][2]int {
	var out [][2]int
	for i, e := range n.parts {
		if !all && n.coat[i] != coat {
			continue
		}
		r := circuit(e)
		for k := range r {
			out = append(out, [2]int{r[k], r[(k+1)%8]})
		}
	}
	return out
}

// outline is the edge of the wood or of its coats.
func (n net) outline(coat bool) [][]int {
	if coat {
		return n.edge[1]
	}
	return n.edge[0]
}

// faces finds the rim and the top.
func (n *net) faces() {
	var up [][2]int
	for _, e := range free(n.sides(false, true)) {
		n.rim = append(n.rim, e[0])
		dx, dz := n.x[e[1]]-n.x[e[0]], n.z[e[1]]-n.z[e[0]]
		if -dx > math.Abs(dz) {
			up = append(up, e)
		}
	}
	n.top = chains(up)
}

// free are the edges that no other runs along the other way.
func free(edges [][2]int) [][2]int {
	n := map[[2]int]int{}
	for _, e := range edges {
		n[e]++
	}
	var out [][2]int
	for _, e := range edges {
		if n[[2]int{e[1], e[0]}] == 0 && e[0] != e[1] {
			out = append(out, e)
		}
	}
	return out
}

// chains links edges, each from its first to its second end, into lines; what is closed comes back to
// its start and does not name it twice.
func chains(edges [][2]int) [][]int {
	next, into := map[int][]int{}, map[int]int{}
	for _, e := range edges {
		next[e[0]] = append(next[e[0]], e[1])
		into[e[1]]++
	}
	var out [][]int
	run := func(start int) {
		line := []int{start}
		for at := start; len(next[at]) > 0; {
			to := next[at][0]
			next[at] = next[at][1:]
			if to == start {
				break
			}
			line, at = append(line, to), to
		}
		out = append(out, line)
	}
	for _, e := range edges {
		if into[e[0]] == 0 && len(next[e[0]]) > 0 {
			run(e[0])
		}
	}
	for _, e := range edges {
		for len(next[e[0]]) > 0 {
			run(e[0])
		}
	}
	return out
}
