package edit

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/tables/problem"
)

// Remove takes a key out, with its lines and the remark behind it; remarks on lines of their own stay.
func (t *Text) Remove(path ...string) bool {
	s := t.pair(path)
	return s != nil && t.cut([]problem.Span{*s}, path)
}

// RemoveTable takes a table out with all that is in it, and the remarks directly above its header; other remarks stay.
func (t *Text) RemoveTable(path ...string) bool {
	if t.can(path) != nil {
		return false
	}
	if s := t.pair(path); s != nil {
		return t.braces(*s) && t.Remove(path...)
	}
	var gone []problem.Span
	for _, s := range t.spans {
		if begins(s.Path, path) && !s.Inline {
			gone = append(gone, s)
		}
	}
	if len(gone) > 0 {
		return t.cut(gone, path)
	}
	return t.removeInBraces(path)
}

// removeInBraces takes out the keys with dots that make a table in the braces of another.
func (t *Text) removeInBraces(path []string) bool {
	was, done := *t, false
	for {
		n := slices.IndexFunc(t.spans, func(s problem.Span) bool { return begins(s.Path, path) && !s.Many })
		if n < 0 {
			return done
		}
		if done = t.Remove(t.spans[n].Path...); !done {
			*t = was
			return false
		}
	}
}

// cut takes spans out of the text, from behind; none stands within another.
func (t *Text) cut(gone []problem.Span, path []string) bool {
	src, last := t.src, len(t.src)
	for _, s := range slices.Backward(gone) {
		from, to := t.reach(s)
		if to = min(to, last); from < to {
			src, last = src[:from]+src[to:], from
		}
	}
	return t.try(src, without(path)) == nil
}

// reach is what goes with a span: whole lines, the remarks above a header and a blank line before them, or in braces its comma.
func (t *Text) reach(s problem.Span) (from, to int) {
	if s.Inline {
		return t.comma(s)
	}
	from, to = t.lineStart(s.Key), t.lineEnd(s.End)
	if !s.Header {
		return from, to
	}
	from = t.remarksAbove(s)
	if from > 0 && t.blankAbove(from) {
		from = t.lineStart(from - 1)
	}
	return from, to
}

// remarksAbove is where the remarks directly above a header begin, or its own line where there are none. A line of a value over several
// lines is no remark, whatever it looks like.
func (t *Text) remarksAbove(header problem.Span) int {
	floor := 0
	for _, s := range t.spans {
		if s.Key < header.Key {
			floor = max(floor, t.lineEnd(s.End))
		}
	}
	from := t.lineStart(header.Key)
	for from > floor && t.isRemark(t.lineStart(from-1)) {
		from = t.lineStart(from - 1)
	}
	return from
}

// comma is an item of an inline table with the comma that parts it from its neighbour.
func (t *Text) comma(s problem.Span) (from, to int) {
	from, to = s.Key, s.End
	rest := t.src[to:]
	if trimmed := strings.TrimLeft(rest, " \t"); strings.HasPrefix(trimmed, ",") {
		to += len(rest) - len(trimmed) + 1
		for to < len(t.src) && t.src[to] == ' ' {
			to++
		}
		return from, to
	}
	if before := strings.TrimRight(t.src[:from], " \t"); strings.HasSuffix(before, ",") {
		from = len(before) - 1
	}
	return from, to
}

// RenameTable gives the last name of a table's path another word, wherever it stands.
func (t *Text) RenameTable(to string, path ...string) error {
	if err := t.can(path); err != nil {
		return err
	}
	last := len(path) - 1
	other := append(slices.Clone(path[:last]), to)
	switch s := t.pair(path); {
	case to == "":
		return fmt.Errorf("a table must have a name")
	case s != nil && !t.braces(*s):
		return fmt.Errorf("%s is a key, not a table", dotted(path))
	case !t.stands(path):
		return fmt.Errorf("there is no table %s", dotted(path))
	case to == path[last]:
		return nil
	case t.stands(other):
		return fmt.Errorf("there is %s already", dotted(other))
	}
	src := t.src
	for _, s := range slices.Backward(t.spans) {
		if i := last - len(s.Under); begins(s.Path, path) && 0 <= i && i < len(s.Names) {
			src = src[:s.Names[i][0]] + dotted([]string{to}) + src[s.Names[i][1]:]
		}
	}
	return t.try(src, renamed(path, to))
}

// stands says whether anything in the text has a path that begins so.
func (t *Text) stands(path []string) bool {
	return slices.ContainsFunc(t.spans, func(s problem.Span) bool { return begins(s.Path, path) })
}
