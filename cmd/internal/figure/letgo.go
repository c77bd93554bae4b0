package figure

import (
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// LetGo asks what happens when the battens come off: warp and width by stages of time.
type LetGo struct {
	Meta
	Words string      // quiet words above; empty: the figure's own
	Steps []LetGoStep // in their order; at most seven are drawn
}

// LetGoStep is one stage. All are changes since the battens came off, in mm, as ranges; NaN is not known.
type LetGoStep struct {
	Label               string
	WarpLow, WarpHigh   float64 // painted face rounder positive
	WidthLow, WidthHigh float64 // wider positive
	Stays               bool    // what never comes back: drawn apart, hatched
}

const (
	mostSteps             = 7
	letGoHeight vg.Length = 104
	letGoAxis   vg.Length = 32
	stepBar     vg.Length = 9
)

// Draw lays the figure out.
func (l LetGo) Draw() Figure {
	m := l.or("let-go", "What happens when the battens come off?")
	l.Steps = l.Steps[:min(len(l.Steps), mostSteps)]
	words := l.Words
	if words == "" && len(l.Steps) > 0 {
		words = "Changes since they came off, at the humidity of that moment. Bar: lowest to highest, dot: between them."
		if l.stays() >= 0 {
			words += " Hatched: what would have to come back and never does."
		}
	}
	charts := l.charts()
	head := headHeight(m, words)
	h := head + 2*(axisNameRow+letGoHeight) + rowGap + letGoAxis + margin
	return m.figure(h, l.sentence(), l.desc(), func(p pen) {
		p.head(m, h, words)
		top := h - head
		r := box(margin, top-axisNameRow-letGoHeight, Width-margin, top-axisNameRow)
		left := max(charts[0].layout(r).r.Min.X, charts[1].layout(r).r.Min.X)
		for i, c := range charts {
			f := c.layout(r)
			r.Min.X += left - f.r.Min.X
			f = c.layout(r)
			l.draw(p, f, i == 0)
			r.Min.X -= left - f.r.Min.X
			if i == 1 {
				l.axis(p, f)
			}
			r.Min, r.Max = at(margin, r.Min.Y-axisNameRow-letGoHeight-rowGap), at(r.Max.X, r.Max.Y-axisNameRow-letGoHeight-rowGap)
		}
	})
}

// charts are the empty fields of warp and width.
func (l LetGo) charts() [2]chart {
	var warp, width []float64
	for _, s := range l.Steps {
		warp, width = append(warp, s.WarpLow, s.WarpHigh), append(width, s.WidthLow, s.WidthHigh)
	}
	x := axis{lo: 0, hi: max(1, float64(len(l.Steps)))}
	return [2]chart{
		{x: x, y: roomy("Warp / mm (rounder above nought, more hollow below)", warp)},
		{x: x, y: roomy("Width / mm (wider above nought, narrower below)", width)},
	}
}

// stays is the first step that never comes back; -1 for none.
func (l LetGo) stays() int {
	for i, s := range l.Steps {
		if s.Stays {
			return i
		}
	}
	return -1
}

func (s LetGoStep) pair(warp bool) (lo, hi float64) {
	if lo, hi = s.WidthLow, s.WidthHigh; warp {
		lo, hi = s.WarpLow, s.WarpHigh
	}
	return min(lo, hi), max(lo, hi)
}

func (l LetGo) draw(p pen, f *field, warp bool) {
	f.drawAxes(p)
	if len(l.Steps) == 0 {
		p.text(noCurve, at((f.r.Min.X+f.r.Max.X)/2, (f.r.Min.Y+f.r.Max.Y)/2+4), plainText, middle)
		return
	}
	for i, s := range l.Steps {
		if i > 0 && s.Stays && !l.Steps[i-1].Stays {
			x := f.sx.at(float64(i))
			p.line(stroke{thin, quiet, []vg.Length{3, 2}}, at(x, f.r.Min.Y), at(x, f.r.Max.Y))
		}
		s.draw(p, f, float64(i), warp)
	}
}

// bar is where the bar of step i stands.
func (l LetGo) bar(f *field, i float64) vg.Length {
	each := (f.r.Max.X - f.r.Min.X) / vg.Length(f.x.hi)
	return f.sx.at(i) + min(each/5, 16)
}

// draw draws one bar, its dot and its number.
func (s LetGoStep) draw(p pen, f *field, i float64, warp bool) {
	x := LetGo{}.bar(f, i)
	room := f.sx.at(i+1) - x - stepBar/2 - 6
	a, b := s.pair(warp)
	if !usable(a) || !usable(b) {
		p.text(smallText.fit("not known", room), at(x+stepBar/2+3, f.sy.clamp(0)+4), smallText, left)
		return
	}
	lo, hi := f.sy.clamp(a), f.sy.clamp(b)
	r := box(x-stepBar/2, lo, x+stepBar/2, hi)
	if hi-lo < 1 {
		r.Min.Y, r.Max.Y = r.Min.Y-0.5, r.Max.Y+0.5
	}
	tone := vermilion
	if !warp {
		tone = green
	}
	if s.Stays {
		p.rect(white, stroke{}, r)
		p.hatch(stroke{hair, ink, nil}, r, 3.4)
		p.rect(nil, stroke{limit, ink, nil}, r)
	} else {
		p.rect(white, stroke{}, r)
		p.rect(veil(tone, 0.35), stroke{limit, dark(tone), nil}, r)
	}
	fill := ink
	if s.Stays {
		fill = white
	}
	p.dot(white, stroke{}, at(x, (lo+hi)/2), 3.2)
	p.dot(fill, stroke{limit, ink, nil}, at(x, (lo+hi)/2), 2.4)
	s.number(p, f, at(x+stepBar/2+4, (lo+hi)/2), room, warp)
}

// number writes the range of a step at the right of its bar, with its way beneath.
func (s LetGoStep) number(p pen, f *field, q vg.Point, room vg.Length, warp bool) {
	a, b := s.pair(warp)
	text := span(a, b, signed)
	if text == "0.0" {
		text = "none"
	}
	lines := boldText.wrap(text, room, 2)
	word := smallText.fit(way(a, b, warp), room)
	h := vg.Length(len(lines))*10.5 + 2
	if word != "" {
		h += 9.5
	}
	top := max(f.r.Min.Y+h+1, min(q.Y+h/2, f.r.Max.Y-1))
	w := smallText.width(word)
	for _, t := range lines {
		w = max(w, boldText.width(t))
	}
	p.rect(veil(white, 0.85), stroke{}, box(q.X-1, top-h, q.X+w+1, top))
	y := top - 8.5
	for _, t := range lines {
		p.text(t, at(q.X, y), boldText, left)
		y -= 10.5
	}
	p.text(word, at(q.X, y), smallText, left)
}

// way is the way of a change in a word.
func way(a, b float64, warp bool) string {
	words := [2]string{"narrower", "wider"}
	if warp {
		words = [2]string{"more hollow", "rounder"}
	}
	up, down := max(a, b) >= 0.05, min(a, b) <= -0.05
	switch {
	case up && down:
		return "either way"
	case up:
		return words[1]
	case down:
		return words[0]
	}
	return ""
}

// axis is the course of time under both fields: an arrow with the stages, what stays off its end.
func (l LetGo) axis(p pen, f *field) {
	y := f.r.Min.Y
	end := f.r.Max.X
	if k := l.stays(); k > 0 {
		end = f.sx.at(float64(k)) - 3
	}
	if len(l.Steps) > 0 && l.stays() != 0 {
		p.lines(stroke{data, ink, nil}, []vg.Point{at(end-3.5, y+2.4), at(end, y), at(end-3.5, y-2.4)})
	}
	each := (f.r.Max.X - f.r.Min.X) / vg.Length(f.x.hi)
	for i, s := range l.Steps {
		x := l.bar(f, float64(i))
		p.line(stroke{thin, ink, nil}, at(x, y), at(x, y-tick))
		base := y - tick - 9
		for _, line := range plainText.wrap(s.Label, each-8, 2) {
			p.text(line, at(x-stepBar/2, base), plainText, left)
			base -= 10.5
		}
	}
}

// words are a range with its way: "0.4 to 1.2 mm rounder".
func (s LetGoStep) words(warp bool) string {
	a, b := s.pair(warp)
	if !usable(a) || !usable(b) {
		return "not known"
	}
	w := way(a, b, warp)
	switch w {
	case "":
		return "no change"
	case "either way":
		return signed(a) + " to " + signed(b) + " mm"
	}
	return span(math.Abs(a), math.Abs(b), mm) + " mm " + w
}

func (l LetGo) sentence() string {
	if len(l.Steps) == 0 {
		return "What comes back was not calculated."
	}
	k := l.stays()
	if k == 0 {
		return "What never comes back: warp " + l.Steps[0].words(true) + ", width " + l.Steps[0].words(false) + "."
	}
	first, last := l.Steps[0], l.Steps[len(l.Steps)-1]
	if k > 0 {
		last = l.Steps[k-1]
	}
	out := clean(first.Label) + ": warp " + first.words(true) + ", width " + first.words(false)
	if last != first {
		out += "; " + clean(last.Label) + ": " + last.words(true) + ", " + last.words(false)
	}
	if k > 0 {
		out += "; what never comes back: " + l.Steps[k].words(true) + ", " + l.Steps[k].words(false)
	}
	return out + "."
}

func (l LetGo) desc() string {
	var out []string
	for _, s := range l.Steps {
		out = append(out, clean(s.Label)+": warp "+s.words(true)+", width "+s.words(false)+".")
	}
	return strings.Join(out, " ")
}
