package creep

import (
	"errors"
	"fmt"
	"math"
)

// In is what drives a strip: the state at the end of a step. Values are of the layers' points.
type In struct {
	Moisture    []float64 // kg/kg
	Free        []float64 // free strain from the state that counts as 0
	Stiffness   []float64 // short modulus over the reference modulus, above 0; nil = 1
	Front, Back CoatIn
}

// CoatIn is the state of a coat: its free strain, and its modulus over the reference (0 = 1).
type CoatIn struct{ Free, Stiffness float64 }

// Out is the state of a strip.
type Out struct {
	Eps    float64 // strain of mid thickness
	Kappa  float64 // curvature, 1/mm, positive = painted face rounded
	N      float64 // force carried from outside per mm of width, N/mm, tension positive
	M      float64 // moment carried from outside per mm of width, N
	Passes int     // solutions of the section in this step
}

// Start brings a strip to a state without history in which nothing holds it, so that its own
// layers and coats alone hold one another, and takes the moisture from there. A support put on
// before is counted from that state, one put on by HoldFrom from its own.
func (s *Strip) Start(in In) error {
	if err := s.fits(in); err != nil {
		return err
	}
	s.clear()
	for i, w := range in.Moisture {
		s.turn[i].start(w)
		s.modulus[i] = s.spec.E * stiffness(in.Stiffness, i)
	}
	kept := s.support
	s.support = Support{}
	s.take(in)
	s.prepare(in, 0)
	err := s.solve()
	s.finish()
	s.support = kept
	if !s.forced {
		s.ref = Move{s.at.Eps, s.at.Kappa}
	}
	s.energy, s.started = Energy{}, true
	return err
}

func (s *Strip) clear() {
	for _, v := range [][]float64{s.kelvin, s.moist, s.elastic, s.stress, s.free0, s.set, s.held, s.way, s.gone} {
		clear(v)
	}
	s.front.strain, s.front.curvature = 0, 0
	s.back.strain, s.back.curvature = 0, 0
	s.at, s.was = Out{}, Out{}
}

// Step takes the strip dt seconds on, to the state in. dt may be 0: a sudden change, without creep
// in time. It takes no memory. What is wrong with the input is said before anything is changed.
func (s *Strip) Step(dt float64, in In) (Out, error) {
	if !s.started {
		return Out{}, errors.New("strip: must be started before the first step")
	}
	if !(dt >= 0) || math.IsInf(dt, 1) {
		return s.at, fmt.Errorf("strip: step must be 0 s or more and finite, got %g", dt)
	}
	if err := s.fits(in); err != nil {
		return s.at, err
	}
	for i, w := range in.Moisture {
		s.way[i] = s.turn[i].move(w, s.spec.Dead)
		s.gone[i] += s.way[i]
	}
	return s.advance(dt, in)
}

// advance is Step once the way of the moisture is known.
func (s *Strip) advance(dt float64, in In) (Out, error) {
	s.take(in)
	s.prepare(in, dt)
	err := s.solve()
	s.finish()
	return s.at, err
}

func (s *Strip) fits(in In) error {
	n := len(s.arm)
	if len(in.Moisture) != n || len(in.Free) != n || (in.Stiffness != nil && len(in.Stiffness) != n) {
		return fmt.Errorf("strip: wants values for %d layers, got %d moistures, %d free strains, %d stiffnesses", n, len(in.Moisture), len(in.Free), len(in.Stiffness))
	}
	for i := range n {
		if v := in.Moisture[i] + in.Free[i]; math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("strip: layer %d must have finite values, got moisture %g and free strain %g", i+1, in.Moisture[i], in.Free[i])
		}
		if f := stiffness(in.Stiffness, i); !(f > 0) || math.IsInf(f, 1) {
			return fmt.Errorf("strip: stiffness of layer %d must be above 0 times the reference, got %g", i+1, f)
		}
	}
	if v := in.Front.Free + in.Back.Free; math.IsNaN(v) || math.IsInf(v, 0) || in.Front.Stiffness < 0 || in.Back.Stiffness < 0 {
		return errors.New("strip: coats must have finite free strains and stiffnesses of 0 or more")
	}
	return nil
}

func stiffness(f []float64, i int) float64 {
	if f == nil {
		return 1
	}
	return f[i]
}

// take notes the new state of the coats.
func (s *Strip) take(in In) {
	s.front.take(in.Front)
	s.back.take(in.Back)
}

// finish ends the step: every layer and coat goes to its strain, and the energy is booked.
func (s *Strip) finish() {
	for i, a := range s.arm {
		s.settle(i, s.at.Eps+s.at.Kappa*a)
		s.way[i] = 0
	}
	s.bookCoat(&s.front)
	s.bookCoat(&s.back)
	s.bookSupport()
}
