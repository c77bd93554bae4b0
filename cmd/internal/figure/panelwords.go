package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/plot/vg"
)

// boardColumn is the room for numbers and names of boards at the left of a panel with level grain.
const boardColumn vg.Length = 84

// note names a part from beside the panel.
type note struct {
	lines []string
	small int     // so many of the last lines are small
	part  mmPlace // where the leader ends
	rest  bool    // it counts parts that are not named
}

// mmPlace is a place on the panel.
type mmPlace struct{ across, along float64 }

const (
	noteLead vg.Length = 10
	noteRoom vg.Length = 230 // a column may be so high, whatever the panel
)

func (n note) height() vg.Length { return vg.Length(len(n.lines))*noteLead + 6 }

func notesHeight(ns []note) vg.Length {
	var h vg.Length
	for _, n := range ns {
		h += n.height()
	}
	return h
}

// makeNotes collects the names of the parts, as many as fit in columns of this height.
func (s *sheet) makeNotes(room vg.Length) {
	add := func(name, words string, across, along float64, member bool) {
		if clean(name) == "" || !usable(across+along) {
			return
		}
		n := note{lines: plainText.wrap(name, panelColumn, 2), part: mmPlace{across, along}}
		small := smallText.wrap(words, panelColumn, 2)
		n.lines, n.small = append(n.lines, small...), len(small)
		if s.two && !member && across > s.AcrossMM/2 {
			s.leftNotes = append(s.leftNotes, n)
			return
		}
		s.rightNotes = append(s.rightNotes, n)
	}
	for _, j := range s.Joins {
		where := s.AlongMM / 2
		if len(j.Open) > 0 {
			where = s.middleOf(j.Open[0])
		} else if clean(j.Note) == "" {
			continue // a sound join is seen
		}
		add(j.Name, j.Note, j.AcrossMM, where, false)
	}
	for _, c := range s.Cracks {
		add(c.Name, c.Note, c.AcrossMM, s.middleOf(c.Stretch), false)
	}
	for _, in := range s.Inserts {
		add(in.Name, in.Note, in.AcrossMM, in.AlongMM, false)
	}
	for i, m := range s.Members {
		q := s.anchor(m, i)
		add(m.Name, m.Note, q.across, q.along, true)
	}
	s.leftNotes, s.rightNotes = few(s.leftNotes, room), few(s.rightNotes, room)
}

// anchor is where the leader of the ith member ends: at its right end in the drawing; on one that
// stands upright in the drawing somewhere along it, each at another height.
func (s *sheet) anchor(m Member, i int) mmPlace {
	t := float64(i%5+1) / 6
	across, along := m.AcrossTo-m.AcrossFrom, m.AlongTo-m.AlongFrom
	q := mmPlace{m.AcrossFrom + across/2, m.AlongFrom + along/2}
	switch lies := math.Abs(across) >= math.Abs(along); {
	case !s.GrainLevel && lies:
		q.across = max(0, min(m.AcrossFrom, m.AcrossTo))
	case !s.GrainLevel:
		q.along = m.AlongFrom + t*along
	case lies:
		q.across = m.AcrossFrom + t*across
	default:
		q.along = max(0, min(m.AlongFrom, m.AlongTo))
	}
	return q
}

// few keeps as many notes as a column holds and counts the rest.
func few(ns []note, room vg.Length) []note {
	if notesHeight(ns) <= room {
		return ns
	}
	n, h := 0, noteLead+6
	for n < len(ns) && h+ns[n].height() <= room {
		h += ns[n].height()
		n++
	}
	rest := note{lines: []string{fmt.Sprintf("and %d more parts", len(ns)-n)}, rest: true}
	return append(slices.Clone(ns[:n]), rest)
}

// drawNotes writes the columns of names with their leaders.
func (s *sheet) drawNotes(p pen) {
	s.column(p, s.rightNotes, s.r.Max.X+panelGutter, left)
	s.column(p, s.leftNotes, s.r.Min.X-panelGutter, right)
}

func (s *sheet) column(p pen, ns []note, x vg.Length, a align) {
	place := func(n note) vg.Point {
		if n.rest {
			return s.r.Min
		}
		return s.at(n.part.across, n.part.along)
	}
	slices.SortStableFunc(ns, func(m, n note) int {
		switch {
		case m.rest:
			return -1
		case n.rest:
			return 1
		}
		return cmp.Compare(place(m).Y, place(n).Y)
	})
	var want, size []vg.Length
	for _, n := range ns {
		want, size = append(want, place(n).Y), append(size, n.height())
	}
	bottom := min(s.r.Min.Y, s.r.Max.Y-notesHeight(ns))
	for i, y := range spread(want, size, bottom, s.r.Max.Y) {
		n := ns[i]
		base := y + size[i]/2 - 3 - 8
		if !n.rest {
			s.leader(p, place(n), at(x, base+3), a)
		}
		for k, line := range n.lines {
			l := plainText
			if k >= len(n.lines)-n.small {
				l = smallText
			}
			p.text(line, at(x, base), l, a)
			base -= noteLead
		}
	}
}

