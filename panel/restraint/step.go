package restraint

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/plan"
)

// State is what a bar and its fixings remember. The zero State is the moment of fixing: no force,
// no slip, every slot in the middle of its play.
type State struct {
	Time  float64   // s, since the first step
	Slip  []float64 // mm, fixings from the left
	Force []float64 // N, resisting (positive = the panel is pushed to the left)
	Stop  []float64 // N, the part that the stop carries; the rest is friction
	Shift float64   // of the bar against the panel's middle, mm

	mem []memory
}

// Residual says how well a step was solved.
type Residual struct {
	Slip  float64 // largest misfit of movement, mm
	Force float64 // forces left over along the bar, N
	Moves int     // corners of the laws passed
}

// Step moves the state by dt seconds (0 or more) to the drive d, counted from the moment of fixing.
// The laws hold no clock: relaxation comes in by [System.Refit]. An error leaves the state as it
// was.
func (s *System) Step(dt float64, d plan.Drive, st *State) (Residual, error) {
	n := len(s.fix)
	if !(dt >= 0) {
		return Residual{}, fmt.Errorf("time step must be 0 s or more, got %g", dt)
	}
	if err := s.flex.Fits(d); err != nil {
		return Residual{}, err
	}
	if err := st.begin(n); err != nil {
		return Residual{}, err
	}
	s.movement(d)
	copy(s.s, st.Slip)
	copy(s.f, st.Force)
	for i := range s.fix {
		s.laws[i].shape(&s.fix[i], st.mem[i])
	}
	shift, moves, err := s.follow(st.Shift)
	if err != nil {
		return Residual{Moves: moves}, err
	}
	res := s.residual(shift)
	res.Moves = moves
	st.Time += dt
	st.Shift = shift
	copy(st.Slip, s.s)
	copy(st.Force, s.f)
	for i := range s.fix {
		st.Stop[i] = st.mem[i].settle(&s.fix[i], s.s[i], s.f[i])
	}
	return res, nil
}

// begin gives a zero state its length.
func (st *State) begin(n int) error {
	if st.mem == nil {
		st.mem = make([]memory, n)
		v := make([]float64, 3*n)
		st.Slip, st.Force, st.Stop = v[:n:n], v[n:2*n:2*n], v[2*n:]
	}
	if len(st.mem) != n {
		return fmt.Errorf("state holds %d fixings, the batten has %d", len(st.mem), n)
	}
	return nil
}

// reset makes a used state zero again without giving up its memory.
func (st *State) reset() {
	st.Time, st.Shift = 0, 0
	for i := range st.mem {
		st.mem[i], st.Slip[i], st.Force[i], st.Stop[i] = memory{}, 0, 0, 0
	}
}

// residual holds the end of a step against all its equations and laws.
func (s *System) residual(c float64) Residual {
	var r Residual
	for i := range s.fix {
		s.r[i] = s.s[i] - (s.free[i] - s.dot(i, s.f) + c)
		r.Force += s.f[i]
		ps, pf := s.laws[i].b[s.at[i]].nearest(s.s[i], s.f[i])
		off := math.Abs(ps-s.s[i]) + math.Abs(pf-s.f[i])*(s.c[i*len(s.fix)+i]+s.laws[i].b[s.at[i]].beta)
		r.Slip = max(r.Slip, math.Abs(s.r[i]), off)
	}
	r.Force = math.Abs(r.Force)
	return r
}

// Solve answers from the moment of fixing straight to the drive d.
func (s *System) Solve(d plan.Drive) (Result, error) {
	if err := s.scratch.begin(len(s.fix)); err != nil {
		return Result{}, err
	}
	s.scratch.reset()
	res, err := s.Step(0, d, &s.scratch)
	if err != nil {
		return Result{}, err
	}
	out := s.Report(d, &s.scratch)
	out.Residual = res
	return out, nil
}
