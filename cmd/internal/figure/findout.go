package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
)

// FindOut asks what is worth finding out next: by how much the answer would narrow, with which means, in how
// many minutes and by whom.
type FindOut struct {
	Meta
	Part      string    // what decides, such as "join left-middle opens"
	Low, High float64   // its share of its limit now, 5 and 95 in 100 cases; fractions of the limit
	Findings  []Finding // in any order; at most six are drawn
}

// Finding is something that can be found out.
type Finding struct {
	What      string  // such as "the end grain of the middle board"
	Means, By string  // such as "photograph", "anyone who may handle it"
	Minutes   float64 // that it takes; nought: not said
	Touches   bool    // a tool touches the wood
	Low, High float64 // what would be left of the share as a rule
}

const (
	mostFindings            = 6
	findingNames  vg.Length = 190 // room for words at the left
	findingNumber vg.Length = 94  // room for numbers at the right
	findingGap    vg.Length = 9
	findingBar    vg.Length = 10
	findingsCap             = 40.0 // tenths
)

// Draw lays the figure out.
func (f FindOut) Draw() Figure {
	m := f.or("find-out", "What should I find out next?")
	all := f.sorted()
	shown := all[:min(len(all), mostFindings)]
	words := f.words(shown)
	more := f.more(all[len(shown):], len(f.Findings)-len(all))
	head, foot := headHeight(m, words), bottomAxisHeight+margin
	if more != "" {
		foot += 14
	}
	body := vg.Length(0)
	for _, d := range shown {
		body += d.height()
	}
	if len(shown) == 0 {
		body, foot = 30, foot-bottomAxisHeight
	}
	h := head + axisNameRow + body + foot
	desc := ""
	for _, d := range shown {
		desc += clean(d.What) + " (" + d.means() + "): " + f.numbers(d.Low, d.High) + ", " + f.narrower(d) + ". "
	}
	return m.figure(h, f.sentence(all), desc+more, func(p pen) {
		p.head(m, h, words)
		if more != "" {
			p.text(more, at(margin, margin+1), quietText, left)
		}
		f.draw(p, shown, h-head-axisNameRow, foot)
	})
}

// width is how far a range reaches, in fractions of the limit.
func width(low, high float64) float64 { return high - low }

// now reports whether there is a range to narrow.
func (f FindOut) now() bool { return usable(f.Low) && usable(f.High) && f.High > f.Low }

// share is by how much of the range now the answer would narrow, 0 to 1; NaN where that is not known.
func (f FindOut) share(d Finding) float64 {
	if !f.now() || !usable(d.Low) || !usable(d.High) || d.High < d.Low {
		return math.NaN()
	}
	return 1 - width(d.Low, d.High)/width(f.Low, f.High)
}

// sorted are the findings that would narrow the answer, most first.
func (f FindOut) sorted() []Finding {
	out := slices.DeleteFunc(slices.Clone(f.Findings), func(d Finding) bool { return !(f.share(d) >= 0.005) })
	slices.SortStableFunc(out, func(a, b Finding) int { return cmp.Compare(f.share(b), f.share(a)) })
	return out
}

func (f FindOut) words(shown []Finding) string {
	if len(shown) == 0 {
		return ""
	}
	of := ""
	if part := clean(f.Part); part != "" {
		of = " for what decides, " + part
	}
	return "Open bar: the answer now" + of + ", 5 to 95 in 100 cases. Full bar: what would be left of it as a rule."
}

// more counts what is not drawn.
func (f FindOut) more(rest []Finding, idle int) string {
	var out []string
	if len(rest) > 0 {
		out = append(out, fmt.Sprintf("%d more would make it %s each at most.", len(rest), f.narrower(rest[0])))
	}
	if idle > 0 {
		out = append(out, fmt.Sprintf("%d more would not narrow it.", idle))
	}
	return strings.Join(out, " ")
}

// scale holds the range now, and the limit where that is near.
func (f FindOut) scale() scale {
	top := 2 * math.Ceil(5*max(0.1, min(f.High, findingsCap/10)))
	if top >= 8 {
		top = max(12, top)
	}
	return scale{lo: 0, hi: min(top, findingsCap), a: margin + findingNames + 10, b: Width - margin - findingNumber}
}

