package problem

import (
	"strings"

	"github.com/BurntSushi/toml"
)

// Lines maps the path of a table or key of a TOML file, its parts joined by PathSep, to the line where it stands, from 1.
type Lines map[string]int

// PathSep joins the parts of a path.
const PathSep = "\x00"

// Deepest is the number of names in the longest path of interest.
const Deepest = 5

// Of returns the line of the key, or of the nearest table above it that has one; 0 when none has.
func (x Lines) Of(path ...string) int {
	for n := len(path); n > 0; n-- {
		if l, ok := x[strings.Join(path[:n], PathSep)]; ok {
			return l
		}
	}
	return 0
}

// LinesOf finds the line of every table and key of a text that is known to be valid TOML. It
// understands tables, dotted and quoted keys, inline tables and values over several lines.
func LinesOf(src string) Lines {
	s := lineScanner{src: src, line: 1, found: Lines{}}
	s.document()
	return s.found
}

// Span is where one table header or one key with its value stands in a text, in bytes.
type Span struct {
	Path       []string
	Under      []string // path of the table or inline table that it stands in
	Names      [][2]int // each name of the key or header as typed: first byte, and the one after its last
	Key, After int      // the key, or the header with its brackets: first byte, and the one after its last
	Value, End int      // the value: first byte, and the one after its last; of a header both are After
	Header     bool
	Many       bool // a header in double brackets, or a key in a list
	Inline     bool // it stands between braces
}

// SpansOf finds every table header and every key of a text that is known to be valid TOML, in the order of the text; a key comes before
// those inside its value.
func SpansOf(src string) []Span {
	s := lineScanner{src: src, line: 1, found: Lines{}, keep: true}
	s.document()
	return s.spans
}

type lineScanner struct {
	src    string
	pos    int
	line   int
	found  Lines
	keep   bool // spans are wanted
	spans  []Span
	names  [][2]int // of the key read last
	inside int      // braces around
	listed int      // brackets of arrays around
}

func (s *lineScanner) more() bool { return s.pos < len(s.src) }

func (s *lineScanner) next() {
	if s.src[s.pos] == '\n' {
		s.line++
	}
	s.pos++
}

func (s *lineScanner) has(t string) bool { return strings.HasPrefix(s.src[s.pos:], t) }

// blank skips white space, line ends and comments.
func (s *lineScanner) blank() {
	for s.more() {
		switch c := s.src[s.pos]; {
		case c == '#':
			s.untilLineEnd()
		case c == ' ' || c == '\t' || c == '\r' || c == '\n':
			s.next()
		default:
			return
		}
	}
}

func (s *lineScanner) untilLineEnd() {
	for s.more() && s.src[s.pos] != '\n' {
		s.next()
	}
}

func (s *lineScanner) document() {
	var under []string
	for s.blank(); s.more(); s.blank() {
		start := s.pos
		if s.src[s.pos] == '[' {
			many := s.has("[[")
			for s.more() && s.src[s.pos] == '[' {
				s.next()
			}
			under = s.key("]")
			if s.more() && s.src[s.pos] == ']' {
				s.next()
			}
			s.note(under)
			s.span(Span{Path: under, Names: s.names, Key: start, After: s.pos, Value: s.pos, End: s.pos, Header: true, Many: many})
			s.untilLineEnd()
		} else {
			s.pair(under)
		}
		if s.pos == start { // not TOML; move on all the same
			s.next()
		}
	}
}

// pair reads key = value under the given table.
func (s *lineScanner) pair(under []string) {
	start := s.pos
	path := append(append([]string(nil), under...), s.key("=")...)
	s.note(path)
	at := Span{Path: path, Under: under, Names: s.names, Key: start, Inline: s.inside > 0, Many: s.listed > 0}
	at.After = start + len(strings.TrimRight(strings.TrimSuffix(s.src[start:s.pos], "="), " \t"))
	for s.more() && (s.src[s.pos] == ' ' || s.src[s.pos] == '\t') {
		s.next()
	}
	at.Value = s.pos
	n := s.span(at)
	s.value(path)
	if s.keep {
		s.spans[n].End = at.Value + len(strings.TrimRight(s.src[at.Value:s.pos], " \t\r"))
	}
}

