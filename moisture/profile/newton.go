package profile

import "math"

// Limits of the iteration.
const (
	most  = 40 // iterations before the step is split
	eager = 12 // after so many, only half of each correction is taken
)

// solve finds the humidities (in trial, which holds the first guess) with
//
//	v (u(h) - base) = a (flow in - flow out)
//
// at every level, a in s, and leaves the flows in flow. It returns the iterations, or 0 when they did
// not settle.
func (s *Solver) solve(a float64) int {
	// One more iteration would leave about bend*step^2; no level may have changed side.
	near := math.Sqrt(s.o.Tol / max(s.c.bend, 1))
	for it := 1; it <= most; it++ {
		s.eval(s.trial)
		s.eliminate(a)
		step, turned := s.correct(it > eager)
		if step < s.o.Tol || (step < near && !turned && s.quadratic()) {
			s.flows()
			return it
		}
	}
	return 0
}

// quadratic says whether the iteration has the exact slopes.
func (s *Solver) quadratic() bool { return !s.air.tilted && s.o.Memory != Differential }

// eliminate assembles the equations for the correction and solves them downwards (Thomas).
func (s *Solver) eliminate(a float64) {
	n := len(s.h)
	d := &s.air
	h, v, w := s.trial[:n], s.v[:n], s.base[:n]
	su, sdu, sp, sdp := s.su[:n], s.sdu[:n], s.sp[:n], s.sdp[:n]
	gc, gt, up, r := d.gc[:n], d.gt[:n], s.c1[:n], s.e1[:n]
	in := d.g[0] * (d.press[0] - d.psat[0]*h[0]) // flow into the level
	lo, rate := 0.0, d.g[0]*d.psat[0]            // its slopes by the level before and by the level
	cp, ep := 0.0, 0.0
	for i := 0; i < n-1; i++ {
		g := gc[i]
		out := g * (sp[i] - sp[i+1])
		by, next := g*sdp[i], g*sdp[i+1]
		if d.tilted {
			t := gt[i] * (sdp[i] + sdp[i+1])
			out += t * (h[i] + h[i+1])
			by, next = by+t, next-t
		}
		e := a*(in-out) - v[i]*(su[i]-w[i])
		pivot := 1 / (v[i]*sdu[i] + a*(rate+by+lo*cp))
		e = (e + a*lo*ep) * pivot
		cp = -a * next * pivot
		up[i], r[i] = cp, e
		ep = e
		in, lo, rate = out, by, next
	}
	i := n - 1
	out := -d.g[1] * (d.press[1] - d.psat[i]*h[i])
	e := a*(in-out) - v[i]*(su[i]-w[i])
	r[i] = (e + a*lo*ep) / (v[i]*sdu[i] + a*(rate+d.g[1]*d.psat[i]+lo*cp))
}

// correct carries the elimination back and moves the trial. It returns the largest correction and
// whether a level left the side of the bend it was taken on.
func (s *Solver) correct(half bool) (step float64, turned bool) {
	n := len(s.h)
	h, up, r := s.trial[:n], s.c1[:n], s.e1[:n]
	for i := n - 2; i >= 0; i-- {
		r[i] -= up[i] * r[i+1]
	}
	for i := range h {
		if half {
			r[i] /= 2
		}
		h[i] += r[i]
		step = max(step, math.Abs(r[i]))
	}
	if s.o.Memory == Mean {
		return step, false
	}
	for i := range h {
		p := &s.piece[i]
		// beyond its stretch the curve has another bend
		if p.up != (h[i] >= p.at) || (s.o.Memory == Turning && (h[i] >= p.top || h[i] <= p.low)) {
			return step, true
		}
	}
	return step, false
}

// flows leaves the flows of the last linear equations, so that they balance the levels whatever is
// left of the iteration.
func (s *Solver) flows() {
	d := &s.air
	n := len(s.h)
	h, sp, sdp, r := s.trial[:n], s.sp[:n], s.sdp[:n], s.e1[:n]
	for i := range sp {
		sp[i] += sdp[i] * r[i]
	}
	s.flow[0] = d.g[0] * (d.press[0] - d.psat[0]*h[0])
	for i := 0; i < n-1; i++ {
		f := d.gc[i] * (sp[i] - sp[i+1])
		if d.tilted {
			f += d.gt[i] * (sdp[i] + sdp[i+1]) * (h[i] + h[i+1])
		}
		s.flow[i+1] = f
	}
	s.flow[n] = -d.g[1] * (d.press[1] - d.psat[n-1]*h[n-1])
}
