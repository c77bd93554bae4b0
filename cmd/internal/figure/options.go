package figure

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"
)

// Options asks what each option changes: every part with all options below one another, doing nothing first.
type Options struct {
	Meta
	Groups []OptionGroup // at most so many are drawn that the drawing stays on its sheet
}

// OptionGroup is one way for one part to give way.
type OptionGroup struct {
	Name    string
	Options []Bar // in the order of the options; a share that is not known: the option has no such part
}

const (
	mostOptionRows           = 18
	optionPitch    vg.Length = 14
	groupHead      vg.Length = 20
)

// shown are the groups that there is room for.
func (o Options) shown() []OptionGroup {
	rows := 0
	for i, g := range o.Groups {
		if rows += len(g.Options); rows > mostOptionRows {
			return o.Groups[:i]
		}
	}
	return o.Groups
}

// Draw lays the figure out.
func (o Options) Draw() Figure {
	m := o.or("options", "What does each option change?")
	groups := o.shown()
	const words = "Dot: as described. Line: 5 to 95 in 100 plausible cases. Doing nothing comes first and is drawn solid."
	head := headHeight(m, words)
	foot := bottomAxisHeight + margin
	more := ""
	if n := len(o.Groups) - len(groups); n > 0 {
		more = fmt.Sprintf("%d more ways to give way stand in the table.", n)
		foot += 14
	}
	body, desc := vg.Length(0), ""
	var all []Bar
	for _, g := range groups {
		body += groupHead + vg.Length(len(g.Options))*optionPitch
		desc += clean(g.Name) + ": "
		for i, b := range g.Options {
			if i > 0 {
				desc += "; "
			}
			desc += clean(b.Name) + " " + optionWords(b)
		}
		desc += ". "
		all = append(all, g.Options...)
	}
	h := head + axisNameRow + max(body, groupHead) + foot
	return m.figure(h, o.sentence(), desc+more, func(p pen) {
		p.head(m, h, words)
		if more != "" {
			p.text(more, at(margin, margin+1), quietText, left)
		}
		o.draw(p, groups, GivesWay{}.scale(all), h-head-axisNameRow, foot)
	})
}

func (o Options) draw(p pen, groups []OptionGroup, s scale, top, foot vg.Length) {
	for _, t := range ticks(0, s.hi, 2) {
		if t != 10 {
			p.line(stroke{hair, faint, nil}, at(s.at(t), foot), at(s.at(t), top))
		}
	}
	p.bottomAxis(s, foot, ticks(0, s.hi, 2), rh, "Tenths of the limit")
	y := top
	for _, g := range groups {
		p.text(boldText.fit(g.Name, Width-2*margin), at(margin, y-13), boldText, left)
		y -= groupHead
		for i, b := range g.Options {
			mid := y - (vg.Length(i)+0.5)*optionPitch
			p.text(plainText.fit(b.Name, barNames), at(s.a-8, mid-3), plainText, right)
			if !usable(b.Share) {
				p.text("no such part", at(s.a+4, mid-3), quietText, left)
				continue
			}
			b.whisker(p, s, mid)
			if i > 0 && 10*b.Share <= s.hi { // an open dot: only doing nothing is filled
				p.dot(white, stroke{}, at(s.clamp(10*b.Share), mid), 1.4)
			}
			p.text(tenths(b.Share), at(s.b+8, mid-3), boldText, left)
		}
		y -= vg.Length(len(g.Options)) * optionPitch
	}
	p.line(stroke{1.2, ink, []vg.Length{4, 2}}, at(s.at(10), foot), at(s.at(10), top+3))
	p.text("limit", at(s.at(10), top+5), boldText, middle)
	if len(groups) == 0 {
		p.text("Nothing here has a limit that could be calculated.", at(margin, (top+foot)/2-3), quietText, left)
	}
}

func optionWords(b Bar) string {
	if !usable(b.Share) {
		return "has no such part"
	}
	return barWords(b)
}

// sentence says for the hardest part how it stands with doing nothing, and what the options make of it at best and at worst.
func (o Options) sentence() string {
	if len(o.Groups) == 0 || len(o.Groups[0].Options) == 0 {
		return "Nothing here has a limit that could be calculated."
	}
	g := o.Groups[0]
	first := g.Options[0]
	s := clean(g.Name) + ": " + clean(first.Name) + " " + optionWords(first)
	low, high := math.Inf(1), math.Inf(-1)
	for _, b := range g.Options[1:] {
		if usable(b.Share) {
			low, high = min(low, b.Share), max(high, b.Share)
		}
	}
	switch {
	case math.IsInf(low, 1):
		return s + "."
	case tenths(low) == tenths(high):
		return s + "; with the options " + ofLimit(low) + "."
	}
	return s + "; with the options from " + tenths(low) + " to " + tenths(high) + "."
}
