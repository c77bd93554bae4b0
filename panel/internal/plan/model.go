package plan

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/panel/internal/fe"
)

// Layout is a panel seen from the front, for the mesh.
type Layout struct {
	Plates []Plate // from the left, one or more
	Length float64 // along the grain, mm
	// Lines are joins, splits and candidate lines; a closed join is added at every board edge that
	// has none. At most one a place.
	Lines []Line
	// Channels are cut out of the back.
	Channels []Channel
	AcrossX  []Mark // places across the grain that mesh lines must follow
	AlongY   []Mark // places along the grain, such as battens' edges
	// CellX and CellY are the largest size of a cell, mm; 0 = a twentieth of the width, a
	// twenty-eighth of the length.
	CellX, CellY float64
	// Coupled asks for stretching and bending in one matrix although mid-planes are flush and only
	// the ground couples them. Boards whose mid-planes are not flush are always coupled.
	Coupled bool
}

// Follow adds marks so that the mesh follows the footprints of patches, each cut into n cells or
// more either way.
func (l *Layout) Follow(patches []Patch, n int) {
	for _, p := range patches {
		h := p.height()
		if p.Length > 0 {
			s := p.Length / float64(n)
			l.AcrossX = append(l.AcrossX, Mark{p.X - p.Length/2, s}, Mark{p.X, s}, Mark{p.X + p.Length/2, s})
		}
		if h > 0 {
			s := h / float64(n)
			l.AlongY = append(l.AlongY, Mark{p.Y - h/2, s}, Mark{p.Y, s}, Mark{p.Y + h/2, s})
		}
	}
}

// FollowMember adds marks at both edges of a member across the grain, its centre line at y.
func (l *Layout) FollowMember(y, width float64) {
	l.AlongY = append(l.AlongY, Mark{At: y - width/2}, Mark{At: y + width/2})
}

func (p Patch) height() float64 {
	if p.Along == 0 {
		return p.Length
	}
	return p.Along
}

// Model is a panel with its stiffness factored, for one state of its wood.
type Model struct {
	Grid     *Grid
	Coupled  bool
	plates   []Plate
	laminae  []laminate // of each board, and of it in each channel
	channels []Channel
	middle   []float64 // of each board: height of its wood's middle above the plane of the movements
	lines    []Line
	piece    []int // of each node column: which free-standing piece it belongs to
	pieces   int
	parts    []*part
}

// part is one set of equations: stretching, bending, or both.
type part struct {
	offset [5]int // place of u, v, w, bx, by in a node; -1 = not here
	per    int    // unknowns a node
	band   *fe.Band
	held   []int
}

// index returns the place of a movement in the part's equations, -1 when it is not among them.
func (p *part) index(node, which int) int {
	if p.offset[which] < 0 {
		return -1
	}
	return node*p.per + p.offset[which]
}

// NewModel meshes and factors the panel. yielded gives the factor by which the wood of each board
// has yielded, 1 or more (one value holds for all; none = 1): the modulus across the grain
// falls to 1/yielded, shear by its share, the one along the grain and the ground stay.
func NewModel(l Layout, yielded ...float64) (*Model, error) {
	m := &Model{}
	if err := m.take(&l, yielded); err != nil {
		return nil, err
	}
	if err := m.mesh(&l); err != nil {
		return nil, err
	}
	if err := m.assemble(m.split()); err != nil {
		return nil, err
	}
	m.hold()
	return m, m.factor()
}

func (m *Model) take(l *Layout, yielded []float64) error {
	if len(l.Plates) == 0 {
		return fmt.Errorf("panel needs at least one board, got none")
	}
	if !(l.Length > 0) || math.IsInf(l.Length, 0) {
		return fmt.Errorf("length must be above 0 mm, got %g", l.Length)
	}
	if len(yielded) > 1 && len(yielded) != len(l.Plates) {
		return fmt.Errorf("yielding must be given for each of %d boards or for all, got %d", len(l.Plates), len(yielded))
	}
	m.channels = l.Channels
	m.Coupled = l.Coupled || len(l.Channels) > 0 || slices.ContainsFunc(l.Lines, func(q Line) bool { return len(q.Hinges) > 0 })
	for i, p := range l.Plates {
		if err := p.valid(); err != nil {
			return fmt.Errorf("board %d: %w", i+1, err)
		}
		m.Coupled = m.Coupled || math.Abs(p.Centre-l.Plates[0].Centre) > together
	}
	for i, p := range l.Plates {
		if !m.Coupled {
			p.Centre = 0
		}
		if len(yielded) > 0 {
			s := pick(yielded, i)
			if !(s >= 1) || math.IsInf(s, 0) {
				return fmt.Errorf("board %d: yielding must be 1 or more, got %g", i+1, s)
			}
			p = p.creptPlate(s)
		}
		m.plates = append(m.plates, p)
		for cut := range 1 + len(m.channels) {
			m.laminae = append(m.laminae, m.cutPlate(p, cut).laminate())
		}
		middle := p.Centre
		if !m.Coupled {
			middle -= m.laminae[i].neutral()
			m.laminae[i].part()
		}
		m.middle = append(m.middle, middle)
	}
	for _, q := range m.channels {
		if err := q.valid(m.plates); err != nil {
			return err
		}
	}
	return nil
}

