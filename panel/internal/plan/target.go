package plan

import (
	"fmt"
	"math"
)

// Way is one of the movements of a place: U across, V along the grain, W towards the painted face,
// TurnX and TurnY the turns bx, by of the normal, rad, so that the movement across at height z is
// U + z TurnX.
type Way int

// The movements, in the order of a node's unknowns.
const (
	U Way = iota
	V
	W
	TurnX
	TurnY
)

// Target is a mean movement to which the panel is condensed, and the force (or moment) that does work
// on it, spread in the same way.
type Target struct {
	Way   Way
	terms []term
}

// Mean returns the mean movement over the footprint of a patch; a side of no length is a line or a
// point. What lies beyond the panel's edge is left out.
func (m *Model) Mean(p Patch, way Way) (Target, error) {
	g := m.Grid
	w, l := g.X[len(g.X)-1], g.Y[len(g.Y)-1]
	if !(p.X >= 0 && p.X <= w && p.Y >= 0 && p.Y <= l) {
		return Target{}, fmt.Errorf("patch must lie on the panel of %g by %g mm, got %g, %g", w, l, p.X, p.Y)
	}
	if !(p.Length >= 0 && p.Along >= 0) || math.IsInf(p.Length+p.Along, 0) || way < U || way > TurnY {
		return Target{}, fmt.Errorf("patch must have a footprint of 0 mm or more, got %g by %g", p.Length, p.Along)
	}
	t := Target{Way: way}
	hx, hy := p.Length/2, p.height()/2
	rows := shares(g.Y, nil, p.Y-hy, p.Y+hy)
	for _, a := range shares(g.X, g.Board, p.X-hx, p.X+hx) {
		for _, b := range rows {
			t.terms = append(t.terms, term{g.Node(a.line, b.line), int(way), a.by * b.by})
		}
	}
	return t, nil
}

// MeanAt returns the mean movement across the grain over the footprint of a patch, height mm above the
// middle of the wood there (half its thickness: its painted face; negative: towards its back).
func (m *Model) MeanAt(p Patch, height float64) (Target, error) {
	t, err := m.Mean(p, U)
	if err != nil {
		return t, err
	}
	z := height + m.middle[m.Grid.Board[m.Grid.columnAt(p.X, false)]]
	for _, q := range t.terms {
		t.terms = append(t.terms, term{q.node, int(TurnX), z * q.by})
	}
	return t, nil
}

// Jump returns how far the two sides of line i, counted from the left, have come apart at row r of
// the grid: right side less left side.
func (m *Model) Jump(i, r int, way Way) (Target, error) {
	g := m.Grid
	if i < 0 || i >= len(g.Left) || r < 0 || r >= len(g.Y) || way < U || way > TurnY {
		return Target{}, fmt.Errorf("line must be 0 to %d and row 0 to %d, got %d and %d", len(g.Left)-1, len(g.Y)-1, i, r)
	}
	c := g.Left[i]
	return Target{Way: way, terms: []term{{g.Node(c+1, r), int(way), 1}, {g.Node(c, r), int(way), -1}}}, nil
}

// share is what one mesh line bears of a mean.
type share struct {
	line int
	by   float64
}

// shares returns the mean over lo to hi as shares of the mesh lines at v; cells with a board below 0
// have no width. lo = hi is a point.
func shares(v []float64, board []int, lo, hi float64) []share {
	lo, hi = max(lo, v[0]), min(hi, v[len(v)-1])
	point := hi-lo < together
	by := make([]float64, len(v))
	var first, last = len(v), 0
	for c := range len(v) - 1 {
		if board != nil && board[c] < 0 {
			continue
		}
		a, b := max(lo, v[c]), min(hi, v[c+1])
		f := (b - a) / (hi - lo)
		if point {
			if first < len(v) || lo > v[c+1] {
				continue
			}
			a, b, f = lo, lo, 1
		}
		if !(f > 0) {
			continue
		}
		right := ((a+b)/2 - v[c]) / (v[c+1] - v[c])
		by[c] += f * (1 - right)
		by[c+1] += f * right
		first, last = min(first, c), c+1
	}
	var out []share
	for i := first; i <= last; i++ {
		if by[i] != 0 {
			out = append(out, share{i, by[i]})
		}
	}
	return out
}

// JumpAt returns how far the two sides of the line at x have come apart across the grain at the mesh line nearest to y, height mm
// above the middle of the face that both share: right side less left side.
func (m *Model) JumpAt(x, y, height float64) (Target, error) {
	for i, l := range m.lines {
		if math.Abs(l.X-x) > together {
			continue
		}
		best := 0
		for r, v := range m.Grid.Y {
			if math.Abs(v-y) < math.Abs(m.Grid.Y[best]-y) {
				best = r
			}
		}
		t, err := m.Jump(i, best, U)
		if err != nil {
			return t, err
		}
		c := m.Grid.Left[i]
		a, b := m.Grid.Board[c-1], m.Grid.Board[c+1]
		z := (m.middle[a] + m.middle[b]) / 2 // one height for both sides, or turning the panel as a whole would open it
		if m.Coupled {
			z, _ = contact(&m.plates[a], &m.plates[b])
		}
		t.terms = append(t.terms, term{t.terms[0].node, int(TurnX), z + height}, term{t.terms[1].node, int(TurnX), -z - height})
		return t, nil
	}
	return Target{}, fmt.Errorf("there is no line at %g mm across the panel", x)
}

// Middle returns how high above the plane of the movements, about which moments are read, the middle of
// a board's wood lies, mm.
func (c *Condensed) Middle(board int) float64 { return c.model.middle[board] }

// Surface returns the height above the middle of the wood at x of a plane parallel to the painted face,
// or to the back, sunk so deep, mm, below it.
func (m *Model) Surface(x float64, front bool, sunk float64) float64 {
	h := m.plates[m.Grid.Board[m.Grid.columnAt(x, false)]].Thickness/2 - sunk
	if front {
		return h
	}
	return -h
}
