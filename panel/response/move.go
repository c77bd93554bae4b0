package response

import (
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/section"
)

// move fills in the free movement: width along the mean curve and along the scanning loop, and the
// warp with the range that ground and unknown heart sides leave. It returns the unheld curvature of
// each board, which drives the panel on its battens.
func (c *Case) move(s *State, m moment) []float64 {
	free, du := make([]section.Free, len(c.boards)), make([]moisture.MC, len(c.boards))
	for i := range c.boards {
		b := &c.boards[i]
		du[i] = m.mc[i] - b.used
		free[i] = c.free(b, du[i], b.heartUp)
		kept := m.set[i] * b.Width
		s.BoardChange = append(s.BoardChange, free[i].Width+kept)
		s.Width += free[i].Width + kept
		s.WidthLoop += b.across(m.loop[i]-b.used)*b.Width + kept
	}
	g := c.ground(du)
	still := g
	mean := c.overSag(m.bend)
	g.curvature, g.curvatureLow, g.curvatureHigh = g.curvature+mean, g.curvatureLow+mean, g.curvatureHigh+mean
	spread := c.warp(s, free, g, du)
	if c.grain != nil {
		c.refine(s, m, du, still, spread)
	}
	s.CupPassing = c.passing(du)
	out := c.curvatures(free, g)
	for i := range out {
		out[i] += m.bend[i]
	}
	return out
}

// overSag averages a curvature of each board by what it does to the warp in the middle of the panel: a
// board near the middle counts more than one at an edge,
//
//	f = Int kappa(x) min(x, L-x)/2 dx
func (c *Case) overSag(v []float64) float64 {
	l := c.o.Across
	upTo := func(x float64) float64 { // of that integral for one curvature, over L^2/8
		if x > l/2 {
			return 1 - 2*(l-x)*(l-x)/(l*l)
		}
		return 2 * x * x / (l * l)
	}
	var sum, from float64
	for i := range c.boards {
		to := from + c.boards[i].Width
		sum += v[i] * (upTo(math.Min(to, l)) - upTo(math.Min(from, l)))
		from = to
	}
	return sum
}

// overWidth averages a value of each board over the panel's width.
func (c *Case) overWidth(v []float64) float64 {
	var sum float64
	for i := range c.boards {
		sum += v[i] * c.boards[i].Width / c.o.Across
	}
	return sum
}

// curvatures returns the unheld curvature of each board that a batten would have to take out, that of its middle
// line: rings, with the shear inside it, and ground. A board whose heart side is not known gives none of the rings.
func (c *Case) curvatures(free []section.Free, g groundEffect) []float64 {
	out := make([]float64, len(c.boards))
	for i := range c.boards {
		out[i] = g.boards[i]
		if c.boards[i].HeartKnown {
			out[i] += free[i].Curvature
		}
	}
	return out
}

// free returns the stress-free movement of one board; a board that holds the pith inside cannot
// move without stress and is taken with straight rings (the report says so).
func (c *Case) free(b *board, du moisture.MC, heartFront bool) section.Free {
	eR, eT := b.strains(du)
	sb := b.section
	sb.HeartFront = heartFront
	f, err := sb.Free(eR, eT)
	if err != nil {
		sb.PithKnown, sb.RingRadius = false, math.Inf(1)
		f, _ = sb.Free(eR, eT)
	}
	return f
}

// warp adds ring warp and ground warp. Positive: painted face rounded. Boards whose heart side is not
// known are taken half way between their two turns, and widen the range by the other half, which is returned.
func (c *Case) warp(s *State, free []section.Free, g groundEffect, du []moisture.MC) (spread float64) {
	sections := c.sections()
	ring := section.Assemble(sections, free)
	middle, shape := ring.Cup, slices.Clone(ring.Z)
	for i := range c.boards {
		b := &c.boards[i]
		if b.HeartKnown {
			continue
		}
		was := free[i]
		free[i] = c.free(b, du[i], !b.heartUp)
		turned := section.Assemble(sections, free)
		free[i] = was
		middle += (turned.Cup - ring.Cup) / 2
		spread += math.Abs(turned.Cup-ring.Cup) / 2
		for k := range shape {
			shape[k] += (turned.Z[k] - ring.Z[k]) / 2
		}
	}
	half := c.o.Across * c.o.Across / 8
	s.Cup = middle + g.curvature*half
	s.CupLow = middle - spread + math.Min(g.curvatureLow, g.curvatureHigh)*half
	s.CupHigh = middle + spread + math.Max(g.curvatureLow, g.curvatureHigh)*half
	s.GroundStrain = [2]float64{g.strainBack, g.strainFront}
	s.Stations, s.Profile = ring.X, shape
	for i, x := range s.Stations { // parabola of the ground on top of the rings
		s.Profile[i] += g.curvature * (half - (x-c.o.Across/2)*(x-c.o.Across/2)/2)
	}
	return spread
}

