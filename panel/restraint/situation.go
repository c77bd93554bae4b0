package restraint

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

// Situation is what a march remembers and answers, in the caller's numbering: movements and forces
// by row of the flexibility, the rest by mount. The zero Situation is the moment of fixing: no
// movement, and friction holds with no force.
type Situation struct {
	Move     []float64 // of the panel against the member, mm
	Force    []float64 // that the fixing resists with, N
	Stop     []float64 // the part that the stop carries
	Friction []float64 // the part that friction carries; the rest is the spring
	Offset   []float64 // middle of the stop's play after what it has yielded, mm
	Press    []float64 // force pressing the faces, N, by mount
	Motion   []float64 // free motions of panel and members

	sp, rp []float64 // by line
	mem    []memory
	sig    []float64 // which way friction acted last
	slid   []bool
}

// Copy takes over all that another situation holds.
func (s *Situation) Copy(from *Situation) {
	for _, v := range [...]struct {
		to   *[]float64
		from []float64
	}{
		{&s.Move, from.Move}, {&s.Force, from.Force}, {&s.Stop, from.Stop}, {&s.Friction, from.Friction}, {&s.Offset, from.Offset},
		{&s.Press, from.Press}, {&s.Motion, from.Motion}, {&s.sp, from.sp}, {&s.rp, from.rp}, {&s.sig, from.sig},
	} {
		*v.to = append((*v.to)[:0], v.from...)
	}
	s.mem, s.slid = append(s.mem[:0], from.mem...), append(s.slid[:0], from.slid...)
}

// Incoming is what one step brings: all rows and motions of the body.
type Incoming struct {
	Free []float64 // relative movement at every row if no fixing held, mm
	Load []float64 // on every motion, N; nil = none
}

// Trust says how well and how surely a step was solved.
type Trust struct {
	Move, Load float64 // largest misfit of movement, mm, and of balance, N
	Moves      int     // corners of the lines passed
	Reversals  int     // times friction turned the path round: more than one state is possible there
	Sprang     bool    // no way leads from the last state to this one: friction let go or locked at once
	Open       int     // fixings that friction has held ever since they were fixed: their force rests on the start
}

// Undetermined tells whether friction leaves the answer open: it rests on the start, or other states
// satisfy every law as well. [March.Bracket] shows how far the forces can lie apart.
func (t Trust) Undetermined() bool { return t.Open > 0 || t.Reversals > 0 || t.Sprang }

func (m *March) begin(st *Situation) error {
	n, k := m.body.N, m.body.Motions
	if st.mem == nil {
		v := make([]float64, 5*n+2*len(m.lines)+len(m.mounts)+k)
		take := func(l int) (w []float64) { w, v = v[:l:l], v[l:]; return w }
		st.Move, st.Force, st.Stop, st.Friction, st.Offset = take(n), take(n), take(n), take(n), take(n)
		st.sp, st.rp, st.Press, st.Motion = take(len(m.lines)), take(len(m.lines)), take(len(m.mounts)), take(k)
		st.mem, st.sig, st.slid = make([]memory, len(m.lines)), make([]float64, len(m.lines)), make([]bool, len(m.lines))
		for i := range m.lines {
			st.mem[i].centre = m.lines[i].Centre
			st.Offset[m.lines[i].Row] = m.lines[i].Centre
		}
	}
	if len(st.mem) != len(m.lines) || len(st.Motion) != k || len(st.Move) != n {
		return fmt.Errorf("situation holds %d directions and %d motions, the march has %d and %d", len(st.mem), len(st.Motion), len(m.lines), k)
	}
	return nil
}

// Step leads the situation to new free movements. An error leaves it as it was.
func (m *March) Step(in Incoming, st *Situation) (Trust, error) {
	return m.step(in, st, rubbing)
}

