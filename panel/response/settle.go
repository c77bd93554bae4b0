package response

import (
	"context"
	"fmt"
	"math"
	"slices"

	"crossgrain/moisture"
)

// Settle returns the panel in balance with each humidity, held for a season, in the order given.
func (c *Case) Settle(rh []moisture.RH) ([]State, error) {
	out := make([]State, len(rh))
	by := make([]moisture.RH, len(c.boards))
	for i, h := range rh {
		if !(h >= 0 && h <= 1) {
			return nil, fmt.Errorf("response: humidity must lie between 0 and 100 %% RH, got %g", h.Percent())
		}
		for k := range by {
			by[k] = h
		}
		var err error
		if out[i], err = c.settle(by); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// Through takes the panel through a climate in time. At setting Quick it hands over three states:
// every board at its lowest, mean and highest running mean over its own response time.
func (c *Case) Through(ctx context.Context, s Series, k Sink) (Ending, error) {
	var by [3][]moisture.RH
	boards, err := c.Boards()
	if err != nil {
		return Ending{Why: "boards"}, err
	}
	for i, b := range boards {
		if err := ctx.Err(); err != nil {
			return Ending{Why: "cancelled"}, err
		}
		low, mid, high, err := s.RunningMean(b.Window)
		if err != nil {
			return Ending{Why: "record"}, fmt.Errorf("board %s: %w", c.boards[i].Name, err)
		}
		for j, v := range []float64{low, mid, high} {
			by[j] = append(by[j], moisture.RH(v))
		}
	}
	for j, label := range []string{"driest", "middle", "dampest"} {
		st, err := c.settle(by[j])
		if err != nil {
			return Ending{Steps: j, Why: "restraint"}, err
		}
		st.Label = label
		if err := k.Take(&st); err != nil {
			return Ending{Steps: j, Why: "sink"}, err
		}
	}
	return Ending{Steps: 3, Why: "done"}, nil
}

// settle computes the state in balance; rh holds the humidity each board follows.
func (c *Case) settle(rh []moisture.RH) (State, error) { return c.at(c.settled(rh)) }

// settled is the moment in balance.
func (c *Case) settled(rh []moisture.RH) moment {
	m := c.still()
	for i := range c.boards {
		b := &c.boards[i]
		m.rh[i], m.mc[i] = rh[i], b.mc(rh[i], c.o.Temperature)
		m.loop[i] = b.used + b.loop(c.o.UsedTo, rh[i])
	}
	return m
}

// moment is what drives one state: what is in each board, and what has stayed in it.
type moment struct {
	rh   []moisture.RH // in balance with the mean moisture of the board
	mc   []moisture.MC // mean over the thickness, along the mean curve
	loop []moisture.MC // the same along the scanning loop
	bend []float64     // free curvature by moisture that differs from back to front, 1/mm, rounded positive
	set  []float64     // strain across the width that crushing has left, negative: shorter
	// stood is how the panel stands on its members then; nil: straight from where they hold nothing.
	stood *standing
}

// still returns a moment without gradient and set, its moisture to be filled in.
func (c *Case) still() moment {
	n := len(c.boards)
	return moment{
		rh: make([]moisture.RH, n), mc: make([]moisture.MC, n), loop: make([]moisture.MC, n),
		bend: make([]float64, n), set: make([]float64, n),
	}
}

// at computes the state at one moment.
func (c *Case) at(m moment) (State, error) {
	s := State{BoardRH: slices.Clone(m.rh)}
	var width float64
	for i := range c.boards {
		b := &c.boards[i]
		s.RH += m.rh[i] * moisture.RH(b.Width)
		s.MC += m.mc[i] * moisture.MC(b.Width)
		width += b.Width
	}
	s.RH /= moisture.RH(width)
	s.MC /= moisture.MC(width)
	curvature := c.move(&s, m)
	if err := c.hold(&s, m, curvature); err != nil {
		return s, err
	}
	if err := c.crack(&s); err != nil {
		return s, err
	}
	s.stood = s.stood.slim()
	c.cover(&s)
	c.fit(&s)
	return s, c.handle(&s)
}

// positive returns v where it is positive and 0 otherwise.
func positive(v float64) float64 { return math.Max(v, 0) }
