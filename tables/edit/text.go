// Package edit changes what a person typed in a TOML file by key, and leaves everything else letter for letter: remarks, blank lines,
// order, line ends.
//
// A text is taken apart into spans ([problem.SpansOf]); each change cuts one piece out or puts one in. The result is read again, and is
// kept only where it says what the text said before, with that one change. What cannot be changed in place, such as an array of tables,
// is refused and nothing is changed.
package edit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"crossgrain/tables/problem"
)

// Text is a TOML text that is changed by key.
type Text struct {
	mark  string // the byte-order mark, where there was one
	src   string
	spans []problem.Span
	lists [][]string // paths of the arrays of tables: [[path]]
}

// file is what problems call such a text.
var file = problem.Kind{
	Name: "file", Most: 1 << 20, Empty: "a file begins with a table, as in [panel]", Plain: "it is not plain text", Table: "[panel]",
}

// Parse takes a text that is valid TOML, or an empty one.
func Parse(src []byte) (*Text, error) {
	if text := strings.TrimPrefix(string(src), "\ufeff"); strings.TrimSpace(text) != "" {
		if _, _, list := file.Decode("", src, &map[string]any{}); len(list) > 0 {
			return nil, list.Err()
		}
	} else if _, err := toml.Decode(text, &map[string]any{}); err != nil {
		return nil, err
	}
	t := &Text{}
	if strings.HasPrefix(string(src), "\ufeff") {
		t.mark = "\ufeff"
	}
	t.take(strings.TrimPrefix(string(src), "\ufeff"))
	return t, nil
}

func (t *Text) take(src string) {
	t.src, t.spans, t.lists = src, problem.SpansOf(src), nil
	for _, s := range t.spans {
		if s.Header && s.Many {
			t.lists = append(t.lists, s.Path)
		}
	}
}

// Bytes returns the text.
func (t *Text) Bytes() []byte { return []byte(t.mark + t.src) }

// Raw returns the value of a key as it was typed.
func (t *Text) Raw(path ...string) (literal string, ok bool) {
	if s := t.pair(path); s != nil {
		return t.src[s.Value:s.End], true
	}
	return "", false
}

// pair finds the key with that path.
func (t *Text) pair(path []string) *problem.Span {
	for i := range t.spans {
		if s := &t.spans[i]; !s.Header && slices.Equal(s.Path, path) && !s.Many && t.list(path) == nil {
			return s
		}
	}
	return nil
}

// list is the array of tables that a path names or leads through; nil: none.
func (t *Text) list(path []string) []string {
	for _, l := range t.lists {
		if begins(path, l) {
			return l
		}
	}
	return nil
}

// can refuses a path that no change by key can have.
func (t *Text) can(path []string) error {
	if len(path) == 0 {
		return fmt.Errorf("a key or a table must have a name")
	}
	for _, p := range path {
		if !utf8.ValidString(p) {
			return fmt.Errorf("%q is not plain text", p)
		}
	}
	if l := t.list(path); l != nil {
		return fmt.Errorf("[[%s]] is a list of tables without names; it is changed by hand", dotted(l))
	}
	return nil
}

// Tables lists the paths of all tables in the order of the text: those with a header, those that keys with dots imply and those in
// braces.
func (t *Text) Tables() [][]string {
	var out [][]string
	seen := map[string]bool{}
	add := func(path []string) {
		if id := strings.Join(path, problem.PathSep); len(path) > 0 && !seen[id] {
			seen[id] = true
			out = append(out, path)
		}
	}
	for _, s := range t.spans {
		switch {
		case s.Many || t.list(s.Path) != nil:
		case s.Header, t.braces(s):
			add(s.Path)
		default:
			for n := len(s.Under) + 1; n < len(s.Path); n++ {
				add(s.Path[:n])
			}
		}
	}
	return out
}

// braces says whether the value of a key is an inline table.
func (t *Text) braces(s problem.Span) bool {
	return !s.Header && strings.HasPrefix(t.src[s.Value:], "{")
}

// Keys lists the keys of a table in the order of the text, tables in it left out.
func (t *Text) Keys(table ...string) []string {
	var out []string
	for _, s := range t.spans {
		if len(s.Path) == len(table)+1 && begins(s.Path, table) && !s.Header && !s.Many && !t.braces(s) && t.list(s.Path) == nil {
			out = append(out, s.Path[len(table)])
		}
	}
	return out
}

// begins says whether a path begins with another.
func begins(path, with []string) bool {
	return len(path) >= len(with) && slices.Equal(path[:len(with)], with)
}

// lineStart is where the line of a byte begins.
func (t *Text) lineStart(at int) int { return strings.LastIndexByte(t.src[:at], '\n') + 1 }

// lineEnd is where the next line begins.
func (t *Text) lineEnd(at int) int {
	if n := strings.IndexByte(t.src[at:], '\n'); n >= 0 {
		return at + n + 1
	}
	return len(t.src)
}

// blankAbove says whether the line before that byte is blank.
func (t *Text) blankAbove(at int) bool {
	above := strings.TrimSuffix(t.src[:at], "\n")
	return strings.TrimSpace(above[strings.LastIndexByte(above, '\n')+1:]) == ""
}

// isRemark says whether the line that begins there holds nothing but a remark.
func (t *Text) isRemark(at int) bool {
	return strings.HasPrefix(strings.TrimLeft(t.src[at:], " \t"), "#")
}

// newline is the line end that the text begins with.
func (t *Text) newline() string {
	if n := strings.IndexByte(t.src, '\n'); n > 0 && t.src[n-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// Quote writes a string as TOML does, in quotation marks.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range strings.ToValidUTF8(s, "\ufffd") {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < 0x20 || r == 0x7f:
			hex := strconv.FormatInt(int64(r), 16)
			b.WriteString(`\u` + strings.Repeat("0", 4-len(hex)) + hex)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// dotted writes the path of a key, with quotes where TOML needs them.
func dotted(path []string) string {
	out := make([]string, len(path))
	for i, p := range path {
		out[i] = p
		if p == "" || strings.Trim(p, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") != "" {
			out[i] = Quote(p)
		}
	}
	return strings.Join(out, ".")
}
