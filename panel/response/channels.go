package response

import (
	"math"

	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
)

// leastLeft is the share of the thickness that a channel leaves at least: a deeper one is a fault of the record, which would
// cut the panel through (working choice).
const leastLeft = 0.1

// channels lists what is cut out of the back for battens: those that are let in, run in a channel, or have gone. A
// butterfly is glued in over its whole length and fills what was cut out for it.
func (c *Case) channels() (out []plan.Channel) {
	least := math.Inf(1)
	for i := range c.boards {
		least = min(least, c.boards[i].Thickness)
	}
	for i := range c.o.Battens {
		b := &c.o.Battens[i]
		q := plan.Channel{Y: b.Y, Width: b.Width, From: max(b.From, 0), To: min(b.To, c.o.Across), Depth: min(b.ChannelDepth, (1-leastLeft)*least)}
		if b.Side == "front" || !(q.Depth > 0 && q.Width > 0 && q.From < q.To) || q.Y-q.Width/2 >= c.o.Along || q.Y+q.Width/2 <= 0 {
			continue
		}
		out = append(out, q)
	}
	return out
}

// woodAt returns how thick the wood is at a station and how high its middle lies above the plane about which moments are told, mm.
func (c *Case) woodAt(at *restraint.Station) (thick, above float64) {
	w := c.planned
	p := w.slabs[at.Board]
	var cut float64
	for _, q := range w.layout.Channels {
		if at.X > q.From && at.X < q.To && math.Abs(at.Y-q.Y) < q.Width/2 {
			cut = max(cut, q.Depth)
		}
	}
	return c.boards[p.board].Thickness + p.rib - cut, at.Above + cut/2
}
