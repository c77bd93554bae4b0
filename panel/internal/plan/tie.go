package plan

import (
	"fmt"
	"math"
)

// Line runs along the grain over the whole panel: a join, a split, or a place where one may come.
type Line struct {
	X    float64      // mm from the left; a line on the edge of two boards is their join
	Open [][2]float64 // from and to along the grain, mm, where the two sides have nothing to do with one another
	// Hinges are where it is open from one face only; they do not overlap open parts.
	Hinges []Hinge
	Bond   Bond // what ties the sides elsewhere; the zero Bond is sound wood: one node for both
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
	for _, h := range l.Hinges {
		if !(h.From < h.To) || math.IsInf(h.From+h.To, 0) || h.From < 0 || h.To > length+together {
			return fmt.Errorf("part-open part of the line at %g mm must run upwards within 0 to %g mm, got %g to %g", l.X, length, h.From, h.To)
		}
		if !(h.Turn > 0 && h.Across*h.Turn > h.Both*h.Both) || math.IsInf(h.Across+h.Turn, 0) || !(h.Left > 0 && h.Left <= 1) {
			return fmt.Errorf("part-open part of the line at %g mm must give in every way and have a rest of 0 to 1, got %+v", l.X, h)
		}
	}
	if b := l.Bond; b != (Bond{}) && !(b.Across > 0 && b.Along > 0 && b.Through > 0) {
		return fmt.Errorf("bond of the line at %g mm must be above 0 MPa/mm in all directions, got %g, %g, %g", l.X, b.Across, b.Along, b.Through)
	}
	return nil
}

// Hinge is a stretch of a line that is open from one face to some depth: what is left passes force and moment across it, N in
// N/mm and M in N, with t the thickness and E the modulus across the weaker board,
//
//	opening at mid-thickness = (Across N + Both M/t)/E,   turn = (Both N + Turn M/t)/(E t)
//
// Both is positive where the painted face is open, and so the force passes behind the middle. It couples stretching and
// bending, so that the model is one matrix.
type Hinge struct {
	From, To           float64 // mm along the grain
	Across, Both, Turn float64
	Left               float64 // share of the thickness that is left, for shear
}

// hinge returns the hinge that holds at y; at its tips the line is closed.
func (l Line) hinge(y, length float64) *Hinge {
	for i := range l.Hinges {
		if h := &l.Hinges[i]; within([2]float64{h.From, h.To}, y, length) {
			return h
		}
	}
	return nil
}

// within tells whether y lies between two tips; what reaches an end of the panel has none there.
func within(o [2]float64, y, length float64) bool {
	below := y > o[0]+together || o[0] <= together
	above := y < o[1]-together || o[1] >= length-together
	return below && above && y >= o[0]-together && y <= o[1]+together
}

// Springs returns the stiffness of a hinge for each mm along the grain: against opening at the height z above mid-thickness,
// and against turning; e is the modulus across, t the thickness.
func (h *Hinge) Springs(e, t float64) (open, z, turn float64) {
	return e * h.Turn / (h.Across*h.Turn - h.Both*h.Both), -t * h.Both / h.Turn, e * t * t / h.Turn
}

// closed tells whether the line is tied at y; its tips are.
func (l Line) closed(y, length float64) bool {
	for _, o := range l.Open {
		if within(o, y, length) {
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
	l, y, length := m.lines[i], m.Grid.Y[r], m.Grid.Y[len(m.Grid.Y)-1]
	hinge := l.hinge(y, length)
	if hinge == nil && l.sound() || m.tied(i) < 2 || !l.closed(y, length) {
		return k, 0
	}
	c := m.Grid.Left[i]
	pa, pb := &m.plates[m.Grid.Board[c-1]], &m.plates[m.Grid.Board[c+1]]
	z, t := contact(pa, pb)
	if !m.Coupled {
		z = 0
	}
	b, h := l.bond(pa, pb), m.Grid.span(r)*t
	if hinge != nil {
		open, above, turn := hinge.Springs(math.Min(pa.EX, pb.EX), t)
		s := m.Grid.span(r)
		return [5]float64{open * s, b.Along * h * hinge.Left, b.Through * h * hinge.Left, turn * s, b.Along * h * t * t / 12 * hinge.Left}, z + above
	}
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

// Across returns the modulus across the grain of a board as it is, MPa.
func (m *Model) Across(board int) float64 { return m.plates[board].EX }
