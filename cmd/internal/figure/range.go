package figure

import (
	"image/color"
	"strings"

	"gonum.org/v1/plot/vg"
)

// Span is a part of the humidity scale, in per cent; it is not given unless low < high.
type Span struct{ LowPct, HighPct float64 }

func (s Span) given() bool {
	return usable(s.LowPct) && usable(s.HighPct) && s.LowPct >= 0 && s.LowPct < s.HighPct
}

// within reports whether s lies in o.
func (s Span) within(o Span) bool { return s.LowPct >= o.LowPct && s.HighPct <= o.HighPct }

func (s Span) words() string { return rh(s.LowPct) + " to " + rh(s.HighPct) + " % RH" }

// Range asks whether the range asked for lies inside what the panel knows and can bear.
type Range struct {
	Meta
	UsedToPct             float64
	Lived                 Span
	LivedWords            string // such as "since 1988, unchanged"
	Records               []RecordStrip
	Asked                 Span
	AskedWords            string // such as "the borrower's room"
	Nominal, Unfavourable Span   // the calculated range
	LowCause, HighCause   string // what gives way first on each side; empty: no limit reached up to there
	Why                   string // why there is no calculated range
}

// RecordStrip is a record of humidity: its extremes and its middle 86 in 100 readings.
type RecordStrip struct {
	Name        string
	All, Middle Span
}

const (
	stripPitch vg.Length = 31
	stripNames vg.Length = 126
	stripBar   vg.Length = 9
)

// strip is one row of the figure.
type strip struct {
	name, note string
	draw       func(p pen, s scale, y vg.Length)
	words      string
}

// Draw lays the figure out.
func (r Range) Draw() Figure {
	m := r.or("range", "Is the range asked for inside what it knows and can bear?")
	strips := r.strips()
	lines := r.causes()
	foot := bottomAxisHeight + margin
	if n := vg.Length(len(lines)); n > 0 {
		foot += n*plainText.lead() + 6
	}
	top := headHeight(m, "")
	if m.Invented && r.scale().clamp(r.UsedToPct)+40 > Width-margin-inventedWidth() {
		top += axisNameRow // the mark would meet the name of the line
	}
	h := top + axisNameRow + vg.Length(max(1, len(strips)))*stripPitch + foot
	var desc []string
	for _, s := range strips {
		desc = append(desc, s.name+": "+s.words+".")
	}
	return m.figure(h, r.sentence(), strings.Join(append(desc, lines...), " "), func(p pen) {
		p.head(m, h, "")
		r.draw(p, strips, lines, h-top-axisNameRow, foot)
	})
}

func (r Range) scale() scale {
	all := []float64{}
	for _, s := range append([]Span{r.Lived, r.Asked, r.Nominal, r.Unfavourable, {r.UsedToPct, r.UsedToPct + 1e-9}}, r.spans()...) {
		if s.given() && s.LowPct > 0 {
			all = append(all, s.LowPct, s.HighPct)
		}
	}
	lo, hi := rhRange(inRange(all))
	return scale{lo: lo, hi: hi, a: margin + stripNames + 18, b: Width - margin - 20}
}

func (r Range) spans() []Span {
	var out []Span
	for _, x := range r.Records {
		out = append(out, x.All, x.Middle)
	}
	return out
}

