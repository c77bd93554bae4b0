package figure

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
)

// Seen asks whether the model describes this panel: what was measured on it beside what the cases of the
// model expect.
type Seen struct {
	Meta
	Groups   []SeenGroup
	NoneFits bool // no case explains all that was measured, so none was weighed by it
}

// SeenGroup is what was measured of one thing, on one scale.
type SeenGroup struct {
	Name   string // such as "Warp", "Gap of join a"
	Note   string // such as "from where it stands at rest"
	Warp   bool   // numbers are written as rounded or hollow
	Values []SeenValue
}

// SeenValue is one thing that was measured, in mm. Where only differences count, where the panel stands at
// rest has been taken off.
type SeenValue struct {
	Name, Note      string // such as "3 Mar 2024", "over 600 mm"
	RHPct           float64
	Measured, Error float64 // Error: one standard deviation, of instrument and calculation
	Expected        Cases   // by the panel as described
	Left            *Cases  // when the cases are weighed by all that was measured; nil: they were not
}

// Cases are 5, 50 and 95 in 100 cases of the model. A Middle outside of Low to High is not drawn.
type Cases struct{ Low, Middle, High float64 }

const (
	mostSeen              = 12
	seenPitch   vg.Length = 28
	seenBand    vg.Length = 10
	seenNames   vg.Length = 118
	seenNumbers vg.Length = 136
	seenTitle   vg.Length = 17
	seenAxis    vg.Length = 17 // an axis without its name

	within5to95 = 1.6448536 // standard deviations: 5 to 95 in 100 of a normal error
)

// Draw lays the figure out.
func (s Seen) Draw() Figure {
	m := s.or("seen", "Does the model describe this panel?")
	groups, lost := s.shown()
	words := s.words(groups, lost)
	head := headHeight(m, words)
	body, desc := vg.Length(0), ""
	for _, g := range groups {
		body += g.height()
		for _, v := range g.Values {
			desc += g.name() + ", " + clean(v.Name) + ": measured " + g.told(v.Measured) + ", " + g.expected(v) + ". "
		}
	}
	if len(groups) == 0 {
		body = 30
	}
	h := head + body + margin
	return m.figure(h, s.sentence(groups), desc, func(p pen) {
		p.head(m, h, words)
		top := h - head
		for _, g := range groups {
			g.draw(p, top)
			top -= g.height()
		}
		if len(groups) == 0 {
			p.text("Nothing was measured on this panel.", at(margin, top-18), quietText, left)
		}
	})
}

// shown are the groups with what can be drawn of them; lost is how many values cannot.
func (s Seen) shown() (out []SeenGroup, lost int) {
	n := 0
	for _, g := range s.Groups {
		var keep []SeenValue
		for _, v := range g.Values {
			if !usable(v.Measured) || n == mostSeen {
				lost++
				continue
			}
			keep = append(keep, v)
			n++
		}
		if g.Values = keep; len(keep) > 0 {
			out = append(out, g)
		}
	}
	return out, lost
}

// known reports whether there are cases to draw.
func (c Cases) known() bool { return usable(c.Low) && usable(c.High) && c.Low <= c.High }

// reach is how far the error reaches to each side.
func (v SeenValue) reach() float64 {
	if !usable(v.Error) || v.Error < 0 {
		return 0
	}
	return within5to95 * v.Error
}

// fits says that the value lies within the cases expected, its error allowed for.
func (v SeenValue) fits() bool {
	return v.Expected.known() && v.Measured+v.reach() >= v.Expected.Low && v.Measured-v.reach() <= v.Expected.High
}

func (s Seen) words(groups []SeenGroup, lost int) string {
	if len(groups) == 0 {
		return ""
	}
	out := "Dot and line: measured, 5 to 95 in 100 by its error and that of the calculation. Open bar and stroke: expected of the panel as described, 5 to 95 in 100 cases and their middle."
	if anyLeft(groups) {
		out += " Full bar: the cases that remain when all that was measured counts."
	}
	if lost > 0 {
		out += fmt.Sprintf(" %d more not drawn.", lost)
	}
	return out
}

func anyLeft(groups []SeenGroup) bool {
	for _, g := range groups {
		for _, v := range g.Values {
			if v.Left != nil && v.Left.known() {
				return true
			}
		}
	}
	return false
}

func (g SeenGroup) name() string { return clean(g.Name) }

func (g SeenGroup) write(v float64) string {
	if g.Warp {
		return bendWords(v)
	}
	return fixed(v, seenDigits(v))
}

// told is a value with its unit.
func (g SeenGroup) told(v float64) string {
	if g.Warp {
		return bent(v)
	}
	return g.write(v) + " mm"
}

// seenDigits are two for what is below 1 mm: a gap is read with a feeler gauge.
func seenDigits(v float64) int {
	switch a := math.Abs(v); {
	case a < 0.995:
		return 2
	case a < 9.95:
		return 1
	}
	return 0
}

// expected are the cases in words: those that are left where there are any.
func (g SeenGroup) expected(v SeenValue) string {
	c, word := v.Expected, "expected "
	if v.Left != nil && v.Left.known() {
		c, word = *v.Left, "remain "
	}
	if !c.known() {
		return "no model of it"
	}
	return word + g.span(c.Low, c.High)
}

