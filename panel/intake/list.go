package intake

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/panel"
	"crossgrain/species"
	"crossgrain/tables/problem"
	"crossgrain/tables/sheet"
)

// Options settle what a list leaves open.
type Options struct {
	Columns      map[string]string // heading -> field, or field and unit: "height cm"
	Sheet        string            // of a workbook with several lists
	NumbersRight bool              // numbers that look like dates or lost zeros are right as they stand
}

// List is a list as it was read.
type List struct {
	Name      string
	Encoding  string
	Delimiter rune // of a text; 0 for a workbook
	Head      int  // line of the headings
	Above     []sheet.Row
	Unread    []string // sheets of a workbook that hold no list
	Columns   []Column
	Rows      []Row
	Questions []Question // about the list as a whole
}

// Row is one row of the list: one panel, or something set aside.
type Row struct {
	Line      int
	Cells     []string // one for each column, as typed
	Accession string   // with the part, where there is one; letter for letter
	File      string   // name of its panel file; empty when it cannot be written yet
	Text      []byte   // of its panel file
	Panel     *panel.Panel
	Aside     string // words that say it is no panel, as typed; empty for panels
	Questions []Question

	columns []Column
}

// Value returns the cell of a field as typed; "" where the list has no such column.
func (r Row) Value(f Field) string {
	for i, c := range r.columns {
		if c.Field == f {
			return r.Cells[i]
		}
	}
	return ""
}

func (r Row) column(f Field) (Column, bool) {
	for _, c := range r.columns {
		if c.Field == f {
			return c, true
		}
	}
	return Column{}, false
}

// Bounds of a list.
const (
	mostRows    = 200_000
	mostColumns = 500
	mostCell    = 20_000 // bytes
)

// Read reads a list: text of any encoding and delimiter, or a workbook. What is wrong with single cells
// becomes questions; an error means that the list as a whole cannot be read, and says what settles it.
func Read(name string, data []byte, o Options) (*List, error) {
	l, sheets, err := open(name, data)
	if err != nil {
		return nil, err
	}
	s, head, err := l.choose(sheets, o)
	if err != nil {
		return nil, err
	}
	if len(s.Rows) > mostRows {
		return nil, problem.List{{File: name, Msg: fmt.Sprintf("the list has %d rows; at most %d are read", len(s.Rows), mostRows)}}.Err()
	}
	if l.Columns, err = match(headings(s.Rows, head), o.Columns); err != nil {
		return nil, problem.List{{File: name, Line: s.Rows[head].Line, Msg: err.Error()}}.Err()
	}
	if err := l.needed(s.Rows[head].Line); err != nil {
		return nil, err
	}
	l.Head, l.Above = s.Rows[head].Line, s.Rows[:head]
	for _, r := range s.Rows[head+1:] {
		cells := make([]string, len(l.Columns))
		copy(cells, r.Cells)
		for i, c := range cells {
			if len(c) > mostCell {
				return nil, problem.List{{File: name, Line: r.Line, Part: l.Columns[i].Heading, Msg: fmt.Sprintf("the cell holds %d bytes; at most %d are read", len(c), mostCell)}}.Err()
			}
		}
		l.Rows = append(l.Rows, Row{Line: r.Line, Cells: cells, columns: l.Columns})
	}
	l.describe(o)
	return l, nil
}

// open takes a file apart into sheets.
func open(name string, data []byte) (*List, []sheet.Sheet, error) {
	l := &List{Name: name}
	if strings.TrimSpace(strings.TrimPrefix(string(data[:min(len(data), 1<<12)]), "\ufeff")) == "" {
		return nil, nil, problem.List{{File: name, Msg: "the list is empty"}}.Err()
	}
	if sheet.IsWorkbook(data) {
		l.Encoding = "workbook"
		sheets, err := sheet.Workbook(name, data)
		return l, sheets, err
	}
	text, encoding, err := sheet.Decode(name, data)
	if err != nil {
		return nil, nil, err
	}
	l.Encoding = encoding
	s, delimiter, err := sheet.Text(name, text)
	l.Delimiter = delimiter
	return l, []sheet.Sheet{s}, err
}