func (r Range) draw(p pen, strips []strip, lines []string, top, foot vg.Length) {
	s := r.scale()
	if r.Asked.given() {
		a, b := s.clamp(r.Asked.LowPct), s.clamp(r.Asked.HighPct)
		p.rect(pale, stroke{}, box(a, foot, b, top))
		p.lines(stroke{thin, grey(0x9A), []vg.Length{1.5, 2}}, []vg.Point{at(a, foot), at(a, top)}, []vg.Point{at(b, foot), at(b, top)})
	}
	for _, t := range ticks(s.lo, s.hi, 10) {
		p.line(stroke{hair, faint, nil}, at(s.at(t), foot), at(s.at(t), top))
	}
	if given(r.UsedToPct) && s.holds(r.UsedToPct) {
		x := s.at(r.UsedToPct)
		p.line(stroke{limit, quiet, nil}, at(x, foot), at(x, top+2))
		p.text("used to "+rh(r.UsedToPct)+" %", at(x, top+5), plainText, middle)
	}
	for i, st := range strips {
		y := top - (vg.Length(i)+0.5)*stripPitch
		p.stripName(st, y)
		st.draw(p, s, y)
	}
	if len(strips) == 0 {
		p.text("No range is known.", at(margin, (top+foot)/2), quietText, left)
	}
	p.rhAxis(s, foot)
	y := margin + 1 + vg.Length(len(lines)-1)*plainText.lead()
	for _, line := range lines {
		p.text(line, at(s.a, y), plainText, left)
		y -= plainText.lead()
	}
}

func (p pen) stripName(st strip, y vg.Length) {
	base := y - 3
	if st.note != "" {
		base = y + 1.5
		p.text(smallText.fit(st.note, stripNames), at(margin, y-8.5), smallText, left)
	}
	p.text(plainText.fit(st.name, stripNames), at(margin, base), plainText, left)
}

// strips are the rows that can be drawn.
func (r Range) strips() []strip {
	var out []strip
	if r.Lived.given() {
		out = append(out, strip{"it has lived through", r.LivedWords, r.plain(r.Lived, quiet), r.Lived.words()})
	}
	for _, rec := range r.Records {
		if rec.All.given() {
			out = append(out, strip{clean(rec.Name), "thick: middle 86 in 100 readings", rec.draw, rec.All.words()})
		}
	}
	if r.Asked.given() {
		out = append(out, strip{"asked", r.AskedWords, r.drawAsked, r.Asked.words()})
	}
	if r.Nominal.given() {
		out = append(out, strip{"calculated range", "fading: only as described", r.drawCalculated, r.calculatedWords()})
	} else if r.Why != "" {
		out = append(out, strip{"calculated range", "", func(p pen, s scale, y vg.Length) {
			p.text("none offered", at(s.a+1, y-3), boldText, left)
		}, "none offered"})
	}
	return out
}

// ends writes the two numbers of a bar outside it.
func (p pen) ends(s scale, v Span, y vg.Length, l letters) {
	p.text(rh(v.LowPct), at(s.clamp(v.LowPct)-3.5, y-3.2), l, right)
	p.text(rh(v.HighPct), at(s.clamp(v.HighPct)+3.5, y-3.2), l, left)
}

func (r Range) plain(v Span, c color.Color) func(pen, scale, vg.Length) {
	return func(p pen, s scale, y vg.Length) {
		p.rect(c, stroke{}, box(s.clamp(v.LowPct), y-stripBar/2, s.clamp(v.HighPct), y+stripBar/2))
		p.ends(s, v, y, plainText)
	}
}

func (rec RecordStrip) draw(p pen, s scale, y vg.Length) {
	p.line(stroke{strong, quiet, nil}, at(s.clamp(rec.All.LowPct), y), at(s.clamp(rec.All.HighPct), y))
	if rec.Middle.given() {
		p.rect(quiet, stroke{}, box(s.clamp(rec.Middle.LowPct), y-stripBar/2, s.clamp(rec.Middle.HighPct), y+stripBar/2))
	}
	p.ends(s, rec.All, y, plainText)
}

func (r Range) drawAsked(p pen, s scale, y vg.Length) {
	b := box(s.clamp(r.Asked.LowPct), y-stripBar/2, s.clamp(r.Asked.HighPct), y+stripBar/2)
	p.rect(white, stroke{}, b)
	p.hatch(stroke{hair, ink, nil}, b, 4)
	p.rect(nil, stroke{limit, ink, nil}, b)
	p.ends(s, r.Asked, y, plainText)
}
