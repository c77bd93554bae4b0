package response

import (
	"fmt"
	"time"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
)

// Excursion returns the panel at the given times, which must rise, after the air at its faces has
// changed at once from one humidity, with which it was in balance, to another. Moisture goes along
// the mean curve, the quicker end. Creep is not counted: what is held counts in full against limits
// that hold for slow loading.
func (c *Case) Excursion(from, to moisture.RH, times []time.Duration) ([]State, error) {
	return c.ExcursionIn(from, func(time.Duration) (moisture.RH, error) { return to, nil }, times)
}

// ExcursionIn is [Case.Excursion] in air that goes its own way after the change, such as that of a closed
// case: air gives its humidity after a time.
func (c *Case) ExcursionIn(from moisture.RH, air func(time.Duration) (moisture.RH, error), times []time.Duration) ([]State, error) {
	woods, which, err := c.timbers(Coarse.pace(), false)
	if err != nil {
		return nil, err
	}
	start := profile.Climate{RH: from, T: c.o.Temperature}
	for _, w := range woods {
		if err := w.start(start); err != nil {
			return nil, err
		}
	}
	out := make([]State, 0, len(times))
	var now time.Duration
	for _, t := range times {
		if t <= now {
			return nil, fmt.Errorf("times of an excursion must rise, got %s", t)
		}
		dt := (t - now) / substeps
		for k := range time.Duration(substeps) {
			rh, err := air(now + k*dt + dt/2)
			if err != nil {
				return nil, err
			}
			for _, w := range woods {
				if err := w.step(dt.Seconds(), profile.Climate{RH: rh, T: c.o.Temperature}); err != nil {
					return nil, err
				}
			}
		}
		now = t
		s, err := c.at(c.momentOf(woods, which))
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

// substeps is how many steps lead from one time of an excursion to the next.
const substeps = 8

// momentOf reads a moment off the wood, without creep and set.
func (c *Case) momentOf(woods []*timber, which []int) moment {
	m := c.still()
	for k := range c.boards {
		b, w := &c.boards[k], woods[which[k]]
		u := w.mean.Mean()
		_, m1 := w.mean.Moments()
		m.rh[k] = w.sorption(u)
		m.mc[k] = moisture.MC(b.of(u, c.o.UsedTo, c.o.Temperature))
		m.loop[k] = m.mc[k]
		m.bend[k] = b.per * m1 * (1 + b.SorptionShift)
	}
	return m
}

// timbers makes the wood of all boards; boards alike share. which names the wood of each board.
func (c *Case) timbers(p pace, memory bool) (woods []*timber, which []int, err error) {
	for i := range c.boards {
		b := &c.boards[i]
		k := 0
		for k < len(woods) && woods[k].of != c.likeness(b) {
			k++
		}
		if k == len(woods) {
			w, err := c.newTimber(b, p, memory)
			if err != nil {
				return nil, nil, err
			}
			woods = append(woods, w)
		}
		which = append(which, k)
	}
	return woods, which, nil
}