func (m *Model) mesh(l *Layout) error {
	var edges []float64
	width := 0.0
	for _, p := range l.Plates {
		width += p.Width
		edges = append(edges, width)
	}
	marks, along := l.marks()
	marks, along = append(marks, l.AcrossX...), append(along, l.AlongY...)
	m.lines = withJoins(l.Lines, edges)
	var xs []float64
	for i, q := range m.lines {
		if err := q.valid(width, l.Length); err != nil {
			return err
		}
		if i > 0 && q.X-m.lines[i-1].X < 10*together {
			return fmt.Errorf("lines at %g and %g mm must lie apart", m.lines[i-1].X, q.X)
		}
		xs = append(xs, q.X)
		marks = append(marks, Mark{At: q.X})
		for _, o := range q.Open {
			along = append(along, Mark{At: o[0]}, Mark{At: o[1]})
		}
		for _, h := range q.Hinges {
			along = append(along, Mark{At: h.From}, Mark{At: h.To})
		}
	}
	cx, cy := l.CellX, l.CellY
	if cx == 0 {
		cx = width / 20
	}
	if cy == 0 {
		cy = l.Length / 28
	}
	if !(cx > 0 && cy > 0) {
		return fmt.Errorf("cells must be above 0 mm, got %g by %g", cx, cy)
	}
	gx, gy := divide(width, cx, marks), divide(l.Length, cy, along)
	if len(gx)*len(gy) > maxNodes {
		return fmt.Errorf("mesh of %d by %d nodes is too large, at most %d in all", len(gx), len(gy), maxNodes)
	}
	var err error
	m.Grid, err = newGrid(gx, gy, xs, edges)
	return err
}

// maxNodes keeps a mesh within some hundred megabytes.
const maxNodes = 60000

// assemble fills the equations.
func (m *Model) assemble(ties []spring) error {
	if m.Coupled {
		m.parts = []*part{{offset: [5]int{0, 1, 2, 3, 4}, per: 5}}
	} else {
		m.parts = []*part{{offset: [5]int{0, 1, -1, -1, -1}, per: 2}, {offset: [5]int{-1, -1, 0, 1, 2}, per: 3}}
	}
	n := m.Grid.Nodes()
	for _, p := range m.parts {
		var err error
		if p.band, err = fe.NewBand(n*p.per, min(n*p.per-1, (m.Grid.reach()+1)*p.per-1)); err != nil {
			return err
		}
	}
	m.cells(m.addCell)
	for _, s := range ties {
		m.addSpring(&s)
	}
	return nil
}

// looseLimit is the smallest share of a stiffness that may be left once all that hangs on it is taken
// out: below it a part of the panel moves freely but for rounding. Sound meshes keep 1e-3 or more,
// bonds as thin as 1e-4 mm 7e-6; loose panels were seen to keep 7e-14 to 4e-10.
const looseLimit = 1e-8

func (m *Model) factor() error {
	for _, p := range m.parts {
		n, _ := p.band.Size()
		before := make([]float64, n)
		for i := range before {
			before[i] = p.band.At(i, i)
		}
		if err := p.band.Factor(); err != nil {
			return err
		}
		for i, v := range before {
			if u := p.band.At(i, i); u*u < looseLimit*v {
				return fmt.Errorf("a part of the panel moves freely, or a bond is far too stiff: movement %d keeps %.1g of its stiffness", i, u*u/v)
			}
		}
	}
	return nil
}

// cells calls do for every cell, column by column.
func (m *Model) cells(do func(c, r int, e *element)) {
	type key struct {
		board, cut int
		a, b       float64
	}
	seen := map[key]*element{}
	g := m.Grid
	for c, board := range g.Board {
		if board < 0 {
			continue
		}
		for r := range len(g.Y) - 1 {
			// sizes alike to a billionth share one element
			k := key{board, m.cut(c, r), round9(g.X[c+1] - g.X[c]), round9(g.Y[r+1] - g.Y[r])}
			e := seen[k]
			if e == nil {
				q := newElement(g.X[c+1]-g.X[c], g.Y[r+1]-g.Y[r], m.lam(c, r), m.Coupled)
				e = &q
				seen[k] = e
			}
			do(c, r, e)
		}
	}
}

func round9(v float64) float64 { return math.Round(v*1e9) / 1e9 }

func (m *Model) addCell(c, r int, e *element) {
	nodes := m.Grid.corners(c, r)
	for _, p := range m.parts {
		lo, hi := 0, 20 // movements of this part: u, v of the corners, then w, bx, by
		switch p.per {
		case 2:
			hi = 8
		case 3:
			lo = 8
		}
		var at [20]int
		for i, n := range nodes {
			at[2*i], at[2*i+1] = p.index(n, 0), p.index(n, 1)
			at[8+3*i], at[9+3*i], at[10+3*i] = p.index(n, 2), p.index(n, 3), p.index(n, 4)
		}
		for i := lo; i < hi; i++ {
			for j := i; j < hi; j++ {
				p.band.Add(at[i], at[j], e.all[i][j])
			}
		}
	}
}

func (m *Model) addSpring(s *spring) {
	for _, p := range m.parts {
		for _, a := range s.terms {
			for _, b := range s.terms {
				i, j := p.index(a.node, a.part), p.index(b.node, b.part)
				if i >= 0 && j >= i {
					p.band.Add(i, j, s.k*a.by*b.by)
				}
			}
		}
	}
}
