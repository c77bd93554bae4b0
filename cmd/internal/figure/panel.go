package figure

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// Panel asks which panel this is and where what is: the panel from the back, to scale, with its
// parts. Places are those of the front: across from the left edge (grain level: from the lower
// edge), along from the lower end (grain level: from the left); the drawing turns them over.
type Panel struct {
	Meta
	AcrossMM, AlongMM float64
	GrainLevel        bool
	Boards            []PanelBoard // from the left (grain level: from below)
	Joins             []PanelJoin
	Cracks            []PanelCrack
	Members           []Member // battens, parts of a cradle
	Inserts           []Insert
	Note              string // quiet words beneath
}

// PanelBoard is one board; Assumed is drawn dashed.
type PanelBoard struct {
	Name    string
	WidthMM float64
	Assumed bool
}

// PanelJoin is a join with its open parts.
type PanelJoin struct {
	Name, Note string
	AcrossMM   float64
	Open       []Stretch
	Assumed    bool
}

// Stretch is a length along the grain, in mm.
type Stretch struct{ FromMM, ToMM float64 }

// PanelCrack is a split (through) or a check (part of the thickness, drawn open).
type PanelCrack struct {
	Name, Note string
	AcrossMM   float64
	Stretch
	Through, Assumed bool
}

// Member is a batten or one member of a cradle. Without a name it is drawn and not named.
type Member struct {
	Name, Note           string
	AcrossFrom, AcrossTo float64 // mm
	AlongFrom, AlongTo   float64 // mm
	Hidden               bool    // on the front or within: drawn without fill
	Assumed              bool
	Cradle               bool // part of a cradle, not a batten
	Fixings              []Fixing
}

// FixingKind is how a fixing is drawn.
type FixingKind int

// Each kind has its own sign.
const (
	Nail   FixingKind = iota // dot
	Screw                    // ring with a cross
	Glue                     // hatched patch
	Slot                     // oval
	Keeper                   // empty patch
	Spring                   // zigzag
)

// Fixing is one fixing.
type Fixing struct {
	AcrossMM, AlongMM float64
	FootprintMM       float64 // across the grain, for patches; nought: drawn as small as readable
	Kind              FixingKind
}

// Insert is a butterfly or another piece let in.
type Insert struct {
	Name, Note        string
	AcrossMM, AlongMM float64 // its middle
	WidthMM, LengthMM float64 // across and along the grain
	Butterfly         bool
	Assumed           bool
}

const (
	panelMostHigh vg.Length = 330
	panelColumn   vg.Length = 116 // room for names beside the panel
	panelGutter   vg.Length = 16  // between names and panel
	boardRow      vg.Length = 32  // numbers and names of boards over the panel
	sizeRow       vg.Length = 32  // widths and size under it
	rulerRow      vg.Length = 38
)

// sheet is a panel laid out on the canvas.
type sheet struct {
	Panel
	per        float64 // points for a millimetre
	r          vg.Rectangle
	front      bool // seen from the front
	two        bool // columns of names on both sides
	words      string
	h          vg.Length
	leftNotes  []note
	rightNotes []note
}

// Draw lays the figure out.
func (pl Panel) Draw() Figure {
	m := pl.or("panel", "Which panel, and where is what?")
	s := pl.layout(m)
	return m.figure(s.h, pl.sentence(), pl.describe(), func(p pen) {
		p.head(m, s.h, s.words)
		if s.per == 0 {
			p.text("The size is not known.", at(margin, margin+10), quietText, left)
			return
		}
		s.drawBoards(p)
		s.drawInserts(p)
		s.drawCracks(p)
		s.drawMembers(p)
		p.rect(nil, stroke{1.2, ink, nil}, s.r)
		s.nameBoards(p)
		s.writeSizes(p)
		s.drawRuler(p)
		s.drawNotes(p)
	})
}

// layout finds the scale and the place of the panel.
func (pl Panel) layout(m Meta) *sheet {
	s := &sheet{Panel: pl, words: "SEEN FROM THE BACK: what is at the left here is at the right from the front."}
	head := headHeight(m, s.words)
	wide, high := pl.AcrossMM, pl.AlongMM
	if pl.GrainLevel {
		wide, high = high, wide
	}
	if !given(wide) || !given(high) || wide > 1e5 || high > 1e5 {
		s.h = head + 40
		return s
	}
	s.two = !pl.GrainLevel && high > 1.1*wide
	room := Width - 2*margin - panelColumn - panelGutter
	x := margin
	if s.two {
		room -= panelColumn + panelGutter
		x += panelColumn + panelGutter
	}
	if pl.GrainLevel { // boards are named at the left
		room -= boardColumn
		x += boardColumn
	}
	s.per = min(float64(room)/wide, float64(panelMostHigh)/high)
	w, hh := vg.Length(wide*s.per), vg.Length(high*s.per)
	x += (room - w) / 2
	s.makeNotes(max(hh, noteRoom))
	area := max(hh, notesHeight(s.leftNotes), notesHeight(s.rightNotes))
	over := boardRow
	if pl.GrainLevel {
		over = 6
	}
	s.h = head + over + area + sizeRow + rulerRow + margin
	top := s.h - head - over
	s.r = box(x, top-hh, x+w, top)
	return s
}

