package creep

import (
	"errors"
	"math"
)

// errNoRest is returned when the layers find no common state. It has not been met.
var errNoRest = errors.New("strip: layers do not come to equilibrium")

// sums is a section: force and moment are A eps + B kappa - N0 and B eps + D kappa - M0.
type sums struct{ a, b, d, n0, m0 float64 }

func (u *sums) add(stiffness, arm, free float64) {
	u.a += stiffness
	u.b += stiffness * arm
	u.d += stiffness * arm * arm
	u.n0 += stiffness * free
	u.m0 += stiffness * free * arm
}

func (u *sums) coat(c *coat) {
	if c.Thickness > 0 {
		u.add(c.axial(), c.arm, c.free+c.zero.Strain)
		u.d += c.bending()
		u.m0 += c.bending() * c.zero.Curvature
	}
}

// section adds up the layers in the modes they are in, and the coats.
func (s *Strip) section() sums {
	var u sums
	for i, t := range s.spec.Layers {
		k, o := s.line(i)
		u.add(t*k, s.arm[i], o)
	}
	u.coat(&s.front)
	u.coat(&s.back)
	return u
}

// solve finds strain and curvature at the end of the step. Each layer is straight in pieces, so
// the answer is exact as soon as no layer changes its mode.
func (s *Strip) solve() error {
	for pass := 1; pass <= 100; pass++ {
		u := s.section()
		eps, kappa := s.rest(u)
		if pass > 20 { // two states in turn: go half way
			eps, kappa = (eps+s.at.Eps)/2, (kappa+s.at.Kappa)/2
		}
		same := s.modes(eps, kappa)
		s.at.Eps, s.at.Kappa, s.at.Passes = eps, kappa, pass
		if same && pass <= 20 {
			s.at.N = u.a*eps + u.b*kappa - u.n0
			s.at.M = u.b*eps + u.d*kappa - u.m0
			return nil
		}
		if same {
			return s.last()
		}
	}
	return errNoRest
}

// last is the full step after half steps.
func (s *Strip) last() error {
	u := s.section()
	eps, kappa := s.rest(u)
	if !s.modes(eps, kappa) {
		return errNoRest
	}
	s.at.Eps, s.at.Kappa = eps, kappa
	s.at.N = u.a*eps + u.b*kappa - u.n0
	s.at.M = u.b*eps + u.d*kappa - u.m0
	return nil
}

// modes sets the modes that belong to a state and tells whether they were so before.
func (s *Strip) modes(eps, kappa float64) bool {
	same := true
	for i, a := range s.arm {
		m := eps + kappa*a - s.free[i] - s.set[i]
		if next := s.does(i, m); next != s.mode[i] && !s.between(i, m) {
			s.mode[i], same = next, false
		}
	}
	return same
}

// between tells whether a layer is so near the point where its modes meet that either will do.
func (s *Strip) between(i int, m float64) bool {
	const rounding = 1e-14
	return math.Abs(m-s.base[i]) < rounding || math.Abs(m-s.crush[i]) < rounding
}

// rest returns the strain and curvature at which section and support balance.
func (s *Strip) rest(u sums) (eps, kappa float64) {
	ax, be := s.support.Axial*s.h, s.support.Bending
	eps, kappa = s.ref.Strain, s.ref.Curvature
	u.n0, u.m0 = u.n0+s.support.Force, u.m0+s.support.Moment
	fast, flat := math.IsInf(ax, 1), math.IsInf(be, 1) || u.d+be == 0
	switch {
	case fast && flat:
	case fast:
		kappa = (u.m0 + be*kappa - u.b*eps) / (u.d + be)
	case flat:
		eps = (u.n0 + ax*eps - u.b*kappa) / (u.a + ax)
	default:
		u.a, u.d = u.a+ax, u.d+be
		u.n0, u.m0 = u.n0+ax*eps, u.m0+be*kappa
		det := u.a*u.d - u.b*u.b
		eps, kappa = (u.n0*u.d-u.m0*u.b)/det, (u.m0*u.a-u.n0*u.b)/det
	}
	return eps, kappa
}
