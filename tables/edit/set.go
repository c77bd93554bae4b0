package edit

import (
	"fmt"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"crossgrain/tables/problem"
)

// Set gives a key a value, written as TOML. A key that is there keeps its line and what stands behind the value. A new one comes after
// the last key of its table; a new table after the last one of the same first name, else at the end. literal must be one value.
func (t *Text) Set(literal string, path ...string) error {
	if err := one(literal); err != nil {
		return err
	}
	if len(path) == 0 {
		return fmt.Errorf("a key must have a name")
	}
	if s := t.pair(path); s != nil {
		return t.try(t.src[:s.Value] + literal + t.src[s.End:])
	}
	table := path[:len(path)-1]
	if err := t.AddTable(table...); err != nil {
		return err
	}
	return t.put(literal, table, path[len(path)-1])
}

// one refuses what is not a single value.
func one(literal string) error {
	const head = "x = "
	var doc map[string]any
	if _, err := toml.Decode(head+literal, &doc); err != nil || len(doc) != 1 {
		return fmt.Errorf("%q is not a value as TOML writes one", literal)
	}
	if s := problem.SpansOf(head + literal); len(s) == 0 || s[0].End != len(head)+len(literal) {
		return fmt.Errorf("%q is more than a value", literal)
	}
	return nil
}

// put adds a key to a table that is there.
func (t *Text) put(literal string, table []string, key string) error {
	if s := t.pair(table); s != nil && t.braces(*s) {
		return t.try(t.inBraces(*s, dotted([]string{key})+" = "+literal))
	}
	after, under, last := -1, []string(nil), (*problem.Span)(nil)
	for i := range t.spans {
		s := &t.spans[i]
		switch own := slices.Equal(s.Under, table); {
		case s.Inline || s.Many:
		case s.Header && slices.Equal(s.Path, table):
			after, under, last = s.After, s.Path, nil
		case !s.Header && (own || len(s.Under) < len(table) && len(s.Path) > len(table) && begins(s.Path, table)):
			after, under, last = s.End, s.Under, s
		}
	}
	switch {
	case after < 0 && len(table) > 0:
		return fmt.Errorf("the table %s cannot be added to", dotted(table))
	case after < 0:
		return t.try(dotted([]string{key}) + " = " + literal + t.newline() + t.src)
	}
	indent := ""
	if last != nil {
		indent = t.src[t.lineStart(last.Key):last.Key]
	}
	name := append(slices.Clone(table[len(under):]), key)
	line := indent + dotted(name) + " = " + literal
	at := t.lineEnd(after)
	if at == len(t.src) && !strings.HasSuffix(t.src, "\n") {
		return t.try(t.src + t.newline() + line + t.newline())
	}
	return t.try(t.src[:at] + line + t.newline() + t.src[at:])
}

// inBraces adds an item to an inline table.
func (t *Text) inBraces(s problem.Span, item string) string {
	last := -1
	for _, in := range t.spans {
		if in.Inline && in.Key > s.Value && in.End < s.End && slices.Equal(in.Under, s.Path) {
			last = in.End
		}
	}
	if last < 0 {
		return t.src[:s.Value] + "{ " + item + " }" + t.src[s.End:]
	}
	return t.src[:last] + ", " + item + t.src[last:]
}

// AddTable adds an empty table, where it is not there yet, after the last one of the same first name, else at the end.
func (t *Text) AddTable(path ...string) error {
	if len(path) == 0 || t.hasTable(path) {
		return nil
	}
	if s := t.pair(path); s != nil {
		return fmt.Errorf("%s is a key, not a table", dotted(path))
	}
	for n := len(path) - 1; n > 0; n-- { // a table in braces takes no header for what is in it
		if s := t.pair(path[:n]); s != nil {
			if !t.braces(*s) {
				return fmt.Errorf("%s is a key, not a table", dotted(path[:n]))
			}
			return t.try(t.inBraces(*s, dotted(path[n:])+" = {}"))
		}
	}
	at := len(t.src)
	if end := t.blockEnd(path[0]); end >= 0 {
		at = end
	}
	nl := t.newline()
	before, after := strings.TrimRight(t.src[:at], " \t"), t.src[at:]
	if before != "" && !strings.HasSuffix(before, "\n") {
		before += nl
	}
	if before != "" && !strings.HasSuffix(before, "\n\n") && !strings.HasSuffix(before, "\n\r\n") {
		before += nl
	}
	text := before + "[" + dotted(path) + "]" + nl
	if after != "" && !strings.HasPrefix(after, "\n") && !strings.HasPrefix(after, "\r\n") {
		text += nl
	}
	return t.try(text + after)
}

// hasTable says whether a table may take keys as it stands: with a header of its own, in braces, or by keys with dots.
func (t *Text) hasTable(path []string) bool {
	for _, s := range t.spans {
		switch {
		case s.Header && !s.Many && slices.Equal(s.Path, path):
			return true
		case t.braces(s) && slices.Equal(s.Path, path):
			return true
		case !s.Header && len(s.Path) > len(path) && len(s.Under) < len(path) && begins(s.Path, path):
			return true
		}
	}
	return false
}

// blockEnd is where the last line ends that belongs to a table with that first name; -1: there is none.
func (t *Text) blockEnd(first string) int {
	end := -1
	for _, s := range t.spans {
		if s.Path[0] == first && !s.Inline && (s.Header || len(s.Under) > 0) {
			end = t.lineEnd(s.End)
		}
	}
	return end
}
