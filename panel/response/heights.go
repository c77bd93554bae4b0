package response

import (
	"crossgrain/moisture"
	"crossgrain/panel/restraint"
)

// outward is a row across the thickness and its place across the panel.
type outward struct {
	row  int
	x    float64
	sign float64 // -1 where it goes towards the back
}

// outward lists the rows across the thickness.
func (w *whole) outward(c *Case, members []restraint.Member, looks []restraint.Look) {
	for i := range members {
		sign := 1.0
		if members[i].Front {
			sign = -1
		}
		for k, f := range members[i].At {
			w.out = append(w.out, outward{w.a.Row(i, k) + 1, f.X, sign})
		}
	}
	for i, q := range looks {
		if q.Out {
			w.out = append(w.out, outward{w.looks[i], q.X, 1})
		}
	}
}

// rises works out how high the unheld panel stands for units of what moves it.
func (c *Case) rises(w *whole) {
	const du, bend = 0.02, 1e-5
	at := func(m moment, unit float64) []float64 {
		var s State
		c.move(&s, m)
		h := heights(&s, w.out)
		for i := range h {
			h[i] /= unit
		}
		return h
	}
	for i := range c.boards {
		var rise [2][]float64
		for k, d := range [2]float64{-du, du} {
			m := c.rest()
			m.mc[i] += moisture.MC(d)
			rise[k] = at(m, d)
		}
		w.rise = append(w.rise, rise)
		m := c.rest()
		m.bend[i] = bend
		w.curl = append(w.curl, at(m, bend))
	}
}

// rest is the panel at the humidity it is used to.
func (c *Case) rest() moment {
	m := c.still()
	for i := range c.boards {
		m.rh[i], m.mc[i], m.loop[i] = c.o.UsedTo, c.boards[i].used, c.boards[i].used
	}
	return m
}

// heights reads the profile of an unheld state at the rows across the thickness.
func (c *Case) heights(s *State) []float64 { return heights(s, c.planned.out) }

func heights(s *State, out []outward) []float64 {
	h := make([]float64, len(out))
	for i, o := range out {
		k := 1
		for k < len(s.Stations)-1 && s.Stations[k] < o.x {
			k++
		}
		a, b := s.Stations[k-1], s.Stations[k]
		h[i] = s.Profile[k]
		if b > a {
			h[i] += (s.Profile[k-1] - s.Profile[k]) * min(max((b-o.x)/(b-a), 0), 1)
		}
	}
	return h
}

// height adds up how high the unheld panel stands.
func (w *whole) height(du, bend []float64) []float64 {
	h := make([]float64, len(w.out))
	for i, d := range du {
		k := 0
		if d > 0 {
			k = 1
		}
		for j := range h {
			h[j] += w.rise[i][k][j]*d + w.curl[i][j]*bend[i]
		}
	}
	return h
}
