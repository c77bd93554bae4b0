package response

import (
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
)

// timber is the moisture of all boards of one build: along the mean curve, which is the cautious end
// of the movement, and with the memory of turning points, which is the other.
type timber struct {
	of       alike
	mean     *profile.Solver
	memory   *profile.Solver // nil: the wood has no wetting and drying curves
	z, dz    []float64
	sorption func(u float64) moisture.RH // humidity in balance with a moisture content of the mean curve
	share    [][]float64                 // of each level in each layer
	u        []float64
	layer    []float64
}

// newTimber makes the solvers of a board and how its levels fall into layers.
func (c *Case) newTimber(b *board, p pace, memory bool) (*timber, error) {
	w, err := c.wall(b)
	if err != nil {
		return nil, err
	}
	t := &timber{of: c.likeness(b)}
	o := p.mesh
	o.Memory = profile.Mean
	if t.mean, err = profile.New(w, o); err != nil {
		return nil, fmt.Errorf("board %s: %w", b.Name, err)
	}
	if memory && w.Storage.Branches != nil {
		o.Memory = profile.Turning
		if t.memory, err = profile.New(w, o); err != nil {
			return nil, fmt.Errorf("board %s: %w", b.Name, err)
		}
	}
	t.z, t.dz = t.mean.Cells()
	t.share = layerShares(t.dz, p.layers)
	t.layer = make([]float64, p.layers)
	t.sorption = func(u float64) moisture.RH {
		rh, err := b.Sorption.Mean.RH(moisture.MC(u), c.o.Temperature)
		if err != nil {
			return moisture.RH(math.NaN())
		}
		return rh
	}
	return t, nil
}

// layerShares returns which share of each of n even layers every level fills; a level stands for the
// thickness dz, from the back.
func layerShares(dz []float64, n int) [][]float64 {
	h := total(dz)
	out := make([][]float64, n)
	for k := range out {
		lo, hi := h*float64(k)/float64(n), h*float64(k+1)/float64(n)
		out[k] = make([]float64, len(dz))
		at := 0.0
		for i, d := range dz {
			out[k][i] = math.Max(0, math.Min(hi, at+d)-math.Max(lo, at)) / (hi - lo)
			at += d
		}
	}
	return out
}

func (t *timber) start(c profile.Climate) error {
	if err := t.mean.Start(c); err != nil || t.memory == nil {
		return err
	}
	return t.memory.Start(c)
}

// step takes the wood through one step of the mean air over it.
func (t *timber) step(dt float64, air profile.Climate) error {
	if _, err := t.mean.Step(dt, air, air); err != nil || t.memory == nil {
		return err
	}
	_, err := t.memory.Step(dt, air, air)
	return err
}

// layers returns the mean moisture content of each layer, along the mean curve.
func (t *timber) layers() []float64 {
	t.u = t.mean.MC(t.u)
	for k, share := range t.share {
		t.layer[k] = 0
		for i, s := range share {
			t.layer[k] += s * t.u[i]
		}
	}
	return t.layer
}

// ends returns the mean moisture content along the mean curve and with memory.
func (t *timber) ends() (mean, memory float64) {
	mean = t.mean.Mean()
	if t.memory == nil {
		return mean, mean
	}
	return mean, t.memory.Mean()
}
