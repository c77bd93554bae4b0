package profile

import (
	"fmt"
	"math"
	"math/cmplx"

	"crossgrain/moisture"
	"crossgrain/tables"
)

// Arrival is how a swing of the room arrives at one place in the board.
type Arrival struct {
	Share float64 // amplitude relative to that of wood that follows at once
	Lag   float64 // s
}

// Attenuation is how a sinusoidal swing of the room's humidity arrives in the board.
type Attenuation struct {
	Mean, Skin, Painted Arrival
	// Gradient is the amplitude of 12/h int (y - 1/2) u dy, y = z/h, relative to that of wood that
	// follows at once: the factor of cupping.
	Gradient Arrival
}

// Periods of the year, s.
const (
	Day   = 86400.0
	Week  = 7 * Day
	Month = 30 * Day
	Year  = 365 * Day
)

// Attenuate returns how a small swing of the given period (s) about the climate arrives. With memory
// the wood moves on its small closed loops, whose slope is less than that of the mean curve: it
// holds less water per point of humidity and follows faster. The error names values out of range.
func Attenuate(w Wall, o Options, c Climate, period float64) (Attenuation, error) {
	s, err := New(w, o)
	if err != nil {
		return Attenuation{}, err
	}
	if err := s.Start(c); err != nil {
		return Attenuation{}, err
	}
	return s.Swing(period)
}

// Swing is [Attenuate] about the present state of the board.
func (s *Solver) Swing(period float64) (Attenuation, error) {
	if err := tables.InRange("period", period, 1, 1e3*Year, "s", ""); err != nil {
		return Attenuation{}, err
	}
	if s.air.g[0] == 0 && s.air.g[1] == 0 {
		return Attenuation{}, fmt.Errorf("both faces are sealed: the board does not follow the room")
	}
	s.eval(s.h)
	h := s.waves(period)
	var mean, lean complex128
	for i := range h {
		mean += complex(s.v[i]*1000/s.wall.Thickness, 0) * h[i]
		lean += complex(s.lean[i]*s.wall.Thickness, 0) * h[i]
	}
	return Attenuation{
		Mean: arrival(mean, period), Skin: arrival(h[0], period), Painted: arrival(h[len(h)-1], period),
		Gradient: arrival(lean, period),
	}, nil
}

func arrival(z complex128, period float64) Arrival {
	lag := -cmplx.Phase(z) / (2 * math.Pi)
	if lag < -1e-12 {
		lag++
	}
	return Arrival{cmplx.Abs(z), lag * period}
}

// waves solves the linear equations of a unit swing of the room's humidity.
func (s *Solver) waves(period float64) []complex128 {
	d := &s.air
	n := len(s.h)
	room := d.psat[0]
	if s.sheet == nil {
		room = pressure(s.wall.Transport.Saturation, d.one.T)
	}
	up, x := make([]complex128, n), make([]complex128, n)
	var before complex128
	lo := 0.0
	for i := range x {
		rate, next, in := lo, 0.0, 0.0
		if i == 0 {
			rate, in = d.g[0]*d.psat[0], d.g[0]*room
		}
		if i < n-1 {
			k := d.gc[i] * (s.sdp[i] + s.sdp[i+1]) / 2
			rate, next = rate+k, k
		} else {
			rate, in = rate+d.g[1]*d.psat[i], in+d.g[1]*room
		}
		pivot := complex(rate, 2*math.Pi/period*s.v[i]*s.loopSlope(i))
		rhs := complex(in, 0)
		if i > 0 {
			pivot -= complex(lo, 0) * before
			rhs += complex(lo, 0) * x[i-1]
		}
		before = complex(next, 0) / pivot
		up[i], x[i] = before, rhs/pivot
		lo = next
	}
	for i := n - 2; i >= 0; i-- {
		x[i] += up[i] * x[i+1]
	}
	return x
}

// loopSlope is du/dh of a small closed swing at level i: with memory, that of wood which wets after
// having dried to where it is.
func (s *Solver) loopSlope(i int) float64 {
	if s.o.Memory != Turning {
		return s.sdu[i]
	}
	const small = 1e-6
	at := moisture.StartShare(&s.b, s.h[i], 1)
	_, du := at.At(&s.b, min(s.h[i]+small, 1))
	return max(du, leastSlope) * s.air.heat
}
