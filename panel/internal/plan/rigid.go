package plan

import (
	"cmp"
	"math"
	"slices"
)

// withJoins returns the lines from the left with a closed join at every inner board edge without one.
func withJoins(lines []Line, edges []float64) []Line {
	out := slices.Clone(lines)
	for _, x := range edges[:len(edges)-1] {
		if !slices.ContainsFunc(lines, func(l Line) bool { return math.Abs(l.X-x) <= together }) {
			out = append(out, Line{X: x})
		}
	}
	slices.SortStableFunc(out, func(a, b Line) int { return cmp.Compare(a.X, b.X) })
	return out
}

// split finds the pieces that hang together, numbers the nodes and returns the springs. A line tied
// at fewer than two nodes parts the panel: one node would let both sides turn about it.
func (m *Model) split() []spring {
	parted := make([]bool, len(m.lines))
	piece := make([]int, len(m.Grid.X))
	for i, c := range m.Grid.Left {
		if parted[i] = m.tied(i) < 2; parted[i] {
			for k := c + 1; k < len(piece); k++ {
				piece[k]++
			}
		}
	}
	m.piece, m.pieces = piece, piece[len(piece)-1]+1
	length := m.Grid.Y[len(m.Grid.Y)-1]
	m.Grid.number(func(i, r int) bool {
		return !parted[i] && m.lines[i].sound() && m.lines[i].closed(m.Grid.Y[r], length) && m.lines[i].hinge(m.Grid.Y[r], length) == nil
	})
	var all []spring
	for i := range m.Grid.Left {
		if !parted[i] && (!m.lines[i].sound() || len(m.lines[i].Hinges) > 0) {
			all = append(all, m.ties(i)...)
		}
	}
	return all
}

// hold takes the free motions of each piece out by holding six movements, which is no
// restraint: two and one in the face, and three supports at its corners and end.
func (m *Model) hold() {
	g := m.Grid
	for p := range m.pieces {
		first := slices.Index(m.piece, p)
		last := first
		for last+1 < len(g.X) && m.piece[last+1] == p {
			last++
		}
		top := len(g.Y) - 1
		middle := g.Node((first+last)/2, (top+1)/2)
		m.holdWay(middle, U)
		m.holdWay(middle, V)
		m.holdWay(g.Node((first+last)/2, 0), U)
		m.holdWay(g.Node(first, 0), W)
		m.holdWay(g.Node(last, 0), W)
		m.holdWay(g.Node((first+last)/2, top), W)
	}
}

func (m *Model) holdWay(node int, way Way) {
	for _, p := range m.parts {
		p.holdAt(p.index(node, int(way)))
	}
}

func (p *part) holdAt(i int) {
	if i < 0 {
		return
	}
	p.band.Hold(i, p.band.At(i, i))
	p.held = append(p.held, i)
}

// motion returns the movement of a place in the six free motions of a piece: along x, along y,
// turning in the face, along z, turning about y and about x.
func motion(x, y float64, part int) [6]float64 {
	switch part {
	case 0:
		return [6]float64{1, 0, -y, 0, 0, 0}
	case 1:
		return [6]float64{0, 1, x, 0, 0, 0}
	case 2:
		return [6]float64{0, 0, 0, 1, -x, -y}
	case 3:
		return [6]float64{0, 0, 0, 0, 1, 0}
	}
	return [6]float64{0, 0, 0, 0, 0, 1}
}
