package figure

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"
)

// Section asks which way the panel bends: its section across the grain, painted face up, in one
// shape after the other. Millimetres are equally long in both directions; only the movement is
// drawn larger.
type Section struct {
	Meta
	Boards        []SectionBoard // from the left edge, seen from the front
	Shapes        []SectionShape // in the order drawn, usually dry, used to, damp
	Magnification float64        // of the movement; nought: chosen
	GrainLevel    bool           // "left" is then the lower edge
}

// SectionBoard is one board's outline and its growth rings.
type SectionBoard struct {
	Name                 string
	WidthMM, ThicknessMM float64
	RingKnown            bool
	RingDeg              float64 // between rings and face: 90 quarter-sawn, 0 flat-sawn
	LeanLeft             bool    // the rings rise to the left
	Curved               bool    // the place of the pith is given
	PithAcrossMM         float64 // from the board's left edge
	PithAboveBackMM      float64 // from its back face, up to the painted face; negative: behind
	Assumed              bool    // rings are drawn dashed
}

// SectionShape is one shape: how the middle of the thickness has moved from what the panel is used to.
type SectionShape struct {
	Label             string    // such as "dry, 35 % RH"
	XMM, DxMM, DzMM   []float64 // places from the left edge; movement across and towards the painted face
	UsedTo            bool      // the shape that the others are drawn over
	CupLowMM, CupHigh float64   // range of what it bends at the middle; both nought: not given
}

// Bend is how far the middle stands above the line through the ends, in mm; positive: the painted
// face is rounded.
func (s SectionShape) Bend() float64 {
	n := min(len(s.XMM), len(s.DzMM))
	if n < 2 {
		return 0
	}
	a, b := s.XMM[0], s.XMM[n-1]
	mid := valueAt(s.XMM[:n], s.DzMM[:n], (a+b)/2)
	return mid - (s.DzMM[0]+s.DzMM[n-1])/2
}

// Wider is the change of width, in mm.
func (s SectionShape) Wider() float64 {
	n := min(len(s.XMM), len(s.DxMM))
	if n < 2 {
		return 0
	}
	return s.DxMM[n-1] - s.DxMM[0]
}

const (
	sectionSide vg.Length = 14  // room at each side
	rowWords    vg.Length = 15  // line of words above each shape
	thickest    vg.Length = 44  // most height of the boards themselves
	bendMost    vg.Length = 26  // height that the chosen magnification gives to the greatest bend
	bendLimit   vg.Length = 110 // height that a given one may give
)

// drawing is a section laid out.
type drawing struct {
	Section
	width, thick float64   // mm
	per          vg.Length // points for a millimetre, in both directions
	times        float64   // magnification
}

// Draw lays the figure out.
func (s Section) Draw() Figure {
	m := s.or("section", "Which way does it bend?")
	s.Boards = soundBoards(s.Boards)
	d := s.layout()
	words := "Section across the grain, painted face up (thick line), left as seen from the front. Wood to scale"
	if s.GrainLevel {
		words = "Section across the grain, painted face up (thick line), lower edge at the left. Wood to scale"
	}
	if d.times > 1 {
		words += fmt.Sprintf("; movement drawn %s times too large", fixed(d.times, 0))
	}
	words += "."
	head := headHeight(m, words)
	h := head + margin
	for _, sh := range s.Shapes {
		h += d.rowHeight(sh)
	}
	if len(s.Shapes) == 0 || len(s.Boards) == 0 {
		h += 30
	}
	var desc []string
	for _, sh := range s.Shapes {
		desc = append(desc, clean(sh.Label)+": "+sh.words(true)+".")
	}
	return m.figure(h, s.sentence(), strings.Join(desc, " "), func(p pen) {
		p.head(m, h, words)
		if len(s.Boards) == 0 || len(s.Shapes) == 0 {
			p.text("No board to draw.", at(margin, margin+10), quietText, left)
			return
		}
		y := h - head
		for _, sh := range s.Shapes {
			d.row(p, sh, y)
			y -= d.rowHeight(sh)
		}
	})
}

