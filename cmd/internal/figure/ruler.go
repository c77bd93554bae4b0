package figure

import (
	"gonum.org/v1/plot/vg"
)

// inch in mm, exact (international yard and pound agreement, 1959).
const inch = 25.4

// rulerLength is a round length that is at most most mm: 1, 2 or 5 times a power of ten units.
func rulerLength(most, unit float64) float64 {
	best := unit
	for _, p := range [...]float64{1, 10, 100, 1000} {
		for _, m := range [...]float64{1, 2, 5} {
			if m*p*unit <= most {
				best = m * p * unit
			}
		}
	}
	return best
}

// drawRuler draws the ruler in cm and inches under the panel at the left, the grain and what dashes
// mean at the right.
func (s *sheet) drawRuler(p pen) {
	x, y := margin, margin+16
	most := min(160/s.per, 0.8*max(s.across(), s.up()))
	cm, in := rulerLength(most, 10), rulerLength(most, inch)
	s.scaleBar(p, x, y, cm, 10, " cm", 1)
	s.scaleBar(p, x, y, in, inch, " in", -1)
	s.drawGrain(p, y)
	if s.anyAssumed() {
		p.line(stroke{data, ink, []vg.Length{3, 2}}, at(Width-margin-92, y+6), at(Width-margin-70, y+6))
		p.text("dashed: assumed", at(Width-margin, y+3), smallText, right)
	}
	p.text(smallText.fit(s.Note, Width-300), at(Width-margin, y-9), smallText, right)
}

// scaleBar is one half of the ruler, over (side 1) or under (side -1) the line at y.
func (s *sheet) scaleBar(p pen, x, y vg.Length, length, unit float64, name string, side vg.Length) {
	sign := stroke{limit, ink, nil}
	w := vg.Length(length * s.per)
	p.line(sign, at(x, y), at(x+w, y))
	n := int(length/unit + 0.5)
	every := 1
	for vg.Length(unit*s.per)*vg.Length(every) < 3 {
		every *= 5
	}
	for i := 0; i <= n; i += every {
		h := vg.Length(3)
		if i%5 == 0 || i == n {
			h = 5
		}
		tx := x + vg.Length(float64(i)*unit*s.per)
		p.line(stroke{thin, ink, nil}, at(tx, y), at(tx, y+side*h))
	}
	base := y + 4
	if side < 0 {
		base = y - 10
	}
	p.text(fixed(float64(n), 0)+name, at(x+w+4, base-1), smallText, left)
}

// drawGrain is a double arrow along the grain with its name.
func (s *sheet) drawGrain(p pen, y vg.Length) {
	x := margin + 225
	sign := stroke{data, ink, nil}
	if s.GrainLevel {
		p.line(sign, at(x-12, y), at(x+12, y))
		p.lines(sign, []vg.Point{at(x-8, y+3), at(x-12, y), at(x-8, y-3)}, []vg.Point{at(x+8, y+3), at(x+12, y), at(x+8, y-3)})
		p.text("grain", at(x+17, y-3), smallText, left)
		return
	}
	p.line(sign, at(x, y-11), at(x, y+11))
	p.lines(sign, []vg.Point{at(x-3, y+7), at(x, y+11), at(x+3, y+7)}, []vg.Point{at(x-3, y-7), at(x, y-11), at(x+3, y-7)})
	p.text("grain", at(x+6, y-3), smallText, left)
}
