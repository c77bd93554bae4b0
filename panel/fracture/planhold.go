package fracture

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// planHeld is the panel as it is held, seen by the jumps of a line: flexibility f, and for each state
// the jumps and the forces of the fixings as they are.
type planHeld struct {
	n, all, states int       // jumps; jumps and fixings; states
	f              []float64 // all x n: jumps for a unit force on a jump, then forces of the fixings
	v              []float64 // all x states
}

// hold puts the panel on what bears in some states, alike in all of them:
//
//	(F + H) f - R q = free - rest - F g,   R^T f = lift - R^T g
//
// g are the forces that stay.
func (p *planMesh) hold(h *PlanHold, states []*PlanState) (*planHeld, error) {
	s := planSystem{p: p, h: h, more: h.H}
	if p.short && h.Short != nil {
		s.more = h.Short
	}
	s.sign = make([]float64, p.nb)
	for i := range s.sign {
		if s.sign[i] = h.Rows[i].Sign; s.sign[i] == 0 {
			s.sign[i] = 1
		}
		if states[0].Grips[i].Bears {
			s.bears = append(s.bears, i)
		}
	}
	return s.solve(states)
}

// planSystem is the work of hold.
type planSystem struct {
	p     *planMesh
	h     *PlanHold
	more  []float64 // flexibility given
	sign  []float64
	bears []int
	unit  []float64 // scale of each motion
	gamma float64   // scale of the flexibility
}

// flex is the flexibility between two rows of what holds.
func (s *planSystem) flex(i, j int) float64 {
	v := 0.0
	switch {
	case !s.h.Whole:
		v = s.sign[i] * s.sign[j] * s.p.c.F[i*s.p.c.N+j]
	case s.p.opens != nil:
		v = -s.sign[i] * s.sign[j] * s.p.opens[i*s.p.nb+j]
	}
	if s.more != nil {
		v += s.more[i*s.p.nb+j]
	}
	return v
}

// motion is the movement of a row in a motion: those of the panel first.
func (s *planSystem) motion(i, q int) float64 {
	if k := s.p.c.Motions; q >= k {
		return s.h.R[i*s.h.Motions+q-k]
	}
	return s.sign[i] * s.p.c.Rigid[i*s.p.c.Motions+q]
}

// matrix fills the equations; motions are scaled to the size of the flexibility.
func (s *planSystem) matrix(st *PlanState) *mat.Dense {
	b, q := len(s.bears), s.p.c.Motions+s.h.Motions
	a := mat.NewDense(b+q, b+q, nil)
	for i, r := range s.bears {
		for j, t := range s.bears {
			v := s.flex(r, t)
			if i == j {
				v += st.Grips[r].Soft
				s.gamma += math.Abs(v) / float64(b)
			}
			a.Set(i, j, v)
		}
	}
	if !(s.gamma > 0) {
		s.gamma = 1
	}
	for i := range b { // places closer than the mesh can tell apart share the force
		a.Set(i, i, a.At(i, i)+planAlike*s.gamma)
	}
	s.unit = make([]float64, q)
	for k := range q {
		big := 0.0
		for _, r := range s.bears {
			big = math.Max(big, math.Abs(s.motion(r, k)))
		}
		if s.unit[k] = 0; big > 0 {
			s.unit[k] = s.gamma / big
		}
		for i, r := range s.bears {
			v := s.motion(r, k) * s.unit[k]
			a.Set(i, b+k, -v)
			a.Set(b+k, i, v)
		}
		weak := planWeak * s.gamma // stands for a motion that nothing holds
		if big == 0 {
			weak = s.gamma
		}
		a.Set(b+k, b+k, weak)
	}
	return a
}

// planAlike is the flexibility given to every row, to the mean one.
const planAlike = 1e-9

// planWeak is the stiffness that stands for a motion that nothing holds, to that of the fixings.
const planWeak = 1e-12

