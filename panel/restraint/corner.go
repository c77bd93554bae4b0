package restraint

import "math"

// event is what ends a straight part of the path.
type event struct {
	line int // -1 = the end of the path
	step int // to the next stretch, up or down; 0 = the friction limit changes its rule
}

// next finds how far the path may go before a line comes to a corner. At equal distance the first
// line decides (least-index rule of principal pivoting, K. G. Murty 1974: memory). Movements below
// tiny over the whole path are rounding and pass no corner.
func (m *March) next(left, turn, tiny float64) (dt float64, e event) {
	dt, e = left, event{line: -1}
	for i := range m.lines {
		b := m.now(i)
		v, dv, dg, g, small := m.sp[i], turn*m.ds[i], 0.0, 0.0, tiny
		if !b.flat {
			v, dv, small = m.rp[i], turn*m.dr[i], tiny/m.gamma
			if m.lines[i].mu > 0 {
				g, dg = m.grip(i), turn*m.gripping(i)
			}
		}
		dlo, dhi := dv, dv
		if !b.flat {
			dlo, dhi = dv-b.sigLo*dg, dv-b.sigHi*dg
		}
		if dhi > small {
			if h := max(0, (b.high(g)-v)/dhi); h < dt*(1-1e-12) {
				dt, e = h, event{i, 1}
			}
		}
		if dlo < -small {
			if h := max(0, (b.low(g)-v)/dlo); h < dt*(1-1e-12) {
				dt, e = h, event{i, -1}
			}
		}
	}
	return dt, e
}

// gripping is the change of the friction limit of line i along the path.
func (m *March) gripping(i int) float64 {
	switch l := &m.lines[i]; {
	case m.capped[i] && m.growing:
		return 1
	case m.capped[i] || l.lift < 0:
		return 0
	default:
		return l.mu * m.presses(l.lift) * m.dr[l.lift]
	}
}

// over puts line i exactly on the corner it has come to and on the stretch beyond.
func (m *March) over(i, step int) {
	b, g := m.now(i), m.grip(i)
	to := b.low(g)
	if step > 0 {
		to = b.high(g)
	}
	if b.flat {
		m.sp[i], m.rp[i] = to, b.f0+b.sig*g
	} else {
		m.rp[i], m.sp[i] = to, b.s0+b.beta*(to-b.sig*g-b.f0)
	}
	m.at[i] += step
	if b = m.now(i); b.sticks() && b.lo == b.hi && g == 0 && m.loose(i) {
		m.at[i] += step // nothing presses: friction has no length to cross
	}
}

// loose tells that nothing presses line i, nor does on the present stretch of its lift.
func (m *March) loose(i int) bool {
	l := &m.lines[i]
	return !m.capped[i] && l.preload == 0 && l.lift >= 0 && m.presses(l.lift) == 0
}

// follows brings the equations of line i, and of the slip it presses, up to its stretch.
func (m *March) follows(i int) bool {
	if !m.exchange(i) {
		return false
	}
	if j := m.lines[i].slip; j >= 0 {
		return m.exchange(j)
	}
	return true
}

// advance moves the state along the path.
func (m *March) advance(dt float64) {
	for j := range m.lines {
		m.sp[j] += dt * m.ds[j]
		m.rp[j] += dt * m.dr[j]
	}
	for j := range m.q {
		m.q[j] += dt * m.dq[j]
	}
}

// path leads the state to the free movement and load of the step through every corner of the lines:
//
//	misfit(tau) = (1 - tau) misfit(0),   tau from 0 to 1
//
// Where a pivot turns the sign of the determinant the path turns round (friction that locks or
// snaps), as the branches of a piecewise linear curve do. It answers false on a ray.
func (m *March) path(move, load float64) bool {
	for i := range m.lines {
		if !m.follows(i) {
			return false
		}
	}
	tiny := 1e-13 * max(move, load*m.gamma)
	turn, sign := 1.0, m.sign
	limit := m.moves + 64 + 40*len(m.lines)
	for tau := 0.0; m.moves <= limit; {
		m.direction()
		left := 1 - tau
		if turn < 0 {
			left = math.Inf(1)
		}
		dt, e := m.next(left, turn, tiny)
		if math.IsInf(dt, 1) {
			return false
		}
		m.advance(dt * turn)
		tau += dt * turn
		if e.line < 0 {
			return true
		}
		m.over(e.line, e.step)
		m.moves++
		if !m.onward(e.line, &turn, &sign) {
			return false
		}
	}
	return false
}

// onward takes the path on behind the corner of a line, the other way round where the sign of the
// determinant has turned.
func (m *March) onward(line int, turn, sign *float64) bool {
	if !m.follows(line) {
		return false
	}
	if m.sign != *sign {
		*sign, *turn = m.sign, -*turn
		m.reversals++
	}
	return true
}