// soundBoards leaves out boards without a width or thickness.
func soundBoards(in []SectionBoard) []SectionBoard {
	var out []SectionBoard
	for _, b := range in {
		if given(b.WidthMM) && given(b.ThicknessMM) && b.WidthMM < 1e5 && b.ThicknessMM < 1e4 {
			out = append(out, b)
		}
	}
	return out
}

// layout chooses the scale, the same in both directions, and the magnification.
func (s Section) layout() drawing {
	d := drawing{Section: s, times: 1}
	for _, b := range s.Boards {
		d.width += b.WidthMM
		d.thick = max(d.thick, b.ThicknessMM)
	}
	if d.width == 0 {
		return d
	}
	room := Width - 2*sectionSide
	d.per = min(room/vg.Length(d.width), thickest/vg.Length(d.thick))
	bend, wider := 0.0, 0.0
	for _, sh := range s.Shapes {
		bend, wider = max(bend, sh.reach()), max(wider, math.Abs(sh.Wider()))
	}
	d.times = s.Magnification
	if !given(d.times) || float64(d.per)*bend*d.times > float64(bendLimit) {
		d.times = magnification(bend*float64(d.per), float64(bendMost))
	}
	if span := d.width + d.times*wider; usable(span) {
		d.per = min(d.per, room/vg.Length(span))
	}
	return d
}

// reach is the greatest distance from the line through the ends.
func (s SectionShape) reach() float64 {
	lo, hi, ok := extent(s.lifted())
	if !ok {
		return 0
	}
	return max(-lo, hi)
}

// lifted is the movement towards the painted face, from the line through the ends.
func (s SectionShape) lifted() []float64 {
	n := min(len(s.XMM), len(s.DzMM))
	if n < 2 {
		return nil
	}
	out := make([]float64, n)
	for i := range out {
		t := (s.XMM[i] - s.XMM[0]) / (s.XMM[n-1] - s.XMM[0])
		out[i] = s.DzMM[i] - s.DzMM[0] - t*(s.DzMM[n-1]-s.DzMM[0])
		if !usable(out[i]) {
			out[i] = 0
		}
	}
	return out
}

// magnification is the greatest of 1, 2, 5, 10, 20, 50 that keeps value within most.
func magnification(value, most float64) float64 {
	best := 1.0
	for _, m := range [...]float64{2, 5, 10, 20, 50} {
		if value*m <= most {
			best = m
		}
	}
	if !(value > 0) {
		return 1
	}
	return best
}

// words say how it bends; all of them with the range and the width.
func (s SectionShape) words(all bool) string {
	if s.UsedTo {
		return "as it is used to"
	}
	b := s.Bend()
	out := "flat"
	switch {
	case !usable(b):
		out = "bend not known"
	case b >= 0.05:
		out = "painted face rounded, " + mm(b) + " mm at the middle"
	case b <= -0.05:
		out = "painted face hollow, " + mm(-b) + " mm at the middle"
	}
	if !all {
		return out
	}
	if s.CupLowMM != s.CupHigh && usable(s.CupLowMM) && usable(s.CupHigh) {
		out += " (from " + bendWords(min(s.CupLowMM, s.CupHigh)) + " to " + bendWords(max(s.CupLowMM, s.CupHigh)) + ")"
	}
	switch w := s.Wider(); {
	case w >= 0.05:
		out += ", " + mm(w) + " mm wider"
	case w <= -0.05:
		out += ", " + mm(-w) + " mm narrower"
	}
	return out
}

func bendWords(v float64) string {
	switch {
	case v >= 0.05:
		return mm(v) + " rounded"
	case v <= -0.05:
		return mm(-v) + " hollow"
	}
	return "flat"
}

func (s Section) sentence() string {
	var out []string
	for _, sh := range s.Shapes {
		if !sh.UsedTo {
			out = append(out, clean(sh.Label)+": "+sh.words(false))
		}
	}
	if len(out) == 0 {
		return "The section as it is used to; no other shape was calculated."
	}
	return strings.Join(out, "; ") + "."
}
