package response

import (
	"crossgrain/moisture"
	"crossgrain/panel/section"
)

// warper gives the warp of a moment quickly: by the elements from their answers to units, else the rings' share goes in proportion to the change of
// moisture content of each board (within a hundredth of the exact map up to 5 %, see the tests).
type warper struct {
	c    *Case
	ring [][2]float64 // warp per unit of moisture content of each board, drying and damping
	wide [][2]float64 // change of width of each board, mm: times the change of moisture content, times its square
	du   []moisture.MC
}

func (c *Case) newWarper() warper {
	w := warper{c: c, du: make([]moisture.MC, len(c.boards))}
	if c.grain != nil {
		return w // the elements are linear: their answers to units are enough
	}
	sections := c.sections()
	free := make([]section.Free, len(c.boards))
	for i := range free {
		free[i] = c.free(&c.boards[i], 0, c.boards[i].heartUp)
	}
	cup := func(i int, du moisture.MC) float64 {
		was := free[i]
		defer func() { free[i] = was }()
		b := &c.boards[i]
		free[i] = c.free(b, du, b.heartUp)
		one := section.Assemble(sections, free).Cup
		if b.HeartKnown {
			return one
		}
		free[i] = c.free(b, du, !b.heartUp)
		return (one + section.Assemble(sections, free).Cup) / 2
	}
	const du, far = 0.02, 0.05
	for i := range c.boards {
		w.ring = append(w.ring, [2]float64{cup(i, -du) / -du, cup(i, du) / du})
		b := &c.boards[i]
		less, more := c.free(b, -far, b.heartUp).Width, c.free(b, far, b.heartUp).Width
		w.wide = append(w.wide, [2]float64{(more - less) / (2 * far), (more + less) / (2 * far * far)})
	}
	return w
}

// width returns the free change of the panel's width, mm, from the mean moisture of its boards. Curved
// rings make it bend a little with the square.
func (w *warper) width(mc []moisture.MC, bend []float64) (sum float64) {
	for i := range w.c.boards {
		w.du[i] = mc[i] - w.c.boards[i].used
	}
	if e := w.c.grain; e != nil {
		return e.sum(w.c, w.du, bend, func(s *share) [2]float64 { return s.width })
	}
	for i, du := range w.du {
		d := float64(du)
		sum += w.wide[i][0]*d + w.wide[i][1]*d*d
	}
	return sum
}

// of returns the warp, mm, painted face rounded positive, nothing holding it, from the mean moisture of
// the boards and their curvature by its gradient.
func (w *warper) of(mc []moisture.MC, bend []float64) float64 {
	for i := range w.c.boards {
		w.du[i] = mc[i] - w.c.boards[i].used
	}
	if w.c.grain != nil {
		return w.c.grain.sum(w.c, w.du, bend, func(s *share) [2]float64 { return s.cup })
	}
	var cup float64
	for i, d := range w.du {
		k := 0
		if d > 0 {
			k = 1
		}
		cup += w.ring[i][k] * float64(d)
	}
	half := w.c.o.Across * w.c.o.Across / 8
	return cup + (w.c.ground(w.du).curvature+w.c.overSag(bend))*half
}
