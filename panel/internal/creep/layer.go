package creep

import "math"

// mode is what a layer does in a step.
type mode uint8

const (
	pulled mode = iota
	pressed
	crushed
)

// slope is the stiffness of wood that is being crushed over that of sound wood: perfectly crushing
// but for a remainder that keeps the section solvable.
const slope = 1e-6

// quarter is the relaxation in a step up to which stress is taken as linear within it.
const quarter = 0.25

// ramp returns 1 - exp(-x) and 1 - (1 - exp(-x))/x: the shares by which an element of unit
// compliance follows the stress at the start (the difference of the two) and at the end (the
// second) of a step of x times, the stress being linear within it.
func ramp(x float64) (q, c float64) {
	if x < 1e-4 {
		return x * (1 - x/2), x * (0.5 - x/6)
	}
	q = -math.Expm1(-x)
	return q, 1 - q/x
}

// prepare works out for each layer how its mechanical strain m hangs on the elastic strain at the
// end of the step,
//
//	m = base + pull e  (e >= 0),   m = base + press e  (e < 0)
//
// and the strain crush at which it gives way.
func (s *Strip) prepare(in In, dt float64) {
	if dt != s.dt {
		for k, tau := range s.spec.Pull.Tau {
			s.q[k], s.c[k] = ramp(dt / tau)
		}
		s.dt = dt
	}
	for i := range s.arm {
		s.free[i] = in.Free[i]
		s.next[i] = s.spec.E * stiffness(in.Stiffness, i)
		s.relate(i)
		s.crush[i] = s.gives(i)
	}
}

// chain returns the compliances for an elastic strain of that sign.
func (s *Strip) chain(e float64) []float64 {
	if e < 0 {
		return s.spec.Press.G
	}
	return s.spec.Pull.G
}

// relate fills base, pull and press of layer i. The start's share of an element is q - c of its
// compliance, as it is under a stress linear in the step. Where the shares add up to more than a
// quarter of the spring's, a held strain would ring; there they are lowered, in favour of the end's
// share, towards a stress that stands at its end value for the whole step. Long steps lose order,
// not sense.
func (s *Strip) relate(i int) {
	e0 := s.elastic[i]
	g0, gp, gc := s.chain(e0), s.spec.Pull.G, s.spec.Press.G
	k0, j0 := i*len(g0), i*len(s.spec.Moist)
	start := 0.0
	for k, g := range g0 {
		start += g * (s.q[k] - s.c[k])
	}
	if s.way[i] > 0 {
		for j, m := range s.spec.Moist {
			q, c := ramp(s.way[i] / m.Path)
			s.mq[j0+j], s.mc[j0+j] = q, c
			start += m.M * (q - c)
		}
	}
	f := 1 / max(1, start/quarter)
	f *= f
	base, pull, press := f*start*e0, 1.0, 1.0
	for k, e := range s.kelvin[k0 : k0+len(g0)] {
		q := s.q[k]
		c := q - f*(q-s.c[k])
		base += e * (1 - q)
		pull += gp[k] * c
		press += gc[k] * c
	}
	for j, m := range s.spec.Moist {
		if s.way[i] == 0 {
			base += s.moist[j0+j]
			continue
		}
		q := s.mq[j0+j]
		c := m.M * (q - f*(q-s.mc[j0+j]))
		base += s.moist[j0+j] * (1 - q)
		pull += c
		press += c
	}
	s.share[i], s.base[i], s.pull[i], s.press[i] = f, base, pull, press
}

// gives returns the mechanical strain at which layer i is crushed. Wood in tension is not.
func (s *Strip) gives(i int) float64 {
	if s.spec.Order == CreepFirst {
		return s.base[i] - s.press[i]*s.spec.Limit
	}
	return min(-s.spec.Limit, s.base[i])
}

// does returns what layer i does at the mechanical strain m (reckoned with the set before the step).
func (s *Strip) does(i int, m float64) mode {
	switch {
	case m >= s.base[i]:
		return pulled
	case m >= s.crush[i]:
		return pressed
	}
	return crushed
}

// line returns the stress of layer i as a straight line k (eps - o) of its total strain.
func (s *Strip) line(i int) (k, o float64) {
	o = s.free[i] + s.set[i] + s.base[i]
	switch s.mode[i] {
	case pulled:
		return s.next[i] / s.pull[i], o
	case pressed:
		return s.next[i] / s.press[i], o
	}
	gone := s.crush[i] - s.base[i]
	return slope * s.next[i] / s.press[i], o + gone - gone/slope
}

// settle ends the step for layer i, whose total strain is eps.
func (s *Strip) settle(i int, eps float64) {
	k, o := s.line(i)
	m := eps - s.free[i] - s.set[i]
	stress := k * (eps - o)
	e0, e1 := s.elastic[i], stress/s.next[i]
	gain := s.follow(i, e0, e1)
	left := 0.0
	if s.mode[i] == crushed {
		left = m - s.base[i] - s.press[i]*e1
		s.set[i] += left
	}
	s.held[i] = m - left
	s.book(i, stress, e1, gain, left)
	s.elastic[i], s.stress[i], s.modulus[i] = e1, stress, s.next[i]
}

// follow moves the creep elements of layer i on and returns by how much they grew in all.
func (s *Strip) follow(i int, e0, e1 float64) (gain float64) {
	g0, g1, f := s.chain(e0), s.chain(e1), s.share[i]
	kelvin := s.kelvin[i*len(g0) : (i+1)*len(g0)]
	for k, e := range kelvin {
		q := s.q[k]
		d := f * (q - s.c[k])
		grown := -e*q + g0[k]*e0*d + g1[k]*e1*(q-d)
		kelvin[k] += grown
		gain += grown
	}
	if s.way[i] == 0 {
		return gain
	}
	for j, m := range s.spec.Moist {
		at := i*len(s.spec.Moist) + j
		q := s.mq[at]
		d := f * (q - s.mc[at])
		grown := -s.moist[at]*q + m.M*(e0*d+e1*(q-d))
		s.moist[at] += grown
		gain += grown
	}
	return gain
}