func (m *March) step(in Incoming, st *Situation, how friction) (Trust, error) {
	if err := m.fits(in); err != nil {
		return Trust{}, err
	}
	if err := m.begin(st); err != nil {
		return Trust{}, err
	}
	m.bring(in)
	m.moves, m.reversals = 0, 0
	m.shape(st.mem, how)
	copy(m.sp, st.sp)
	copy(m.rp, st.rp)
	copy(m.q, st.Motion)
	copy(m.sig, st.sig)
	t, err := m.solve()
	if errors.Is(err, ErrUndetermined) {
		copy(m.sp, st.sp)
		copy(m.rp, st.rp)
		copy(m.q, st.Motion)
		if m.grow() {
			t, err = m.solve()
		}
		t.Sprang = true
	}
	if err != nil {
		m.stale = true
		return t, m.why(t, err)
	}
	m.settle(st)
	for i := range m.lines {
		if m.lines[i].mu > 0 && !st.slid[i] && m.grip(i) > 0 {
			t.Open++
		}
	}
	return t, nil
}

// solve leads the present state to the end of the step, going over it again until nothing is left.
func (m *March) solve() (t Trust, err error) {
	m.seat()
	move, load := m.misfit()
	long, strong := move, load
	for pass := range mostPasses {
		was := load
		ok := m.path(move, load)
		move, load = m.misfit()
		t = Trust{Move: move, Load: load, Moves: m.moves, Reversals: m.reversals}
		if !ok {
			return t, ErrUndetermined
		}
		l, s := m.extent()
		long, strong = max(long, l), max(strong, s)
		if move <= 1e-13*long && load <= 5e-12*strong {
			return t, nil
		}
		m.stale = m.stale || move > 1e-11*long
		if pass > 4 && load > 0.9*was {
			break
		}
	}
	switch {
	case load > max(1e-6*strong, nothing):
		return t, ErrMechanism
	case move > max(1e-10*long, nowhere):
		return t, ErrUndetermined
	}
	return t, nil
}

// mostPasses is how often a step is gone over at most. A motion that is hardly held, such as the turning of a panel whose boards differ
// in thickness by hairs about its only batten, comes to its place by as much each time as it is held beside what stands for it.
const mostPasses = 60

// nothing is the force, N, that is no load at all: the weight of a grain of dust.
const nothing = 1e-9

// nowhere is the movement, mm, that is none at all: an atom's.
const nowhere = 1e-7

// extent is the size of the movements and of the forces in a step.
func (m *March) extent() (long, strong float64) {
	for i := range m.lines {
		long = max(long, math.Abs(m.free[i]), math.Abs(m.sp[i]))
		strong = max(strong, math.Abs(m.rp[i]))
	}
	long = max(long, strong*m.gamma)
	return long, max(strong, 1e-6*long/m.gamma) // what holds next to nothing is no mechanism
}

func (m *March) fits(in Incoming) error {
	if len(in.Free) != m.body.N || in.Load != nil && len(in.Load) != m.body.Motions {
		return fmt.Errorf("a step needs %d free movements and %d loads, got %d and %d", m.body.N, m.body.Motions, len(in.Free), len(in.Load))
	}
	sum := 0.0
	for _, v := range in.Free {
		sum += v
	}
	for _, v := range in.Load {
		sum += v
	}
	if math.IsNaN(sum) || math.IsInf(sum, 0) {
		return fmt.Errorf("free movements and loads must be finite")
	}
	return nil
}

// bring takes in the step, through the springs where there are any.
func (m *March) bring(in Incoming) {
	n, k := len(m.lines), m.body.Motions
	for i := range n {
		m.miss[i] = in.Free[m.lines[i].Row]
	}
	for i := range n {
		m.free[i] = m.miss[i]
		if m.soften != nil {
			m.free[i] = floats.Dot(m.soften[i*n:i*n+n], m.miss[:n]) + m.pull[i]
		}
	}
	for q := range k {
		m.load[q] = -m.load0[q]
		if in.Load != nil {
			m.load[q] += in.Load[q]
		}
		if m.soften != nil { // R^T K d without stops
			for i := range n {
				m.load[q] -= m.held[q*n+i] * m.miss[i]
			}
		}
	}
}