// span keeps a span and returns its place.
func (s *lineScanner) span(at Span) int {
	if s.keep {
		s.spans = append(s.spans, at)
	}
	return len(s.spans) - 1
}

// note records the line of a path and of the tables above it.
func (s *lineScanner) note(path []string) {
	for n := 1; n <= min(len(path), Deepest); n++ {
		p := strings.Join(path[:n], PathSep)
		if _, ok := s.found[p]; !ok {
			s.found[p] = s.line
		}
	}
}

// key reads a dotted key up to and with the character that ends it, on one line.
func (s *lineScanner) key(end string) []string {
	s.names = nil
	var parts []string
	from := s.pos
	part := func() {
		raw := s.src[from:s.pos]
		if t := strings.TrimSpace(raw); t != "" {
			at := from + strings.Index(raw, t)
			s.names = append(s.names, [2]int{at, at + len(t)})
			parts = append(parts, word(t))
		}
		from = s.pos + 1
	}
	for s.more() && s.src[s.pos] != '\n' {
		c := s.src[s.pos]
		switch {
		case c == '"' || c == '\'':
			s.quoted()
			continue
		case c == '.':
			part()
		case string(c) == end:
			part()
			s.next()
			return parts
		}
		s.next()
	}
	part()
	return parts
}

// word is a name of a key without its quotes.
func word(typed string) string {
	var doc struct{ X string }
	switch typed[0] {
	case '"':
		if _, err := toml.Decode("X = "+typed, &doc); err == nil {
			return doc.X
		}
		return strings.Trim(typed, `"`)
	case '\'':
		return strings.Trim(typed, "'")
	}
	return typed
}

// quoted skips a quoted word on one line.
func (s *lineScanner) quoted() {
	q := s.src[s.pos]
	s.next()
	for s.more() && s.src[s.pos] != q && s.src[s.pos] != '\n' {
		if s.src[s.pos] == '\\' && q == '"' {
			s.next()
		}
		if s.more() {
			s.next()
		}
	}
	if s.more() && s.src[s.pos] == q {
		s.next()
	}
}

// value skips a value; keys of inline tables in it are recorded under path.
func (s *lineScanner) value(path []string) {
	for s.more() {
		switch c := s.src[s.pos]; {
		case c == ' ' || c == '\t':
			s.next()
			continue
		case s.has(`"""`), s.has(`'''`):
			s.multiline(s.src[s.pos : s.pos+3])
		case c == '"' || c == '\'':
			s.quoted()
		case c == '[':
			s.group(']', func() { s.value(path) })
		case c == '{':
			s.group('}', func() { s.pair(path) })
		default:
			for s.more() && !strings.ContainsRune(",]}#\n", rune(s.src[s.pos])) {
				s.next()
			}
		}
		return
	}
}

func (s *lineScanner) multiline(q string) {
	s.pos += 3
	for s.more() && !s.has(q) {
		if s.src[s.pos] == '\\' && q == `"""` {
			s.next()
		}
		if s.more() {
			s.next()
		}
	}
	for s.more() && s.src[s.pos] == q[0] { // up to two quotes may stand before the closing three
		s.next()
	}
}

// group reads the items of an array or inline table up to its closing bracket.
func (s *lineScanner) group(end byte, item func()) {
	s.next()
	around := &s.inside
	if end == ']' {
		around = &s.listed
	}
	*around++
	defer func() { *around-- }()
	for s.blank(); s.more(); s.blank() {
		switch start := s.pos; s.src[s.pos] {
		case end:
			s.next()
			return
		case ',':
			s.next()
		default:
			item()
			if s.pos == start {
				s.next()
			}
		}
	}
}
