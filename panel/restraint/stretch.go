package restraint

import "math"

// A stretch is a straight part of the rising line that gives the resisting force over the movement,
// with friction under the pressing force N inside:
//
//	flat:      r = f0 + sig mu N,               s in [lo, hi]
//	otherwise: s = s0 + beta (r - sig mu N - f0),   r in [lo + sigLo mu N, hi + sigHi mu N]
//
// Where friction holds, sig is 0, sigLo -1 and sigHi +1; elsewhere the three are one.
type stretch struct {
	flat              bool
	side              int8 // -1, 0, +1: which way the stop bears
	sig, sigLo, sigHi float64
	s0, f0, beta      float64
	lo, hi            float64
}

func (b *stretch) sticks() bool { return b.sigLo != b.sigHi }

// low and high return the ends of the range under the friction limit g = mu N.
func (b *stretch) low(g float64) float64 {
	if b.flat {
		return b.lo
	}
	return b.lo + b.sigLo*g
}

func (b *stretch) high(g float64) float64 {
	if b.flat {
		return b.hi
	}
	return b.hi + b.sigHi*g
}

// on moves a state to the nearest place of the stretch.
func (b *stretch) on(s, r, g float64) (float64, float64) {
	if b.flat {
		return min(max(s, b.lo), b.hi), b.f0 + b.sig*g
	}
	r = min(max(r, b.low(g)), b.high(g))
	return b.s0 + b.beta*(r-b.sig*g-b.f0), r
}

// friction says how a stretch list treats friction.
type friction int8

const (
	rubbing friction = iota
	frictionless
	locked
)

const maxStretches = 9

// profile is the whole line.
type profile struct {
	b [maxStretches]stretch
	n int
}

type bend struct{ s, f, sig float64 }

func (p *profile) add(b stretch) {
	p.b[p.n] = b
	p.n++
}

// shape fills the line of a hold in its memory.
func (p *profile) shape(h *Hold, m memory, mu float64, how friction) {
	p.n = 0
	if how == locked && mu > 0 {
		p.add(stretch{s0: m.anchor, lo: math.Inf(-1), hi: math.Inf(1)})
		return
	}
	var raw [4]bend
	k := h.bends(&raw, m.centre)
	var buf [6]bend
	c := buf[:0]
	if how == frictionless || mu == 0 {
		c = append(c, raw[:k]...)
	} else {
		c = rubbed(c, raw[:k], m.anchor, h.stop(m.centre, m.anchor))
	}
	if len(c) == 0 {
		p.add(stretch{flat: true, lo: math.Inf(-1), hi: math.Inf(1)})
		return
	}
	p.join(c, h)
}

// bends lists the corners of the stop alone from the left.
func (h *Hold) bends(raw *[4]bend, c float64) (k int) {
	if h.Stiff == 0 {
		return 0
	}
	yields := !math.IsInf(h.Yield, 1)
	if yields {
		raw[k] = bend{s: c - h.reach(), f: -h.Yield}
		k++
	}
	raw[k] = bend{s: c - h.Play}
	k++
	if h.Presses {
		return k
	}
	raw[k] = bend{s: c + h.Play}
	k++
	if yields {
		raw[k] = bend{s: c + h.reach(), f: h.Yield}
		k++
	}
	return k
}

// rubbed puts the corners of friction among those of the stop; stop is its force where friction
// holds.
func rubbed(c, raw []bend, a, stop float64) []bend {
	near := 1e-11 * (1 + math.Abs(a)) // a corner so near is at the anchor: rounding may not part them
	i := 0
	for ; i < len(raw) && raw[i].s < a-near; i++ {
		c = append(c, bend{raw[i].s, raw[i].f, -1})
	}
	left, right := math.Inf(1), math.Inf(-1)
	for ; i < len(raw) && raw[i].s <= a+near; i++ {
		left, right = min(left, raw[i].f), max(right, raw[i].f)
	}
	if right < left {
		left, right = stop, stop
	}
	c = append(c, bend{a, left, -1}, bend{a, right, 1})
	for ; i < len(raw); i++ {
		c = append(c, bend{raw[i].s, raw[i].f, 1})
	}
	return c
}

// join makes the stretches between corners and beyond the ends.
func (p *profile) join(c []bend, h *Hold) {
	first, last := c[0], c[len(c)-1]
	ends := h.Stiff == 0 || !math.IsInf(h.Yield, 1) // the line ends flat
	if ends {
		p.flat(first, math.Inf(-1), first.s)
	} else {
		p.slope(first, 1/h.Stiff, math.Inf(-1), first.f)
	}
	for i := 1; i < len(c); i++ {
		l, r := c[i-1], c[i]
		switch {
		case r.sig > l.sig:
			p.add(stretch{s0: l.s, sigLo: -1, sigHi: 1, lo: l.f, hi: r.f, side: sideOf(l.f, r.f)})
		case r.f > l.f:
			p.slope(l, (r.s-l.s)/(r.f-l.f), l.f, r.f)
		case r.s > l.s:
			p.flat(l, l.s, r.s)
		}
	}
	if ends || h.Presses {
		p.flat(last, last.s, math.Inf(1))
	} else {
		p.slope(last, 1/h.Stiff, last.f, math.Inf(1))
	}
}

func (p *profile) flat(c bend, lo, hi float64) {
	p.b[p.n] = stretch{flat: true, sig: c.sig, sigLo: c.sig, sigHi: c.sig, f0: c.f, lo: lo, hi: hi, side: sideOf(c.f, c.f)}
	p.n++
}

func (p *profile) slope(c bend, beta, lo, hi float64) {
	p.b[p.n] = stretch{sig: c.sig, sigLo: c.sig, sigHi: c.sig, s0: c.s, f0: c.f, beta: beta, lo: lo, hi: hi, side: sideOf(lo, hi)}
	p.n++
}

func sideOf(lo, hi float64) int8 {
	switch {
	case lo < 0:
		return -1
	case hi > 0:
		return 1
	}
	return 0
}
