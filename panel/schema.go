package panel

import "slices"

// kind says what a key of the panel file may hold.
type kind int

const (
	textKind   kind = iota // any words
	wordKind               // one of the listed words, or "?"
	woodKind               // a wood by name, or "?"
	yesNoKind              // true, false, "yes", "no" or "?"
	numberKind             // a number, or [low, high]
	countKind              // a whole number
	lengthKind             // mm, or words such as "24 1/2 in"; or [low, high]
	listKind               // a list of lengths
	rhKind                 // per cent RH, or [low, high]
	spanKind               // [lowest, highest] per cent RH
	whenKind               // a year or a date
	namesKind              // a list of two names
	partsKind              // a list of paths of parts or keys, such as "batten.upper"
)

// screen says at which depth of the template a key stands.
type screen int

const (
	first    screen = iota // can be seen or is in the register
	measured               // wants a ruler, a card, a hygrometer
	expert                 // cannot be measured; for the workshop
)

// key describes one key of the panel file. Reader, template, writer, reference and the list of
// what no model uses yet are made from it.
type key struct {
	name      string
	kind      kind
	unit      string
	low, high float64
	words     []string
	doc       string // one line
	example   string // as written in a file
	screen    screen
	required  bool
	unused    bool    // read and kept, but no model uses it yet
	means     string  // how it is found out
	minutes   float64 // that this takes; 0 = not something to measure
}

func (k key) onFirst() key          { k.screen = first; return k }
func (k key) forExperts() key       { k.screen = expert; return k }
func (k key) must() key             { k.required = true; return k }
func (k key) notYet() key           { k.unused = true; return k }
func (k key) eg(example string) key { k.example = example; return k }

// by says how the value is found out and in how many minutes, without touching paint.
func (k key) by(means string, minutes float64) key {
	k.means, k.minutes = means, minutes
	return k
}

func text(name, doc string) key {
	return key{name: name, kind: textKind, doc: doc, screen: measured, example: `"..."`}
}

func word(name, doc string, words ...string) key {
	return key{name: name, kind: wordKind, words: words, doc: doc, screen: measured, example: quote(words[0])}
}

func wood(name, doc string) key {
	return key{name: name, kind: woodKind, doc: doc, screen: measured, example: `"oak"`}
}

func yesNo(name, doc string) key {
	return key{name: name, kind: yesNoKind, doc: doc, screen: measured, example: "true"}
}

func number(name, unit string, low, high float64, doc, example string) key {
	return key{name: name, kind: numberKind, unit: unit, low: low, high: high, doc: doc, screen: measured, example: example}
}

func count(name string, low, high float64, doc, example string) key {
	return key{name: name, kind: countKind, low: low, high: high, doc: doc, screen: measured, example: example}
}

func length(name string, low, high float64, doc, example string) key {
	return key{name: name, kind: lengthKind, unit: "mm", low: low, high: high, doc: doc, screen: measured, example: example}
}

func lengths(name string, low, high float64, doc, example string) key {
	k := length(name, low, high, doc, example)
	k.kind = listKind
	return k
}

func rh(name, doc, example string) key {
	return key{name: name, kind: rhKind, unit: "% RH", low: 1, high: 100, doc: doc, screen: measured, example: example}
}

func rhSpan(name, doc, example string) key {
	k := rh(name, doc, example)
	k.kind = spanKind
	return k
}

func when(name, doc, example string) key {
	return key{name: name, kind: whenKind, doc: doc, screen: measured, example: example}
}

// table describes one table of the panel file. A named table is written [path.NAME]; names limits
// the names to those listed.
type table struct {
	path  string
	named bool
	names []string
	also  string // another word accepted for the table
	doc   string
	keys  []key
}

// schema is all tables in the order in which a file is written; it is never changed.
var schema = slices.Concat(panelTables(), boardTables(), memberTables(), aroundTables(), optionTables())

// lookTable returns the table of that path and sort.
func lookTable(path string, named bool) (table, bool) {
	for _, t := range schema {
		if t.named == named && (t.path == path || t.also == path && path != "") {
			return t, true
		}
	}
	return table{}, false
}

// key returns the key of that name.
func (t table) key(name string) (key, bool) {
	for _, k := range t.keys {
		if k.name == name {
			return k, true
		}
	}
	return key{}, false
}

// keyNames lists the names of a table's keys.
func (t table) keyNames() []string {
	out := make([]string, len(t.keys))
	for i, k := range t.keys {
		out[i] = k.name
	}
	return out
}

// tableNames lists the names that may stand at the top of a file.
func tableNames() []string {
	out := []string{"format"}
	for _, t := range schema {
		if !slices.Contains(out, t.path) {
			out = append(out, t.path)
		}
		if t.also != "" {
			out = append(out, t.also)
		}
	}
	return out
}

// belongs returns a table that has the key, as written in a file, or "".
func belongs(name string) string {
	for _, t := range schema {
		if _, ok := t.key(name); ok {
			return t.header("NAME")
		}
	}
	return ""
}

// header returns the table's head as written in a file.
func (t table) header(name string) string {
	if t.named {
		return "[" + t.path + "." + name + "]"
	}
	return "[" + t.path + "]"
}
