package response

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/restraint"
	"crossgrain/panel/section"
)

// Section is the cross-section of the panel by finite elements, nothing holding it, beside what the
// closed forms say. Lengths mm, stress MPa.
type Section struct {
	ClosedCup, ClosedWidth float64 // by the closed forms
	Ground                 float64 // where the ground at hand stands between none (0) and the stiffest (1)
	WidthFront, WidthBack  float64 // change at the painted face and at the back
	Front, Back            Extremes
	Joins                  []JoinStress
	Bow, Twist             float64 // curvature along the grain and twist, 1/mm; see section.Out
	// Straight lists boards that hold the pith and were taken with straight rings.
	Straight []string
}

// Extremes are the stresses across the grain in the wood next to a face, and where they act.
type Extremes struct{ Press, PressAt, Pull, PullAt float64 }

// JoinStress is what the boards at a join do to one another: greatest tractions away from its ends, where
// they are singular (a tenth of its height each), and the sums, N and N mm for each mm of its length.
type JoinStress struct {
	Name        string
	Pull, Slide float64 // MPa; Pull is the greatest that opens it
	N, V, M     float64
}

// Refine makes the cross-section by finite elements, which from then on gives warp, width and inner stress of every state,
// and the plan of the panel on all its members, which gives what they hold; the closed forms stay beside them. It says why
// where either cannot be made: there the closed forms stand alone.
func (c *Case) Refine() (why string) { return c.refineAs(nil) }

func (c *Case) refineAs(like *restraint.Assembly) (why string) {
	e, err := c.newEndgrain()
	if err == nil {
		c.grain = e
	} else {
		why = err.Error()
	}
	w, err := c.newWhole(like)
	switch {
	case err == nil:
		c.planned = w
	case why == "":
		why = err.Error()
	}
	return why
}

// refine puts the answers of the elements into a state whose closed forms are worked out.
func (c *Case) refine(s *State, m moment, du []moisture.MC, g groundEffect, spread float64) {
	e := c.grain
	if e.eval(c, du, m.bend) != nil {
		return // not finite: the closed forms stand
	}
	held, low, high := c.held(du, g)
	mix := func(f func(*section.Out) float64) float64 { return between(e.both(f), held) }
	kept := 0.0
	for i := range c.boards {
		kept += m.set[i] * c.boards[i].Width
	}
	stations := e.models[0][0].Stations()
	s.Section = &Section{ClosedCup: s.Cup, ClosedWidth: s.Width, Ground: held, Straight: e.straight,
		WidthFront: mix(func(o *section.Out) float64 { return o.WidthFront }) + kept,
		WidthBack:  mix(func(o *section.Out) float64 { return o.WidthBack }) + kept,
		Bow:        mix(func(o *section.Out) float64 { return o.Bow }),
		Twist:      mix(func(o *section.Out) float64 { return o.Twist }),
		Front:      e.extremes(stations, held, func(o *section.Out) *[section.Places]float64 { return &o.FrontStress }),
		Back:       e.extremes(stations, held, func(o *section.Out) *[section.Places]float64 { return &o.BackStress }),
	}
	for j := range e.out[0][0].Joins {
		s.Section.Joins = append(s.Section.Joins, e.join(j, c.o.Joins[j].Name, held))
	}
	cup := e.both(func(o *section.Out) float64 { return o.Cup })
	s.Cup = between(cup, held)
	s.CupLow = math.Min(between(cup, low), between(cup, high)) - spread
	s.CupHigh = math.Max(between(cup, low), between(cup, high)) + spread
	width := mix(func(o *section.Out) float64 { return o.Width })
	if free := s.Width - kept; free != 0 {
		s.WidthLoop = kept + (s.WidthLoop-kept)*width/free
	}
	s.Width = width + kept
	s.Stations, s.Profile = stations[:], make([]float64, len(stations))
	for i := range s.Profile {
		s.Profile[i] = mix(func(o *section.Out) float64 { return o.Warp[i] })
	}
}

// extremes finds the largest pull and press between the models, of either turn.
func (e *endgrain) extremes(x [section.Places]float64, held float64, of func(*section.Out) *[section.Places]float64) Extremes {
	out := Extremes{Press: math.Inf(1), Pull: math.Inf(-1)}
	for n := range e.out[0] {
		a, b := of(e.out[0][n]), of(e.out[1][n])
		for i := range a {
			v := between([2]float64{a[i], b[i]}, held)
			if v < out.Press {
				out.Press, out.PressAt = v, x[i]
			}
			if v > out.Pull {
				out.Pull, out.PullAt = v, x[i]
			}
		}
	}
	return out
}

// join finds the largest tractions between the models, of either turn.
func (e *endgrain) join(j int, name string, held float64) JoinStress {
	out := JoinStress{Name: name}
	for n := range e.out[0] {
		one := joinStress(name, &e.out[0][n].Joins[j], &e.out[1][n].Joins[j], held)
		if n == 0 || one.Pull > out.Pull {
			out = one
		}
	}
	return out
}

func joinStress(name string, a, b *section.JoinOut, held float64) JoinStress {
	mix := func(x, y float64) float64 { return between([2]float64{x, y}, held) }
	out := JoinStress{Name: name, N: mix(a.N, b.N), V: mix(a.V, b.V), M: mix(a.M, b.M)}
	n := len(a.Pull)
	for k := max(1, n/10); k < n-max(1, n/10); k++ {
		out.Pull = math.Max(out.Pull, mix(a.Pull[k], b.Pull[k]))
		if v := mix(a.Shear[k], b.Shear[k]); math.Abs(v) > math.Abs(out.Slide) {
			out.Slide = v
		}
	}
	return out
}
