package response

import (
	"math"

	"crossgrain/panel"
)

// What was fixed to the panel as it stands is at rest with it, whatever its warp: only what is straight beside a warped panel
// leaves room. The present warp is a parabola over the width.

// present is how far the panel at x stands off its edges towards the painted face, seen from the side of a batten, mm.
func (c *Case) present(b *panel.Batten, x float64) float64 {
	s := 2*x/c.o.Across - 1
	if z := c.o.Warp * (1 - s*s); b.Side != "front" {
		return z
	} else {
		return -z
	}
}

// standsOff is the room between a straight batten laid against the panel and the panel at one of its fixings, mm: it touches at
// the outermost ones where the panel is hollow towards it, and else where the panel comes nearest to it.
func (c *Case) standsOff(b *panel.Batten, x float64) float64 {
	from, to, least := math.Inf(1), math.Inf(-1), math.Inf(1)
	for _, f := range b.Fixings {
		from, to, least = min(from, f.X), max(to, f.X), min(least, c.present(b, f.X))
	}
	lo, hi, z := c.present(b, from), c.present(b, to), c.present(b, x)
	if to > from && c.present(b, (from+to)/2) > (lo+hi)/2 {
		return max(0, z-lo-(hi-lo)*(x-from)/(to-from))
	}
	return z - least
}

// fallsAway is the room at x beside a straight batten glued to the panel at its middle, mm: nothing where the panel comes
// towards it, for then it was shaped to lie.
func (c *Case) fallsAway(b *panel.Batten, x float64) float64 {
	s := 2 * (x - b.Fixings[0].X) / c.o.Across
	away := -c.o.Warp * s * s
	if b.Side == "front" {
		away = -away
	}
	return max(0, away)
}