func (c *Case) sections() []section.Board {
	out := make([]section.Board, len(c.boards))
	for i := range c.boards {
		out[i] = c.boards[i].section
	}
	return out
}

// passing is the warp that a sudden change from the used-to humidity runs through while only a bare
// back has followed it and the painted face has stayed tight.
func (c *Case) passing(du []moisture.MC) float64 {
	if c.o.Back.Painted {
		return 0
	}
	curvature := make([]float64, len(c.boards))
	for i := range c.boards {
		b := &c.boards[i]
		curvature[i] = section.Passing(b.across(du[i]), b.Thickness)
	}
	return section.Sagitta(c.overSag(curvature), c.o.Across)
}

// groundEffect is what the ground does to the warp, and the wood to the ground.
type groundEffect struct {
	curvature, curvatureLow, curvatureHigh float64
	strainBack, strainFront                float64   // mechanical strain of the ground, NaN without one
	boards                                 []float64 // curvature of each board
}

// ground works the layer stack out for each board and averages it by what each does to the warp.
func (c *Case) ground(du []moisture.MC) groundEffect { return c.groundBy(du, c.asTheyAre) }

// skin is what the grounds do to a board for a unit of its free strain, longer positive.
type skin struct{ curvature, low, high, front, back float64 }

// skins works out what grounds do to every board when it shrinks and when it grows, the layers changed before they are used. A
// stack of layers without a strain of their own goes in proportion, with one factor for each sign.
func (c *Case) skins(change func(section.Ground) section.Ground) [][2]skin {
	out := make([][2]skin, len(c.boards))
	for i := range c.boards {
		b := &c.boards[i]
		front, back := change(layer(c.o.Front, b.left)), change(layer(c.o.Back, b.left))
		wood := section.Layer{E: b.stiff * b.left, Thickness: b.Thickness, Width: 1}
		for k, e := range [2]float64{-unit, unit} {
			r := section.OnWood(wood, front, back, e)
			if front.State != "continuous" {
				r.Curvature = (r.CurvatureLow + r.CurvatureHigh) / 2 // how far the cracks shut is not known
			}
			out[i][k] = skin{r.Curvature / e, r.CurvatureLow / e, r.CurvatureHigh / e, r.FrontStrain / e, r.BackStrain / e}
		}
	}
	return out
}

// groundBy averages what the skins do over the boards.
func (c *Case) groundBy(du []moisture.MC, skins [][2]skin) groundEffect {
	g := groundEffect{strainBack: math.NaN(), strainFront: math.NaN(), boards: make([]float64, 3*len(c.boards))}
	n := len(c.boards)
	low, high := g.boards[n:2*n], g.boards[2*n:]
	for i := range c.boards {
		e := c.boards[i].across(du[i])
		s := &skins[i][0]
		if e > 0 {
			s = &skins[i][1]
		}
		g.boards[i], low[i], high[i] = s.curvature*e, s.low*e, s.high*e
		if front := s.front * e; i == 0 || math.Abs(front) > math.Abs(g.strainFront) {
			g.strainFront = front
		}
		if back := s.back * e; i == 0 || math.Abs(back) > math.Abs(g.strainBack) {
			g.strainBack = back
		}
	}
	g.boards = g.boards[:n:n]
	g.curvature, g.curvatureLow, g.curvatureHigh = c.overSag(g.boards), c.overSag(low), c.overSag(high)
	return g
}

// layer is the ground of a face as it acts over a season. No relaxation of a ground was found; it is
// taken to keep the same share of its stress as the wood (assumption).
func layer(f panel.Face, left float64) section.Ground {
	if f.Ground == "none" || f.GroundMM == 0 {
		return section.Ground{}
	}
	return section.Ground{
		Thickness: f.GroundMM, State: f.GroundState, ETension: left * f.GroundE, ECompression: left * f.GroundEIntact,
	}
}
