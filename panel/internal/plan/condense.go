package plan

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// Condensed is the panel reduced to some movements:
//
//	movement = F force + Free load + Rigid motion
//	Rigid^T force + Lift load = 0        when nothing else holds the panel
//
// F and Free stand for a panel held at one node of each piece; forces that balance give the same
// differences wherever that is.
type Condensed struct {
	N, Loads, Motions int
	F                 []float64 // N x N, row by row: mm (or rad) per N (or N mm)
	Free              []float64 // N x Loads: movement for a unit of each load
	Rigid             []float64 // N x Motions: six free motions of every piece
	Lift              []float64 // Motions x Loads: what each load does work for in a free motion
	Asymmetry         float64   // largest difference between two halves of F as solved, to its largest value
	model             *Model
	fields            []field
}

// field is what one part answers: its columns and their movements, node by node.
type field struct {
	part    *part
	forces  []int // targets among the columns, first
	loads   []int // then loads
	columns []float64
}

func (f *field) width() int { return len(f.forces) + len(f.loads) }

// Condense solves for unit forces on the targets and for unit loads.
func (m *Model) Condense(targets []Target) (*Condensed, error) { return m.condense(targets, true) }

// CondenseLast is Condense in less memory, for a model that is not asked again: only what stands in the result can be had, not
// what goes on between the targets.
func (m *Model) CondenseLast(targets []Target) (*Condensed, error) { return m.condense(targets, false) }

// atOnce is how many columns are solved for at a time where they are not kept; more are no faster.
const atOnce = 128

func (m *Model) condense(targets []Target, keep bool) (*Condensed, error) {
	if len(targets) == 0 {
		return nil, fmt.Errorf("panel must be condensed to at least one movement, got none")
	}
	c := &Condensed{N: len(targets), Loads: m.Loads(), Motions: 6 * m.pieces, model: m}
	c.F = make([]float64, c.N*c.N)
	c.Free = make([]float64, c.N*c.Loads)
	c.Rigid = make([]float64, c.N*c.Motions)
	c.Lift = make([]float64, c.Motions*c.Loads)
	for _, p := range m.parts {
		if err := c.solve(p, targets, keep); err != nil {
			return nil, err
		}
	}
	for i, t := range targets {
		for _, q := range t.terms {
			m.addMotion(q, q.by, func(k int, v float64) { c.Rigid[i*c.Motions+k] += v })
		}
	}
	c.symmetric()
	return c, nil
}

// addMotion gives what a share of a node's movement contributes to each free motion.
func (m *Model) addMotion(t term, by float64, add func(motion int, v float64)) {
	c, r := m.Grid.place[t.node][0], m.Grid.place[t.node][1]
	for k, v := range motion(m.Grid.X[c], m.Grid.Y[r], t.part) {
		if v != 0 {
			add(6*m.piece[c]+k, v*by)
		}
	}
}

func (c *Condensed) solve(p *part, targets []Target, keep bool) error {
	m := c.model
	n, _ := p.band.Size()
	all := m.loads(p)
	f := field{part: p}
	for j := range c.Loads {
		if column(all, n, c.Loads, j) {
			f.loads = append(f.loads, j)
		}
	}
	for i, t := range targets {
		if slices.ContainsFunc(t.terms, func(q term) bool { return p.offset[q.part] >= 0 }) {
			f.forces = append(f.forces, i)
		}
	}
	c.lift(p, all)
	w := f.width()
	step := w
	if !keep {
		step = min(w, atOnce)
	}
	x := make([]float64, n*step)
	for from := 0; from < w; from += step {
		some := min(step, w-from)
		x = x[:n*some]
		clear(x)
		for k := range some {
			if j := from + k - len(f.forces); j >= 0 {
				for i := range n {
					x[i*some+k] = all[i*c.Loads+f.loads[j]]
				}
				continue
			}
			for _, t := range targets[f.forces[from+k]].terms {
				if at := p.index(t.node, t.part); at >= 0 {
					x[at*some+k] += t.by
				}
			}
		}
		for _, h := range p.held {
			clear(x[h*some:][:some])
		}
		if err := p.band.SolveRows(x, some); err != nil {
			return err
		}
		c.read(&f, targets, x, from, some)
	}
	if !keep {
		p.band = nil
	} else if w > 0 {
		f.columns = x
		c.fields = append(c.fields, f)
	}
	return nil
}

// column tells whether column j of a is not nil.
func column(a []float64, n, w, j int) bool {
	for i := range n {
		if a[i*w+j] != 0 {
			return true
		}
	}
	return false
}

// lift adds the work of the loads in the free motions; a free strain does none, up to rounding.
func (c *Condensed) lift(p *part, all []float64) {
	m := c.model
	for node := range m.Grid.Nodes() {
		for way := range 5 {
			i := p.index(node, way)
			if i < 0 {
				continue
			}
			for j := m.WeightOf(Standing); j < c.Loads; j++ {
				if v := all[i*c.Loads+j]; v != 0 {
					m.addMotion(term{node: node, part: way}, v, func(k int, v float64) { c.Lift[k*c.Loads+j] += v })
				}
			}
		}
	}
}

// read takes the targets' movements out of some columns of the solution, from one on.
func (c *Condensed) read(f *field, targets []Target, x []float64, from, some int) {
	row := make([]float64, some)
	for _, i := range f.forces {
		clear(row)
		for _, t := range targets[i].terms {
			if at := f.part.index(t.node, t.part); at >= 0 {
				floats.AddScaled(row, t.by, x[at*some:][:some])
			}
		}
		for k, v := range row {
			if j := from + k - len(f.forces); j >= 0 {
				c.Free[i*c.Loads+f.loads[j]] += v
			} else {
				c.F[i*c.N+f.forces[from+k]] += v
			}
		}
	}
}

// symmetric makes both halves of F the same and notes how far apart they were.
func (c *Condensed) symmetric() {
	for i := range c.N {
		for j := range i {
			a, b := c.F[i*c.N+j], c.F[j*c.N+i]
			size := math.Sqrt(c.F[i*c.N+i] * c.F[j*c.N+j])
			if size > 0 {
				c.Asymmetry = max(c.Asymmetry, math.Abs(a-b)/size)
			}
			c.F[i*c.N+j], c.F[j*c.N+i] = (a+b)/2, (a+b)/2
		}
	}
}

// Movement returns the targets' movements for forces, loads and free motions.
func (c *Condensed) Movement(force, load, motion []float64) []float64 {
	out := make([]float64, c.N)
	for i := range out {
		for _, v := range []struct{ row, by []float64 }{
			{c.F[i*c.N:][:c.N], force}, {c.Free[i*c.Loads:][:c.Loads], load}, {c.Rigid[i*c.Motions:][:c.Motions], motion},
		} {
			if v.by != nil {
				out[i] += floats.Dot(v.row, v.by)
			}
		}
	}
	return out
}
