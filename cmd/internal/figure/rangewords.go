package figure

import (
	"gonum.org/v1/plot/vg"
)

// fadeSteps is in how many steps the doubt of an end fades.
const fadeSteps = 10

// core is the part of the calculated range that holds at the unfavourable end too.
func (r Range) core() (Span, bool) {
	c := Span{max(r.Unfavourable.LowPct, r.Nominal.LowPct), min(r.Unfavourable.HighPct, r.Nominal.HighPct)}
	if r.Unfavourable.given() && c.given() {
		return c, true
	}
	mid := (r.Nominal.LowPct + r.Nominal.HighPct) / 2
	if r.UsedToPct > r.Nominal.LowPct && r.UsedToPct < r.Nominal.HighPct {
		mid = r.UsedToPct
	}
	return Span{mid, mid}, false
}

// drawCalculated draws the core full, the ends fading to what is reached only as described.
func (r Range) drawCalculated(p pen, s scale, y vg.Length) {
	c, some := r.core()
	lo, hi := y-stripBar/2-1, y+stripBar/2+1
	p.rect(white, stroke{}, box(s.clamp(r.Nominal.LowPct), lo, s.clamp(r.Nominal.HighPct), hi))
	p.rect(blue, stroke{}, box(s.clamp(c.LowPct), lo, s.clamp(c.HighPct), hi))
	p.fade(box(s.clamp(c.HighPct), lo, s.clamp(r.Nominal.HighPct), hi), false)
	p.fade(box(s.clamp(r.Nominal.LowPct), lo, s.clamp(c.LowPct), hi), true)
	edge := stroke{limit, blue, []vg.Length{3, 2}}
	p.rect(nil, edge, box(s.clamp(r.Nominal.LowPct), lo, s.clamp(r.Nominal.HighPct), hi))
	p.ends(s, r.Nominal, y, boldText)
	if !some {
		return
	}
	if c.LowPct-r.Nominal.LowPct >= 0.5 {
		p.text(rh(c.LowPct), at(s.clamp(c.LowPct), hi+2.5), smallText, middle)
	}
	if r.Nominal.HighPct-c.HighPct >= 0.5 {
		p.text(rh(c.HighPct), at(s.clamp(c.HighPct), hi+2.5), smallText, middle)
	}
}

// fade fills a rectangle in steps from strong to weak, weak at the left or at the right.
func (p pen) fade(r vg.Rectangle, weakLeft bool) {
	w := (r.Max.X - r.Min.X) / fadeSteps
	if !(w > 0) {
		return
	}
	for i := range fadeSteps {
		k := i
		if weakLeft {
			k = fadeSteps - 1 - i
		}
		x := r.Min.X + vg.Length(i)*w
		p.rect(veil(blue, 0.75-0.7*float64(k)/(fadeSteps-1)), stroke{}, box(x, r.Min.Y, x+w, r.Max.Y))
	}
}

func (r Range) calculatedWords() string {
	s := r.Nominal.words()
	if c, ok := r.core(); ok {
		s += " as described, " + c.words() + " at the unfavourable end"
	}
	return s
}

// causes are the words under the calculated range: what gives way on each side, or why there is none.
func (r Range) causes() []string {
	w := Width - margin - r.scale().a
	if !r.Nominal.given() {
		return plainText.wrap(r.Why, w, 3)
	}
	side := func(word string, at float64, cause string) []string {
		if clean(cause) == "" {
			return plainText.wrap("No limit of this model is reached "+word+" to "+rh(at)+" %.", w, 2)
		}
		return plainText.wrap(word+" "+rh(at)+" %: "+cause, w, 2)
	}
	low, high := "Below", "Above"
	if clean(r.LowCause) == "" {
		low = "down"
	}
	if clean(r.HighCause) == "" {
		high = "up"
	}
	return append(side(low, r.Nominal.LowPct, r.LowCause), side(high, r.Nominal.HighPct, r.HighCause)...)
}

// sentence says whether the range asked for lies inside.
func (r Range) sentence() string {
	switch {
	case !r.Nominal.given() && clean(r.Why) != "":
		return "No calculated range is offered: " + clean(r.Why)
	case !r.Nominal.given():
		return "There is no calculated range."
	case !r.Asked.given():
		return "Calculated range: " + r.Nominal.words() + "; no limit of this model is reached in it."
	}
	s := "Asked: " + r.Asked.words() + "; calculated range: " + r.Nominal.words() + ". "
	c, some := r.core()
	switch {
	case some && r.Asked.within(c):
		return s + "What was asked lies inside it, at the unfavourable end too."
	case r.Asked.within(r.Nominal):
		return s + "What was asked lies inside it as described, not at the unfavourable end."
	}
	return s + "What was asked goes beyond it, on the " + r.beyond() + "."
}

func (r Range) beyond() string {
	dry, damp := r.Asked.LowPct < r.Nominal.LowPct, r.Asked.HighPct > r.Nominal.HighPct
	switch {
	case dry && damp:
		return "dry and on the damp side"
	case dry:
		return "dry side"
	}
	return "damp side"
}
