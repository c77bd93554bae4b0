package intake

import (
	"errors"
	"regexp"
	"strconv"
	"strings"

	"crossgrain/panel"
	"crossgrain/species"
)

// thickest is the thickness from which a figure is asked about, mm: so much is more often the depth of
// the frame (assumption).
const thickest = 40

// forms are what a cell of lengths may hold, for a question.
const forms = `62 cm, 12,5 mm, 24 1/2 in, 10-15 mm, c. 12 mm`

// sizes puts height and width; false when one is missing.
func (d *draft) sizes() bool {
	r := d.row
	var s size
	var err error
	got, from := map[Field]bool{}, map[Field]Field{Height: Height, Width: Width}
	if cell := r.Value(Size); answerOf(cell) == other {
		c, _ := r.column(Size)
		if s, err = parseSize(cell, c.Unit); err != nil {
			d.unread(Size, err, "62 x 47,5 cm")
		} else {
			got[Height], got[Width] = true, true
			from[Height], from[Width] = Size, Size
			d.besides(Size, s)
		}
	}
	for _, f := range []Field{Height, Width} {
		to, cell := &s.height, r.Value(f)
		if f == Width {
			to = &s.width
		}
		if answerOf(cell) != other {
			continue
		}
		c, _ := r.column(f)
		one, err := parseLength(cell, c.Unit)
		if err != nil && f == Height && answerOf(r.Value(Width)) == blank {
			if both, wrong := parseSize(cell, c.Unit); wrong == nil { // height by width in one cell
				s, got[Height], got[Width] = both, true, true
				from[Width] = Height
				d.besides(f, both)
				continue
			}
		}
		if err != nil {
			d.unread(f, err, forms)
			delete(got, f)
			continue
		}
		if got[f] && (one.high < to.low-sizeTolerance(to.low) || one.low > to.high+sizeTolerance(to.high)) {
			d.ask(SizeDiffers, f, r.Value(Size))
		}
		*to, got[f], from[f] = one, true, f
		d.keep(f, one)
	}
	missing := false
	for _, side := range []struct {
		f Field
		s span
	}{{Height, s.height}, {Width, s.width}} {
		if got[side.f] {
			d.put(from[side.f], "panel", string(side.f)+"_mm", side.s.toml())
		} else if answerOf(r.Value(side.f)) != other && answerOf(r.Value(Size)) != other {
			missing = true
		}
	}
	if missing {
		r.ask(SizeMissing, Accession, "")
		d.note(Size)
		d.note(Height)
		d.note(Width)
	}
	return got[Height] && got[Width]
}

// besides keeps what stood beside height and width in one cell.
func (d *draft) besides(f Field, s size) {
	if s.third != "" {
		d.ask(FramedDepth, f, s.third)
	}
	if s.differs != "" {
		d.ask(SizeDiffers, f, s.differs)
	}
	d.keep(f, s.height)
	d.keep(f, s.width)
}

// keep puts a cell in the note as well where its words say less than sure.
func (d *draft) keep(f Field, s span) {
	if s.about {
		d.note(f)
	}
}

// unread asks about a cell that could not be read.
func (d *draft) unread(f Field, err error, may string) {
	if errors.Is(err, errNoUnit) {
		d.ask(NoUnit, f, string(f))
		return
	}
	d.ask(NotRead, f, may)
}

// length reads the cell of a field; ok is false for a cell that holds no length, which is kept.
func (d *draft) length(f Field) (s span, ok bool) {
	cell := d.row.Value(f)
	switch answerOf(cell) {
	case blank:
		return s, false
	case other:
		c, _ := d.row.column(f)
		s, err := parseLength(cell, c.Unit)
		if err != nil {
			d.unread(f, err, forms)
			return s, false
		}
		d.keep(f, s)
		return s, true
	}
	d.note(f)
	return s, false
}

