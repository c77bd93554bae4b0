package restraint

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/floats"
)

// ErrUndetermined says that friction leaves a step open: it locks, or holds more than one state.
// [March.Bracket] answers with both ends.
var ErrUndetermined = errors.New("undetermined: friction locks the fixings, the force lies between free and fully locked")

// ErrMechanism says that a load meets nothing that could carry it.
var ErrMechanism = errors.New("mechanism")

// trace is the memory of one path: movements and forces of the stops, motions, equations.
type trace struct {
	free, sp, rp, q, miss []float64
	ds, dr, dq, rhs, w, t []float64
	load, sig             []float64
	jac, inv              []float64
	line                  []profile
	at, perm              []int
	pat                   []pattern
	shaped                []shaped
	capped                []bool  // friction stands at most instead of mu N
	most                  float64 // N
	growing               bool    // most is what moves along the path
	sign                  float64
	updates               int
	stale                 bool
	moves, reversals      int
}

func (m *March) allocate(n, k int) {
	t := n + k
	mem := make([]float64, 3*n*n+2*n*k+7*n+3*t+5*k+k*k+k*n+2*t*t+k+n*k)
	take := func(l int) (v []float64) { v, mem = mem[:l:l], mem[l:]; return v }
	m.c, m.r, m.pull = take(n*n), take(n*k), take(n)
	m.held, m.s, m.load0, m.weak, m.unit = take(k*n), take(k*k), take(k), take(k), take(k)
	m.free, m.sp, m.rp, m.q = take(n), take(n), take(n), take(k)
	m.miss = take(t)
	m.ds, m.rhs, m.load = take(n), take(t), take(k)
	d := take(t) // dr and dq stand together as the equations give them
	m.dr, m.dq = d[:n], d[n:]
	m.jac, m.inv = take(t*t), take(t*t)
	m.own = make([]float64, n)
	m.w, m.t, m.sig = make([]float64, t), make([]float64, t), make([]float64, n)
	m.line, m.at, m.pat, m.perm = make([]profile, n), make([]int, n), make([]pattern, n), make([]int, t)
	m.shaped, m.capped = make([]shaped, n), make([]bool, n)
	m.stale = true
}

func (m *March) now(i int) *stretch { return &m.line[i].b[m.at[i]] }

// shaped tells for which memory a line was shaped.
type shaped struct {
	memory
	how  friction
	done bool
}

// shape gives every line the form of its memory.
func (m *March) shape(mem []memory, how friction) {
	for i := range m.lines {
		if want := (shaped{mem[i], how, true}); m.shaped[i] != want {
			m.line[i].shape(&m.lines[i].Hold, mem[i], m.lines[i].mu, how)
			m.shaped[i] = want
		}
	}
}

// grip is the friction limit mu N of a line for the present forces.
func (m *March) grip(i int) float64 {
	l := &m.lines[i]
	switch {
	case l.mu == 0:
		return 0
	case m.capped[i]:
		return m.most
	}
	n := l.preload
	if l.lift >= 0 {
		r := m.rp[l.lift]
		if r < 0 {
			n -= r
		} else if m.lines[l.lift].keeper {
			n += r
		}
	}
	return l.mu * n
}

// seat puts every line on the stretch nearest to its state, lifts first; at a corner the stretch
// of the same friction, and whose equation stands already, is taken.
func (m *March) seat() {
	for i := range m.lines {
		p, g := &m.line[i], m.grip(i)
		best, bs, br := math.Inf(1), 0.0, 0.0
		for j := range p.n {
			b := &p.b[j]
			s, r := b.on(m.sp[i], m.rp[i], g)
			d := math.Abs(s-m.sp[i]) + math.Abs(r-m.rp[i])*(m.gamma+b.beta)
			near := 1e-12 * (math.Abs(s) + math.Abs(r)*m.gamma)
			if m.sig[i] == b.sig {
				d -= near
			}
			if m.pat[i].flat == b.flat && m.pat[i].beta == b.beta {
				d -= near
			}
			if d < best {
				best, bs, br, m.at[i] = d, s, r, j
			}
		}
		m.sp[i], m.rp[i] = bs, br
	}
}

// misfit fills miss with what the state lacks and returns its size as a movement and as a
// force (of a turning motion: on the longest arm).
func (m *March) misfit() (move, load float64) {
	n, k := len(m.lines), m.body.Motions
	for i := range n {
		e := m.sp[i] - m.free[i] + floats.Dot(m.c[i*n:i*n+n], m.rp)
		if k > 0 {
			e -= floats.Dot(m.r[i*k:i*k+k], m.q)
		}
		m.miss[i] = e
		move = max(move, math.Abs(e))
	}
	for q := range k {
		e := floats.Dot(m.s[q*k:q*k+k], m.q) - m.load[q]
		for i := range n {
			e += m.r[i*k+q] * m.rp[i]
		}
		m.miss[n+q] = e
		load = max(load, math.Abs(e)/m.unit[q])
	}
	return move, load
}

// direction fills dr, dq and ds per unit of the path for the equations in force.
func (m *March) direction() {
	n, k := len(m.lines), m.body.Motions
	t := n + k
	for i := range n {
		m.rhs[i] = m.push(i)
		if !m.pat[i].flat {
			m.rhs[i] = (m.pat[i].beta*m.rhs[i] - m.miss[i]) / m.own[i]
		}
	}
	for q := range k {
		m.rhs[n+q] = -m.miss[n+q]
	}
	d := m.dr[:t:cap(m.dr)]
	for i := range t {
		if i < n && m.pat[i].flat {
			d[i] = m.pat[i].rub*m.lifted(i) + m.push(i) // lifts come first
			continue
		}
		d[i] = floats.Dot(m.inv[i*t:i*t+t], m.rhs)
	}
	for i := range n {
		b := m.now(i)
		if !b.flat {
			m.ds[i] = b.beta * (m.dr[i] - m.pat[i].rub*m.lifted(i) - m.push(i))
			continue
		}
		v := -m.miss[i] - floats.Dot(m.c[i*n:i*n+n], m.dr)
		if k > 0 {
			v += floats.Dot(m.r[i*k:i*k+k], m.dq)
		}
		m.ds[i] = v
	}
}

// lifted is the change of the force that presses line i.
func (m *March) lifted(i int) float64 {
	if j := m.lines[i].lift; j >= 0 {
		return m.dr[j]
	}
	return 0
}
