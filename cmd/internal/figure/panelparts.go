package figure

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
)

// dashed is the sign of what is assumed.
func dashed(assumed bool) []vg.Length {
	if assumed {
		return []vg.Length{3, 2}
	}
	return nil
}

func (s *sheet) drawBoards(p pen) {
	from, to := s.boards()
	p.rect(wood, stroke{}, s.r)
	for i, b := range s.Boards {
		r, ok := s.rect(from[i], 0, to[i], s.AlongMM)
		if !ok {
			continue
		}
		if i%2 == 1 {
			p.rect(color.NRGBA{0xEE, 0xE1, 0xC8, 0xFF}, stroke{}, r)
		}
		if i > 0 {
			dash := dashed(b.Assumed || s.Boards[i-1].Assumed || s.joinAssumed(from[i]))
			p.line(stroke{data, ink, dash}, s.at(from[i], 0), s.at(from[i], s.AlongMM))
		}
	}
	for _, j := range s.Joins {
		for _, o := range j.Open {
			s.opening(p, j.AcrossMM, o, true, false)
		}
	}
}

// joinAssumed reports whether the join at this place is assumed.
func (s *sheet) joinAssumed(across float64) bool {
	for _, j := range s.Joins {
		if math.Abs(j.AcrossMM-across) < 1 {
			return j.Assumed
		}
	}
	return false
}

func (s *sheet) drawCracks(p pen) {
	for _, c := range s.Cracks {
		s.opening(p, c.AcrossMM, c.Stretch, c.Through, c.Assumed)
	}
}

// opening draws a crack as wide as it can be seen: a wedge from an end of the panel, a lens within;
// full where it is through, empty where it is not.
func (s *sheet) opening(p pen, across float64, st Stretch, through, assumed bool) {
	lo, hi := max(0, min(st.FromMM, st.ToMM)), min(s.AlongMM, max(st.FromMM, st.ToMM))
	if !st.sound() || !usable(across) || hi <= lo {
		return
	}
	const half = 2.0 // points, at the widest
	atLow, atHigh := lo < 1, hi > s.AlongMM-1
	const n = 16
	var a, b []vg.Point
	for i := range n + 1 {
		t := float64(i) / n
		w := half * math.Sin(math.Pi*t)
		switch {
		case atLow && atHigh:
			w = half * 0.7
		case atLow:
			w = half * math.Cos(math.Pi/2*t)
		case atHigh:
			w = half * math.Sin(math.Pi/2*t)
		}
		d := w / s.per
		a = append(a, s.at(across-d, lo+t*(hi-lo)))
		b = append(b, s.at(across+d, lo+t*(hi-lo)))
	}
	for i := n; i >= 0; i-- {
		a = append(a, b[i])
	}
	switch {
	case assumed:
		p.shape(white, stroke{limit, vermilion, []vg.Length{2, 1.5}}, a)
	case through:
		p.shape(vermilion, stroke{hair, ink, nil}, a)
	default:
		p.shape(white, stroke{limit, vermilion, nil}, a)
	}
}

func (s *sheet) drawInserts(p pen) {
	for _, in := range s.Inserts {
		w, l := in.WidthMM/2, in.LengthMM/2
		if !given(w) || !given(l) || !usable(in.AcrossMM+in.AlongMM) {
			continue
		}
		corner := func(u, v float64) vg.Point { return s.at(in.AcrossMM+u*w, in.AlongMM+v*l) }
		poly := []vg.Point{corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)}
		if in.Butterfly {
			poly = []vg.Point{corner(-1, -1), corner(0, -0.35), corner(1, -1), corner(1, 1), corner(0, 0.35), corner(-1, 1)}
		}
		p.shape(woodDark, stroke{limit, ink, dashed(in.Assumed)}, poly)
	}
}

func (s *sheet) drawMembers(p pen) {
	for _, m := range s.Members {
		r, ok := s.rect(m.AcrossFrom, m.AlongFrom, m.AcrossTo, m.AlongTo)
		if !ok {
			continue
		}
		if r.Max.Y-r.Min.Y < 2 {
			r.Min.Y, r.Max.Y = r.Min.Y-1, r.Max.Y+1
		}
		var fill color.Color = veil(woodDark, 0.85)
		if m.Hidden {
			fill = nil
		}
		p.rect(fill, stroke{limit, ink, dashed(m.Assumed)}, r)
		for _, f := range m.Fixings {
			s.fixing(p, f, r)
		}
	}
}

// fixing draws one fixing, no larger than its member is wide.
func (s *sheet) fixing(p pen, f Fixing, member vg.Rectangle) {
	q := s.at(f.AcrossMM, f.AlongMM)
	if !finite(q) || q.X < s.r.Min.X-5 || q.X > s.r.Max.X+5 || q.Y < s.r.Min.Y-5 || q.Y > s.r.Max.Y+5 {
		return
	}
	size := member.Size()
	most := max(2.4, min(size.X, size.Y)-2)
	half := max(2.5, min(vg.Length(f.FootprintMM*s.per)/2, 20))
	if !given(f.FootprintMM) {
		half = 3
	}
	w, h := half, min(most/2, 5)
	if s.GrainLevel {
		w, h = h, w
	}
	patch := box(q.X-w, q.Y-h, q.X+w, q.Y+h)
	thinInk := stroke{thin, ink, nil}
	switch f.Kind {
	case Nail:
		p.dot(ink, stroke{}, q, min(1.7, most/2))
	case Screw:
		r := min(2.6, most/2)
		p.dot(white, thinInk, q, r)
		p.line(thinInk, at(q.X-r, q.Y), at(q.X+r, q.Y))
		p.line(thinInk, at(q.X, q.Y-r), at(q.X, q.Y+r))
	case Glue:
		p.rect(white, stroke{}, patch)
		p.hatch(stroke{hair, ink, nil}, patch, 2.4)
		p.rect(nil, thinInk, patch)
	case Slot:
		s.slot(p, q)
	case Spring:
		p.lines(stroke{limit, ink, nil}, []vg.Point{at(q.X-4, q.Y), at(q.X-2.5, q.Y+2), at(q.X-0.8, q.Y-2), at(q.X+0.8, q.Y+2), at(q.X+2.5, q.Y-2), at(q.X+4, q.Y)})
	default:
		p.rect(white, thinInk, patch)
	}
}

// slot is an oval, long across the grain, with the screw in it.
func (s *sheet) slot(p pen, q vg.Point) {
	const a, b = 4.5, 2.2
	var poly []vg.Point
	for i := range 24 {
		t := 2 * math.Pi * float64(i) / 24
		d := at(vg.Length(a*math.Cos(t)), vg.Length(b*math.Sin(t)))
		if s.GrainLevel {
			d.X, d.Y = d.Y, d.X
		}
		poly = append(poly, q.Add(d))
	}
	p.shape(white, stroke{thin, ink, nil}, poly)
	p.dot(ink, stroke{}, q, 1.1)
}
