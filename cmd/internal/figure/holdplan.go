package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
)

// HoldPlan asks which fixing works hardest: the panel from the back, as in [Panel], and on it every
// fixing as a disc whose area goes with its greatest force.
type HoldPlan struct {
	Meta
	Panel   Panel // boards, joins, cracks, members; its own Meta, inserts, notes and fixings are not drawn
	Fixings []HeldFixing
}

// HeldFixing is one fixing with the greatest force on it. Places are those of the front, as in [Panel].
type HeldFixing struct {
	Name              string // of its member
	AcrossMM, AlongMM float64
	N                 float64 // greatest force, its sign does not count; NaN: not known
	RHPct             float64 // where it is; nought: not said
	Does              Holding

	// The way the panel is pulled there then, of any length: across (from the left edge to the right, seen
	// from the front) and along. Nought or NaN: no arrow.
	PullAcross, PullAlong float64
}

// Holding is what a fixing does at its greatest force.
type Holding int

// Each has its own sign.
const (
	Bears  Holding = iota // full disc
	Slides                // half disc
	Yields                // full disc with a bar
	Idle                  // small ring: carries nothing
)

const (
	discMost  vg.Length = 10  // greatest radius
	discLeast vg.Length = 1.3 // no disc is smaller
	idleDisc  vg.Length = 1.7
	hardRing  vg.Length = 2.2 // from the hardest disc to its ring
	holdKey   vg.Length = 24  // row of signs
	noForce             = 1   // N: less is called none
)

// holdSheet is a HoldPlan laid out.
type holdSheet struct {
	*sheet
	all   []HeldFixing // what can be drawn, the hardest first
	words string
	per   vg.Length // radius for the square root of a newton
}

// Draw lays the figure out.
func (h HoldPlan) Draw() Figure {
	m := h.or("hold-plan", "Which fixing works hardest?")
	d := h.layout(m)
	return m.figure(d.h, h.sentence(), d.desc(), func(p pen) {
		p.head(m, d.h, d.words)
		if d.sheet.per == 0 {
			p.text("The size is not known.", at(margin, margin+10), quietText, left)
			return
		}
		d.drawBoards(p)
		d.drawCracks(p)
		d.drawMembers(p)
		p.rect(nil, stroke{1.2, ink, nil}, d.r)
		d.nameBoards(p)
		d.writeSizes(p)
		d.drawNotes(p)
		d.drawDiscs(p)
		d.drawRuler(p)
		d.key(p, margin+rulerRow)
	})
}

// sorted are the fixings whose place is known, the hardest first; of those alike, the one given first.
func (h HoldPlan) sorted() []HeldFixing {
	out := slices.DeleteFunc(slices.Clone(h.Fixings), func(f HeldFixing) bool { return !usable(f.AcrossMM) || !usable(f.AlongMM) })
	slices.SortStableFunc(out, func(a, b HeldFixing) int { return cmp.Compare(b.size(), a.size()) })
	return out
}

// size is the force without its sign; nought where it carries none or it is not known.
func (f HeldFixing) size() float64 {
	if n := math.Abs(f.N); f.Does != Idle && usable(n) {
		return n
	}
	return 0
}

func (f HeldFixing) carries() bool { return f.size() >= noForce }

// layout finds places and scales. The hardest fixing is named beside the panel like a part of it.
func (h HoldPlan) layout(m Meta) *holdSheet {
	all := h.sorted()
	pl := h.bare()
	for i, mb := range pl.Members {
		pl.Members[i].Note = memberWords(mb, all)
	}
	if len(all) > 0 && all[0].carries() {
		f := all[0]
		pl.Inserts = []Insert{{Name: force(f.size()) + ", " + weight(f.size()), Note: "the hardest" + atRH(f.RHPct),
			AcrossMM: max(0, min(f.AcrossMM, pl.AcrossMM)), AlongMM: max(0, min(f.AlongMM, pl.AlongMM))}}
	}
	d := &holdSheet{sheet: pl.layout(m), all: all}
	d.words = d.sheet.words
	if len(all) > 0 && all[0].carries() {
		d.words += " Area of a disc: the greatest force on that fixing."
	}
	d.h += headHeight(m, d.words) - headHeight(m, d.sheet.words)
	if d.sheet.per == 0 {
		return d
	}
	d.h += holdKey
	d.r.Min.Y, d.r.Max.Y = d.r.Min.Y+holdKey, d.r.Max.Y+holdKey
	d.per = d.discScale()
	if len(pl.Inserts) > 0 {
		d.leadToRim(mmPlace{pl.Inserts[0].AcrossMM, pl.Inserts[0].AlongMM})
	}
	return d
}