// word reads a cell of one of the known words; "" for a blank one and for one that is asked about, "?" for
// could not tell.
func (d *draft) word(f Field) string {
	cell := d.row.Value(f)
	v, guess := guessed(cell)
	switch a := answerOf(cell); {
	case a == blank:
		return ""
	case a == cannotTell:
		return "?"
	case wordsOf[f][species.Fold(v)] != "":
		if guess {
			d.note(f)
		}
		return wordsOf[f][species.Fold(v)]
	case a == nothing:
		return "none"
	case a == yes:
		return "yes"
	}
	d.ask(NotAWord, f, wordsFor(f))
	return ""
}

// plainWord puts a word under a key; one that is no word of that column is asked about.
func (d *draft) plainWord(f Field, table, key string) {
	switch w := d.word(f); w {
	case "":
	case "none", "yes":
		d.ask(NotAWord, f, wordsFor(f))
	default:
		d.put(f, table, key, panel.Quote(w))
	}
}

// whole puts what is told of the panel as a whole.
func (d *draft) whole() {
	d.plainWord(Measured, "panel", "measured")
	d.plainWord(Grain, "panel", "grain")
	d.plainWord(EndGrain, "panel", "end_grain")
	d.wood()
	d.thickness()
	switch d.word(Thinned) {
	case "none":
		d.put(Thinned, "panel", "original_thickness", `"yes"`)
	case "yes", "thinned":
		d.put(Thinned, "panel", "original_thickness", `"thinned"`)
	case "?":
		d.put(Thinned, "panel", "original_thickness", `"?"`)
	}
	d.depth()
}

func (d *draft) wood() {
	cell := d.row.Value(Wood)
	v, guess := guessed(cell)
	switch answerOf(cell) {
	case blank:
		return
	case cannotTell:
		d.put(Wood, "panel", "wood", `"?"`)
		return
	}
	names := []string{v}
	if outside, inside, ok := strings.Cut(strings.TrimSuffix(v, ")"), "("); ok { // oak (Quercus robur)
		names = append(names, strings.TrimSpace(outside), strings.TrimSpace(inside))
	}
	near := ""
	for i, name := range names {
		_, err := species.Lookup(name)
		if err == nil {
			d.put(Wood, "panel", "wood", panel.Quote(name))
			if guess || i > 0 {
				d.note(Wood)
			}
			return
		}
		var unknown *species.UnknownError
		if near == "" && errors.As(err, &unknown) {
			near = strings.Join(unknown.Near, ", ")
		}
	}
	d.ask(WoodUnknown, Wood, near)
}

// thickness puts the thickness; a large one is asked about unless the list says that it was taken at the
// edge, since an unknown thickness is the cautious side.
func (d *draft) thickness() {
	if answerOf(d.row.Value(Thickness)) == cannotTell {
		d.put(Thickness, "panel", "thickness_mm", `"?"`)
		return
	}
	s, ok := d.length(Thickness)
	if !ok {
		return
	}
	from := wordsOf[ThicknessFrom][species.Fold(d.row.Value(ThicknessFrom))]
	if s.high > thickest && from != "edge" {
		d.ask(ThickDepth, Thickness, strconv.Itoa(thickest))
		return
	}
	d.put(Thickness, "panel", "thickness_mm", s.toml())
}

// depth keeps a depth in the note: most often it is the frame's, and it never becomes the thickness.
func (d *draft) depth() { d.note(Depth) }

var listSigns = regexp.MustCompile(`\s*[;/+|]\s*`)

