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
		d.ask(SupportUnclear, BackSupport, "")
	case "none", "?":
		d.note(BackSupport)
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

// lines puts cracks and open joins.
func (d *draft) lines() {
	cell := d.row.Value(Cracks)
	switch answerOf(cell) {
	case blank:
	case nothing, cannotTell:
		d.note(Cracks)
	case yes: // it is there, not described
		d.put(Cracks, "split.1", "", "")
	default:
		d.cracks(cell)
	}
	d.joins()
}

func (d *draft) cracks(cell string) {
	c, _ := d.row.column(Cracks)
	cracks, unread, unitless := parseCracks(cell, c.Unit)
	if len(unread) > 0 {
		d.ask(NotRead, Cracks, "top 120 mm; left 40 mm from bottom; none")
	}
	if unitless {
		d.ask(NoUnit, Cracks, string(Cracks))
	}
	for i, k := range cracks {
		table := "split." + strconv.Itoa(i+1)
		d.put(Cracks, table, "", "")
		if !k.fits(d.level()) {
			d.ask(CrackGrain, Cracks, map[bool]string{false: "upright", true: "level"}[d.level()])
			continue
		}
		d.put(Cracks, table, "from", panel.Quote(k.from))
		if k.length != nil {
			d.put(Cracks, table, "length_mm", k.length.toml())
		}
		if across, ok := k.across(d.level()); ok {
			d.put(Cracks, table, "across_mm", across)
		} else if k.place != nil {
			d.note(Cracks) // counted from the other edge
		}
	}
}

var joinPair = regexp.MustCompile(`^(\d+)\s*(?:-|/|and|und|et)\s*(\d+)$`)

// joins puts joins that have opened: "yes" where there are two boards, or "1-2; 2-3".
func (d *draft) joins() {
	cell := d.row.Value(OpenJoins)
	var pairs [][2]string
	switch answerOf(cell) {
	case blank:
		return
	case nothing, cannotTell:
		d.note(OpenJoins)
		return
	case yes:
		if n, _ := guessed(d.row.Value(Boards)); strings.TrimSuffix(n, ".0") == "2" {
			pairs = [][2]string{{"1", "2"}}
		}
	default:
		for _, piece := range strings.FieldsFunc(dashes.Replace(cell), func(r rune) bool { return r == ';' || r == ',' }) {
			m := joinPair.FindStringSubmatch(strings.TrimSpace(strings.ToLower(piece)))
			if m == nil {
				pairs = nil
				break
			}
			pairs = append(pairs, [2]string{m[1], m[2]})
		}
	}
	if len(pairs) == 0 {
		d.ask(JoinUnclear, OpenJoins, "1-2; 2-3")
		return
	}
	for _, p := range pairs {
		table := "join." + p[0] + "-" + p[1]
		d.put(OpenJoins, table, "between", "["+panel.Quote(p[0])+", "+panel.Quote(p[1])+"]")
		d.put(OpenJoins, table, "condition", `"opened before"`)
	}
}

// state puts paint and warp.
func (d *draft) state() {
	switch d.word(Flaking) {
	case "none", "sound":
		d.put(Flaking, "face.front", "paint", `"sound"`)
	case "flaking", "yes":
		d.put(Flaking, "face.front", "paint", `"flaking"`)
	case "?":
		d.put(Flaking, "face.front", "paint", `"?"`)
	case "past":
		d.note(Flaking)
	}
	d.warp()
}

// warp puts a warp with its direction and the humidity at which it was measured; without them it is kept.
func (d *draft) warp() {
	toward := d.word(WarpToward)
	flat := answerOf(d.row.Value(Warp)) == nothing
	var s span
	if !flat {
		var ok bool
		if s, ok = d.length(Warp); !ok {
			d.note(WarpToward)
			d.note(WarpAtRH)
			return
		}
	}
	rh, err := strconv.ParseFloat(strings.TrimSpace(strings.Replace(strings.TrimRight(d.row.Value(WarpAtRH), "% RHrh"), ",", ".", 1)), 64)
	if err != nil || !flat && toward != "viewer" && toward != "wall" || s.low != s.high {
		d.ask(WarpBare, Warp, "")
		d.note(WarpToward)
		d.note(WarpAtRH)
		return
	}
	cup := "0"
	if flat {
		d.note(WarpToward)
	} else {
		cup = panel.Quote(map[bool]string{true: "-"}[toward == "wall"] + strings.TrimPrefix(s.typed[0], "-"))
	}
	d.put(Warp, "observed.list", "cup_mm", cup)
	d.put(WarpAtRH, "observed.list", "rh_pct", strconv.FormatFloat(rh, 'f', -1, 64))
	if day := d.row.Value(LastInspected); answerOf(day) == other {
		d.put(LastInspected, "observed.list", "date", when(day))
	}
}

// when writes a year or a date as the panel file holds it.
func when(cell string) string {
	if n, err := strconv.Atoi(strings.TrimSuffix(cell, ".0")); err == nil && n > 0 {
		return strconv.Itoa(n)
	}
	return panel.Quote(strings.TrimSuffix(cell, " 00:00:00"))
}

// climate puts where it has lived. "Here since" belongs to the climate it is used to only where the list
// does not say that it came from another.
func (d *draft) climate() {
	from := answerOf(d.row.Value(CameFrom))
	if from == other {
		d.put(CameFrom, "used_to", "climate", panel.Quote(strings.ToLower(d.row.Value(CameFrom))))
	} else {
		d.note(CameFrom)
	}
	d.date(HereSince, "since", from != other)
	d.date(LastInspected, "last_inspected", true)
	switch d.word(ChangedSince) {
	case "none":
		d.put(ChangedSince, "used_to", "unchanged", "true")
	case "yes":
		d.put(ChangedSince, "used_to", "unchanged", "false")
	case "?":
		d.put(ChangedSince, "used_to", "unchanged", `"?"`)
	}
	switch w := d.word(Enclosure); w {
	case "":
	case "none":
		d.put(Enclosure, "enclosure", "seal", `"open"`)
	case "yes":
		d.ask(NotAWord, Enclosure, wordsFor(Enclosure))
	default:
		d.put(Enclosure, "enclosure", "seal", panel.Quote(w))
	}
}

// date puts a year or a date where its key may hold it, and keeps it otherwise.
func (d *draft) date(f Field, key string, may bool) {
	if cell := d.row.Value(f); may && answerOf(cell) == other {
		d.put(f, "used_to", key, when(cell))
	} else {
		d.note(f)
	}
}

// inKeys are the fields that have keys of their own and are kept as notes only where they do not fit.
var inKeys = map[Field]bool{
	Accession: true, Title: true, Size: true, Height: true, Width: true, Depth: true, Measured: true, Grain: true, Thickness: true, Wood: true, Boards: true, BoardWidths: true,
	EndGrain: true, BackSupport: true, SupportMoves: true, Thinned: true, Cracks: true, OpenJoins: true, Flaking: true, Warp: true, WarpToward: true, WarpAtRH: true,
	LastInspected: true, ChangedSince: true, HereSince: true, CameFrom: true, Enclosure: true, asked: true,
}

// rest keeps every cell that has no key.
func (d *draft) rest() {
	for i, c := range d.row.columns {
		if !inKeys[c.Field] {
			d.noteColumn(c, d.row.Cells[i])
		}
	}
}
