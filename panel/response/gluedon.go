package response

import (
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/restraint"
)

// gluedOn is a piece of wood glued across the panel's grain over its whole length that is neither batten nor
// slider: a butterfly, a glued button, a cleat, a breadboard end, or a side of an engaged frame.
type gluedOn struct {
	holder
	from, to float64
	el, g    float64 // along its own grain, and in shear, MPa
	fixed    moisture.RH
	side     float64 // 1 behind, 0 within the thickness, -1 in front
	sunk     float64 // how deep its face lies below the panel's surface, mm
}

// shortest is the length across the grain below which such a piece is left out, mm: over less than a
// thickness or so it holds nothing that a plate can tell.
const shortest = 10

// gluedOns lists them. A piece with its grain along the panel's moves with it and holds nothing; dowels and
// tongues hold the boards to one another and not across the grain.
func (c *Case) gluedOns() (out []gluedOn) {
	for i := range c.o.Inserts {
		p := &c.o.Inserts[i]
		if !p.AcrossGrain || p.Kind == "dowel" || p.Kind == "tongue" {
			continue
		}
		g := gluedOn{
			holder: holder{part: "insert." + p.Name, what: p.Kind, y: p.Y, width: p.Width, depth: p.Depth},
			from:   p.X - p.Length/2, to: p.X + p.Length/2, el: p.Wood.EL, g: shearOf(p.Wood), fixed: p.Fixed, side: 1,
		}
		if p.Kind == "butterfly" {
			g.side, g.sunk = 0, p.Depth
		}
		out = append(out, g)
	}
	out = append(out, c.frameSides()...)
	kept := out[:0]
	for _, g := range out {
		g.from, g.to = max(g.from, 0), min(g.to, c.o.Across)
		if g.to-g.from < shortest || !(g.width > 0 && g.depth > 0) || !(g.y >= 0 && g.y <= c.o.Along) {
			continue
		}
		g.glued = true
		g.fix = glueLine(g.from, g.to)
		kept = append(kept, g)
	}
	return kept
}

// frameSides are the sides of the frame across the grain that are fixed to the panel: engaged ones in front,
// and grooves in which it is stuck. Their wood is taken to be that of the first board (assumption).
func (c *Case) frameSides() (out []gluedOn) {
	if c.o.Frame == nil {
		return nil
	}
	ends := [2]string{"bottom", "top"}
	if c.o.GrainLevel {
		ends = [2]string{"left", "right"}
	}
	for k, name := range ends {
		s, ok := c.o.Frame.Sides[name]
		if !ok || s.Kind != "engaged" && !(s.Kind == "groove" && s.Stuck) {
			continue
		}
		g := gluedOn{
			holder: holder{part: "frame." + name, what: s.Kind, y: s.Width / 2, width: s.Width, depth: s.Depth},
			to:     c.o.Across, el: c.boards[0].Wood.EL, g: shearOf(c.boards[0].Wood), side: -1,
		}
		if s.Kind == "groove" { // its cheeks lie on both sides of the panel
			g.side, g.width, g.depth, g.y, g.sunk = 0, s.Depth, s.Width, s.Depth/2, math.Inf(1)
		}
		if k == 1 {
			g.y = c.o.Along - g.y
		}
		out = append(out, g)
	}
	return out
}

// member is the piece as the plan takes it.
func (g *gluedOn) member(thickness float64) restraint.Member {
	n := shortRun
	if g.to-g.from > gluedPoints*10 {
		n = gluedPoints
	}
	return restraint.Member{
		Bar: restraint.Bar{E: g.el, G: g.g, Width: g.width, Depth: g.depth}, Y: g.y, Front: g.side < 0,
		Sunk: min(g.sunk, (thickness+g.depth)/2), At: glueRun(g.from, g.to, g.width, n),
	}
}
