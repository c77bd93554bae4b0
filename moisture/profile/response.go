package profile

import (
	"fmt"
	"math"
)

// Response holds the times a board needs after a step of the room, s.
type Response struct{ Half, Most float64 } // 50 % and 95 % of the change of the mean

// stepOf is the step of humidity, upwards unless there is no room for it.
const stepOf = 0.05

// ResponseTimes follows a board in balance with the climate after a step of 5 points of humidity
// until its mean has made 95 % of the change it will make in the end. The error names values out of
// range; a board that needs more than 300 years, and one with both faces sealed, is refused.
func ResponseTimes(w Wall, o Options, c Climate) (Response, error) {
	if w.Back.Sealed && w.Front.Sealed {
		return Response{}, fmt.Errorf("both faces are sealed: the board does not follow the room")
	}
	s, err := New(w, o)
	if err != nil {
		return Response{}, err
	}
	if err := s.Start(c); err != nil {
		return Response{}, err
	}
	to := c
	if to.RH += stepOf; to.RH > 0.95 {
		to.RH = c.RH - stepOf
	}
	from, end := s.Mean(), s.end(to)
	var r Response
	share, t := 0.0, 0.0
	for t < 300*Year {
		dt := math.Min(math.Max(1, t/50), Year)
		if _, err := s.Step(dt, to, to); err != nil {
			return r, err
		}
		now := (s.Mean() - from) / (end - from)
		r.Half = passing(r.Half, 0.50, t, dt, share, now)
		if r.Most = passing(r.Most, 0.95, t, dt, share, now); r.Most > 0 {
			return r, nil
		}
		share, t = now, t+dt
	}
	return r, fmt.Errorf("the board has made %.0f %% of its change after 300 years", 100*share)
}

// end is the mean moisture content after a very long time in other air, reached straight from the
// present state: the steady solution of one step of a hundred million years.
func (s *Solver) end(c Climate) float64 {
	s.setAir(&c)
	copy(s.trial, s.h)
	copy(s.base, s.u)
	s.solve(3e15)
	return s.meanAt(s.trial)
}

// meanAt is the mean moisture content at the given humidities.
func (s *Solver) meanAt(h []float64) float64 {
	s.eval(h)
	m := 0.0
	for i, v := range s.v {
		m += v * s.su[i]
	}
	return 1000 * m / s.wall.Thickness
}

// passing returns when a share was passed, by a straight line within the step.
func passing(done, share, t, dt, before, now float64) float64 {
	if done > 0 || now < share {
		return done
	}
	return t + dt*(share-before)/(now-before)
}
