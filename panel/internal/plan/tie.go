package plan

import (
	"fmt"
	"math"
)

// Line runs along the grain over the whole panel: a join, a split, or a place where one may come.
type Line struct {
	X    float64      // mm from the left; a line on the edge of two boards is their join
	Open [][2]float64 // from and to along the grain, mm, where the two sides have nothing to do with one another
	Bond Bond         // what ties the sides elsewhere; the zero Bond is sound wood: one node for both
	// Live keeps two nodes on a sound line, tied by [closedGap] of wood, so that [Model.Jump] and the
	// forces across it can be had.
	Live bool
}

// Bond is the stiffness of what fills a closed line, MPa per mm of movement of its sides against one
// another: across, along the grain, and through the thickness. Modulus over thickness for glue.
type Bond struct{ Across, Along, Through float64 }

// closedGap is the thickness of wood, mm, whose yielding a live sound line has: small enough not to be
// seen (3e-5 of a panel of 600 mm) and large enough to keep the equations well conditioned.
const closedGap = 0.02

func (l Line) valid(width, length float64) error {
	if !(l.X > 0 && l.X < width) {
		return fmt.Errorf("line must lie between 0 and %g mm across the panel, got %g", width, l.X)
	}
	for _, o := range l.Open {
		if !(o[0] < o[1]) || math.IsInf(o[0]+o[1], 0) || o[0] < 0 || o[1] > length+together {
			return fmt.Errorf("open part of the line at %g mm must run upwards within 0 to %g mm, got %g to %g", l.X, length, o[0], o[1])
		}
	}
	if b := l.Bond; b != (Bond{}) && !(b.Across > 0 && b.Along > 0 && b.Through > 0) {
		return fmt.Errorf("bond of the line at %g mm must be above 0 MPa/mm in all directions, got %g, %g, %g", l.X, b.Across, b.Along, b.Through)
	}
	return nil
}

// closed tells whether the line is tied at y; its tips are.
func (l Line) closed(y, length float64) bool {
	for _, o := range l.Open {
		below := y > o[0]+together || o[0] <= together
		above := y < o[1]-together || o[1] >= length-together
		if below && above && y >= o[0]-together && y <= o[1]+together {
			return false
		}
	}
	return true
}

// sound tells whether both sides are one where the line is closed.
func (l Line) sound() bool { return l.Bond == (Bond{}) && !l.Live }

// bond returns the stiffness of the line between two boards.
func (l Line) bond(a, b *Plate) Bond {
	if l.Bond != (Bond{}) {
		return l.Bond
	}
	return Bond{
		Across:  math.Max(a.EX, b.EX) / closedGap,
		Along:   math.Max(a.GXL, b.GXL) / closedGap,
		Through: shearShare * math.Max(a.GXZ, b.GXZ) / closedGap,
	}
}

// contact returns the middle and the depth of the face two boards share.
func contact(a, b *Plate) (middle, depth float64) {
	lo := math.Max(a.Centre-a.Thickness/2, b.Centre-b.Thickness/2)
	hi := math.Min(a.Centre+a.Thickness/2, b.Centre+b.Thickness/2)
	return (lo + hi) / 2, hi - lo
}

// term is a share of one movement of a node: 0 u, 1 v, 2 w, 3 bx, 4 by.
type term struct {
	node, part int
	by         float64
}

// spring is a tie of one movement.
type spring struct {
	terms []term
	k     float64
}

// tied returns how many nodes of line i are closed.
func (m *Model) tied(i int) int {
	n := 0
	for _, y := range m.Grid.Y {
		if m.lines[i].closed(y, m.Grid.Y[len(m.Grid.Y)-1]) {
			n++
		}
	}
	return n
}

// Tie returns what ties row r of a line with two nodes, N/mm for U, V and W, N mm for the turns; U and
// V are taken at height z. Nil where the line is open or its sides are one. The force across is the
// tie times [Model.Jump].
func (m *Model) Tie(i, r int) (k [5]float64, z float64) {
	if i < 0 || i >= len(m.lines) || r < 0 || r >= len(m.Grid.Y) {
		return k, 0
	}
	l := m.lines[i]
	if l.sound() || m.tied(i) < 2 || !l.closed(m.Grid.Y[r], m.Grid.Y[len(m.Grid.Y)-1]) {
		return k, 0
	}
	c := m.Grid.Left[i]
	pa, pb := &m.plates[m.Grid.Board[c-1]], &m.plates[m.Grid.Board[c+1]]
	z, t := contact(pa, pb)
	if !m.Coupled {
		z = 0
	}
	b, h := l.bond(pa, pb), m.Grid.span(r)*t
	return [5]float64{b.Across * h, b.Along * h, b.Through * h, b.Across * h * t * t / 12, b.Along * h * t * t / 12}, z
}

// ties returns the springs of the closed nodes of line i.
func (m *Model) ties(i int) (out []spring) {
	g := m.Grid
	for r := range g.Y {
		k, z := m.Tie(i, r)
		a, b := g.Node(g.Left[i], r), g.Node(g.Left[i]+1, r)
		for way, v := range k {
			if v == 0 {
				continue
			}
			terms := []term{{b, way, 1}, {a, way, -1}}
			if z != 0 && way < 2 {
				terms = append(terms, term{b, way + 3, z}, term{a, way + 3, -z})
			}
			out = append(out, spring{terms, v})
		}
	}
	return out
}

// span returns the length along the grain that row r stands for.
func (g *Grid) span(r int) float64 {
	return (g.Y[min(r+1, len(g.Y)-1)] - g.Y[max(r-1, 0)]) / 2
}
