package logger

import (
	"slices"
	"strconv"
	"strings"

	"crossgrain/tables/sheet"
)

// jrows collects rows by column name.
type jrows struct {
	at   map[string]int
	head []string
	unit []string // of the column, said inside the cells
	rows []sheet.Row
}

// put sets a cell of the row that is being made; false when it is taken.
func (r *jrows) put(cells *[]string, name, unit, text string) bool {
	i, ok := r.at[name]
	if !ok {
		i = len(r.head)
		r.at[name] = i
		r.head, r.unit = append(r.head, name), append(r.unit, unit)
	}
	for len(*cells) <= i {
		*cells = append(*cells, "\x00")
	}
	if (*cells)[i] != "\x00" {
		return false
	}
	if unit != "" && r.unit[i] != unit && text != "" {
		text += " " + unit
	}
	(*cells)[i] = text
	return true
}

// jcell is one flattened value of a record.
type jcell struct {
	name, unit, text string
	line             int
}

// recordTable makes a table of objects; what stands below an object is flattened into dotted names.
func recordTable(kids []jnode, place []string) jtable {
	r := &jrows{at: map[string]int{}}
	for i := range kids {
		k := &kids[i]
		if k.kind != '{' {
			if k.text != "" {
				r.rows = append(r.rows, sheet.Row{Line: k.line, Cells: []string{k.text}})
			}
			continue
		}
		r.record(flatten(k, "", nil), k.line)
	}
	return r.table(place)
}

// record adds a row; cells whose name is taken make a further row with the rest repeated.
func (r *jrows) record(flat []jcell, line int) {
	if len(flat) > 0 {
		line = flat[0].line
	}
	var cells []string
	var again []jcell
	for _, c := range flat {
		if !r.put(&cells, c.name, c.unit, c.text) {
			again = append(again, c)
		}
	}
	r.rows = append(r.rows, sheet.Row{Line: line, Cells: cells})
	if len(again) > 0 {
		more := slices.Clone(cells)
		for _, c := range again {
			more[r.at[c.name]] = c.text
		}
		r.rows = append(r.rows, sheet.Row{Line: again[0].line, Cells: more})
	}
}

// table ends the collection: holes become empty cells, units join the names, names lose what all have.
func (r *jrows) table(place []string) jtable {
	for _, w := range r.rows {
		for i := range w.Cells {
			if w.Cells[i] == "\x00" {
				w.Cells[i] = ""
			}
		}
	}
	head := shortNames(r.head)
	for i, u := range r.unit {
		if u != "" && !strings.Contains(head[i], u) {
			head[i] += " " + u
		}
	}
	t := jtable{place: place, head: head, rows: r.rows}
	t.findClock()
	return t
}

// flatten lists the single values below n.
func flatten(n *jnode, prefix string, to []jcell) []jcell {
	if text, unit, ok := unitCell(n); ok && prefix != "" {
		return append(to, jcell{prefix, unit, text, n.line})
	}
	for i := range n.kids {
		k := &n.kids[i]
		name := k.key
		if n.kind == '[' {
			if name = strings.Join(labels(k), " "); name == "" {
				name = strconv.Itoa(i)
			}
		}
		if prefix != "" {
			name = prefix + "." + name
		}
		switch {
		case k.scalar():
			to = append(to, jcell{name, "", k.text, k.line})
		case n.kind == '[' && len(labels(k)) > 0:
			to = namedCell(k, name, to)
		default:
			to = flatten(k, name, to)
		}
	}
	return to
}

// namedCell takes an element such as {"name": "T", "value": 17.3, "unit": "C"} as one value.
func namedCell(n *jnode, name string, to []jcell) []jcell {
	if i := valueMember(n); i >= 0 {
		return append(to, jcell{name, "", n.kids[i].text, n.kids[i].line})
	}
	return flatten(n, name, to)
}

func valueMember(n *jnode) int {
	return slices.IndexFunc(n.kids, func(k jnode) bool {
		f := foldKey(k.key)
		return k.scalar() && (f == "value" || f == "v" || f == "val" || f == "reading")
	})
}

// unitCell accepts {"value": 17.3, "unit": "C"}.
func unitCell(n *jnode) (text, unit string, ok bool) {
	i := valueMember(n)
	if n.kind != '{' || i < 0 || len(n.kids) > 4 {
		return "", "", false
	}
	for j := range n.kids {
		k := &n.kids[j]
		if !k.scalar() || isStamp(k.text) {
			return "", "", false
		}
		switch foldKey(k.key) {
		case "unit", "units", "uom", "unitofmeasurement", "u":
			unit = k.text
		}
	}
	return n.kids[i].text, unit, true
}

