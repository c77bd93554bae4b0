package response

import (
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/section"
)

// EndGrain is the whole cross-section at one humidity held for a season, nothing holding it, for drawings.
type EndGrain struct {
	RH                  moisture.RH
	Field               section.Field
	Cup, Largest, Width float64     // mm; see section.Out
	Rings               [][]float64 // of every node, by board: distance from the pith, or across straight rings, mm
	Straight            []bool      // boards drawn with straight rings because their heart side is not known
}

// EndGrain solves the cross-section as finely as is asked. The ground is as stiff as the middle of its
// range makes it at that humidity. Sections that cannot be made give the error of section.Build.
func (c *Case) EndGrain(rh moisture.RH, fineness section.Fineness) (*EndGrain, error) {
	du := make([]moisture.MC, len(c.boards))
	for i := range c.boards {
		du[i] = c.boards[i].mc(rh, c.o.Temperature) - c.boards[i].used
	}
	scale := c.groundScale(du)
	front, back := coats(c.o.Front, c.boards[0].left), coats(c.o.Back, c.boards[0].left)
	for _, layers := range [...][]section.Coat{front, back} {
		for k := range layers {
			layers[k].E *= scale
		}
	}
	var straight []bool
	timbers := make([]section.Timber, len(c.boards))
	for i := range timbers {
		var inside bool
		timbers[i], inside = c.timber(i, straightened)
		straight = append(straight, inside || !c.boards[i].HeartKnown)
		if scale > 0 {
			timbers[i].Front, timbers[i].Back = front, back
		}
	}
	m, err := section.Build(timbers, section.Options{Fineness: fineness})
	if err != nil {
		return nil, fmt.Errorf("section: %w", err)
	}
	loads := make([][]float64, len(c.boards))
	for i := range loads {
		loads[i] = make([]float64, m.Loads(i))
		if _, err := m.Fill(loads[i], i, c.boards[i].movement(du[i], 0)); err != nil {
			return nil, err
		}
	}
	out := m.NewOut()
	if err := m.Eval(out, loads); err != nil {
		return nil, err
	}
	g := &EndGrain{RH: rh, Cup: out.Cup, Largest: out.Largest, Width: out.Width, Straight: straight}
	if g.Field, err = m.Field(loads); err != nil {
		return nil, err
	}
	for i := range g.Field {
		g.Rings = append(g.Rings, rings(&g.Field[i], &timbers[i], c.boards[i].Left, timbers[0].Thickness-timbers[i].Thickness))
	}
	return g, nil
}

// groundScale is the share of its uncracked stiffness at which a ground bends the layered strip as the
// middle of its range does.
func (c *Case) groundScale(du []moisture.MC) float64 {
	held, _, _ := c.held(du, c.ground(du))
	if !(held > 0) {
		return 0
	}
	most := c.whole(du, 1)
	lo, hi := 0.0, 1.0
	for range 30 {
		if mid := (lo + hi) / 2; c.whole(du, mid)/most < held {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// rings gives every node its distance from the pith, or across straight rings. left and base are the
// board's own left edge and back in the axes of the panel.
func rings(f *section.BoardField, t *section.Timber, left, base float64) []float64 {
	out := make([]float64, len(f.X))
	px, pz, curved := t.Pith()
	for k := range out {
		x, z := f.X[k]-left, f.Z[k]-base
		if curved {
			out[k] = math.Hypot(x-px, z-pz)
		} else if len(f.Radial) > 0 {
			out[k] = x*f.Radial[0][0] + z*f.Radial[0][1]
		}
	}
	return out
}
