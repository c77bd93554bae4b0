package restraint

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// invert writes the inverse of a, n x n, into v and returns the sign of its determinant; a is
// overwritten. It answers false when a is singular. Gauss-Jordan with row pivots.
func invert(a, v []float64, n int, perm []int) (sign float64, ok bool) {
	clear(v)
	for i := range n {
		v[i*n+i] = 1
		perm[i] = i
	}
	sign = 1
	for j := range n {
		p := j
		for i := j + 1; i < n; i++ {
			if math.Abs(a[i*n+j]) > math.Abs(a[p*n+j]) {
				p = i
			}
		}
		d := a[p*n+j]
		if d == 0 || math.IsNaN(d) {
			return 0, false
		}
		if p != j {
			sign = -sign
			swap(a, n, p, j)
			swap(v, n, p, j)
		}
		if d < 0 {
			sign = -sign
		}
		floats.Scale(1/d, a[j*n+j:j*n+n])
		floats.Scale(1/d, v[j*n:j*n+n])
		for i := range n {
			if f := a[i*n+j]; i != j && f != 0 {
				floats.AddScaled(a[i*n+j:i*n+n], -f, a[j*n+j:j*n+n])
				floats.AddScaled(v[i*n:i*n+n], -f, v[j*n:j*n+n])
			}
		}
	}
	return sign, true
}

func swap(a []float64, n, p, q int) {
	x, y := a[p*n:p*n+n], a[q*n:q*n+n]
	for i := range x {
		x[i], y[i] = y[i], x[i]
	}
}

// A pattern is what a line puts into its row of the equations.
type pattern struct {
	flat      bool
	beta, rub float64 // rub = sig mu dN/dr of the lift
}

// patternOf reads the row that line i wants on its present stretch.
func (m *March) patternOf(i int) pattern {
	b, l := m.now(i), &m.lines[i]
	p := pattern{flat: b.flat, beta: b.beta}
	if b.sig != 0 && l.lift >= 0 && !m.capped[i] {
		p.rub = b.sig * l.mu * m.presses(l.lift)
	}
	return p
}

// push is what a growing friction limit adds to line i.
func (m *March) push(i int) float64 {
	if m.growing && m.capped[i] {
		return m.now(i).sig
	}
	return 0
}

// presses is dN/dr of a lift on its present stretch.
func (m *March) presses(lift int) float64 {
	switch side := m.now(lift).side; {
	case side < 0:
		return -1
	case side > 0 && m.lines[lift].keeper:
		return 1
	}
	return 0
}

// row writes the equation of line i into w:
//
//	flat:       dr - rub dr_lift = 0
//	otherwise:  [C dr - R dq + beta (dr - rub dr_lift)] / own = -misfit / own
func (m *March) row(w []float64, i int, p pattern) {
	n, k := len(m.lines), m.body.Motions
	clear(w)
	f := 1.0
	if !p.flat {
		for j, c := range m.c[i*n : i*n+n] {
			w[j] = c / m.own[i]
		}
		for q := range k {
			w[n+q] = -m.r[i*k+q] / m.own[i]
		}
		f = p.beta / m.own[i]
	}
	w[i] += f
	if p.rub != 0 {
		w[m.lines[i].lift] -= f * p.rub
	}
}

// factor sets up the equations of all lines and motions afresh.
func (m *March) factor() bool {
	n, k := len(m.lines), m.body.Motions
	t := n + k
	for i := range n {
		m.pat[i] = m.patternOf(i)
		m.row(m.jac[i*t:i*t+t], i, m.pat[i])
	}
	for q := range k {
		w := m.jac[(n+q)*t:][:t]
		for j := range n {
			w[j] = m.r[j*k+q]
		}
		copy(w[n:], m.s[q*k:q*k+k])
		w[n+q] += m.weak[q]
	}
	var ok bool
	m.sign, ok = invert(m.jac, m.inv, t, m.perm)
	m.updates, m.stale = 0, !ok
	return ok
}

// mostUpdates is how many rows are exchanged before the equations are set up afresh. Rounding that
// gathers until then shows as misfit and is taken out by going over the step again.
const mostUpdates = 300

// exchange brings the equation of line i up to its present stretch: a principal pivot, as the
// change of one row in the inverse.
//
//	V' = V - V e_i (w V - e_i) / (w V)_i
func (m *March) exchange(i int) bool {
	p := m.patternOf(i)
	if p == m.pat[i] && !m.stale {
		return true
	}
	if m.stale || m.updates > mostUpdates {
		return m.factor()
	}
	t := len(m.lines) + m.body.Motions
	m.row(m.w, i, p)
	clear(m.t)
	for j, f := range m.w {
		switch {
		case f == 0:
		case j < len(m.lines) && m.pat[j].flat && m.pat[j].rub == 0: // its row of the inverse is a unit
			m.t[j] += f
		default:
			floats.AddScaled(m.t, f, m.inv[j*t:j*t+t])
		}
	}
	g := m.t[i]
	if a := math.Abs(g); !(a > 1e-9 && a < 1e9) {
		return m.factor()
	}
	if g < 0 {
		m.sign = -m.sign
	}
	m.t[i]--
	for j := range t {
		row := m.inv[j*t : j*t+t]
		if f := row[i] / g; f != 0 {
			floats.AddScaled(row, -f, m.t)
		}
	}
	m.pat[i] = p
	m.updates++
	return true
}
