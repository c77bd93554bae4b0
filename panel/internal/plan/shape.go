package plan

import (
	"fmt"

	"gonum.org/v1/gonum/floats"
)

// Shape is the whole panel's movement and stress under stated forces and loads.
type Shape struct {
	move  [][5]float64 // of each node
	load  []float64
	model *Model
}

// Shape adds the columns up: force on each target, N or N mm; load, a factor for each load; motion of
// each piece. nil = none.
func (c *Condensed) Shape(force, load, motions []float64) (*Shape, error) {
	for _, v := range []struct {
		what string
		v    []float64
		want int
	}{{"force", force, c.N}, {"load", load, c.Loads}, {"motion", motions, c.Motions}} {
		if v.v != nil && len(v.v) != v.want {
			return nil, fmt.Errorf("%s must have %d values, got %d", v.what, v.want, len(v.v))
		}
	}
	s := &Shape{move: make([][5]float64, c.model.Grid.Nodes()), load: load, model: c.model}
	for i := range c.fields {
		s.add(&c.fields[i], force, load)
	}
	if motions != nil {
		s.ride(motions)
	}
	return s, nil
}

// add adds the columns of one part, each as often as its force or load says.
func (s *Shape) add(f *field, force, load []float64) {
	by := make([]float64, f.width())
	for k, j := range f.forces {
		if force != nil {
			by[k] = force[j]
		}
	}
	for k, j := range f.loads {
		if load != nil {
			by[len(f.forces)+k] = load[j]
		}
	}
	for n := range s.move {
		for w := range 5 {
			if q := f.part.index(n, w); q >= 0 {
				s.move[n][w] += floats.Dot(by, f.columns[q*len(by):][:len(by)])
			}
		}
	}
}

// ride adds the free motions.
func (s *Shape) ride(motions []float64) {
	g := s.model.Grid
	for n, at := range g.place {
		for w := range 5 {
			for k, v := range motion(g.X[at[0]], g.Y[at[1]], w) {
				s.move[n][w] += v * motions[6*s.model.piece[at[0]]+k]
			}
		}
	}
}

// Move returns the movements of a place, on the left side of a line when left is true.
func (s *Shape) Move(x, y float64, left bool) [5]float64 {
	g := s.model.Grid
	c, r := g.columnAt(x, left), g.rowAt(y)
	p, q := (x-g.X[c])/(g.X[c+1]-g.X[c]), (y-g.Y[r])/(g.Y[r+1]-g.Y[r])
	var out [5]float64
	for i, n := range g.corners(c, r) {
		f := [4]float64{(1 - p) * (1 - q), p * (1 - q), p * q, (1 - p) * q}[i]
		for w := range out {
			out[w] += f * s.move[n][w]
		}
	}
	return out
}

// Resultant is the force and moment per mm of face at a place: N xx, yy, xy in N/mm, M xx, yy, xy in
// N, of wood and ground together, about the plane the movements are read in.
type Resultant struct{ N, M [3]float64 }

// middle returns the resultant at the middle of a cell, where it is most accurate.
func (s *Shape) middle(c, r int) Resultant {
	m, g := s.model, s.model.Grid
	board := g.Board[c]
	nx, ny := slopes(g.X[c+1]-g.X[c], g.Y[r+1]-g.Y[r], 0, 0)
	var e, k [3]float64
	for i, n := range g.corners(c, r) {
		u := &s.move[n]
		e[0] += nx[i] * u[0]
		e[1] += ny[i] * u[1]
		e[2] += ny[i]*u[0] + nx[i]*u[1]
		k[0] += nx[i] * u[3]
		k[1] += ny[i] * u[4]
		k[2] += ny[i]*u[3] + nx[i]*u[4]
	}
	l := m.lam(c, r)
	ae, bk, be, dk := l.a.times(e), l.b.times(k), l.b.times(e), l.d.times(k)
	var out Resultant
	for i := range 3 {
		out.N[i], out.M[i] = ae[i]+bk[i], be[i]+dk[i]
	}
	for q := range perBoard {
		f := 0.0
		if s.load != nil {
			f = s.load[m.LoadOf(board, q)]
		}
		if f == 0 {
			continue
		}
		n, b := l.hold(q)
		for i := range 3 {
			out.N[i] -= f * n[i]
			out.M[i] -= f * b[i]
		}
	}
	return out
}

// Resultant reads a place from the middles of three cells by three about it, by parabolas, on one side
// of any line and within one board.
func (s *Shape) Resultant(x, y float64, left bool) Resultant {
	g := s.model.Grid
	c, r, lo, hi := g.about(x, y, left)
	var out Resultant
	for _, a := range parabola(g.X, c, lo, hi, x) {
		for _, b := range parabola(g.Y, r, 0, len(g.Y)-2, y) {
			v, f := s.middle(a.line, b.line), a.by*b.by
			for i := range 3 {
				out.N[i] += f * v.N[i]
				out.M[i] += f * v.M[i]
			}
		}
	}
	return out
}

// parabola returns the shares of the cells, up to three of lo to hi about cell c, whose middles give
// the value at x.
func parabola(v []float64, c, lo, hi int, x float64) []share {
	first := max(lo, min(c-1, hi-2))
	last := min(hi, first+2)
	mid := func(i int) float64 { return (v[i] + v[i+1]) / 2 }
	var out []share
	for i := first; i <= last; i++ {
		f := 1.0
		for j := first; j <= last; j++ {
			if j != i {
				f *= (x - mid(j)) / (mid(i) - mid(j))
			}
		}
		out = append(out, share{i, f})
	}
	return out
}
