package intake

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"crossgrain/panel"
	"crossgrain/species"
)

// describe turns every row into a panel file as far as it goes, and collects the questions.
func (l *List) describe(o Options) {
	l.setAside()
	var all []string
	for i := range l.Rows {
		r := &l.Rows[i]
		r.Accession = r.Value(Accession)
		if p := r.Value(Part); p != "" && r.Accession != "" {
			r.Accession += ", part " + p
		}
		if r.Aside == "" {
			all = append(all, r.Accession)
		}
	}
	known := newNumbers(all)
	for i := range l.Rows {
		if l.Rows[i].Aside == "" {
			l.Rows[i].describe(known, o)
		}
	}
	for i := range l.Rows {
		if r := &l.Rows[i]; r.Text != nil {
			r.Text = append(fmt.Appendf(nil, "# From the list %q\n", path.Base(filepath.ToSlash(l.Name))), r.Text...)
		}
	}
	l.nameFiles()
	l.depthColumn()
}

// setAside marks the rows that are no panels, by what their medium says.
func (l *List) setAside() {
	for i := range l.Rows {
		if m := l.Rows[i].Value(Medium); notAPanel(m) {
			l.Rows[i].Aside = m
		}
	}
}

var panelWords = []string{"panel", "wood", "board", "holz", "tafel", "bois", "panneau", "legno", "tavola", "madera", "tabla", "paneel", "hout", "eiche", "oak", "poplar", "pappel", "chene", "peuplier", "pioppo", "quercia"}

var otherSupports = []string{"canvas", "leinwand", "toile", "tela", "lienzo", "doek", "copper", "kupfer", "cuivre", "rame", "cobre", "koper", "paper", "papier", "carta", "papel", "glass", "glas", "verre", "vetro", "vidrio", "slate", "schiefer",
	"ardoise", "vellum", "parchment", "pergament", "cardboard", "karton", "carton", "cartone", "plaster", "metal", "linen", "silk"}

// notAPanel says whether a medium names another support and no wood.
func notAPanel(medium string) bool {
	words := strings.Fields(species.Fold(medium))
	holds := func(list []string) bool {
		return slices.ContainsFunc(words, func(w string) bool {
			return slices.ContainsFunc(list, func(x string) bool { return w == x || len(x) > 4 && strings.HasPrefix(w, x) })
		})
	}
	return holds(otherSupports) && !holds(panelWords)
}

// nameFiles gives every panel file a name that any system takes; two numbers that come to one name carry
// a few signs of their digest.
func (l *List) nameFiles() {
	count := map[string]int{}
	for _, r := range l.Rows {
		if r.Text != nil {
			count[strings.ToLower(safeName(r.Accession))]++
		}
	}
	for i := range l.Rows {
		r := &l.Rows[i]
		if r.Text == nil {
			continue
		}
		r.File = safeName(r.Accession)
		if count[strings.ToLower(r.File)] > 1 {
			r.File += "-" + shortDigest(r.Accession)
		}
		r.File += ".toml"
	}
}

// longestName bounds the name of a file, in bytes.
const longestName = 80

// safeName makes a file name of a number: letters without accents, digits, point, dash.
func safeName(number string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(dashes.Replace(number)) {
		switch {
		case r >= '0' && r <= '9', r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r == '-', r == '.':
			b.WriteRune(r)
		case r >= 0x300 && r < 0x370: // accents
		case !strings.HasSuffix(b.String(), "_"):
			b.WriteByte('_')
		}
	}
	name := strings.Trim(b.String(), "._-")
	switch {
	case name == "":
		return "panel-" + shortDigest(number)
	case len(name) > longestName:
		return name[:longestName] + "-" + shortDigest(number)
	}
	switch strings.ToLower(strings.SplitN(name, ".", 2)[0]) {
	case "con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "lpt1", "lpt2", "lpt3":
		return "panel-" + name // names that some systems keep for devices
	}
	return name
}

func shortDigest(s string) string {
	sum := sha256.Sum256([]byte(s))
	return hex.EncodeToString(sum[:3])
}

// depthColumn asks once whether a column of depths is the frame's.
func (l *List) depthColumn() {
	n := 0
	for _, r := range l.Rows {
		if r.Aside == "" && r.Value(Depth) != "" {
			n++
		}
	}
	if c, ok := (Row{columns: l.Columns}).column(Depth); ok && n > 0 {
		l.Questions = append(l.Questions, Question{ID: ColumnDepth, Heading: c.Heading, Detail: fmt.Sprint(n)})
	}
}

// entry is one line of a panel file to be; an empty key is a table that is there and not described.
type entry struct {
	table, key, toml string
	field            Field
}

func (e entry) path() string { return e.table + "." + e.key }

// draft is a panel file in the making.
type draft struct {
	row     *Row
	entries []entry
	notes   []string
}

func (d *draft) put(f Field, table, key, toml string) {
	d.entries = append(d.entries, entry{table, key, toml, f})
}

// note keeps a cell in the panel's note, under its heading.
func (d *draft) note(f Field) {
	c, _ := d.row.column(f)
	d.noteColumn(c, d.row.Value(f))
}

func (d *draft) noteColumn(c Column, cell string) {
	if cell == "" {
		return
	}
	n := c.Heading + ": " + cell
	if !slices.Contains(d.notes, n) {
		d.notes = append(d.notes, n)
	}
}

// ask raises a question about a cell and keeps the cell in the note.
func (d *draft) ask(id string, f Field, detail string) {
	d.row.ask(id, f, detail)
	d.note(f)
}