// leader joins a name to its part.
func (s *sheet) leader(p pen, part, name vg.Point, a align) {
	dx := vg.Length(3)
	if a == right {
		dx = -3
	}
	bend := at(name.X-3*dx, name.Y)
	p.lines(stroke{hair, quiet, nil}, []vg.Point{at(name.X-dx, name.Y), bend, part})
	p.dot(white, stroke{}, part, 1.9)
	p.dot(quiet, stroke{}, part, 1.3)
}

// nameBoards numbers the boards, and names them where there is room.
func (s *sheet) nameBoards(p pen) {
	from, to := s.boards()
	if s.GrainLevel {
		s.nameLevel(p, from, to)
		return
	}
	names := true
	for i, b := range s.Boards {
		names = names && plainText.width(clean(b.Name)) <= vg.Length((to[i]-from[i])*s.per)-4
	}
	if names {
		for i, b := range s.Boards {
			x := s.at((from[i]+to[i])/2, 0).X
			p.boardNumber(i+1, at(x, s.r.Max.Y+21))
			p.text(clean(b.Name), at(x, s.r.Max.Y+3.5), plainText, middle)
		}
		return
	}
	s.numberBoards(p, from, to)
}

// numberBoards numbers boards too narrow for their names, in two rows where they are very narrow.
func (s *sheet) numberBoards(p pen, from, to []float64) {
	row := 0
	last := [2]vg.Length{-1e4, -1e4}
	for i := len(s.Boards) - 1; i >= 0; i-- { // from the left of the drawing
		x := s.at((from[i]+to[i])/2, 0).X
		if x-max(last[0], last[1]) >= 15 {
			row = 0
		} else {
			row = 1 - row
		}
		if x-last[row] < 15 {
			continue
		}
		last[row] = x
		y := s.r.Max.Y + 9 + vg.Length(row)*14.5
		if row == 1 {
			p.line(stroke{hair, quiet, nil}, at(x, y-7), at(x, s.r.Max.Y))
		}
		p.boardNumber(i+1, at(x, y))
	}
}

// boardNumber is a number in a ring.
func (p pen) boardNumber(n int, q vg.Point) {
	p.dot(white, stroke{limit, ink, nil}, q, 6.8)
	p.text(strconv.Itoa(n), at(q.X, q.Y-2.9), smallBold, middle)
}

// nameLevel names boards that lie over one another, at the left.
func (s *sheet) nameLevel(p pen, from, to []float64) {
	last := vg.Length(-1e4)
	for i, b := range s.Boards {
		y := s.at((from[i]+to[i])/2, 0).Y
		if y-last < 15 {
			continue
		}
		last = y
		p.boardNumber(i+1, at(s.r.Min.X-12, y))
		room := boardColumn - 28
		if to[i]*s.per-from[i]*s.per < 24 {
			p.text(plainText.fit(b.Name, room), at(s.r.Min.X-22, y-3), plainText, right)
			continue
		}
		p.text(plainText.fit(b.Name, room), at(s.r.Min.X-22, y+1), plainText, right)
		p.text(mm(b.WidthMM)+" mm", at(s.r.Min.X-22, y-9.5), smallText, right)
	}
}

// writeSizes writes the widths of the boards and the size of the whole under the panel.
func (s *sheet) writeSizes(p pen) {
	y := s.r.Min.Y - 10
	from, to := s.boards()
	if !s.GrainLevel && len(s.Boards) > 1 && s.widthsFit(from, to) {
		sign := stroke{hair, quiet, nil}
		p.line(sign, at(s.r.Min.X, y+4), at(s.r.Max.X, y+4))
		for i, b := range s.Boards {
			t := mm(b.WidthMM)
			x := s.at((from[i]+to[i])/2, 0).X
			w := plainText.width(t)
			p.rect(white, stroke{}, box(x-w/2-2, y, x+w/2+2, y+8))
			p.text(t, at(x, y+1), plainText, middle)
			p.line(sign, at(s.at(from[i], 0).X, y+1), at(s.at(from[i], 0).X, y+7))
		}
		p.line(sign, at(s.r.Min.X, y+1), at(s.r.Min.X, y+7))
		y -= 13
	} else {
		y -= 3
	}
	whole := mm(s.across()) + " × " + mm(s.up()) + " mm"
	p.text(whole, at((s.r.Min.X+s.r.Max.X)/2, y), plainText, middle)
	room := (s.r.Max.X-s.r.Min.X)/2 - plainText.width(whole)/2 - 6
	for _, e := range []struct {
		word string
		x    vg.Length
		a    align
	}{{"right edge", s.r.Min.X, left}, {"left edge", s.r.Max.X, right}} {
		if smallText.width(e.word) <= room {
			p.text(e.word, at(e.x, y), smallText, e.a)
		}
	}
}

func (s *sheet) widthsFit(from, to []float64) bool {
	for i, b := range s.Boards {
		if !given(b.WidthMM) || plainText.width(mm(b.WidthMM))+8 > vg.Length((to[i]-from[i])*s.per) {
			return false
		}
	}
	return true
}
