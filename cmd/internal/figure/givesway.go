package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
)

// GivesWay asks what gives way first: each way for a part to fail at its worst humidity.
type GivesWay struct {
	Meta
	Bars []Bar // in any order; at most seven are drawn
}

// Bar is one way for one part to give way.
type Bar struct {
	Name             string  // such as "Join left-middle opens"
	RHPct            float64 // where it is worst; nought: not said
	Share, Low, High float64 // fractions of the limit: as described, 5 and 95 in 100; NaN: not known
	Note             string  // quiet words behind the number
}

const (
	mostBars               = 7
	barPitch     vg.Length = 27
	barHeight    vg.Length = 9
	barNames     vg.Length = 142 // room for names at the left
	barNumbers   vg.Length = 98  // room for numbers at the right
	barsCapTenth           = 16.0
)

// sorted are the bars that have a number, worst first.
func (g GivesWay) sorted() []Bar {
	out := slices.DeleteFunc(slices.Clone(g.Bars), func(b Bar) bool { return !usable(b.Share) })
	slices.SortStableFunc(out, func(a, b Bar) int { return cmp.Compare(b.Share, a.Share) })
	return out
}

// Draw lays the figure out.
func (g GivesWay) Draw() Figure {
	m := g.or("gives-way-first", "What gives way first?")
	bars := g.sorted()
	rest := bars[min(len(bars), mostBars):]
	bars = bars[:min(len(bars), mostBars)]
	words := ""
	if len(bars) > 0 {
		words = "Bar and dot: as described. Line: 5 to 95 in 100 plausible cases."
	}
	head := headHeight(m, words)
	foot := bottomAxisHeight + margin
	more := g.more(rest, len(g.Bars)-len(bars)-len(rest))
	if more != "" {
		foot += 14
	}
	h := head + axisNameRow + vg.Length(max(1, len(bars)))*barPitch + foot
	desc := ""
	for _, b := range bars {
		desc += clean(b.Name) + ": " + barWords(b) + ". "
	}
	return m.figure(h, g.sentence(), desc+more, func(p pen) {
		p.head(m, h, words)
		if more != "" {
			p.text(more, at(margin, margin+1), quietText, left)
		}
		g.draw(p, bars, h-head-axisNameRow, foot)
	})
}

// more counts what is not drawn.
func (g GivesWay) more(rest []Bar, unknown int) string {
	var out []string
	if len(rest) > 0 {
		out = append(out, fmt.Sprintf("%d more, each at most %s.", len(rest), ofLimit(rest[0].Share)))
	}
	if unknown > 0 {
		out = append(out, fmt.Sprintf("%d could not be calculated.", unknown))
	}
	return strings.Join(out, " ")
}

func (g GivesWay) scale(bars []Bar) scale {
	top := 10.0
	for _, b := range bars {
		for _, v := range [...]float64{b.Share, b.High} {
			if v > 0 {
				top = max(top, 10*v)
			}
		}
	}
	return scale{lo: 0, hi: min(barsCapTenth, max(12, 2*math.Ceil(top/2))), a: margin + barNames + 8, b: Width - margin - barNumbers}
}

func (g GivesWay) draw(p pen, bars []Bar, top, foot vg.Length) {
	s := g.scale(bars)
	for _, t := range ticks(0, s.hi, 2) {
		if t != 10 {
			p.line(stroke{hair, faint, nil}, at(s.at(t), foot), at(s.at(t), top))
		}
	}
	p.bottomAxis(s, foot, ticks(0, s.hi, 2), rh, "Tenths of the limit")
	for i, b := range bars {
		b.draw(p, s, top-(vg.Length(i)+0.5)*barPitch)
	}
	p.line(stroke{1.2, ink, []vg.Length{4, 2}}, at(s.at(10), foot), at(s.at(10), top+3))
	p.text("limit", at(s.at(10), top+5), boldText, middle)
	if len(bars) == 0 {
		p.text("Nothing here has a limit that could be calculated.", at(margin, (top+foot)/2-3), quietText, left)
	}
}

// draw draws one bar with its middle at y.
func (b Bar) draw(p pen, s scale, y vg.Length) {
	lines := plainText.wrap(b.Name, barNames, 2)
	base := y - 3 + vg.Length(len(lines)-1)*5.5
	for _, line := range lines {
		p.text(line, at(s.a-8, base), plainText, right)
		base -= 11
	}
	v := s.clamp(10 * b.Share)
	r := box(s.a, y-barHeight/2, max(v, s.a+0.5), y+barHeight/2)
	beyond := b.Share > 1
	fill, edge := veil(blue, 0.25), stroke{thin, blue, nil}
	if beyond {
		fill, edge = veil(vermilion, 0.25), stroke{thin, vermilion, nil}
	}
	p.rect(fill, stroke{}, r)
	if beyond {
		p.hatch(stroke{hair, vermilion, nil}, r, 4)
	}
	p.rect(nil, edge, r)
	b.whisker(p, s, y)
	p.number(b, s.b+8, y)
}

// whisker draws the doubt and the dot; an arrow where it goes on beyond the scale.
func (b Bar) whisker(p pen, s scale, y vg.Length) {
	sign := stroke{1.1, ink, nil}
	if usable(b.Low) && b.High > b.Low {
		lo, hi := s.clamp(10*b.Low), s.clamp(10*b.High)
		p.line(sign, at(lo, y), at(hi, y))
		p.line(sign, at(lo, y-3), at(lo, y+3))
		if 10*b.High <= s.hi {
			p.line(sign, at(hi, y-3), at(hi, y+3))
		} else {
			p.lines(sign, []vg.Point{at(hi-3, y+3), at(hi+1, y), at(hi-3, y-3)})
		}
	}
	if 10*b.Share > s.hi {
		p.lines(sign, []vg.Point{at(s.b-3, y+3), at(s.b+1, y), at(s.b-3, y-3)})
		return
	}
	p.dot(white, stroke{}, at(s.clamp(10*b.Share), y), 3.3)
	p.dot(ink, stroke{}, at(s.clamp(10*b.Share), y), 2.5)
}

func (p pen) number(b Bar, x, y vg.Length) {
	n := tenths(b.Share)
	p.text(n, at(x, y+1), boldText, left)
	w := boldText.width(n) + 5
	p.text(smallText.fit(b.Note, Width-margin-x-w), at(x+w, y+1), smallText, left)
	if given(b.RHPct) {
		p.text("at "+rh(b.RHPct)+" % RH", at(x, y-9), smallText, left)
	}
}

// barWords are a bar in words.
func barWords(b Bar) string {
	s := ofLimit(b.Share)
	if usable(b.Low) && usable(b.High) {
		s += " (" + tenths(b.Low) + " to " + tenths(b.High) + ")"
	}
	if given(b.RHPct) {
		s += " at " + rh(b.RHPct) + " % RH"
	}
	return s
}

func (g GivesWay) sentence() string {
	bars := g.sorted()
	if len(bars) == 0 {
		return "Nothing here has a limit that could be calculated."
	}
	b := bars[0]
	s := clean(b.Name) + ": " + ofLimit(b.Share)
	if given(b.RHPct) {
		s += " at " + rh(b.RHPct) + " % RH"
	}
	switch n := beyondLimit(bars); {
	case n == 1:
		return s + ". Nothing else is beyond its limit."
	case n > 1:
		return s + fmt.Sprintf(". Beyond their limit are %d in all.", n)
	}
	return s + ". Nothing is beyond its limit."
}

func beyondLimit(bars []Bar) int {
	n := 0
	for _, b := range bars {
		if b.Share > 1 {
			n++
		}
	}
	return n
}