// span writes a range; of a warp the way it bends once where both ends bend alike.
func (g SeenGroup) span(a, b float64) string {
	if !g.Warp {
		return span(a, b, g.write)
	}
	switch {
	case a >= 0.05 && b >= 0.05:
		return span(a, b, mm) + " rounded"
	case a <= -0.05 && b <= -0.05:
		return span(-b, -a, mm) + " hollow"
	}
	return span(a, b, bendWords)
}

func (g SeenGroup) height() vg.Length {
	return seenTitle + vg.Length(len(g.Values))*seenPitch + seenAxis + rowGap
}

// axis holds all that is drawn of the group.
func (g SeenGroup) axis() axis {
	var all []float64
	for _, v := range g.Values {
		all = append(all, v.Measured-v.reach(), v.Measured+v.reach())
		for _, c := range []*Cases{&v.Expected, v.Left} {
			if c != nil && c.known() {
				all = append(all, c.Low, c.High)
			}
		}
	}
	lo, hi, _ := extent(all)
	if hi-lo < 0.1 {
		lo, hi = lo-0.05, hi+0.05
	}
	return around("", lo, hi)
}

func (g SeenGroup) scale() scale {
	a := g.axis()
	return scale{lo: a.lo, hi: a.hi, a: margin + seenNames + 14, b: Width - margin - seenNumbers}
}

func (g SeenGroup) draw(p pen, top vg.Length) {
	title := g.name() + " / mm"
	if note := clean(g.Note); note != "" {
		title += ", " + note
	}
	if g.Warp {
		title += " (hollow left of nought, rounded right of it)"
	}
	p.text(boldText.fit(title, Width-2*margin), at(margin, top-boldText.size), boldText, left)
	a, s := g.axis(), g.scale()
	top -= seenTitle
	foot := top - vg.Length(len(g.Values))*seenPitch
	for _, t := range a.ticks {
		sign := stroke{hair, faint, nil}
		if t == 0 {
			sign = stroke{hair, grey(0x9A), nil}
		}
		p.line(sign, at(s.at(t), foot), at(s.at(t), top))
	}
	p.bottomAxis(s, foot, a.ticks, a.write, "")
	for i, v := range g.Values {
		g.row(p, s, v, top-(vg.Length(i)+0.5)*seenPitch)
	}
}

// row draws one value with its middle at y.
func (g SeenGroup) row(p pen, s scale, v SeenValue, y vg.Length) {
	p.stripName(strip{name: v.Name, note: v.under()}, y)
	v.Expected.draw(p, s, y-4.5, seenBand, white, stroke{thin, ink, nil})
	if v.Left != nil {
		v.Left.draw(p, s, y-4.5, seenBand-4, veil(blue, 0.4), stroke{thin, blue, nil})
	}
	y += 6
	sign := stroke{1.3, ink, nil}
	if r := v.reach(); r > 0 {
		lo, hi := s.at(v.Measured-r), s.at(v.Measured+r)
		p.lines(sign, []vg.Point{at(lo, y), at(hi, y)}, []vg.Point{at(lo, y-3), at(lo, y+3)}, []vg.Point{at(hi, y-3), at(hi, y+3)})
	}
	p.dot(white, stroke{}, at(s.at(v.Measured), y), 3.6)
	p.dot(ink, stroke{}, at(s.at(v.Measured), y), 2.7)
	x := s.b + 10
	p.text(g.write(v.Measured), at(x, y-4), boldText, left)
	p.text(smallText.fit(g.expected(v), Width-margin-x), at(x, y-14), smallText, left)
}

// under stands beneath the name of a value.
func (v SeenValue) under() string {
	note := clean(v.Note)
	if !given(v.RHPct) {
		return note
	}
	out := "at " + rh(v.RHPct) + " % RH"
	if note != "" {
		out += ", " + note
	}
	return out
}

// draw draws the cases as a bar of height h with a stroke at their middle.
func (c Cases) draw(p pen, s scale, y, h vg.Length, fill color.Color, edge stroke) {
	if !c.known() {
		return
	}
	lo, hi := s.at(c.Low), s.at(c.High)
	p.rect(fill, edge, box(lo, y-h/2, max(hi, lo+0.6), y+h/2))
	if c.Middle >= c.Low && c.Middle <= c.High {
		m := s.at(c.Middle)
		p.line(stroke{strong, edge.color, nil}, at(m, y-h/2), at(m, y+h/2))
	}
}

func (s Seen) sentence(groups []SeenGroup) string {
	n, of := 0, 0
	for _, g := range groups {
		for _, v := range g.Values {
			if v.Expected.known() {
				of++
			}
			if v.fits() {
				n++
			}
		}
	}
	switch {
	case len(groups) == 0:
		return "Nothing was measured on this panel."
	case s.NoneFits:
		return "The model does not describe this panel: no case fits all that was measured."
	case of == 0:
		return "Of what was measured the model expects nothing."
	case n == of && of == 1:
		return "What was measured lies within what was expected."
	case n == of:
		return fmt.Sprintf("All %d values that were measured lie within what was expected.", of)
	}
	return fmt.Sprintf("Within what was expected: %d of the %s measured.", n, count(of, "value"))
}
