package scenario

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/moisture/record"
)

// walk carries a case through time. Water in g, hours, °C.
type walk struct {
	c      Case
	h, t   float64 // humidity and temperature of the case
	liquid float64
	late   float64 // moisture content of the slow wood
	dew    bool    // an open case so much colder than the room that its surfaces are wet
	in     float64 // water that came in so far
}

func newWalk(c Case, room *record.Record) *walk {
	w := &walk{c: c, h: float64(c.Start.RH), t: float64(c.Start.T)}
	if c.slow() > 0 {
		w.late = c.Wood.mc(w.h, w.t)
	}
	if c.Lag == 0 && room.T[0] != w.t {
		w.settle(room.T[0]) // no lag: the case is at the room's temperature at once, with its own water
	}
	if c.open() {
		w.admit(Climate{moisture.RH(room.RH[0]), moisture.Celsius(room.T[0])})
	}
	return w
}

// water is all water of the case.
func (w *walk) water() float64 {
	return w.c.quickWater(w.h, w.t) + w.liquid + 1000*w.c.slow()*w.late
}

// settle brings the case to a temperature with the water it has, the slow wood keeping its own.
func (w *walk) settle(t float64) {
	have, b := w.c.quickWater(w.h, w.t)+w.liquid, w.c.brim(t)
	w.h, w.liquid = b.solve(have, 0, w.h)
	w.t = t
}

// admit makes the air that of a room, whatever water that takes.
func (w *walk) admit(room Climate) {
	before, h := w.water(), room.vapour()/saturation(w.t)
	w.h, w.liquid, w.dew = min(h, 1), 0, h > 1+1e-12
	w.in += w.water() - before
}

// The steps: none longer than an hour, a twenty-fifth of the quickest time constant where 128 to an
// interval allow it. Where they do not, what is quicker is over within the step anyway.
const (
	finest     = 128
	share      = 0.04
	longestSub = 1.0 // h
)

// interval takes the case from reading i-1 to reading i of the room.
func (w *walk) interval(room *record.Record, i int) {
	hours := room.Times[i].Sub(room.Times[i-1]).Hours()
	h0, t0 := room.RH[i-1], room.T[i-1]
	dh, dt := (room.RH[i]-h0)/hours, (room.T[i]-t0)/hours
	n := min(max(math.Ceil(hours*w.quickest()/share), 1), finest)
	n = max(n, math.Ceil(hours/longestSub))
	p := path{h0, dh, t0, dt, w.c.Lag, w.t}
	for k := range int(n) {
		w.step(float64(k)*hours/n, hours/n, p)
	}
}

// path is the room and the temperature of the case within an interval.
type path struct{ h, dh, t, dt, lag, start float64 }

func (p path) room(x float64) Climate {
	return Climate{moisture.RH(p.h + p.dh*x), moisture.Celsius(p.t + p.dt*x)}
}

// inside is the temperature of the case: the exact answer of a first-order lag to an even change.
func (p path) inside(x float64) float64 { return lagged(p.lag, p.start, p.t, p.dt, x) }

// quickest is the greatest rate in the case now, 1/h.
func (w *walk) quickest() float64 {
	s := w.c.quickSlope(w.h, w.t)
	rate := 0.0
	if !w.c.open() {
		rate = w.c.Exchange / 24 * w.c.perRH(w.t) / s
	}
	if w.c.slow() > 0 {
		rate += (w.c.slowSlope(w.h, w.t)/s + 1) / w.c.Wood.Hours
	}
	if w.c.Lag > 0 {
		rate = max(rate, 1/w.c.Lag)
	}
	return rate
}

// gamma of the two-stage diagonally implicit rule of second order, 1 - 1/sqrt 2. Source: Alexander
// 1977, Diagonally implicit Runge-Kutta methods for stiff O.D.E.'s.
const gamma = 1 - math.Sqrt2/2

// keepsSign is the longest step times rate for which the second stage cannot go below zero
// (1/(1-2 gamma) = 2.41); longer ones take backward Euler.
const keepsSign = 2.0

// step goes x hours on from at.
func (w *walk) step(at, x float64, p path) {
	if w.c.open() {
		w.open(at+x, x, p)
		return
	}
	have, late := w.c.quickWater(w.h, w.t)+w.liquid, w.late
	if x*w.quickest() > keepsSign {
		s := w.stage(have, late, x, p.room(at+x), p.inside(at+x))
		w.take(s, x*s.air)
		return
	}
	first := w.stage(have, late, gamma*x, p.room(at+gamma*x), p.inside(at+gamma*x))
	w.h = first.h
	b := (1 - gamma) * x
	have2, late2 := have+b*(first.air-first.wood), late
	if w.c.slow() > 0 {
		late2 += b * first.wood / (1000 * w.c.slow())
	}
	s := w.stage(have2, late2, gamma*x, p.room(at+x), p.inside(at+x))
	w.take(s, b*first.air+gamma*x*s.air)
}

func (w *walk) take(s stage, in float64) {
	w.h, w.t, w.liquid, w.late = s.h, s.t, s.liquid, s.late
	w.in += in
}

// open follows the room's vapour; only temperature and slow wood are late.
func (w *walk) open(at, x float64, p path) {
	before, t := w.water(), p.inside(at)
	h := p.room(at).vapour() / saturation(t)
	w.h, w.t, w.dew = min(h, 1), t, h > 1+1e-12
	if w.c.slow() > 0 {
		k := x / w.c.Wood.Hours
		w.late = (w.late + k*w.c.Wood.mc(w.h, w.t)) / (1 + k)
	}
	w.in += w.water() - before
}

// stage is one implicit stage: state and flows, g/h, at its end.
type stage struct {
	h, t, liquid, late float64
	air, wood          float64 // in from the room; from the air into the slow wood
}

// stage solves W = have + x (air - wood) for the humidity.
func (w *walk) stage(have, late, x float64, room Climate, t float64) stage {
	b := w.c.brim(t)
	b.exchange, b.target = w.c.Exchange/24*b.air, room.vapour()/saturation(t)
	b.late = late
	m := 1000 * w.c.slow()
	if m > 0 {
		b.take = m / (w.c.Wood.Hours + x) // the slow wood at the end of the stage eliminated
	}
	s := stage{t: t, late: late}
	s.h, s.liquid = b.solve(have, x, w.h)
	s.air, s.wood = b.flows(s.h)
	if m > 0 {
		s.late = late + x*s.wood/m
	}
	return s
}

// lagged is the temperature of the case after x hours in which the room went evenly from a, by b per
// hour, when it was t0 before: the exact answer of a first-order lag.
func lagged(lag, t0, a, b, x float64) float64 {
	if lag == 0 {
		return a + b*x
	}
	return a + b*(x-lag) + (t0-a+b*lag)*math.Exp(-x/lag)
}
