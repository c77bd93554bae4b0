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
	mean := c.overWidth(m.bend)
	g.curvature, g.curvatureLow, g.curvatureHigh = g.curvature+mean, g.curvatureLow+mean, g.curvatureHigh+mean
	c.warp(s, free, g, du)
	s.CupPassing = c.passing(du)
	out := c.curvatures(free, g)
	for i := range out {
		out[i] += m.bend[i] - mean
	}
	return out
}

// overWidth averages a value of each board over the panel's width.
func (c *Case) overWidth(v []float64) float64 {
	var sum float64
	for i := range c.boards {
		sum += v[i] * c.boards[i].Width / c.o.Across
	}
	return sum
}

// curvatures returns the unheld curvature of each board between its edge faces: rings and ground. A
// board whose heart side is not known gives none of the rings.
func (c *Case) curvatures(free []section.Free, g groundEffect) []float64 {
	out := make([]float64, len(c.boards))
	for i := range c.boards {
		out[i] = g.curvature
		if c.boards[i].HeartKnown {
			out[i] += free[i].Bend
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
// known are taken half way between their two turns, and widen the range by the other half.
func (c *Case) warp(s *State, free []section.Free, g groundEffect, du []moisture.MC) {
	sections := c.sections()
	ring := section.Assemble(sections, free)
	middle, spread, shape := ring.Cup, 0.0, slices.Clone(ring.Z)
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
	var curvature float64
	for i := range c.boards {
		b := &c.boards[i]
		curvature += section.Passing(b.across(du[i]), b.Thickness) * b.Width / c.o.Across
	}
	return section.Sagitta(curvature, c.o.Across)
}

// groundEffect is what the ground does to the warp, and the wood to the ground.
type groundEffect struct {
	curvature, curvatureLow, curvatureHigh float64
	strainBack, strainFront                float64 // mechanical strain of the ground, NaN without one
}

// ground averages the layer stack over the boards by width.
func (c *Case) ground(du []moisture.MC) groundEffect {
	g := groundEffect{strainBack: math.NaN(), strainFront: math.NaN()}
	for i := range c.boards {
		b := &c.boards[i]
		front, back := layer(c.o.Front, b.left), layer(c.o.Back, b.left)
		w := b.Width / c.o.Across
		e := b.across(du[i])
		wood := section.Layer{E: b.stiff * b.left, Thickness: b.Thickness, Width: 1, Strain: e}
		r := section.OnWood(wood, front, back, e)
		if c.o.Front.GroundState != "continuous" {
			r.Curvature = (r.CurvatureLow + r.CurvatureHigh) / 2 // how far the cracks shut is not known
		}
		g.curvature += w * r.Curvature
		g.curvatureLow += w * r.CurvatureLow
		g.curvatureHigh += w * r.CurvatureHigh
		if i == 0 || math.Abs(r.FrontStrain) > math.Abs(g.strainFront) {
			g.strainFront = r.FrontStrain
		}
		if i == 0 || math.Abs(r.BackStrain) > math.Abs(g.strainBack) {
			g.strainBack = r.BackStrain
		}
	}
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
