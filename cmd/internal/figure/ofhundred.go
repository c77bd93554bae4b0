package figure

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"
)

// OfHundred asks how many of 100 such panels something happens to, in several situations side by side: 100
// small panels each, so many of them marked.
type OfHundred struct {
	Meta
	What       string // what the marked ones do, in the plural; empty: "reach a limit"
	When       string // in which time or climate, such as "in a year"
	Situations []Situation
}

// Situation is one case that is counted, such as "as it is", "with the members freed", "on loan".
type Situation struct {
	Name, Note string
	// Low and High are the ends of the count, 0 to 100: up to Low panels are marked surely, up to High perhaps.
	// Where one is NaN the other stands for both; both NaN: there is no count. What spans more than tenfold
	// cannot be told, fewer than 1 taken as 1.
	Low, High float64
}

const (
	mostSituations            = 8
	gridPitch       vg.Length = 10 // from one small panel to the next
	gridSide                  = 10 * gridPitch
	columnGap       vg.Length = 24
	situationLines            = 3 // of its name, and of its note
	situationFigure vg.Length = 13
	nameGap         vg.Length = 4
)

// Draw lays the figure out.
func (o OfHundred) Draw() Figure {
	m := o.or("of-hundred", "How many of 100 such panels?")
	shown := o.Situations[:min(len(o.Situations), mostSituations)]
	words := o.words(shown)
	head := headHeight(m, words)
	columns := columnsOf(len(shown))
	rows := (len(shown) + columns - 1) / columns
	heights, body := make([]vg.Length, rows), vg.Length(0)
	for i := range rows {
		heights[i] = rowHeight(shown[i*columns:min(len(shown), (i+1)*columns)], columns)
		body += heights[i]
	}
	body += vg.Length(max(0, rows-1)) * rowGap
	if rows == 0 {
		body = 30
	}
	h := head + body + margin
	return m.figure(h, o.sentence(shown), o.desc(shown), func(p pen) {
		p.head(m, h, words)
		top := h - head
		for i, s := range shown {
			if i > 0 && i%columns == 0 {
				top -= heights[i/columns-1] + rowGap
			}
			in := shown[i/columns*columns : min(len(shown), (i/columns+1)*columns)]
			x := margin + vg.Length(i%columns)*(columnWidth(columns)+columnGap)
			s.draw(p, at(x, top), columnWidth(columns), nameLines(in, columns))
		}
		if rows == 0 {
			p.text("Nothing was counted.", at(margin, top-18), quietText, left)
		}
	})
}

// columnsOf is how many grids stand side by side: two rows are filled evenly.
func columnsOf(n int) int {
	switch {
	case n <= 4:
		return max(3, n)
	case n <= 6:
		return 3
	}
	return 4
}

func columnWidth(columns int) vg.Length {
	return (Width - 2*margin - vg.Length(columns-1)*columnGap) / vg.Length(columns)
}

// nameLines is how many lines the longest name of a row takes.
func nameLines(in []Situation, columns int) int {
	n := 0
	for _, s := range in {
		n = max(n, len(boldText.wrap(s.Name, columnWidth(columns), situationLines)))
	}
	return n
}

func rowHeight(in []Situation, columns int) vg.Length {
	notes := 0
	for _, s := range in {
		notes = max(notes, len(smallText.wrap(s.note(), columnWidth(columns), situationLines)))
	}
	return vg.Length(nameLines(in, columns))*boldText.lead() + nameGap + gridSide + situationFigure + vg.Length(notes)*smallText.lead()
}

// counts are how many of 100 are marked surely and how many more perhaps; ok is false where there is no count.
func (s Situation) counts() (surely, perhaps int, ok bool) {
	lo, hi, ok := s.ends()
	if !ok {
		return 0, 0, false
	}
	surely = int(math.Round(lo))
	return surely, int(math.Round(hi)) - surely, true
}

// ends are the ends of the count in order, within 0 to 100.
func (s Situation) ends() (lo, hi float64, ok bool) {
	lo, hi = s.Low, s.High
	if math.IsNaN(lo) {
		lo = hi
	}
	if math.IsNaN(hi) {
		hi = lo
	}
	within := func(v float64) float64 { return max(0, min(v, 100)) }
	lo, hi = within(lo), within(hi)
	return min(lo, hi), max(lo, hi), !math.IsNaN(lo)
}

// apart says that the count spans more than tenfold.
func (s Situation) apart() bool {
	lo, hi, ok := s.ends()
	return ok && hi > 10*max(lo, 1)
}

// number is the count in words.
func (s Situation) number() string {
	lo, hi, ok := s.ends()
	switch {
	case !ok:
		return "not known"
	case whole100(lo) == whole100(hi):
		return whole100(lo) + " of 100"
	case lo < 0.5 && hi >= 99.5:
		return "up to all 100"
	case lo < 0.5:
		return "up to " + whole100(hi) + " of 100"
	}
	return whole100(lo) + " to " + whole100(hi) + " of 100"
}

