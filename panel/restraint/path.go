package restraint

import (
	"fmt"
	"math"
)

// follow leads the state (slips s.s, resisting forces s.f, shift c) to the free movement s.free
// through every corner of the laws. It returns the new shift and the number of corners passed.
func (s *System) follow(c float64) (shift float64, moves int, err error) {
	n := len(s.fix)
	for i := range n {
		s.at[i] = s.laws[i].locate(&s.s[i], &s.f[i])
	}
	for i := range n { // what is missing at the start goes to zero along the way
		s.r[i] = s.s[i] - (s.free[i] - s.dot(i, s.f) + c)
	}
	tiny := s.rounding()
	for t, left := 0.0, 64+32*n; ; moves++ {
		if moves > left {
			return c, moves, fmt.Errorf("fixings did not settle in %d moves (%d fixings)", left, n)
		}
		dc := s.direction()
		dt, i, up := s.next(1-t, tiny)
		for j := range n {
			s.s[j] += dt * s.ds[j]
			s.f[j] += dt * s.df[j]
		}
		c += dt * dc
		t += dt
		if i < 0 {
			break
		}
		s.turn(i, up)
	}
	return s.polish(c), moves, nil
}

// rounding is the slip that cannot be told from nothing on this path, mm.
func (s *System) rounding() float64 {
	most := 0.0
	for _, r := range s.r {
		most = max(most, math.Abs(r))
	}
	return 1e-12 * most
}

// dot returns row i of the flexibility times v.
func (s *System) dot(i int, v []float64) float64 {
	n := len(s.fix)
	sum := 0.0
	for j, c := range s.c[i*n : i*n+n] {
		sum += c * v[j]
	}
	return sum
}

// active lists the fixings that are not on a flat branch.
func (s *System) active() {
	s.act = s.act[:0]
	for i := range s.fix {
		if !s.laws[i].b[s.at[i]].flat {
			s.act = append(s.act, i)
		}
	}
}

// direction fills df, ds per unit of the path and returns that of the shift.
func (s *System) direction() (dc float64) {
	s.active()
	for i := range s.df {
		s.df[i] = 0
	}
	if len(s.act) > 0 {
		for k, i := range s.act {
			s.y1[k] = -s.r[i]
		}
		dc = s.solve(0)
		for k, i := range s.act {
			s.df[i] = s.y1[k]
		}
	}
	for i := range s.fix {
		if b := &s.laws[i].b[s.at[i]]; !b.flat {
			s.ds[i] = b.beta * s.df[i]
		} else {
			s.ds[i] = -s.r[i] - s.dot(i, s.df) + dc
		}
	}
	return dc
}

// solve solves (C + beta) f - c = y1, sum f = total on the active fixings; y1 becomes f, c is
// returned. The sum is known, so gamma times it may stand on both sides: that makes the matrix
// positive definite.
func (s *System) solve(total float64) (c float64) {
	m, n := len(s.act), len(s.fix)
	for k, i := range s.act {
		for l := range k + 1 {
			s.a[k*m+l] = s.c[i*n+s.act[l]] + s.gamma
		}
		s.a[k*m+k] += s.laws[i].b[s.at[i]].beta
		s.y1[k] += s.gamma * total
		s.y2[k] = 1
	}
	cholesky(s.a, m)
	substitute(s.a, m, s.y1)
	substitute(s.a, m, s.y2)
	s1, s2 := 0.0, 0.0
	for k := range m {
		s1 += s.y1[k]
		s2 += s.y2[k]
	}
	c = (total - s1) / s2
	for k := range m {
		s.y1[k] += c * s.y2[k]
	}
	return c
}

// next finds how far the path may go before a fixing comes to a corner, which fixing (-1 = none)
// and in which direction. At equal distance the leftmost decides, which cannot cycle (least-index
// rule of principal pivoting, K. G. Murty 1974: memory).
//
// Movements along the whole path below tiny (a slip, mm) are rounding and pass no corner.
func (s *System) next(left, tiny float64) (dt float64, which int, up bool) {
	dt, which = left, -1
	for i := range s.fix {
		b := &s.laws[i].b[s.at[i]]
		v, d, small := s.f[i], s.df[i], tiny/s.gamma
		if b.flat {
			v, d, small = s.s[i], s.ds[i], tiny
		}
		if math.Abs(d) <= small {
			continue
		}
		to := b.hi
		if d < 0 {
			to = b.lo
		}
		if h := max(0, (to-v)/d); h < dt*(1-1e-12) {
			dt, which, up = h, i, d > 0
		}
	}
	return dt, which, up
}

// turn puts fixing i exactly on the corner and on the branch beyond it.
func (s *System) turn(i int, up bool) {
	b := &s.laws[i].b[s.at[i]]
	to := b.lo
	step := -1
	if up {
		to, step = b.hi, 1
	}
	if b.flat {
		s.s[i], s.f[i] = to, b.f0
	} else {
		s.f[i], s.s[i] = to, b.s0+b.beta*(to-b.f0)
	}
	s.at[i] += step
}

// polish solves the equations of the branches reached afresh, so that no rounding of the path
// remains.
func (s *System) polish(c float64) float64 {
	s.active()
	total := 0.0
	for i := range s.fix {
		if b := &s.laws[i].b[s.at[i]]; b.flat {
			s.f[i] = b.f0
			total -= b.f0
		} else {
			s.f[i] = 0
		}
	}
	if len(s.act) > 0 {
		for k, i := range s.act {
			b := &s.laws[i].b[s.at[i]]
			s.y1[k] = s.free[i] - s.dot(i, s.f) - b.s0 + b.beta*b.f0
		}
		c = s.solve(total)
		for k, i := range s.act {
			s.f[i] = s.y1[k]
		}
	}
	for i := range s.fix {
		if b := &s.laws[i].b[s.at[i]]; b.flat {
			s.s[i] = s.free[i] - s.dot(i, s.f) + c
		} else {
			s.s[i] = b.s0 + b.beta*(s.f[i]-b.f0)
		}
	}
	return c
}

// cholesky factors the lower triangle of a, m x m, in place.
func cholesky(a []float64, m int) {
	for j := range m {
		rj := a[j*m : j*m+j]
		d := a[j*m+j]
		for _, v := range rj {
			d -= v * v
		}
		d = math.Sqrt(max(d, 1e-300))
		a[j*m+j] = d
		for i := j + 1; i < m; i++ {
			ri := a[i*m : i*m+j]
			v := a[i*m+j]
			for k, w := range rj {
				v -= ri[k] * w
			}
			a[i*m+j] = v / d
		}
	}
}

// substitute solves with the factor.
func substitute(a []float64, m int, y []float64) {
	for i := range m {
		v := y[i]
		for k, w := range a[i*m : i*m+i] {
			v -= w * y[k]
		}
		y[i] = v / a[i*m+i]
	}
	for i := m - 1; i >= 0; i-- {
		v := y[i]
		for k := i + 1; k < m; k++ {
			v -= a[k*m+i] * y[k]
		}
		y[i] = v / a[i*m+i]
	}
}
