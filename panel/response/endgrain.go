package response

import (
	"errors"
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/section"
)

// endgrain is the cross-section by finite elements, in two models: without any ground, and with the
// grounds as stiff as they can be. What the ground at hand does lies between them, at the place that the
// layered strip gives it. Where heart sides are not known each model is made twice, those boards one way
// and turned round, and the middle of both is taken.
type endgrain struct {
	models   [2][]*section.Model // bare, stiff (alike without a ground); each once or twice
	out      [2][]*section.Out
	straight []string // boards that hold their pith, taken with straight rings
	loads    [][]float64
	perMC    []share // by board, for a unit of moisture content
	perBend  []share // by board, for a unit of curvature by a gradient
}

// share is what one board adds to warp and width of the panel, mm, in both models.
type share struct{ cup, width [2]float64 }

// ringsAs is how boards whose heart side is not known are taken.
type ringsAs int

const (
	asGiven ringsAs = iota
	turned
	straightened // half way between: for drawings
)

// newEndgrain builds the section; it fails where the boards lie outside what the elements can do.
func (c *Case) newEndgrain() (*endgrain, error) {
	e := &endgrain{}
	ways := []ringsAs{asGiven}
	for i := range c.boards {
		if _, inside := c.timber(i, asGiven); inside {
			e.straight = append(e.straight, c.boards[i].Name)
		} else if !c.boards[i].HeartKnown {
			ways = []ringsAs{asGiven, turned}
		}
	}
	front, back := coats(c.o.Front, c.boards[0].left), coats(c.o.Back, c.boards[0].left)
	for _, way := range ways {
		for k := range e.models {
			if k == 1 && front == nil && back == nil {
				e.models[1] = e.models[0]
				break
			}
			timbers := make([]section.Timber, len(c.boards))
			for i := range timbers {
				timbers[i], _ = c.timber(i, way)
				if k == 1 {
					timbers[i].Front, timbers[i].Back = front, back
				}
			}
			m, err := section.Build(timbers, section.Options{Fineness: c.setting.fineness()})
			if err != nil {
				return nil, fmt.Errorf("section: %w", err)
			}
			e.models[k] = append(e.models[k], m)
		}
	}
	for k := range e.models {
		for _, m := range e.models[k] {
			e.out[k] = append(e.out[k], m.NewOut())
		}
	}
	return e, e.units(c)
}

func (s Setting) fineness() section.Fineness {
	if s == Fine {
		return section.Fine
	}
	return section.Coarse
}

// timber is board i as the elements take it; inside says that it holds its pith and is taken with
// straight rings.
func (c *Case) timber(i int, way ringsAs) (t section.Timber, inside bool) {
	b := &c.boards[i]
	t = section.Timber{Board: b.section, GrainSlope: b.GrainSlope * math.Pi / 180}
	t.HeartFront = b.heartUp
	if b.ThicknessLeft > 0 && b.ThicknessRight > 0 {
		t.ThicknessLeft, t.ThicknessRight = b.ThicknessLeft, b.ThicknessRight
	}
	if bevel := (section.Bevel{Width: b.BevelWidth, Edge: b.BevelEdge}); bevel.Width > 0 {
		if i == 0 {
			t.BevelLeft = bevel
		}
		if i == len(c.boards)-1 {
			t.BevelRight = bevel
		}
	}
	_, err := b.section.Free(0.001, 0.001)
	var pith *section.PithInsideError
	inside = errors.As(err, &pith)
	switch {
	case inside || !b.HeartKnown && way == straightened:
		t.PithKnown, t.RingRadius = false, math.Inf(1)
	case !b.HeartKnown && way == turned:
		t.HeartFront = !t.HeartFront
	}
	n := b.Wood.At(b.used)
	k := b.StiffnessReduction * b.left
	t.Wood = section.Elastic{
		ER: n.ER * k, ET: n.ET * k, EL: n.EL * b.StiffnessReduction, GRT: n.GRT * k,
		NuRT: n.NuRT, NuLR: n.NuLT, NuLT: n.NuLT, // one number along the grain is known of most woods
	}
	return t, inside
}

