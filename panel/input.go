package panel

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/tables"
)

// Dist is how an uncertain value is spread.
type Dist int

// The spreads. A standard normal z of 0 always gives the nominal value. For Normal and LogNormal
// Low and High have 5 in 100 below and above; for Triangular and Uniform they are the ends, half of
// the cases lying on each side of the nominal value.
const (
	Normal Dist = iota
	LogNormal
	Triangular
	Uniform
)

// Input is one uncertain value of a panel, moved by one standard normal of its own.
type Input struct {
	Path               string // board.left.ring_angle_deg, wood.oak.density
	What               string // in words
	Unit               string
	Group              string // wood, boards, climate, ground, fixings, lines
	Dist               Dist
	Low, Nominal, High float64
	Grade              tables.Grade
	Measurable         bool    // by somebody with simple tools
	Means              string  // how
	Minutes            float64 // that it takes
	TouchesObject      bool    // a tool touches the panel (never the paint)
}

// z95 is the standard normal value with 5 in 100 above it.
const z95 = 1.6448536269514722

// Value returns the value for a standard normal z, before it is kept within its physical range.
func (in Input) Value(z float64) float64 {
	switch in.Dist {
	case Normal:
		return in.Nominal + z*(in.High-in.Low)/(2*z95)
	case LogNormal:
		return in.Nominal * math.Exp(z*math.Log(in.High/in.Low)/(2*z95))
	}
	end, share := in.High, math.Erfc(z/math.Sqrt2) // 2 (1 - Phi(z)): 1 at the nominal value, 0 at the end
	if z < 0 {
		end, share = in.Low, math.Erfc(-z/math.Sqrt2)
	}
	if in.Dist == Triangular {
		share = math.Sqrt(share)
	}
	return end + (in.Nominal-end)*share
}

// Who may find the input out: one that moves or touches parts of the panel is left to a conservator.
func (in Input) Who() string {
	switch {
	case in.TouchesObject || in.Group == "fixings":
		return conservator
	case in.Group == "climate":
		return "whoever keeps the readings"
	}
	return Anyone
}

// groupOrder is the order in which inputs are listed: what usually matters most comes first.
var groupOrder = []string{"wood", "boards", "ground", "fixings", "climate", "lines", "history"}

// Inputs lists what is uncertain about the panel, in a fixed order, what usually matters most
// first; each is moved by one standard normal of its own in Realise. It is also the source of what
// to find out next.
func (p *Panel) Inputs() []Input {
	return slices.Clone(p.uncertain())
}

// uncertain works the inputs out once.
func (p *Panel) uncertain() []Input {
	p.once.Do(func() {
		d := newDraft(p, nil)
		_, _ = d.object() // a panel that cannot be realised still has the inputs found so far
		p.inputs, p.assumed = d.sorted(), d.assumed
	})
	return p.inputs
}

func (d *draft) sorted() []Input {
	out := slices.Clone(d.inputs)
	slices.SortStableFunc(out, func(a, b Input) int {
		return slices.Index(groupOrder, a.Group) - slices.Index(groupOrder, b.Group)
	})
	return out
}

// Realise returns the panel as plain numbers: nominal for nil, otherwise with the inputs moved by
// the standard normals z, one for each of [Panel.Inputs] in that order. Values are kept within
// their physical range. It returns an error for a wrong number of normals, for one that is not
// finite, and for a wood whose movement is not known.
func (p *Panel) Realise(z []float64) (*Object, error) {
	vals := map[string]float64{}
	if z != nil {
		in := p.uncertain()
		if len(z) != len(in) {
			return nil, fmt.Errorf("panel: %d standard normals are needed, one for each input, got %d", len(in), len(z))
		}
		for i, x := range in {
			if math.IsNaN(z[i]) || math.IsInf(z[i], 0) {
				return nil, fmt.Errorf("panel: the standard normal of %s must be finite, got %g", x.Path, z[i])
			}
			vals[x.Path] = x.Value(z[i])
		}
	}
	return newDraft(p, vals).object()
}

// Assumptions lists what the file does not give and what is taken instead, each once, in the order
// in which the panel is put together.
func (p *Panel) Assumptions() []Assumption {
	p.uncertain()
	return slices.Clone(p.assumed)
}