// choose takes the one sheet that holds a list, and finds its headings.
func (l *List) choose(sheets []sheet.Sheet, o Options) (s sheet.Sheet, head int, err error) {
	var lists []sheet.Sheet
	var heads []int
	for _, s := range sheets {
		title := titleOf(s.Name, l.Name)
		if o.Sheet != "" && species.Fold(o.Sheet) != species.Fold(title) {
			continue
		}
		if h := headOf(s.Rows, o.Columns); h >= 0 {
			lists, heads = append(lists, s), append(heads, h)
		} else {
			l.Unread = append(l.Unread, title)
		}
	}
	switch {
	case len(lists) == 1:
		return lists[0], heads[0], nil
	case len(lists) > 1:
		var names []string
		for _, s := range lists {
			names = append(names, titleOf(s.Name, l.Name))
		}
		return s, 0, problem.List{{File: l.Name, Msg: "several sheets hold a list: " + strings.Join(names, ", "), Hint: "take one at a time, each with a folder of its own, as in --sheet " + panel.Quote(names[0])}}.Err()
	}
	found := ""
	if len(sheets) > 0 && len(sheets[0].Rows) > 0 {
		found = "; its first row is: " + strings.Join(sheets[0].Rows[0].Cells[:min(len(sheets[0].Rows[0].Cells), 12)], ", ")
	}
	if o.Sheet != "" {
		found = "; asked was the sheet " + panel.Quote(o.Sheet)
	}
	return s, 0, problem.List{{File: l.Name, Msg: "no row of headings was found" + found,
		Hint: "expected are headings such as number, height (cm), width (cm), thickness, wood; any heading can be named, as in --column \"Nr.=accession\""}}.Err()
}

// titleOf is the name of a sheet out of "file [sheet]".
func titleOf(name, file string) string {
	t := strings.TrimPrefix(name, file)
	return strings.TrimSuffix(strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(t), "["), "]"), ", hidden")
}

// headOf finds the row that names most columns among the first; -1 when none names two.
func headOf(rows []sheet.Row, named map[string]string) int {
	best, most := -1, 1
	for i := range rows[:min(len(rows), 20)] {
		n := 0
		for _, c := range rows[i].Cells {
			_, _, ok := fieldOf(c)
			if _, as := lookNamed(named, c); c != "" && (ok || as) {
				n++
			}
		}
		if n > most {
			best, most = i, n
		}
	}
	return best
}

// headings returns the headings; columns that hold something without one are called by their number.
func headings(rows []sheet.Row, head int) []string {
	width := 0
	for _, r := range rows[head:] {
		width = max(width, min(len(r.Cells), mostColumns))
	}
	out := make([]string, width)
	copy(out, rows[head].Cells)
	for i := range out {
		if out[i] == "" {
			out[i] = fmt.Sprintf("column %d", i+1)
		}
	}
	return out
}

// needed refuses a list without numbers or sizes.
func (l *List) needed(line int) error {
	has := func(f Field) bool { return slices.ContainsFunc(l.Columns, func(c Column) bool { return c.Field == f }) }
	what := ""
	switch {
	case !has(Accession):
		what = "no column holds the number of the panels"
	case !has(Size) && !has(Height):
		what = "no column holds the height"
	case !has(Size) && !has(Width):
		what = "no column holds the width"
	default:
		return nil
	}
	var names []string
	for _, c := range l.Columns {
		if c.How == KeptAsNote {
			names = append(names, c.Heading)
		}
	}
	as := "accession"
	if has(Accession) {
		as = "height cm"
	}
	hint := "name it, as in --column \"HEADING=" + as + "\""
	if len(names) > 0 {
		hint += "; not known are: " + strings.Join(names[:min(len(names), 15)], ", ")
	}
	return problem.List{{File: l.Name, Line: line, Msg: what, Hint: hint}}.Err()
}

// Lacking counts the panels that do not answer a field, whatever the reason; columns that the list does
// not have count for all.
func (l *List) Lacking(f Field) int {
	n := 0
	for _, r := range l.Rows {
		if r.Aside == "" && r.lacks(f) {
			n++
		}
	}
	return n
}

func (r Row) lacks(f Field) bool {
	if f == Height || f == Width {
		return answerOf(r.Value(f)) == blank && answerOf(r.Value(Size)) == blank
	}
	return answerOf(r.Value(f)) == blank
}