func (f FindOut) draw(p pen, shown []Finding, top, foot vg.Length) {
	if len(shown) == 0 {
		p.text("Nothing that can be found out by looking or measuring would narrow the answer.", at(margin, top-18), quietText, left)
		return
	}
	s := f.scale()
	every := step(s.hi, 7)
	for _, t := range ticks(0, s.hi, every) {
		p.line(stroke{hair, faint, nil}, at(s.at(t), foot), at(s.at(t), top))
	}
	p.bottomAxis(s, foot, ticks(0, s.hi, every), rh, "Tenths of the limit")
	y := top
	for _, d := range shown {
		f.row(p, s, d, y)
		y -= d.height()
	}
	if s.holds(10) {
		p.line(stroke{1.2, ink, []vg.Length{4, 2}}, at(s.at(10), foot), at(s.at(10), top+3))
		p.text("limit", at(s.at(10), top+5), boldText, middle)
	}
}

func (d Finding) names() []string { return plainText.wrap(capital(clean(d.What)), findingNames, 2) }

func (d Finding) small() []string { return smallText.wrap(d.means(), findingNames, 3) }

// height of a row.
func (d Finding) height() vg.Length {
	return vg.Length(len(d.names()))*plainText.lead() + vg.Length(len(d.small()))*smallText.lead() + findingGap
}

// row draws one finding with its upper edge at top.
func (f FindOut) row(p pen, s scale, d Finding, top vg.Length) {
	y := top - 2
	for _, line := range d.names() {
		p.text(line, at(margin, y-plainText.size), plainText, left)
		y -= plainText.lead()
	}
	for _, line := range d.small() {
		p.text(line, at(margin, y-smallText.size), smallText, left)
		y -= smallText.lead()
	}
	y = top - (d.height()-findingGap)/2 - 2
	now := box(s.clamp(10*f.Low), y-findingBar/2, s.clamp(10*f.High), y+findingBar/2)
	p.rect(white, stroke{thin, ink, nil}, now)
	after := box(s.clamp(10*d.Low), y-findingBar/2, s.clamp(10*d.High), y+findingBar/2)
	p.rect(veil(blue, 0.5), stroke{thin, blue, nil}, after)
	if 10*f.High > s.hi {
		p.lines(stroke{1.1, ink, nil}, []vg.Point{at(s.b+1, y+3), at(s.b+5, y), at(s.b+1, y-3)})
	}
	x := s.b + 12
	p.text(f.narrower(d), at(x, y+1), boldText, left)
	p.text(smallText.fit(f.numbers(d.Low, d.High), Width-margin-x), at(x, y-9), smallText, left)
}

// numbers are a range in tenths.
func (f FindOut) numbers(low, high float64) string { return span(low, high, tenths) + " tenths" }

// narrower is by how much the answer would narrow, in words.
func (f FindOut) narrower(d Finding) string {
	return fixed(100*f.share(d), 0) + " in 100 narrower"
}

// means are how, how long and by whom, in words.
func (d Finding) means() string {
	var out []string
	for _, s := range []string{clean(d.Means), minutes(d.Minutes), clean(d.By)} {
		if s != "" {
			out = append(out, s)
		}
	}
	if d.Touches {
		out = append(out, "touches the wood")
	}
	return strings.Join(out, ", ")
}

// minutes writes how long something takes; empty where that is not known.
func minutes(m float64) string {
	switch {
	case !given(m):
		return ""
	case m < 1:
		return "under 1 min"
	case m < 100:
		return fixed(m, 0) + " min"
	}
	return timeWords(m / 60)
}

func (f FindOut) sentence(all []Finding) string {
	if len(all) == 0 {
		return "Nothing that can be found out by looking or measuring would narrow the answer."
	}
	d := all[0]
	s := "To find out first: " + clean(d.What)
	if m := d.means(); m != "" {
		s += " (" + m + ")"
	}
	return s + ". The answer, now " + span(f.Low, f.High, tenths) + " tenths of the limit, would be " + span(d.Low, d.High, tenths) + " as a rule."
}
