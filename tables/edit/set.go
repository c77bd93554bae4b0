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
	value, err := one(literal)
	if err != nil {
		return err
	}
	if err := t.can(path); err != nil {
		return err
	}
	if s := t.pair(path); s != nil {
		return t.try(t.src[:s.Value]+literal+t.src[s.End:], with(value, path))
	}
	was := *t
	if err = t.AddTable(path[:len(path)-1]...); err == nil {
		err = t.put(literal, value, path)
	}
	if err != nil {
		*t = was
	}
	return err
}

// one reads a literal and refuses what is not a single value.
func one(literal string) (any, error) {
	const head = "x = "
	var doc map[string]any
	if _, err := toml.Decode(head+literal, &doc); err != nil || len(doc) != 1 {
		return nil, fmt.Errorf("%q is not a value as TOML writes one", literal)
	}
	if s := problem.SpansOf(head + literal); len(s) == 0 || s[0].Value != len(head) || s[0].End != len(head)+len(literal) {
		return nil, fmt.Errorf("%q is more than a value", literal)
	}
	return doc["x"], nil
}

// put adds a key to a table that is there.
func (t *Text) put(literal string, value any, path []string) error {
	table, change := path[:len(path)-1], with(value, path)
	if s := t.around(table); s != nil {
		return t.try(t.inBraces(*s, dotted(path[len(s.Path):])+" = "+literal), change)
	}
	after, under, last := t.lastOf(table)
	switch {
	case after < 0 && len(table) > 0:
		return fmt.Errorf("the table %s cannot be added to", dotted(table))
	case after < 0:
		return t.try(t.atTop(dotted(path)+" = "+literal), change)
	}
	line := dotted(path[len(under):]) + " = " + literal
	if last != nil {
		line = t.src[t.lineStart(last.Key):last.Key] + line
	}
	at := t.lineEnd(after)
	return t.try(t.src[:at]+t.endOf(at)+line+t.newline()+t.src[at:], change)
}

// lastOf is where the last key of a table ends, or its header where it has none (-1: neither), the table under which that key is
// written, and the key.
func (t *Text) lastOf(table []string) (after int, under []string, last *problem.Span) {
	after = -1
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
	return after, under, last
}

// atTop adds the first line that stands under no table: above the first header and its remarks, or at the end.
func (t *Text) atTop(line string) string {
	nl := t.newline()
	if len(t.spans) == 0 {
		return t.src + t.endOf(len(t.src)) + line + nl
	}
	at := t.remarksAbove(t.spans[0])
	return t.src[:at] + line + nl + nl + t.src[at:]
}

// endOf is the line end that is missing before something is put there.
func (t *Text) endOf(at int) string {
	if at == 0 || t.src[at-1] == '\n' {
		return ""
	}
	return t.newline()
}

// around finds the key in braces that is the table, or the innermost one that it stands in.
func (t *Text) around(table []string) *problem.Span {
	for n := len(table); n > 0; n-- {
		if s := t.pair(table[:n]); s != nil && t.braces(*s) {
			return s
		}
	}
	return nil
}

// inBraces adds an item to an inline table.
func (t *Text) inBraces(s problem.Span, item string) string {
	last := -1
	for _, in := range t.spans {
		if in.Inline && in.Key > s.Value && in.End < s.End && slices.Equal(in.Under, s.Path) {
			last = in.End
		}
	}
	switch {
	case last >= 0:
		return t.src[:last] + ", " + item + t.src[last:]
	case strings.Trim(t.src[s.Value+1:s.End-1], " \t") == "":
		return t.src[:s.Value] + "{ " + item + " }" + t.src[s.End:]
	}
	return t.src[:s.Value+1] + " " + item + t.src[s.Value+1:] // remarks stand in it
}

// AddTable adds an empty table, where it is not there yet, after the last one of the same first name, else at the end.
func (t *Text) AddTable(path ...string) error {
	if len(path) == 0 {
		return nil
	}
	if err := t.can(path); err != nil || t.hasTable(path) {
		return err
	}
	for n := len(path); n > 0; n-- {
		if s := t.pair(path[:n]); s != nil && !t.braces(*s) {
			return fmt.Errorf("%s is a key, not a table", dotted(path[:n]))
		}
	}
	change := func(was, is map[string]any) {
		if tableAt(was, path) == nil {
			with(map[string]any{}, path)(was, is)
		}
	}
	if s := t.around(path); s != nil { // a table in braces takes no header for what is in it
		return t.try(t.inBraces(*s, dotted(path[len(s.Path):])+" = {}"), change)
	}
	at := t.blockEnd(path[0])
	nl := t.newline()
	before, after := t.endOf(at), ""
	if at > 0 && !t.blankAbove(at) {
		before += nl
	}
	if at < len(t.src) && strings.TrimSpace(t.src[at:t.lineEnd(at)]) != "" {
		after = nl
	}
	return t.try(t.src[:at]+before+"["+dotted(path)+"]"+nl+after+t.src[at:], change)
}

// hasTable says whether a table may take keys as it stands: with a header of its own, in braces, or by keys with dots.
func (t *Text) hasTable(path []string) bool {
	for _, s := range t.spans {
		switch {
		case !begins(s.Path, path) || s.Many:
		case len(s.Path) == len(path):
			return s.Header || t.braces(s)
		case !s.Header && len(s.Under) < len(path):
			return true
		}
	}
	return false
}

// blockEnd is where the last table of that first name ends, with the remarks that follow it without a blank line; those directly above
// the next header belong to that. Without such a table it is the end of the text.
func (t *Text) blockEnd(first string) int {
	end := -1
	for _, s := range t.spans {
		if s.Path[0] == first && !s.Inline && (s.Header || len(s.Under) > 0) {
			end = t.lineEnd(s.End)
		}
	}
	if end < 0 {
		return len(t.src)
	}
	below := end
	for below < len(t.src) && t.isRemark(below) {
		below = t.lineEnd(below)
	}
	if strings.TrimSpace(t.src[below:t.lineEnd(below)]) == "" {
		return below
	}
	return end
}
