package scenario

import (
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/tables"
)

// After returns the climate in the case when it has stood closed for so many hours (0 to 1e6) in a
// room that stays as it is, in closed form: the case comes to the temperature it has by then with the
// water it has; from there air and quick wood go towards the vapour of the room with the slow wood
// trailing, two exponentials. Moisture curves are taken as straight between both humidities.
//
// It is exact where the temperatures are alike and the curve of the wood is straight; [Case.Run] is
// there for the rest. When the case would be saturated After returns an error and no number.
func (c Case) After(room Climate, hours float64) (Climate, error) {
	if err := c.ready(room); err != nil {
		return Climate{}, err
	}
	if err := tables.InRange("time", hours, 0, 1e6, "h", ""); err != nil {
		return Climate{}, err
	}
	t := lagged(c.Lag, float64(c.Start.T), float64(room.T), 0, hours)
	if c.open() {
		return c.within(room.vapour()/saturation(t), t)
	}
	p, d, g, err := c.pair(room, t)
	if err != nil {
		return Climate{}, err
	}
	d, _ = p.after(d, g, hours)
	return c.within(p.rest+d, t)
}

func (c Case) ready(room Climate) error {
	if err := c.Validate(); err != nil {
		return err
	}
	return room.validate("of the room")
}

func (c Case) within(h, t float64) (Climate, error) {
	if h > 1+1e-12 {
		return Climate{}, fmt.Errorf("water condenses in the case at %.3g °C; how much must be worked out from a record of the room", t)
	}
	return Climate{moisture.RH(max(min(h, 1), 0)), moisture.Celsius(t)}, nil
}

// Until returns the hours after which a case closed in a room that stays as it is first reads the
// given humidity, after [Case.After], and false where it does not within 1e6 hours. Errors as After.
func (c Case) Until(room Climate, reading moisture.RH) (hours float64, reached bool, err error) {
	if err := tables.InRange("reading", reading.Percent(), 0, 100, "%", ""); err != nil {
		return 0, false, err
	}
	off := func(hours float64) float64 {
		x, e := c.After(room, hours)
		if e != nil {
			err = e
		}
		return float64(x.RH - reading)
	}
	lo, first := 0.0, off(0)
	if err != nil || math.Abs(first) < 1e-9 {
		return 0, err == nil, err
	}
	for hi := 0.01; hi < 1e6 && err == nil; hi *= 1.05 {
		if off(hi)*first <= 0 {
			return bisect(lo, hi, func(x float64) bool { return off(x)*first <= 0 }), err == nil, err
		}
		lo = hi
	}
	return 0, false, err
}

// bisect returns where ok becomes true between lo, where it is not, and hi, where it is.
func bisect(lo, hi float64, ok func(float64) bool) float64 {
	for range 60 {
		mid := (lo + hi) / 2
		if ok(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// pair is air with quick wood, and slow wood, in a room whose vapour would give the humidity rest:
//
//	d' = -leak d - take (d - g),   g' = (d - g) follow
//
// with d and g the departures from rest of both, the slow wood's as the humidity it is in balance
// with. Rates in 1/h; air is the share of the air in the water of the quick part, t in °C.
type pair struct {
	rest, leak, take, follow, air, t float64
}

// pair returns the case at the temperature t with its water of the start, and d and g there.
func (c Case) pair(room Climate, t float64) (p pair, d, g float64, err error) {
	h0, t0 := float64(c.Start.RH), float64(c.Start.T)
	b := c.brim(t)
	h, liquid := b.solve(c.quickWater(h0, t0), 0, h0)
	if liquid > 0 {
		_, err = c.within(2, t)
		return p, 0, 0, err
	}
	p.rest = room.vapour() / saturation(t)
	d, g = h-p.rest, h-p.rest
	quick, slow := c.secant(h, min(p.rest, 1), t)
	p.t, p.air = t, c.perRH(t)/quick
	p = p.with(c.Exchange)
	if c.slow() > 0 {
		p.follow = 1 / c.Wood.Hours
		p.take = slow / quick * p.follow
		hs, e := c.Wood.isotherm().RH(moisture.MC(c.Wood.mc(h0, t0)), moisture.Celsius(t))
		if e != nil {
			return p, 0, 0, fmt.Errorf("slow wood of the case at %.3g °C: %w", t, e)
		}
		g = float64(hs) - p.rest
	}
	return p, d, g, nil
}

// secant is the water that the quick part and the slow wood take up between two humidities, g per
// unit of RH.
func (c Case) secant(a, b, t float64) (quick, slow float64) {
	if math.Abs(b-a) < 1e-6 {
		return c.quickSlope(a, t), c.slowSlope(a, t)
	}
	quick = (c.quickWater(b, t) - c.quickWater(a, t)) / (b - a)
	if m := c.slow(); m > 0 {
		slow = 1000 * m * (c.Wood.mc(b, t) - c.Wood.mc(a, t)) / (b - a)
	}
	return quick, slow
}

// after is the exact answer after x hours. Both eigenvalues are real and not above zero.
func (p pair) after(d, g, x float64) (float64, float64) {
	if math.IsInf(p.leak, 1) {
		return 0, g * math.Exp(-p.follow*x)
	}
	if p.follow == 0 {
		return d * math.Exp(-p.leak*x), g
	}
	// d' = a d + b g, g' = c d - c g
	a, b, c := -(p.leak + p.take), p.take, p.follow
	mean, half := (a-c)/2, math.Sqrt((a+c)*(a+c)/4+b*c)
	l1, l2 := mean+half, mean-half
	e1, e2 := math.Exp(l1*x), math.Exp(l2*x)
	// exp(Ax) = (e1 (A - l2) - e2 (A - l1)) / (l1 - l2)
	f := (e1 - e2) / (l1 - l2)
	k := (e2*l1 - e1*l2) / (l1 - l2)
	return k*d + f*(a*d+b*g), k*g + f*(c*d-c*g)
}
