package creep

import (
	"fmt"
	"math"
)

// Support is what holds a strip from outside, per unit width and from the state the strip was in
// when it was put on:
//
//	N = Force - Axial h (eps - epsRef),   M = Moment - Bending (kappa - kappaRef)
//
// N and M act on the strip; tension and what rounds the painted face are positive. Stiffness 0 is
// free, +Inf is held, and then the load goes into the hold.
type Support struct {
	Axial   float64 // MPa
	Bending float64 // N mm (N mm2 per mm of width; that of a board is E h^3/12)
	Force   float64 // dead load, N/mm
	Moment  float64 // dead load, N
}

// Strip is one board cut into layers through the thickness: each with its free movement, its
// Kelvin chain, its moisture-driven part and its crushing, all bound to one strain and one
// curvature:
//
//	eps(z) = eps0 + kappa z,   z from mid thickness towards the painted face
//	eps(z) = sigma/E + Sum e_k + Sum e_ms + e_set + e_free
//
// Stress is taken as linear within a step, the creep elements are exact under such a stress, and
// the end of the step is solved for, so any step is stable. Between Start and the end no memory is
// taken. A Strip serves one panel; it is not safe for use by two goroutines.
type Strip struct {
	spec        Spec
	h           float64
	arm         []float64
	q, c        []float64 // of the chain for a step of dt
	dt          float64
	front, back coat
	support     Support
	ref         Move // state in which the support was put on

	// state of the layers
	turn                                       []counter
	kelvin, moist                              []float64 // layer by layer
	elastic, modulus, stress, free, free0      []float64
	set, held                                  []float64
	base, pull, press, crush, way, next, share []float64 // of the step: see layer.go
	gone                                       []float64 // way of the moisture since the start, kg/kg
	mode                                       []mode
	mq, mc                                     []float64

	at, was Out // now, and after the step before
	energy  Energy
	forced  bool // the support has a state of its own
	started bool
}

// Move is a strain of mid thickness and a curvature (1/mm, positive = painted face rounded).
type Move struct{ Strain, Curvature float64 }

// New returns a strip without history. Chains and moisture-driven elements are those of the wood
// given; only spruce has been measured, so for other woods they are an estimate carried over as
// ratios to the elastic strain.
func New(spec Spec) (*Strip, error) {
	if err := spec.Validate(); err != nil {
		return nil, fmt.Errorf("strip: %w", err)
	}
	n, k, j := len(spec.Layers), len(spec.Pull.Tau), len(spec.Moist)
	s := &Strip{spec: spec, dt: math.NaN()}
	s.h, s.arm = arms(spec.Layers)
	s.q, s.c = make([]float64, k), make([]float64, k)
	s.turn, s.mode = make([]counter, n), make([]mode, n)
	s.kelvin, s.moist = make([]float64, n*k), make([]float64, n*j)
	s.mq, s.mc = make([]float64, n*j), make([]float64, n*j)
	for _, v := range []*[]float64{
		&s.elastic, &s.modulus, &s.stress, &s.free, &s.free0, &s.set, &s.held,
		&s.base, &s.pull, &s.press, &s.crush, &s.way, &s.next, &s.share, &s.gone,
	} {
		*v = make([]float64, n)
	}
	return s, nil
}

// Hold puts on another support, in the state the strip is in: it carries nothing yet. Holding with
// Support{} lets go; the strip moves in the next step, which may be of 0 s.
func (s *Strip) Hold(u Support) error {
	if !(u.Axial >= 0) || !(u.Bending >= 0) {
		return fmt.Errorf("strip: stiffness of a support must be 0 or more, got %g MPa and %g N mm", u.Axial, u.Bending)
	}
	if load := u.Force + u.Moment; math.IsNaN(load) || math.IsInf(load, 0) {
		return fmt.Errorf("strip: load must be finite, got %g N/mm and %g N", u.Force, u.Moment)
	}
	s.support = u
	s.ref, s.forced = Move{s.at.Eps, s.at.Kappa}, false
	return nil
}

// HoldFrom puts on a support that would carry nothing in the given state: an elastic hold that
// was there before, or one that forces the strip flat (Curvature 0).
func (s *Strip) HoldFrom(u Support, ref Move) error {
	if err := s.Hold(u); err != nil {
		return err
	}
	s.ref, s.forced = ref, true
	return nil
}

// Points returns the distance (mm) of each layer's point from mid thickness, for which free strain
// and moisture are wanted. The slice belongs to the strip.
func (s *Strip) Points() []float64 { return s.arm }

// Stress returns the stress of each layer, MPa. The slice belongs to the strip.
func (s *Strip) Stress() []float64 { return s.stress }

// Elastic returns the elastic strain of each layer, stress over short modulus: to be compared with
// limits of quick tests only. The slice belongs to the strip.
func (s *Strip) Elastic() []float64 { return s.elastic }

// Held returns the mechanical strain of each layer, elastic and crept: to be compared with limits
// of slow tests only. The slice belongs to the strip.
func (s *Strip) Held() []float64 { return s.held }

// Set returns the lasting strain of each layer, 0 or negative (shorter). The slice belongs to the
// strip.
func (s *Strip) Set() []float64 { return s.set }

// Now returns the state after the last step.
func (s *Strip) Now() Out { return s.at }
