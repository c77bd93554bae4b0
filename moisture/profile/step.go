package profile

import (
	"fmt"
	"math"

	"crossgrain/tables"
)

// Balance is the account of one step.
type Balance struct {
	Back, Front float64 // water that came in through the faces, kg/m2
	Stored      float64 // water the board gained, kg/m2
	Error       float64 // what does not add up, as a share of the water in the board
	Iterations  int
	Dew         bool // the air was beyond saturation at a face, and was cut there
}

// Longest is the longest step, s.
const Longest = 400 * 86400

// gamma of the two stages: Alexander 1977 (memory).
var gamma = 1 - math.Sqrt(0.5)

// Step moves the board through dt seconds (above 0, up to [Longest]) while the air goes in a straight
// line from one state to another; for coarse steps give the mean twice, see [Means]. It allocates
// nothing. The error names a value out of range, or says that the equations did not settle; the state
// is then as before the step.
func (s *Solver) Step(dt float64, from, to Climate) (Balance, error) {
	if !(dt > 0 && dt <= Longest) {
		return Balance{}, tables.InRange("time step", dt, math.SmallestNonzeroFloat64, Longest, "s", "")
	}
	if !from.inside() || !to.inside() {
		if err := from.valid(); err != nil {
			return Balance{}, err
		}
		return Balance{}, to.valid()
	}
	var b Balance
	err := s.advance(dt, from, to, &b, 0)
	return b, err
}

// inside is valid without making an error.
func (c Climate) inside() bool { return c.RH >= 0 && c.RH <= 1 && c.T >= -40 && c.T <= 60 }

// splits is how often a step that does not settle is halved.
const splits = 8

func (s *Solver) advance(dt float64, from, to Climate, b *Balance, depth int) error {
	if all := *b; s.stages(dt, &from, &to, &all) {
		s.commit(&all)
		*b = all
		return nil
	}
	if depth == splits {
		return fmt.Errorf("moisture profile: the equations did not settle in a step of %.3g s from %v to %v", dt, from.RH, to.RH)
	}
	mid := mix(from, to, 0.5)
	if err := s.advance(dt/2, from, mid, b, depth+1); err != nil {
		return err
	}
	return s.advance(dt/2, mid, to, b, depth+1)
}

// stages solves the step; base holds the moisture content at its end.
func (s *Solver) stages(dt float64, from, to *Climate, b *Balance) bool {
	copy(s.trial, s.h)
	copy(s.base, s.u)
	x := *to
	if s.o.Scheme == SDIRK2 {
		x = mix(*from, *to, gamma)
		s.enter(&x)
		n := s.solve(gamma * dt)
		if n == 0 {
			return false
		}
		s.gain((1-gamma)*dt, b)
		b.Iterations += n
		s.guess()
		dt *= gamma
		x = *to
	}
	s.enter(&x)
	n := s.solve(dt)
	if n == 0 {
		return false
	}
	s.gain(dt, b)
	b.Iterations += n
	return true
}

// enter sets the air of a stage.
func (s *Solver) enter(c *Climate) {
	if s.sheet != nil {
		s.air.press = [2]float64{float64(c.RH), float64(c.RH)}
		return
	}
	s.setAir(c)
}

// guess carries the first stage on in a straight line to the end of the step, held to the range.
func (s *Solver) guess() {
	for i, h := range s.h {
		s.trial[i] = min(max(h+(s.trial[i]-h)/gamma, 0), 1)
	}
}

// gain adds the flows of a stage to the levels and to the account.
func (s *Solver) gain(dt float64, b *Balance) {
	n := len(s.u)
	f, base, v := s.flow[:n+1], s.base[:n], s.v[:n]
	for i := range base {
		base[i] += dt * (f[i] - f[i+1]) / v[i]
	}
	b.Back += dt * f[0] * s.wall.Density
	b.Front -= dt * f[n] * s.wall.Density
	b.Dew = b.Dew || s.air.dew
}

// commit takes the step over into the state.
func (s *Solver) commit(b *Balance) {
	gained, held := 0.0, 0.0
	for i, v := range s.v {
		gained += v * (s.base[i] - s.u[i])
		held += v * s.base[i]
	}
	b.Stored += gained * s.wall.Density
	b.Error = (b.Back + b.Front - b.Stored) / (max(held, 1e-6*s.wall.Thickness/1000) * s.wall.Density)
	copy(s.u, s.base)
	copy(s.h, s.trial)
	if s.o.Memory != Mean {
		s.remember()
	}
}
