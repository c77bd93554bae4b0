package section

import (
	"fmt"
	"runtime"
	"sync"

	"gonum.org/v1/gonum/mat"

	"crossgrain/panel/internal/fe"
	"crossgrain/tables"
)

// Places is the number of stations across the panel, both edges among them, evenly spaced.
const Places = 50

// Model is the cross-section of a panel by finite elements: all answers to unit loads, so that an hour of
// a year is one small product. It is not changed by Eval and may be used by many goroutines; Touch changes
// it.
type Model struct {
	o       Options
	parts   []*part
	seams   []*seam
	chain   *chain
	width   float64
	mid     float64 // height of the middle of the first board: N acts there
	first   []int   // first station of each board, and Places
	x       [Places]float64
	boards  []block
	alone   []block
	forces  []block
	rigid   []block
	rank    int             // largest of the blocks
	stretch [3][]float64    // strain along the grain from the loads' balance, see along
	balance [3][3]float64   // inverse of the stiffness along the grain
	beside  [3][3]float64   // strain along the grain for unit pull, moment, one
	single  [][3][3]float64 // of each board by itself: inverse stiffness along the grain
}

// Build makes the model of boards that stand side by side, from the left. Each board is factored by itself,
// so the work grows with their number and no faster; the same input gives the same bits on any number of
// cores.
//
// Boards of 5 to 2000 mm by 0.5 to 300 mm, up to 60 of them. A board that holds its pith gives a
// *[PithInsideError]; sizes outside give a *[tables.RangeError]; a ground thicker than its wood, edges that
// do not meet, a join open over its whole height, and stiffness that is not positive definite are refused
// in words.
func Build(timbers []Timber, o Options) (*Model, error) {
	if err := tables.InRange("number of boards", float64(len(timbers)), 1, maxTimbers, "", ""); err != nil {
		return nil, err
	}
	if len(o.Joins) != 0 && len(o.Joins) != len(timbers)-1 {
		return nil, fmt.Errorf("joins must be one fewer than %d boards, or none given, got %d", len(timbers), len(o.Joins))
	}
	if o.Across < 0 || o.Across > 1000 || o.Through < 0 || o.Through > 200 {
		return nil, fmt.Errorf("elements must be 1 to 1000 across and 1 to 200 through a board, 0 by setting, got %d and %d", o.Across, o.Through)
	}
	for i := range timbers {
		if err := timbers[i].validate(); err != nil {
			return nil, wrap(i, err)
		}
	}
	m := &Model{o: o, parts: make([]*part, len(timbers))}
	for i := range timbers {
		m.width += timbers[i].Width
	}
	if err := m.boardsByThemselves(timbers); err != nil {
		return nil, err
	}
	m.chain = newChain(m.parts, m.seams)
	return m, m.join()
}

// boardsByThemselves meshes, pairs and solves the boards; the last in parallel.
func (m *Model) boardsByThemselves(timbers []Timber) error {
	left := 0.0
	bases := make([]float64, len(timbers))
	lefts := make([]float64, len(timbers))
	for i := range timbers {
		t := &timbers[i]
		lefts[i], bases[i] = left, t.Proud
		if m.o.Flush == FlushFront {
			bases[i] += timbers[0].Thickness - t.Thickness
		}
		left += t.Width
	}
	if err := each(len(timbers), func(i int) (err error) {
		m.parts[i], err = newPart(timbers[i], &m.o, lefts[i], bases[i])
		return wrap(i, err)
	}); err != nil {
		return err
	}
	for i := range len(timbers) - 1 {
		var l Link
		if len(m.o.Joins) > 0 {
			l = m.o.Joins[i]
		}
		s, err := newSeam(m.parts[i], m.parts[i+1], l)
		if err != nil {
			return fmt.Errorf("join %d: %w", i+1, err)
		}
		s.share = s.shares()
		m.seams = append(m.seams, s)
	}
	m.mid = bases[0] + timbers[0].Thickness/2
	m.stations()
	m.single = make([][3][3]float64, len(timbers))
	m.alone = make([]block, len(timbers))
	return each(len(timbers), func(i int) error {
		p := m.parts[i]
		ends := [2]bool{i == 0, i == len(timbers)-1}
		if err := p.solve(ends, m.mid); err != nil {
			return wrap(i, err)
		}
		p.outputs(m.x[m.first[i]:m.first[i+1]], ends, m.width/2)
		p.x = nil
		return wrap(i, m.byItself(i))
	})
}

// stations places the stations, and says which board holds which.
func (m *Model) stations() {
	for i := range m.x {
		m.x[i] = m.width * float64(i) / (Places - 1)
	}
	i := 0
	for b := range m.parts {
		m.first = append(m.first, i)
		right := m.parts[b].g.left + m.parts[b].t.Width
		for i < Places && (m.x[i] < right-sameHeight || b == len(m.parts)-1) {
			i++
		}
	}
	m.first = append(m.first, i)
}