// whole100 is a whole number that does not hide a rest: not that it never happens, nor that it always does.
func whole100(v float64) string {
	switch {
	case v < 0.5:
		return "fewer than 1"
	case v >= 99.5:
		return "over 99"
	}
	return strconv.Itoa(int(math.Round(v)))
}

// answer stands in bold letters under the grid.
func (s Situation) answer() string {
	if _, _, ok := s.ends(); !ok || s.apart() {
		return "cannot be told yet"
	}
	return s.number()
}

// note stands beneath the answer.
func (s Situation) note() string {
	note := clean(s.Note)
	if s.apart() {
		note = strings.TrimSpace(s.number() + ". " + capital(note))
	}
	return note
}

// draw draws one situation with its upper left corner at q.
func (s Situation) draw(p pen, q vg.Point, w vg.Length, lines int) {
	names := boldText.wrap(s.Name, w, situationLines)
	y := q.Y - vg.Length(lines-len(names))*boldText.lead() // names stand on their grids
	for _, line := range names {
		p.text(line, at(q.X, y-boldText.size), boldText, left)
		y -= boldText.lead()
	}
	top := q.Y - vg.Length(lines)*boldText.lead() - nameGap
	surely, perhaps, ok := s.counts()
	for i := range 100 {
		kind := unmarked
		switch {
		case !ok:
			kind = unknown
		case i < surely:
			kind = marked
		case i < surely+perhaps:
			kind = halfMarked
		}
		x, y := q.X+vg.Length(i%10)*gridPitch, top-vg.Length(i/10)*gridPitch
		p.smallPanel(box(x+0.8, y-gridPitch+0.8, x+gridPitch-1.2, y-0.4), kind)
	}
	y = top - gridSide - situationFigure + 3.5
	p.text(s.answer(), at(q.X, y), boldText, left)
	for _, line := range smallText.wrap(s.note(), w, situationLines) {
		y -= smallText.lead()
		p.text(line, at(q.X, y), smallText, left)
	}
}

// mark is how one of the hundred is drawn.
type mark int

const (
	unmarked mark = iota
	marked
	halfMarked
	unknown
)

// smallPanel draws one of the hundred: open, full, half full or dashed, so that a copier keeps them apart.
func (p pen) smallPanel(r vg.Rectangle, kind mark) {
	tone := dark(vermilion)
	switch kind {
	case marked:
		p.rect(tone, stroke{hair, tone, nil}, r)
	case halfMarked:
		p.shape(tone, stroke{}, []vg.Point{r.Min, at(r.Max.X, r.Min.Y), r.Max})
		p.rect(nil, stroke{hair, tone, nil}, r)
	case unknown:
		p.rect(nil, stroke{hair, grey(0x9A), []vg.Length{1.5, 1.5}}, r)
	default:
		p.rect(white, stroke{hair, grey(0x8C), nil}, r)
	}
}

func (o OfHundred) what() string {
	if s := clean(o.What); s != "" {
		return s
	}
	return "reach a limit"
}

// does is what the marked ones do, and when.
func (o OfHundred) does() string { return strings.TrimSpace(o.what() + " " + clean(o.When)) }

// words say what the marks mean; only those that are there.
func (o OfHundred) words(shown []Situation) string {
	if len(shown) == 0 {
		return ""
	}
	some, none := false, false
	for _, s := range shown {
		_, perhaps, ok := s.counts()
		some, none = some || perhaps > 0, none || !ok
	}
	out := "Each square is one of 100 such panels. Full: they " + o.does() + "."
	if some {
		out += " Half full: perhaps."
	}
	if none {
		out += " Dashed: not known."
	}
	if n := len(o.Situations) - len(shown); n > 0 {
		out += " " + strconv.Itoa(n) + " more are not drawn."
	}
	return out
}

func (o OfHundred) sentence(shown []Situation) string {
	if len(shown) == 0 {
		return "Nothing was counted."
	}
	name := func(s Situation) string {
		if n := clean(s.Name); n != "" {
			return capital(n) + ": "
		}
		return ""
	}
	first := shown[0]
	out := name(first)
	if a := first.answer(); a != first.number() {
		out += a + " how many of 100 such panels " + o.does() + tail(first)
	} else {
		out += first.number() + " such panels " + o.does()
	}
	for _, s := range shown[1:min(len(shown), 4)] {
		out += ". " + name(s) + s.answer()
		if s.answer() != s.number() {
			out += tail(s)
		}
	}
	if n := len(o.Situations) - 4; n > 0 {
		out += ". " + strconv.Itoa(n) + " more beside"
	}
	return out + "."
}

// tail is the number behind "cannot be told yet", where there is one.
func tail(s Situation) string {
	if s.apart() {
		return " (" + s.number() + ")"
	}
	return ""
}

func (o OfHundred) desc(shown []Situation) string {
	out := ""
	for _, s := range shown {
		surely, perhaps, ok := s.counts()
		out += clean(s.Name) + ": "
		if !ok {
			out += "not known. "
			continue
		}
		out += strconv.Itoa(surely) + " marked, " + strconv.Itoa(perhaps) + " perhaps"
		if s.apart() {
			out += ", which cannot be told yet"
		}
		out += ". "
	}
	return out
}
