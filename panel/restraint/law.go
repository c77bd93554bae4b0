package restraint

import "math"

// A law says with which force a fixing resists (positive = it pushes the panel to the left) when
// the panel has moved by s to the right of the bar. It is a rising line with corners: flat where
// the fixing slides, yields or is in free play, upright where it does not slip.
type branch struct {
	flat   bool
	s0, f0 float64 // a point on it
	beta   float64 // ds/df where not flat
	lo, hi float64 // range of s where flat, of the force otherwise
}

// memory is what a fixing remembers.
type memory struct {
	anchor float64 // where friction holds, mm
	centre float64 // middle of the play, mm; moved by yielding
}

const maxBranches = 8

type law struct {
	b [maxBranches]branch
	n int
}

type corner struct{ s, f float64 }

// contact returns the force of the slot and its stop at s, without friction.
func contact(x *Fixing, m memory, s float64) float64 {
	if x.Slip == 0 {
		return 0
	}
	over := max(0, math.Abs(s-m.centre)-x.Clearance)
	f := over * x.Slip
	if over == 0 { // also where the slip modulus has no end
		f = 0
	}
	return math.Copysign(min(f, x.Yield), s-m.centre)
}

// cap returns the friction limit mu N.
func (f *Fixing) cap() float64 { return f.Friction * f.Preload }

// corners lists the corners of the law from the left.
func corners(dst []corner, x *Fixing, m memory) []corner {
	raw := [4]corner{}
	k := 0
	if x.Slip > 0 {
		stop := 0.0
		if !math.IsInf(x.Yield, 1) {
			stop = x.Yield / x.Slip
			raw[0] = corner{m.centre - x.Clearance - stop, -x.Yield}
			k = 1
		}
		raw[k] = corner{m.centre - x.Clearance, 0}
		raw[k+1] = corner{m.centre + x.Clearance, 0}
		k += 2
		if !math.IsInf(x.Yield, 1) {
			raw[k] = corner{m.centre + x.Clearance + stop, x.Yield}
			k++
		}
	}
	g := x.cap()
	if g == 0 {
		return append(dst, raw[:k]...)
	}
	a := m.anchor
	i := 0
	near := 1e-11 * (1 + math.Abs(a)) // a corner so near is at the anchor: rounding may not part them
	for ; i < k && raw[i].s < a-near; i++ {
		dst = append(dst, corner{raw[i].s, raw[i].f - g})
	}
	left, right := math.Inf(1), math.Inf(-1)
	for ; i < k && raw[i].s <= a+near; i++ {
		left, right = min(left, raw[i].f), max(right, raw[i].f)
	}
	if right < left {
		left = contact(x, m, a)
		right = left
	}
	dst = append(dst, corner{a, left - g}, corner{a, right + g})
	for ; i < k; i++ {
		dst = append(dst, corner{raw[i].s, raw[i].f + g})
	}
	return dst
}

// shape fills the law of a fixing in its present memory.
func (l *law) shape(x *Fixing, m memory) {
	var buf [6]corner
	c := corners(buf[:0], x, m)
	l.n = 0
	if len(c) == 0 { // carries nothing
		l.add(branch{flat: true, lo: math.Inf(-1), hi: math.Inf(1)})
		return
	}
	first, last := c[0], c[len(c)-1]
	ends := x.Slip == 0 || !math.IsInf(x.Yield, 1) // the law ends flat
	if ends {
		l.add(branch{flat: true, f0: first.f, lo: math.Inf(-1), hi: first.s})
	} else {
		l.add(branch{s0: first.s, f0: first.f, beta: 1 / x.Slip, lo: math.Inf(-1), hi: first.f})
	}
	for i := 1; i < len(c); i++ {
		p, q := c[i-1], c[i]
		switch {
		case q.f > p.f:
			l.add(branch{s0: p.s, f0: p.f, beta: (q.s - p.s) / (q.f - p.f), lo: p.f, hi: q.f})
		case q.s > p.s:
			l.add(branch{flat: true, f0: p.f, lo: p.s, hi: q.s})
		}
	}
	if ends {
		l.add(branch{flat: true, f0: last.f, lo: last.s, hi: math.Inf(1)})
	} else {
		l.add(branch{s0: last.s, f0: last.f, beta: 1 / x.Slip, lo: last.f, hi: math.Inf(1)})
	}
}

func (l *law) add(b branch) {
	l.b[l.n] = b
	l.n++
}

// locate returns the branch nearest to a state and moves the state onto it.
func (l *law) locate(s, f *float64) int {
	best, where, bs, bf := math.Inf(1), 0, *s, *f
	for i := range l.n {
		b := &l.b[i]
		ps, pf := b.nearest(*s, *f)
		if d := math.Abs(ps-*s) + math.Abs(pf-*f)*(b.beta+1e-6); d < best {
			best, where, bs, bf = d, i, ps, pf
		}
	}
	*s, *f = bs, bf
	return where
}

func (b *branch) nearest(s, f float64) (float64, float64) {
	if b.flat {
		return min(max(s, b.lo), b.hi), b.f0
	}
	f = min(max(f, b.lo), b.hi)
	return b.s0 + b.beta*(f-b.f0), f
}

// settle moves the memory after a step that ended at slip s with force f, and returns the part of
// the force that the stop carries. What the stop does not explain is friction; asked in this order,
// rounding of s cannot turn the friction round.
func (m *memory) settle(x *Fixing, s, f float64) (stop float64) {
	stop = f
	if g := x.cap(); g > 0 {
		known := 0.0
		if !math.IsInf(x.Slip, 1) || math.Abs(s-m.centre) > x.Clearance+1e-9 {
			known = contact(x, *m, s)
		}
		stop = f - min(max(f-known, -g), g)
		m.anchor = s
		if math.IsInf(x.Slip, 1) && math.IsInf(x.Yield, 1) { // rounding may not leave the play
			m.anchor = min(max(s, m.centre-x.Clearance), m.centre+x.Clearance)
		}
	}
	if x.Slip == 0 || math.IsInf(x.Yield, 1) {
		return stop
	}
	reach := x.Clearance + x.Yield/x.Slip
	m.centre = min(max(m.centre, s-reach), s+reach)
	return stop
}