// leadToRim lets the leader of the hardest fixing end at the ring round its disc, on the side of its name.
func (d *holdSheet) leadToRim(was mmPlace) {
	off := float64(d.radius(d.all[0])+hardRing) / d.sheet.per
	for _, side := range []struct {
		notes []note
		mm    float64
	}{{d.rightNotes, -off}, {d.leftNotes, off}} {
		for i, n := range side.notes {
			switch {
			case n.rest || n.part != was:
			case d.GrainLevel:
				side.notes[i].part.along += side.mm
			default:
				side.notes[i].part.across += side.mm
			}
		}
	}
}

// bare is the panel as the ground of the drawing: names of members only, no fixings.
func (h HoldPlan) bare() Panel {
	pl := h.Panel
	pl.Meta, pl.Inserts, pl.Note = Meta{}, nil, ""
	pl.Joins, pl.Cracks, pl.Members = slices.Clone(pl.Joins), slices.Clone(pl.Cracks), slices.Clone(pl.Members)
	for i := range pl.Joins {
		pl.Joins[i].Name, pl.Joins[i].Note = "", ""
	}
	for i := range pl.Cracks {
		pl.Cracks[i].Name, pl.Cracks[i].Note = "", ""
	}
	for i := range pl.Members {
		pl.Members[i].Fixings, pl.Members[i].Hidden = nil, true
	}
	return pl
}

// memberWords is the greatest force on a fixing of the member; its own note where there is none.
func memberWords(m Member, sorted []HeldFixing) string {
	for i, f := range sorted {
		if f.Name != m.Name || f.Name == "" {
			continue
		}
		if !f.carries() {
			return "its fixings carry nothing"
		}
		if i == 0 {
			return "has the hardest"
		}
		return "at most " + force(f.size()) + atRH(f.RHPct)
	}
	return m.Note
}

func atRH(pct float64) string {
	if !given(pct) {
		return ""
	}
	return ", at " + rh(pct) + " % RH"
}

// discScale makes the greatest disc as large as it may be without meeting another, where that leaves it
// readable.
func (d *holdSheet) discScale() vg.Length {
	if len(d.all) == 0 || !d.all[0].carries() {
		return 0
	}
	k := float64(discMost) / math.Sqrt(d.all[0].size())
	least := k / 2
	for i, a := range d.all[:min(len(d.all), 400)] {
		for _, b := range d.all[:i] {
			gap := float64(hypot(d.spot(a).Sub(d.spot(b))))
			k = min(k, 0.95*gap/(math.Sqrt(a.size())+math.Sqrt(b.size())))
		}
	}
	return vg.Length(max(k, least))
}

func (d *holdSheet) spot(f HeldFixing) vg.Point { return d.at(f.AcrossMM, f.AlongMM) }

func (h HoldPlan) sentence() string {
	all := h.sorted()
	switch {
	case len(all) == 0:
		return "Nothing is fixed to this panel."
	case !all[0].carries():
		return "No fixing carries a force of a newton."
	}
	f := all[0]
	s := "A fixing"
	if n := clean(f.Name); n != "" {
		s += " of " + n
	}
	s += " works hardest, " + force(f.size()) + " (" + weight(f.size()) + ")" + strings.Replace(atRH(f.RHPct), ", at", " at", 1)
	if c := counts(all); c != "" {
		s += "; " + c
	}
	return s + "."
}

// counts says what the fixings do.
func counts(all []HeldFixing) string {
	var n [4]int
	for _, f := range all {
		n[f.sign()]++
	}
	var out []string
	for i, word := range [...]string{"bear", "slide", "yield", "carry nothing"} {
		switch {
		case n[i] == 1:
			word = [...]string{"bears", "slides", "yields", "carries nothing"}[i]
			fallthrough
		case n[i] > 1:
			out = append(out, fmt.Sprintf("%d %s", n[i], word))
		}
	}
	return fmt.Sprintf("of %s ", count(len(all), "fixing")) + strings.Join(out, ", ")
}

func (d *holdSheet) desc() string {
	var out []string
	for i, f := range d.all {
		if i == 20 {
			out = append(out, fmt.Sprintf("%d more.", len(d.all)-20))
			break
		}
		s := fmt.Sprintf("%s mm across, %s mm along: %s, %s%s.", mm(f.AcrossMM), mm(f.AlongMM),
			[...]string{"bears", "slides", "yields", "carries nothing"}[f.sign()], force(f.size()), atRH(f.RHPct))
		out = append(out, strings.TrimPrefix(capital(clean(f.Name))+", ", ", ")+s)
	}
	return strings.Join(out, " ")
}