func (r *Row) ask(id string, f Field, detail string) {
	c, _ := r.column(f)
	q := Question{ID: id, Line: r.Line, Accession: r.Accession, Store: r.Value(Store), Place: r.Value(Place), Heading: c.Heading, Cell: r.Value(f), Detail: detail}
	if !slices.Contains(r.Questions, q) {
		r.Questions = append(r.Questions, q)
	}
}

// describe makes the panel file of a row where number and size allow it.
func (r *Row) describe(known *numbers, o Options) {
	writable := r.number(known, o)
	d := &draft{row: r}
	d.put(Accession, "panel", "accession", panel.Quote(cmp.Or(r.Accession, "?")))
	if t := r.Value(Title); t != "" {
		d.put(Title, "panel", "title", panel.Quote(t))
	}
	writable = d.sizes() && writable
	d.whole()
	d.boards()
	d.back()
	d.lines()
	d.state()
	d.climate()
	d.kept()
	d.rest()
	r.askUnrecorded()
	if p, text := d.settle(); p != nil && writable {
		r.Panel, r.Text = p, text
	}
}

// number looks at the accession number; false when nothing can be written under it.
func (r *Row) number(known *numbers, o Options) bool {
	if r.Accession == "" {
		r.ask(NumberMissing, Accession, "")
		return false
	}
	ok := true
	if known.count[numberKey(r.Accession)] > 1 {
		r.ask(NumberTwice, Accession, "")
		ok = false
	}
	if o.NumbersRight {
		return ok
	}
	if id, detail := known.doubt(r.Accession); id != "" {
		r.ask(id, Accession, detail)
		ok = ok && id != NumberDate && id != NumberExponent
	}
	return ok
}

// unrecorded are the fields that are asked for where a row leaves them blank, what settles most first.
var unrecorded = []Field{Cracks, OpenJoins, Flaking, BackSupport, SupportMoves, Thickness, EndGrain, Boards, Wood}

func (r *Row) askUnrecorded() {
	var lack []string
	for _, f := range unrecorded {
		if f == SupportMoves && !slices.Contains([]string{"cradle", "sliding battens"}, wordsOf[BackSupport][species.Fold(r.Value(BackSupport))]) {
			continue
		}
		if r.lacks(f) {
			lack = append(lack, strings.ReplaceAll(string(f), "_", " "))
		}
	}
	if len(lack) > 0 {
		r.ask(NotRecorded, Accession, strings.Join(lack, ", "))
	}
}

// settle reads the draft as a panel file is read. What does not fit is asked about and kept in the note,
// until the rest reads without a problem and can be worked with; nil when number or size stand against it.
func (d *draft) settle() (*panel.Panel, []byte) {
	for range len(d.entries) + 1 {
		p, problems := panel.Read(d.row.Accession, d.text())
		if len(problems) == 0 {
			_, err := p.Realise(nil)
			if err == nil {
				var b bytes.Buffer
				if p.Write(&b) != nil {
					return nil, nil
				}
				return p, b.Bytes()
			}
			if !d.drop("panel.wood", strings.TrimPrefix(err.Error(), "panel: ")) {
				return nil, nil
			}
			continue
		}
		dropped := false
		for _, pr := range problems {
			detail := pr.Msg
			if pr.Hint != "" {
				detail += " (" + pr.Hint + ")"
			}
			dropped = d.drop(pr.Part, detail) || dropped
		}
		if !dropped {
			return nil, nil
		}
	}
	return nil, nil
}

// drop takes what stands under a path out of the draft, asks about it and keeps its cell in the note.
// Number and size stay: where the boards do not come to the width, the boards go. False when nothing
// was taken out.
func (d *draft) drop(path, detail string) bool {
	match := func(e entry) bool { return e.path() == path || e.table == path }
	if path == "panel.height_mm" || path == "panel.width_mm" {
		own := slices.IndexFunc(d.entries, match)
		match = func(e entry) bool { return strings.HasPrefix(e.table, "board.") || strings.HasPrefix(e.table, "join.") }
		if !slices.ContainsFunc(d.entries, match) {
			if own >= 0 { // a missing one is asked about already
				d.row.ask(NotFit, d.entries[own].field, detail)
			}
			return false
		}
	}
	if path == "panel" { // a size is missing, which is asked about already
		return false
	}
	if path == "panel.accession" {
		d.row.ask(NotFit, Accession, detail)
		return false
	}
	var fields []Field
	for _, e := range d.entries {
		if match(e) && !slices.Contains(fields, e.field) {
			fields = append(fields, e.field)
		}
	}
	d.entries = slices.DeleteFunc(d.entries, match)
	for _, f := range fields {
		d.ask(NotFit, f, detail)
	}
	return len(fields) > 0
}

// text writes the draft as a panel file.
func (d *draft) text() []byte {
	entries := d.entries
	if len(d.notes) > 0 {
		entries = append(slices.Clone(entries), entry{"panel", "note", panel.Quote(strings.Join(d.notes, "\n")), Note})
	}
	var tables []string
	lines := map[string][]string{}
	for _, e := range entries {
		if _, ok := lines[e.table]; !ok {
			tables = append(tables, e.table)
			lines[e.table] = nil
		}
		if e.key != "" {
			lines[e.table] = append(lines[e.table], e.key+" = "+e.toml+"\n")
		}
	}
	var b bytes.Buffer
	for _, t := range tables {
		b.WriteString("[" + t + "]\n" + strings.Join(lines[t], ""))
	}
	return b.Bytes()
}
