package restraint

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/creep"

	"gonum.org/v1/gonum/floats"
)

// Slowly is how the wood of one board yields under what holds it: with time, and with the way its
// moisture goes.
type Slowly struct {
	Chain creep.Chain
	Moist []creep.MoistureDriven
}

// Creep is what the forces of the fixings have made the panel creep so far, told as movements of the rows
// of an assembly. Every unit of force makes the movements creep in the shape in which they gain when one
// board yields by itself, so that creep follows the stress from place to place:
//
//	u' = (g G f - u)/tau,    u' = (m G f - u) |dw/dt|/path
//
// for every element of every board, G being what the flexibility gains per unit of that board's
// yielding. Linear viscoelasticity with one Poisson number; G is the secant between the two states of
// the assembly (see [plan.States] for its size).
type Creep struct {
	a      *Assembly
	boards []yielding
	rows   []float64 // scratch
}

// yielding is one board's part.
type yielding struct {
	Slowly
	now  []float64   // G f of the last step
	u    [][]float64 // of each element, the chain first: by row
	adds []float64   // how much of G f each takes up at the end of the present step
}

// NewCreep begins without any creep. wood holds one value for each board.
func (a *Assembly) NewCreep(wood []Slowly) (*Creep, error) {
	if len(wood) != a.boards {
		return nil, fmt.Errorf("creep must be given for each of %d boards, got %d", a.boards, len(wood))
	}
	c := &Creep{a: a, rows: make([]float64, a.rows)}
	for i, w := range wood {
		if err := w.Chain.Validate(); err != nil {
			return nil, fmt.Errorf("board %d: %w", i+1, err)
		}
		for _, m := range w.Moist {
			if !(m.M >= 0 && m.Path > 0) || math.IsInf(m.M, 0) {
				return nil, fmt.Errorf("board %d: moisture-driven creep must be 0 or more on a way above 0 kg/kg, got %g and %g", i+1, m.M, m.Path)
			}
		}
		y := yielding{Slowly: w, now: make([]float64, a.rows), adds: make([]float64, len(w.Chain.G)+len(w.Moist))}
		for range y.adds {
			y.u = append(y.u, make([]float64, a.rows))
		}
		c.boards = append(c.boards, y)
	}
	return c, nil
}

// Ahead begins a step of dt seconds in which the moisture of each board goes so far, kg/kg. It returns
// what each board gains in the step for [Assembly.Creeping]: time counts with the force at the end of the
// step, so that steps of any length are stable. The moisture's way counts with the force at its
// beginning, unless long asks for the end there too, as steps in which it goes far need.
func (c *Creep) Ahead(dt float64, way []float64, long bool) (gained []float64) {
	gained = make([]float64, len(c.boards))
	for b := range c.boards {
		y := &c.boards[b]
		n := len(y.Chain.G)
		for k, g := range y.Chain.G {
			gained[b] += y.decay(k, math.Exp(-dt/y.Chain.Tau[k]), g)
		}
		for k, m := range y.Moist {
			add := y.decay(n+k, math.Exp(-way[b]/m.Path), m.M)
			if long {
				gained[b] += add
				continue
			}
			floats.AddScaled(y.u[n+k], add, y.now)
			y.adds[n+k] = 0
		}
	}
	return gained
}

// decay lets an element run back and returns what it takes up.
func (y *yielding) decay(k int, left, g float64) float64 {
	floats.Scale(left, y.u[k])
	y.adds[k] = g * (1 - left)
	return y.adds[k]
}

// Take ends the step with the forces that resist at the rows.
func (c *Creep) Take(force []float64) {
	n := c.a.rows
	for i, s := range c.a.sign {
		c.rows[i] = s * force[i]
	}
	for b := range c.boards {
		y, g := &c.boards[b], c.a.states.Gain(b)
		for i, s := range c.a.sign {
			y.now[i] = s * floats.Dot(g[i*n:][:n], c.rows)
		}
		for k, add := range y.adds {
			if add != 0 {
				floats.AddScaled(y.u[k], add, y.now)
			}
		}
	}
}

// Withhold takes the creep off free movements: what the rows would show now if all fixings let go at
// once.
func (c *Creep) Withhold(free []float64) {
	for b := range c.boards {
		for _, u := range c.boards[b].u {
			floats.Sub(free, u)
		}
	}
}

// Last returns by how much the creep of a row has grown in the step that [Creep.Take] ended, mm: what
// [Creep.Withhold] had not yet taken off.
func (c *Creep) Last(row int) (sum float64) {
	for b := range c.boards {
		y := &c.boards[b]
		for _, add := range y.adds {
			sum += add * y.now[row]
		}
	}
	return sum
}

// Back is what a row gives back once its panel is let go, mm, by when.
type Back struct {
	Hours  float64 // within two days or so, by elements quicker than 20 hours
	Weeks  float64 // by the slower elements of the chain
	Cycles float64 // only as the moisture goes
	Year   float64 // the part of Cycles that a way of the given length brings back
}

// quick parts what comes back in hours from what takes weeks, s (the elements of spruce are 2, 20, 200 and
// 2000 hours).
const quick = 40 * 3600

// Back returns what the movement of a row still holds back as creep, and what a way of the moisture of
// each board, kg/kg, brings back.
func (c *Creep) Back(row int, way []float64) (out Back) {
	for b := range c.boards {
		y := &c.boards[b]
		n := len(y.Chain.G)
		for k, u := range y.u {
			switch {
			case k >= n:
				out.Cycles += u[row]
				out.Year -= u[row] * math.Expm1(-way[b]/y.Moist[k-n].Path)
			case y.Chain.Tau[k] < quick:
				out.Hours += u[row]
			default:
				out.Weeks += u[row]
			}
		}
	}
	return out
}
