package logger

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/tables/sheet"
)

// findClock looks for the column of the time stamps: stamps in nine of ten of the first rows, a name
// of time before any other.
func (t *jtable) findClock() {
	t.clock = -1
	for c := range t.width() {
		filled, stamps := 0, 0
		for _, r := range t.rows[:min(len(t.rows), 50)] {
			if c < len(r.Cells) && r.Cells[c] != "" {
				filled++
				if isStamp(r.Cells[c]) {
					stamps++
				}
			}
		}
		if stamps == 0 || stamps*10 < filled*9 {
			continue
		}
		if t.clock < 0 || !timeName(t.name(t.clock)) && timeName(t.name(c)) {
			t.clock = c
		}
	}
}

func (t *jtable) width() int {
	w := len(t.head)
	for _, r := range t.rows[:min(len(t.rows), 50)] {
		w = max(w, len(r.Cells))
	}
	return w
}

func (t *jtable) name(c int) string {
	if c < len(t.head) {
		return t.head[c]
	}
	return ""
}

func timeName(s string) bool {
	s = strings.ToLower(s)
	for _, w := range []string{"time", "date", "stamp", "zeit", "datum", "heure", "fecha", "hora", "ora"} {
		if strings.Contains(s, w) {
			return true
		}
	}
	return s == "t" || s == "ts" || s == "x"
}

// generic says that a name of a column tells nothing, so that the names on the way to it must.
func generic(s string) bool {
	switch foldKey(s) {
	case "", "value", "values", "v", "y", "val", "reading", "state", "measurement", "result":
		return true
	}
	return false
}

// fullName gives the name of a column with its place.
func (t *jtable) fullName(c int) string {
	n := t.name(c)
	first, unit, _ := strings.Cut(n, " ")
	if generic(first) && len(t.place) > 0 {
		n = unit
	}
	return strings.TrimSpace(strings.Join(append(slices.Clone(t.place), n), " "))
}

// sheets joins the tables that have time stamps and hands over the others as they are.
func (w *jwalk) sheets(name string) []sheet.Sheet {
	var timed, other []jtable
	for _, t := range w.tables {
		if t.clock >= 0 && t.width() > 1 {
			timed = append(timed, t)
		} else {
			other = append(other, t)
		}
	}
	var out []sheet.Sheet
	if len(timed) == 1 {
		out = append(out, sheet.Sheet{Name: name, Rows: w.withHead(timed[0])})
	} else if len(timed) > 1 {
		j := newJoin()
		for i := range timed {
			j.add(&timed[i])
		}
		out = append(out, sheet.Sheet{Name: name, Rows: j.rows(w.timeHead("time"))})
	}
	for i, t := range other {
		s := sheet.Sheet{Name: fmt.Sprintf("%s [%s]", name, strings.Join(t.place, " ")), Rows: w.withHead(t)}
		if len(t.place) == 0 {
			s.Name = fmt.Sprintf("%s [%d]", name, i+len(out)+1)
		}
		out = append(out, s)
	}
	if len(out) == 1 {
		out[0].Name = name
	}
	return out
}

func (w *jwalk) timeHead(s string) string {
	if w.zone == "" || strings.Contains(s, w.zone) {
		return s
	}
	return s + " (" + w.zone + ")"
}

// withHead gives the rows of one table behind a row of its names, when it has any.
func (w *jwalk) withHead(t jtable) []sheet.Row {
	if len(t.head) == 0 && len(t.place) == 0 {
		return t.rows
	}
	head := make([]string, t.width())
	for c := range head {
		head[c] = t.fullName(c)
		if c == t.clock {
			head[c] = w.timeHead(t.name(c))
			if head[c] == "" {
				head[c] = w.timeHead("time")
			}
		}
	}
	line := max(1, t.rows[0].Line-1)
	return append([]sheet.Row{{Line: line, Cells: head}}, t.rows...)
}

