package response

import (
	"context"
	"fmt"
	"math"

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

// settle computes one state; rh holds the humidity each board follows.
func (c *Case) settle(rh []moisture.RH) (State, error) {
	s := State{BoardRH: append([]moisture.RH(nil), rh...)}
	du := make([]moisture.MC, len(c.boards))
	var width float64
	for i := range c.boards {
		b := &c.boards[i]
		u := b.mc(rh[i], c.o.Temperature)
		du[i] = u - b.used
		s.RH += rh[i] * moisture.RH(b.Width)
		s.MC += u * moisture.MC(b.Width)
		width += b.Width
	}
	s.RH /= moisture.RH(width)
	s.MC /= moisture.MC(width)
	curvature := c.move(&s, rh, du)
	if err := c.hold(&s, rh, curvature); err != nil {
		return s, err
	}
	if err := c.crack(&s); err != nil {
		return s, err
	}
	c.cover(&s)
	c.fit(&s)
	return s, c.handle(&s)
}

// positive returns v where it is positive and 0 otherwise.
func positive(v float64) float64 { return math.Max(v, 0) }
