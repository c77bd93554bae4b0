package scenario

import "math"

// brim is a case at one temperature: the water it holds at a humidity, and what flows.
type brim struct {
	c                Case
	t                float64
	air, buffer      float64 // water per unit of RH, g
	quick            float64 // quick wood, g
	exchange, target float64 // g/h per unit of RH, and the humidity the room's vapour would give
	take, late       float64 // slow wood: g/h per kg/kg, and its moisture content
}

func (c Case) brim(t float64) brim {
	return brim{c: c, t: t, air: c.perRH(t), buffer: 100 * c.Buffer.Mass * c.Buffer.Capacity, quick: 1000 * c.Wood.Mass * c.Wood.Quick}
}

// holds is the water in air, buffer and quick wood at h, and its slope.
func (b *brim) holds(h float64) (water, slope float64) {
	slope = b.air + b.buffer
	water = slope * h
	if b.quick > 0 {
		water += b.quick * b.c.Wood.mc(h, b.t)
		slope += b.quick * b.c.Wood.slope(h, b.t)
	}
	return water, slope
}

// flows are what comes in from the room and what the slow wood takes, g/h.
func (b *brim) flows(h float64) (air, wood float64) {
	air = b.exchange * (b.target - h)
	if b.take > 0 {
		wood = b.take * (b.c.Wood.mc(h, b.t) - b.late)
	}
	return air, wood
}

// residual is holds(h) - have - x (air - wood), and its slope; it rises with h.
func (b *brim) residual(have, x, h float64) (r, slope float64) {
	r, slope = b.holds(h)
	air, wood := b.flows(h)
	slope += x * b.exchange
	if b.take > 0 {
		slope += x * b.take * b.c.Wood.slope(h, b.t)
	}
	return r - have - x*(air-wood), slope
}

// rounding is where the search for a humidity ends.
const rounding = 1e-15

// solve finds the humidity h with holds(h) = have + x (air - wood) by Newton's rule inside a bracket.
// What does not fit below saturation is liquid.
func (b *brim) solve(have, x, guess float64) (h, liquid float64) {
	if over, _ := b.residual(have, x, 1); over <= 0 {
		return 1, -over
	}
	if under, _ := b.residual(have, x, 0); under >= 0 {
		return 0, 0
	}
	lo, hi := 0.0, 1.0
	h = min(max(guess, 0), 1)
	for range 100 { // bisection alone ends before
		r, slope := b.residual(have, x, h)
		if r > 0 {
			hi = h
		} else {
			lo = h
		}
		next := h - r/slope
		if math.Abs(next-h) < rounding || hi-lo < rounding {
			break
		}
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		h = next
	}
	return h, 0
}