// jjoin lines several tables up by their stamps. The n-th row with one stamp in a table meets the
// n-th in the others, so that repeated stamps stay apart.
type jjoin struct {
	head  []string
	cols  map[string]int
	at    map[jstamp]int // index into list
	count map[string]int // rows with a stamp
	list  []jline
	tail  int
}

type jstamp struct {
	text string
	nth  int
}

type jline struct {
	sheet.Row
	next int // index into list, 0 at the end; list[0] is the start
}

func newJoin() *jjoin {
	return &jjoin{cols: map[string]int{}, at: map[jstamp]int{}, count: map[string]int{}, list: make([]jline, 1)}
}

// add brings one table in; stamps not seen yet are put behind the row that they follow in their table,
// a table without any known stamp at the end.
func (j *jjoin) add(t *jtable) {
	cols := make([]int, t.width())
	own := map[string]int{}
	for c := range cols {
		if c != t.clock {
			cols[c] = j.column(t.fullName(c), own)
		}
	}
	behind := j.tail
	if slices.ContainsFunc(t.rows, func(r sheet.Row) bool { return j.count[t.stamp(r)] > 0 }) {
		behind = 0
	}
	nth := map[string]int{}
	for _, r := range t.rows {
		s := t.stamp(r)
		nth[s]++
		r.Cells = r.Cells[:min(len(r.Cells), len(cols))]
		behind = j.place(jstamp{s, nth[s]}, r, behind, cols, t.clock)
	}
}

func (t *jtable) stamp(r sheet.Row) string {
	if t.clock < len(r.Cells) {
		return strings.TrimSpace(r.Cells[t.clock])
	}
	return ""
}

// column gives the index of a column by name; a name that a table has twice makes two.
func (j *jjoin) column(name string, own map[string]int) int {
	own[name]++
	key := fmt.Sprintf("%s\x00%d", name, own[name])
	c, ok := j.cols[key]
	if !ok {
		c = len(j.head)
		j.cols[key] = c
		j.head = append(j.head, name)
	}
	return c
}

// place puts the cells of a row to its stamp and gives the index of the row; where a cell is taken by
// another value the row stays a row of its own.
func (j *jjoin) place(key jstamp, r sheet.Row, behind int, cols []int, clock int) int {
	if i, ok := j.at[key]; ok {
		if j.fill(i, r, cols, clock) {
			return i
		}
		behind = i
	}
	j.count[key.text]++
	key.nth = j.count[key.text]
	i := len(j.list)
	j.at[key] = i
	j.list = append(j.list, jline{Row: sheet.Row{Line: r.Line, Cells: []string{key.text}}, next: j.list[behind].next})
	j.list[behind].next = i
	if behind == j.tail {
		j.tail = i
	}
	j.fill(i, r, cols, clock)
	return i
}

// fill writes the cells of r into row i unless one of them is taken by another value.
func (j *jjoin) fill(i int, r sheet.Row, cols []int, clock int) bool {
	cells := j.list[i].Cells
	for c, text := range r.Cells {
		k := cols[c] + 1
		if c != clock && text != "" && k < len(cells) && cells[k] != "" && cells[k] != text {
			return false
		}
	}
	for c, text := range r.Cells {
		if c == clock || text == "" {
			continue
		}
		for len(cells) <= cols[c]+1 {
			cells = append(cells, "")
		}
		cells[cols[c]+1] = text
	}
	j.list[i].Cells = cells
	return true
}

// rows gives the joined rows behind their head.
func (j *jjoin) rows(clock string) []sheet.Row {
	out := make([]sheet.Row, 0, len(j.list))
	for i := j.list[0].next; i != 0; i = j.list[i].next {
		out = append(out, j.list[i].Row)
	}
	line := 1
	if len(out) > 0 {
		line = max(1, out[0].Line-1)
	}
	return append([]sheet.Row{{Line: line, Cells: append([]string{clock}, j.head...)}}, out...)
}