// shortNames drops packing words at the start of dotted names where the rest stays unique.
func shortNames(names []string) []string {
	out := make([]string, len(names))
	count := map[string]int{}
	for i, n := range names {
		out[i] = n
		for {
			first, rest, ok := strings.Cut(out[i], ".")
			if !ok || !wrapping(first) || rest == "" {
				break
			}
			out[i] = rest
		}
		count[out[i]]++
	}
	for i := range out {
		if count[out[i]] > 1 {
			out[i] = names[i]
		}
	}
	return out
}

// tupleTable makes a table of arrays; names come from an array of names in n, or stand in the first.
func tupleTable(kids []jnode, n *jnode, place []string) jtable {
	var t jtable
	t.place = place
	if n != nil {
		t.head = tupleHead(n, len(kids[0].kids))
	}
	for i := range kids {
		k := &kids[i]
		cells := make([]string, len(k.kids))
		for j := range k.kids {
			cells[j] = k.kids[j].text
		}
		if i == 0 && t.head == nil && namesOnly(k) {
			t.head = cells
			continue
		}
		t.rows = append(t.rows, sheet.Row{Line: k.line, Cells: cells})
	}
	if n != nil {
		t.prependIndex(n)
	}
	t.findClock()
	return t
}

func namesOnly(n *jnode) bool {
	return !slices.ContainsFunc(n.kids, func(k jnode) bool {
		_, err := strconv.ParseFloat(k.text, 64)
		return k.kind != 's' || err == nil || isStamp(k.text)
	})
}

// prependIndex adds the array of stamps that stands beside the rows.
func (t *jtable) prependIndex(n *jnode) {
	for i := range n.kids {
		k := &n.kids[i]
		if !isColumn(k) || len(k.kids) != len(t.rows) || !isStamp(k.kids[0].text) {
			continue
		}
		for j := range t.rows {
			t.rows[j].Cells = append([]string{k.kids[j].text}, t.rows[j].Cells...)
		}
		t.head = append([]string{"time"}, t.head...)
		return
	}
}

// columnTable makes a table of arrays of equal length; units come from a member that has a unit under
// the same names.
func columnTable(n *jnode, cols []*jnode, place []string) jtable {
	t := jtable{place: place}
	long := 0
	for _, c := range cols {
		long = max(long, len(c.kids))
		t.head = append(t.head, c.key)
	}
	for i := range long {
		r := sheet.Row{Cells: make([]string, len(cols))}
		for j, c := range cols {
			if i < len(c.kids) {
				r.Cells[j] = c.kids[i].text
				r.Line = max(r.Line, c.kids[i].line)
				if j == 0 {
					r.Line = c.kids[i].line
				}
			}
		}
		t.rows = append(t.rows, r)
	}
	t.takeUnits(n)
	t.findClock()
	return t
}

// takeUnits adds the units that a member of n holds under the names of the columns.
func (t *jtable) takeUnits(n *jnode) {
	for i := range n.kids {
		if n.kids[i].kind != '{' {
			continue
		}
		for _, u := range n.kids[i].kids {
			if c := slices.Index(t.head, u.key); c >= 0 && u.kind == 's' && len(u.text) < 12 {
				t.head[c] += " " + u.text
			}
		}
	}
}

// stampTable makes a table of values, rows or clock times keyed by time stamp.
func stampTable(n *jnode, place []string) jtable {
	r := &jrows{at: map[string]int{}}
	for i := range n.kids {
		k := &n.kids[i]
		if k.kind == '{' && len(k.kids) > 0 && isClock(k.kids[0].key) {
			for j := range k.kids {
				r.stamped(k.key+" "+k.kids[j].key, &k.kids[j])
			}
			continue
		}
		r.stamped(k.key, k)
	}
	t := r.table(place)
	t.clock = 0
	return t
}

func (r *jrows) stamped(stamp string, k *jnode) {
	flat := []jcell{{"time", "", stamp, k.line}}
	if text, unit, ok := unitCell(k); ok {
		flat = append(flat, jcell{"value", unit, text, k.line})
	} else if k.scalar() {
		flat = append(flat, jcell{"value", "", k.text, k.line})
	} else {
		flat = flatten(k, "", flat)
	}
	r.record(flat, k.line)
}
