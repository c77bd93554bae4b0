package assessment

import (
	"fmt"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/response"
)

// CalculatedRange is the range of humidity in which no limit of the model is reached, starting
// from the used-to humidity and held for a season. Nil with the reason in Why when a gate forbids
// it or a limit is reached at the used-to humidity already.
type CalculatedRange struct {
	Nominal, Unfavourable       *Limits
	WhyNominal, WhyUnfavourable string
}

// Limits are the ends of a range and what stands there: mode:part, or cap when no limit was met
// up to the cap of 30..70 % RH (wider where the panel is known to have lived wider).
type Limits struct {
	Low, High     moisture.RH
	LowBy, HighBy string
}

// caps returns the humidities beyond which no range is given.
func caps(r *Result) (low, high moisture.RH) {
	low, high = min(0.30, r.Object.UsedTo), max(0.70, r.Object.UsedTo)
	if r.Object.LivedHigh > 0 {
		low, high = min(low, r.Object.LivedLow), max(high, r.Object.LivedHigh)
	}
	if r.From == "record" {
		low, high = min(low, r.Low), max(high, r.High)
	}
	return low, high
}

func calculated(c *response.Case, d *doubt, o *panel.Object, r *Result) (CalculatedRange, error) {
	for _, g := range r.Gates {
		if g.NoFigures {
			return CalculatedRange{WhyNominal: "gate: " + g.ID, WhyUnfavourable: "gate: " + g.ID}, nil
		}
	}
	var out CalculatedRange
	var err error
	if out.Nominal, out.WhyNominal, err = limits(c, d, o, r, 0); err != nil {
		return out, err
	}
	out.Unfavourable, out.WhyUnfavourable, err = limits(c, d, o, r, z95)
	return out, err
}

func limits(c *response.Case, d *doubt, o *panel.Object, r *Result, z float64) (*Limits, string, error) {
	s := &search{c: c, d: d, z: z}
	if top, by, err := s.top(o.UsedTo); err != nil || top >= 1 {
		return nil, by + " reaches its limit at the used-to humidity already", err
	}
	lo, hi := caps(r)
	var l Limits
	var err error
	if l.Low, l.LowBy, err = s.outward(o.UsedTo, lo); err != nil {
		return nil, "", err
	}
	l.High, l.HighBy, err = s.outward(o.UsedTo, hi)
	return &l, "", err
}

type search struct {
	c *response.Case
	d *doubt
	z float64
}

// top returns the greatest share (with z standard deviations of doubt) of the modes that set the range.
func (s *search) top(rh moisture.RH) (share float64, by string, err error) {
	states, err := s.c.Settle([]moisture.RH{rh})
	if err != nil {
		return 0, "", err
	}
	for j, dem := range states[0].Demands {
		if !dem.Mode.SetsRange() || dem.Unlimited() {
			continue
		}
		v := dem.Share()
		if s.z > 0 {
			v = s.d.at(rh, j, dem).high(v, s.z)
		}
		if v > share*(1+1e-6) { // parts alike differ by rounding: the first is named
			share, by = v, fmt.Sprintf("%s:%s", dem.Mode, dem.Part)
		}
	}
	return share, by, nil
}

// outward walks from the used-to humidity to the cap in steps of two points and closes in on the
// first humidity at which a limit is reached.
func (s *search) outward(from, to moisture.RH) (moisture.RH, string, error) {
	step := moisture.RH(0.02)
	if to < from {
		step = -step
	}
	inside := from
	for inside != to {
		next := inside + step
		if (to-next)*step <= 0 {
			next = to
		}
		share, by, err := s.top(next)
		if err != nil {
			return 0, "", err
		}
		if share >= 1 {
			return s.bisect(inside, next, by)
		}
		inside = next
	}
	return to, "cap", nil
}

func (s *search) bisect(inside, outside moisture.RH, by string) (moisture.RH, string, error) {
	for range 8 {
		mid := (inside + outside) / 2
		share, who, err := s.top(mid)
		if err != nil {
			return 0, "", err
		}
		if share >= 1 {
			outside, by = mid, who
		} else {
			inside = mid
		}
	}
	return inside, by, nil
}