// at is the place of a point of the panel on the canvas.
func (s *sheet) at(across, along float64) vg.Point {
	x, y := vg.Length(across*s.per), vg.Length(along*s.per)
	if s.GrainLevel {
		x, y = y, x
	}
	if s.front {
		return at(s.r.Min.X+x, s.r.Min.Y+y)
	}
	return at(s.r.Max.X-x, s.r.Min.Y+y)
}

// rect is the rectangle between two points, kept within the sheet.
func (s *sheet) rect(across0, along0, across1, along1 float64) (vg.Rectangle, bool) {
	a, b := s.at(across0, along0), s.at(across1, along1)
	if !finite(a) || !finite(b) {
		return vg.Rectangle{}, false
	}
	r := box(a.X, a.Y, b.X, b.Y)
	lim := box(s.r.Min.X-10, s.r.Min.Y-10, s.r.Max.X+10, s.r.Max.Y+10)
	r.Min, r.Max = at(max(r.Min.X, lim.Min.X), max(r.Min.Y, lim.Min.Y)), at(min(r.Max.X, lim.Max.X), min(r.Max.Y, lim.Max.Y))
	return r, r.Max.X > r.Min.X && r.Max.Y > r.Min.Y
}

// boards are the edges of the boards across the panel; where widths are unknown they share evenly.
func (pl Panel) boards() (from, to []float64) {
	sum := 0.0
	sound := true
	for _, b := range pl.Boards {
		sum += b.WidthMM
		sound = sound && given(b.WidthMM)
	}
	if !sound || !given(sum) {
		sum = float64(len(pl.Boards))
		sound = false
	}
	x := 0.0
	for _, b := range pl.Boards {
		w := pl.AcrossMM / sum
		if sound {
			w *= b.WidthMM
		}
		from, to = append(from, x), append(to, x+w)
		x += w
	}
	return from, to
}

func (pl Panel) sentence() string {
	open := 0
	for _, j := range pl.Joins {
		if len(j.Open) > 0 {
			open++
		}
	}
	s := fmt.Sprintf("%s, size not known", count(len(pl.Boards), "board"))
	if given(pl.AcrossMM) && given(pl.AlongMM) {
		s = fmt.Sprintf("%s, %s × %s mm", count(len(pl.Boards), "board"), mm(pl.across()), mm(pl.up()))
	}
	var has []string
	if open > 0 {
		has = append(has, count(open, "open join"))
	}
	has = append(has, pl.counted()...)
	if len(has) == 0 {
		return s + "."
	}
	return s + "; " + strings.Join(has, ", ") + "."
}

// counted are cracks and members in numbers.
func (pl Panel) counted() []string {
	var splits, checks, battens, cradle int
	for _, c := range pl.Cracks {
		if c.Through {
			splits++
		} else {
			checks++
		}
	}
	for _, m := range pl.Members {
		if m.Cradle {
			cradle++
		} else {
			battens++
		}
	}
	var out []string
	for _, c := range []struct {
		n    int
		word string
	}{{splits, "split"}, {checks, "check"}, {battens, "batten"}, {cradle, "cradle member"}} {
		if c.n > 0 {
			out = append(out, count(c.n, c.word))
		}
	}
	return out
}

// across and up are the size as it hangs.
func (pl Panel) across() float64 {
	if pl.GrainLevel {
		return pl.AlongMM
	}
	return pl.AcrossMM
}

func (pl Panel) up() float64 {
	if pl.GrainLevel {
		return pl.AcrossMM
	}
	return pl.AlongMM
}

// describe lists the parts for readers who do not see the drawing.
func (pl Panel) describe() string {
	var out []string
	for i, b := range pl.Boards {
		out = append(out, fmt.Sprintf("Board %d %s, %s mm wide.", i+1, clean(b.Name), mm(b.WidthMM)))
	}
	part := func(name, note string) {
		if name = clean(name); name != "" {
			out = append(out, strings.TrimSuffix(name+", "+clean(note), ", ")+".")
		}
	}
	for _, j := range pl.Joins {
		part(j.Name, j.Note)
	}
	for _, c := range pl.Cracks {
		part(c.Name, c.Note)
	}
	for _, m := range pl.Members {
		part(m.Name, m.Note)
	}
	for _, i := range pl.Inserts {
		part(i.Name, i.Note)
	}
	return strings.Join(out, " ")
}

// anyAssumed reports whether something is drawn dashed.
func (pl Panel) anyAssumed() bool {
	for _, b := range pl.Boards {
		if b.Assumed {
			return true
		}
	}
	for _, j := range pl.Joins {
		if j.Assumed {
			return true
		}
	}
	for _, c := range pl.Cracks {
		if c.Assumed {
			return true
		}
	}
	for _, m := range pl.Members {
		if m.Assumed {
			return true
		}
	}
	for _, i := range pl.Inserts {
		if i.Assumed {
			return true
		}
	}
	return false
}

// middleOf is the middle of a stretch kept on the panel.
func (pl Panel) middleOf(s Stretch) float64 {
	return max(0, min((s.FromMM+s.ToMM)/2, pl.AlongMM))
}

func (s Stretch) sound() bool {
	return usable(s.FromMM) && usable(s.ToMM) && math.Abs(s.ToMM-s.FromMM) > 0
}