// boards puts the number of boards and their widths, from the left seen from the front.
func (d *draft) boards() {
	v, guess := guessed(d.row.Value(Boards))
	switch a := answerOf(d.row.Value(Boards)); a {
	case blank:
	case cannotTell:
		d.put(Boards, "panel", "boards", `"?"`)
	default:
		n, err := strconv.Atoi(strings.TrimSuffix(v, ".0"))
		if err != nil {
			d.ask(NotRead, Boards, "1, 2, 3 ...")
			break
		}
		d.put(Boards, "panel", "boards", strconv.Itoa(n))
		if guess {
			d.note(Boards)
		}
	}
	cell := d.row.Value(BoardWidths)
	if answerOf(cell) != other {
		d.note(BoardWidths)
		return
	}
	c, _ := d.row.column(BoardWidths)
	widths := listSigns.Split(cell, -1)
	unit := c.Unit
	if _, u, err := parseUnit(widths[len(widths)-1]); err == nil && u != "" {
		unit = u
	}
	var spans []span
	for _, w := range widths {
		s, err := parseLength(w, unit)
		if err != nil {
			d.unread(BoardWidths, err, "210; 198; 205 mm")
			return
		}
		spans = append(spans, s)
		d.keep(BoardWidths, s)
	}
	for i, s := range spans {
		d.put(BoardWidths, "board."+strconv.Itoa(i+1), "width_mm", s.toml())
	}
}

// back puts what crosses the grain at the back.
func (d *draft) back() {
	moves := map[string]string{"yes": `"by hand"`, "by hand": `"by hand"`, "with taps": `"with taps"`, "none": `"seized"`, "seized": `"seized"`, "?": `"?"`}[d.word(SupportMoves)]
	table := ""
	switch d.word(BackSupport) {
	case "fixed battens":
		table = "batten.1"
		d.put(BackSupport, table, "", "")
		d.ask(SupportUnclear, BackSupport, "")
	case "sliding battens":
		table = "batten.1"
		d.put(BackSupport, table, "fixing", `"sliding dovetail"`)
		d.ask(SupportUnclear, BackSupport, "")
	case "cradle":
		table = "cradle"
		d.put(BackSupport, table, "", "")
	case "frame":
		for _, side := range []string{"left", "right", "top", "bottom"} {
			d.put(BackSupport, "frame."+side, "kind", `"engaged"`)
		}
	case "second panel":
		d.put(BackSupport, "support", "kind", `"second panel"`)
	case "other", "yes":
		d.put(BackSupport, "panel", "back", `"not described"`)
		d.ask(SupportUnclear, BackSupport, "")
	case "none":
		d.put(BackSupport, "panel", "back", `"nothing"`)
	case "?":
		d.put(BackSupport, "panel", "back", `"?"`)
	}
	switch {
	case moves == "":
	case table == "":
		d.note(SupportMoves)
	default:
		d.put(SupportMoves, table, "moves", moves)
	}
}

func (d *draft) level() bool { return wordsOf[Grain][species.Fold(d.row.Value(Grain))] == "level" }

// inKeys are the fields that have keys of their own and are kept as notes only where they do not fit.
var inKeys = map[Field]bool{
	Accession: true, Title: true, Size: true, Height: true, Width: true, Depth: true, Measured: true, Grain: true, Thickness: true, Wood: true, Boards: true, BoardWidths: true,
	EndGrain: true, BackSupport: true, SupportMoves: true, Thinned: true, Cracks: true, OpenJoins: true, Flaking: true, Warp: true, WarpToward: true, WarpAtRH: true,
	LastInspected: true, ChangedSince: true, HereSince: true, CameFrom: true, Enclosure: true, Store: true, Place: true, Group: true, MustStay: true, asked: true,
}

// kept puts where the panel is kept, and with what.
func (d *draft) kept() {
	for _, k := range []struct {
		f   Field
		key string
	}{{Store, "store"}, {Place, "place"}, {Group, "group"}} {
		if v := d.row.Value(k.f); v != "" {
			d.put(k.f, "panel", k.key, panel.Quote(v))
		}
	}
	switch answerOf(d.row.Value(MustStay)) {
	case yes:
		d.put(MustStay, "panel", "must_stay", "true")
	case nothing:
		d.put(MustStay, "panel", "must_stay", "false")
	case blank:
	default:
		d.note(MustStay)
	}
}

// rest keeps every cell that has no key.
func (d *draft) rest() {
	for i, c := range d.row.columns {
		if !inKeys[c.Field] {
			d.noteColumn(c, d.row.Cells[i])
		}
	}
}