// coats is the ground of a face, uncracked, as it acts over a season. Poisson's number 0.3: assumption.
func coats(f panel.Face, left float64) []section.Coat {
	g := layer(f, left)
	if g.Thickness == 0 || g.ECompression <= 0 || g.State == "lost" || g.State == "lifting" {
		return nil
	}
	return []section.Coat{{Thickness: g.Thickness, E: g.ECompression, Nu: 0.3}}
}

// units finds what each board adds to warp and width.
func (e *endgrain) units(c *Case) error {
	e.loads = make([][]float64, len(c.boards))
	du := make([]moisture.MC, len(c.boards))
	bend := make([]float64, len(c.boards))
	one := func() (s share, err error) {
		if err := e.eval(c, du, bend); err != nil {
			return s, err
		}
		s.cup = e.both(func(o *section.Out) float64 { return o.Cup })
		s.width = e.both(func(o *section.Out) float64 { return o.Width })
		return s, nil
	}
	for i := range c.boards {
		du[i] = 1
		s, err := one()
		if err != nil {
			return err
		}
		e.perMC = append(e.perMC, s)
		du[i], bend[i] = 0, 1
		if s, err = one(); err != nil {
			return err
		}
		e.perBend = append(e.perBend, s)
		bend[i] = 0
	}
	return nil
}

// eval solves the models for changes of moisture content and curvatures of the boards by a gradient.
func (e *endgrain) eval(c *Case, du []moisture.MC, bend []float64) error {
	for k := range e.models {
		for n, m := range e.models[k] {
			for i := range c.boards {
				b := &c.boards[i]
				if len(e.loads[i]) != m.Loads(i) {
					e.loads[i] = make([]float64, m.Loads(i))
				}
				if _, err := m.Fill(e.loads[i], i, b.movement(du[i], bend[i])); err != nil {
					return fmt.Errorf("board %s: %w", b.Name, err)
				}
			}
			if err := m.Eval(e.out[k][n], e.loads); err != nil {
				return err
			}
		}
	}
	return nil
}

// both takes a number from the bare and from the stiff model, in the middle of both turns.
func (e *endgrain) both(f func(*section.Out) float64) (v [2]float64) {
	for k := range e.out {
		for _, o := range e.out[k] {
			v[k] += f(o) / float64(len(e.out[k]))
		}
	}
	return v
}

// movement is the free strain of a board: even through the thickness, and a straight part that bends its
// width by the curvature given.
func (b *board) movement(du moisture.MC, bend float64) *section.Movement {
	eR, eT := b.strains(du)
	slope := bend * b.Thickness / 2 / b.per // in moisture content, at the front face
	r, t, l := b.Wood.SwellR*slope, b.Wood.SwellT*slope, b.Wood.SwellL
	along := l * float64(du)
	return &section.Movement{
		At: []float64{0, 1}, R: []float64{eR - r, eR + r}, T: []float64{eT - t, eT + t},
		L: []float64{along - l*slope, along + l*slope},
	}
}

// sum is warp or width by the answers to units.
func (e *endgrain) sum(c *Case, du []moisture.MC, bend []float64, of func(*share) [2]float64) float64 {
	held, _, _ := c.held(du, c.ground(du))
	var sum float64
	for i := range du {
		sum += between(of(&e.perMC[i]), held)*float64(du[i]) + between(of(&e.perBend[i]), held)*bend[i]
	}
	return sum
}

// held is where the ground at hand stands between none and the stiffest, 0 to 1: for the middle and the
// two ends of its range, by the layered strip.
func (c *Case) held(du []moisture.MC, g groundEffect) (middle, low, high float64) {
	most := c.whole(du, 1)
	if most == 0 {
		return 0, 0, 0
	}
	return g.curvature / most, g.curvatureLow / most, g.curvatureHigh / most
}

// whole is the curvature under grounds without any crack, at a share of their stiffness.
func (c *Case) whole(du []moisture.MC, share float64) float64 {
	if share == 1 {
		return c.groundBy(du, c.uncracked).curvature
	}
	return c.groundBy(du, c.skins(uncracked(share))).curvature
}

// uncracked makes a ground whole and gives it a share of its stiffness.
func uncracked(share float64) func(section.Ground) section.Ground {
	return func(g section.Ground) section.Ground {
		g.State, g.ECompression = "continuous", g.ECompression*share
		g.ETension = g.ECompression
		return g
	}
}

// between takes a value between the two models.
func between(v [2]float64, held float64) float64 { return v[0] + held*(v[1]-v[0]) }
