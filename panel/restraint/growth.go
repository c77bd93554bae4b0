package restraint

import "math"

// grow solves a step in which the path from the last state comes to no end. Friction is limited to
//
//	min(mu N, most)
//
// and most is led from 0, where the answer is unique and found by [March.path], to where it limits
// nothing. Between, no movement and no force can run away: friction only takes energy, whatever its
// limit. So the path, which may turn round, has no other end. Derived here.
func (m *March) grow() bool {
	for i := range m.lines {
		m.capped[i] = m.lines[i].mu > 0
	}
	m.most, m.stale = 0, true
	_, err := m.solve()
	ok := err == nil && m.rise()
	clear(m.capped)
	m.growing, m.stale = false, true
	return ok
}

// rise leads most from 0 upwards.
func (m *March) rise() bool {
	for i := range m.lines {
		if m.capped[i] {
			m.capped[i] = false
			m.capped[i] = m.grip(i) > 0
		}
	}
	m.growing = true
	clear(m.miss)
	for i := range m.lines {
		if !m.follows(i) {
			return false
		}
	}
	long, strong := m.extent()
	tiny := 1e-13 * long / (1 + strong)
	turn, sign := 1.0, m.sign
	for limit := m.moves + 64 + 60*len(m.lines); m.moves <= limit; m.moves++ {
		if !m.limits() {
			return true
		}
		m.direction()
		dt, e := m.next(math.Inf(1), turn, tiny)
		dt, e = m.rule(dt, turn, e)
		if math.IsInf(dt, 1) {
			return false
		}
		m.advance(dt * turn)
		m.most += dt * turn
		if e.step == 0 {
			m.capped[e.line] = !m.capped[e.line]
		} else {
			m.over(e.line, e.step)
		}
		if !m.onward(e.line, &turn, &sign) {
			return false
		}
	}
	return false
}

// limits tells whether most limits friction anywhere.
func (m *March) limits() bool {
	for _, c := range m.capped {
		if c {
			return true
		}
	}
	return false
}

// rule finds where most and mu N of a line meet, if that is before dt.
func (m *March) rule(dt, turn float64, e event) (float64, event) {
	for i := range m.lines {
		if m.lines[i].mu == 0 {
			continue
		}
		was := m.capped[i]
		m.capped[i] = false
		over, rate := m.grip(i)-m.most, turn*(m.gripping(i)-1) // of mu N above most
		m.capped[i] = was
		if !was {
			over, rate = -over, -rate
		}
		if rate < 0 {
			if h := max(0, -over/rate); h < dt*(1-1e-12) {
				dt, e = h, event{line: i}
			}
		}
	}
	return dt, e
}
