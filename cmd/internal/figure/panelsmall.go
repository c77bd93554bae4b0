package figure

import "gonum.org/v1/plot/vg"

// smallLong is the longer side of a small drawing, in points.
const smallLong vg.Length = 88

// Small draws the panel small and without words, from the front with its joins and cracks or from the back with all that it has there.
// The page names the side.
func (pl Panel) Small(front bool) Figure {
	m, side := pl.or("panel-back", "Which panel is it, seen from the back?"), pl
	if front {
		m = pl.or("panel-front", "Which panel is it, seen from the front?")
		side.Members, side.Inserts = nil, nil
	}
	s := &sheet{Panel: side, front: front}
	wide, high := pl.across(), pl.up()
	known := given(wide) && given(high) && wide <= 1e5 && high <= 1e5
	const edge = 2
	w, h := smallLong, smallLong
	if known {
		s.per = float64(smallLong) / max(wide, high)
		w, h = vg.Length(wide*s.per), vg.Length(high*s.per)
		s.r = box(edge, edge, edge+w, edge+h)
	}
	f := m.figure(h+2*edge, side.sentence(), side.describe(), func(p pen) {
		if !known {
			p.text("The size is not known.", at(edge, edge), smallText, left)
			return
		}
		s.drawBoards(p)
		s.drawInserts(p)
		s.drawCracks(p)
		s.drawMembers(p)
		p.rect(nil, stroke{1.2, ink, nil}, s.r)
	})
	f.W = w + 2*edge
	return f
}