// each runs f for 0 to n-1 on all cores; the error of the lowest index is returned.
func each(n int, f func(i int) error) error {
	errs := make([]error, n)
	var next sync.Mutex
	at := 0
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for {
				next.Lock()
				i := at
				at++
				next.Unlock()
				if i >= n {
					return
				}
				errs[i] = f(i)
			}
		})
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// inverse3 inverts a symmetric stiffness along the grain.
func inverse3(s [3][3]float64) ([3][3]float64, error) {
	var inv [3][3]float64
	for k := range 3 {
		var r [3]float64
		r[k] = 1
		col, err := fe.Solve3(s, r)
		if err != nil {
			return inv, err
		}
		for i := range 3 {
			inv[i][k] = col[i]
		}
	}
	return inv, nil
}

// byItself makes the block of board i without neighbours: on its own loads, and beside them the force and
// moments along the grain that its loads balance.
func (m *Model) byItself(i int) error {
	p := m.parts[i]
	q := make([]float64, 3*(p.np+3)) // strain along the grain on loads, and on their balance
	if !m.o.HeldAlong {
		s := p.body.Along
		for a := range 3 {
			for b := range 3 {
				s[a][b] += p.border[a*p.m+p.m-3+b]
			}
		}
		inv, err := inverse3(s)
		if err != nil {
			return err
		}
		m.single[i] = inv
		for a := range 3 {
			for b := range 3 {
				q[a*(p.np+3)+p.np+b] = inv[a][b]
				for k := range p.np {
					q[a*(p.np+3)+k] -= inv[a][b] * p.border[b*p.m+k]
				}
			}
		}
	}
	full := mat.NewDense(perAlone, p.np+extraCols, nil)
	for r := range perAlone {
		row, src := full.RawRowView(r), p.alone[r*p.m:][:p.m]
		copy(row[:p.np], src[:p.np])
		for a := range 3 {
			w := src[p.m-3+a]
			for k := range p.np {
				row[k] += w * q[a*(p.np+3)+k]
			}
			for b := range 3 {
				row[p.np+colAlong+b] += w * q[a*(p.np+3)+p.np+b]
			}
		}
	}
	m.alone[i] = cut(full, p.np, 0, p.np)
	return nil
}

// join solves the chain and makes the blocks of the joined panel. It is done again when faces of an open
// join come to touch or part.
func (m *Model) join() error {
	c := m.chain
	if err := c.solve(); err != nil {
		return err
	}
	m.boards, m.forces, m.rigid = nil, nil, nil
	for j, s := range m.seams {
		n2 := 2 * len(s.z)
		m.forces = append(m.forces, cut(slice(c.y[j], 0, n2), c.cols, c.start[j], c.end(j+1)))
		m.rigid = append(m.rigid, cut(slice(c.y[j], n2, n2+3), c.cols, 0, c.cols))
	}
	for i := range m.parts {
		m.boards = append(m.boards, cut(c.inside(i, m.parts[i].rows), c.cols, c.start[i], c.end(i)))
	}
	m.rank = 0
	for _, bs := range [2][]block{m.boards, m.forces} {
		for i := range bs {
			m.rank = max(m.rank, bs[i].rank())
		}
	}
	return m.alongGrain()
}

func slice(a *mat.Dense, lo, hi int) *mat.Dense {
	_, n := a.Dims()
	return a.Slice(lo, hi, 0, n).(*mat.Dense)
}

// inside turns rows on the columns of board i into rows on the loads of all boards.
func (c *chain) inside(i int, rows []float64) *mat.Dense {
	p := c.parts[i]
	n := len(rows) / p.m
	out := mat.NewDense(n, c.all(), nil)
	src := mat.NewDense(n, p.m, rows)
	var t mat.Dense
	at := p.np + 3
	if i > 0 {
		w := 2 * len(p.left)
		t.Mul(src.Slice(0, n, at, at+w), slice(c.y[i-1], 0, w))
		out.Add(out, &t)
		t.Reset()
		at += w
	}
	if i < len(c.seams) {
		w := 2 * len(p.right)
		t.Mul(src.Slice(0, n, at, at+w), slice(c.y[i], 0, w))
		out.Add(out, &t)
	}
	for r := range n {
		row, s := out.RawRowView(r), src.RawRowView(r)
		for k := range p.np {
			row[c.start[i]+k] += s[k]
		}
		for k := range 3 {
			row[c.cols+k] += s[p.np+k]
			row[c.cols+colAlong+k] += s[p.m-3+k]
		}
	}
	return out
}

// alongGrain balances force and moments along the grain of all boards together.
func (m *Model) alongGrain() error {
	c := m.chain
	for l := range 3 {
		m.stretch[l] = make([]float64, c.cols)
	}
	if m.o.HeldAlong {
		return nil
	}
	var s [3][3]float64
	all := mat.NewDense(3, c.all(), nil)
	for i, p := range m.parts {
		for a := range 3 {
			for b := range 3 {
				s[a][b] += p.body.Along[a][b]
			}
		}
		all.Add(all, c.inside(i, p.border))
	}
	for a := range 3 {
		for b := range 3 {
			s[a][b] += all.At(a, c.cols+colAlong+b)
		}
	}
	inv, err := inverse3(s)
	if err != nil {
		return err
	}
	m.balance = inv
	m.beside = [3][3]float64{}
	for a := range 3 {
		for b := range 3 {
			row := all.RawRowView(b)
			for k := range c.cols {
				m.stretch[a][k] -= inv[a][b] * row[k]
			}
			for k := range 3 {
				m.beside[a][k] -= inv[a][b] * row[c.cols+k]
			}
		}
	}
	return nil
}