func (s *planSystem) solve(states []*PlanState) (*planHeld, error) {
	p := s.p
	out := &planHeld{n: p.n, all: p.n + p.nb, states: len(states)}
	out.f, out.v = make([]float64, out.all*out.n), make([]float64, out.all*out.states)
	a := s.matrix(states[0])
	dim, _ := a.Dims()
	rhs := mat.NewDense(dim, p.n+len(states), nil)
	for i, r := range s.bears {
		for j := range p.n {
			rhs.Set(i, j, s.sign[r]*p.c.F[r*p.c.N+p.nb+j])
		}
	}
	for k, st := range states {
		s.state(rhs, p.n+k, st)
	}
	pivots := make([]int, dim)
	if dim > 0 {
		if !lapack64.Getrf(a.RawMatrix(), pivots) {
			return nil, fmt.Errorf("what holds the panel leaves it no single state")
		}
		lapack64.Getrs(blas.NoTrans, a.RawMatrix(), rhs.RawMatrix(), pivots)
	}
	x := rhs
	for i := range p.n { // F_jj - F_jb X
		row := out.f[i*out.n:][:out.n]
		copy(row, p.c.F[(p.nb+i)*p.c.N+p.nb:][:p.n])
		for m, r := range s.bears {
			floats.AddScaled(row, -s.sign[r]*p.c.F[(p.nb+i)*p.c.N+r], x.RawRowView(m)[:p.n])
		}
	}
	for m, r := range s.bears {
		copy(out.f[(p.n+r)*out.n:][:out.n], x.RawRowView(m)[:p.n])
		copy(out.v[(p.n+r)*out.states:][:out.states], x.RawRowView(m)[p.n:])
	}
	for k, st := range states {
		s.jumps(out, k, st)
		if err := s.balanced(out, k, st); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// state fills the right side of one state.
func (s *planSystem) state(rhs *mat.Dense, col int, st *PlanState) {
	c := s.p.c
	for i, r := range s.bears {
		v := s.sign[r]*floats.Dot(c.Free[r*c.Loads:][:c.Loads], st.Load) - st.Grips[r].Rest
		for t, g := range st.Grips {
			if !g.Bears && g.Force != 0 {
				v -= s.flex(r, t) * g.Force
			}
		}
		rhs.Set(i, col, v)
	}
	for q, u := range s.unit {
		rhs.Set(len(s.bears)+q, col, u*s.asked(q, st))
	}
}

// asked is what the bearing fixings have to bring in a motion.
func (s *planSystem) asked(q int, st *PlanState) float64 {
	c, v := s.p.c, 0.0
	if q < c.Motions {
		v = floats.Dot(c.Lift[q*c.Loads:][:c.Loads], st.Load)
	} else if st.Push != nil {
		v = st.Push[q-c.Motions]
	}
	for t, g := range st.Grips {
		if !g.Bears {
			v -= s.motion(t, q) * g.Force
		}
	}
	return v
}

// jumps fills the jumps of a state and the forces that stay.
func (s *planSystem) jumps(out *planHeld, k int, st *PlanState) {
	c, p := s.p.c, s.p
	for t, g := range st.Grips {
		if !g.Bears {
			out.v[(p.n+t)*out.states+k] = g.Force
		}
	}
	for i := range p.n {
		row := c.F[(p.nb+i)*c.N:]
		v := floats.Dot(c.Free[(p.nb+i)*c.Loads:][:c.Loads], st.Load)
		for t := range p.nb {
			v -= row[t] * s.sign[t] * out.v[(p.n+t)*out.states+k]
		}
		out.v[i*out.states+k] = v
	}
}

// balanced refuses a state whose loads nothing bears.
func (s *planSystem) balanced(out *planHeld, k int, st *PlanState) error {
	for q := range s.unit {
		want := s.asked(q, st)
		got, size := 0.0, math.Abs(want)
		for _, r := range s.bears {
			v := s.motion(r, q) * out.v[(s.p.n+r)*out.states+k]
			got += v
			size += math.Abs(v)
		}
		if math.Abs(got-want) > 1e-5*size+1e-6*math.Abs(s.scale(q)) {
			return fmt.Errorf("forces on the panel do not balance: nothing that bears holds its motion %d, %g N or N mm are left", q+1, want-got)
		}
	}
	return nil
}

// scale is the largest movement of a row in a motion: one newton there counts as none.
func (s *planSystem) scale(q int) float64 {
	big := 0.0
	for i := range s.p.nb {
		big = math.Max(big, math.Abs(s.motion(i, q)))
	}
	return big
}
