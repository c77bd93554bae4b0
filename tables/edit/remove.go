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
	if s == nil {
		return false
	}
	return t.cut([]problem.Span{*s})
}

// RemoveTable takes a table out with all that is in it, and the remarks directly above its header; other remarks stay.
func (t *Text) RemoveTable(path ...string) bool {
	var gone []problem.Span
	for _, s := range t.spans {
		if begins(s.Path, path) && !s.Many && t.single(s) {
			gone = append(gone, s)
		}
	}
	return len(path) > 0 && len(gone) > 0 && t.cut(gone)
}

// cut takes spans out of the text, from behind.
func (t *Text) cut(gone []problem.Span) bool {
	src := t.src
	last := len(src)
	slices.SortFunc(gone, func(a, b problem.Span) int { return b.Key - a.Key })
	for _, s := range gone {
		from, to := t.reach(s)
		if s.Inline {
			if t.inOther(s, gone) {
				continue // it goes with what it stands in
			}
		}
		to = min(to, last)
		if from >= to {
			continue
		}
		src = src[:from] + src[to:]
		last = from
	}
	return t.try(src) == nil
}

// inOther says whether a span stands inside the value of another.
func (t *Text) inOther(s problem.Span, others []problem.Span) bool {
	for _, o := range others {
		if !o.Header && o.Value < s.Key && s.End <= o.End {
			return true
		}
	}
	return false
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
	for from > 0 {
		above := t.lineStart(from - 1)
		if !strings.HasPrefix(strings.TrimSpace(t.src[above:from]), "#") {
			break
		}
		from = above
	}
	if from > 0 {
		if above := t.lineStart(from - 1); strings.TrimSpace(t.src[above:from]) == "" {
			from = above
		}
	}
	return from, to
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
	if len(path) == 0 || to == "" {
		return fmt.Errorf("a table must have a name")
	}
	renamed := append(slices.Clone(path[:len(path)-1]), to)
	if slices.Equal(renamed, path) {
		return nil
	}
	for _, s := range t.spans {
		if begins(s.Path, renamed) {
			return fmt.Errorf("there is %s already", dotted(renamed))
		}
	}
	src, n := t.src, 0
	for _, s := range slices.Backward(t.spans) {
		if !begins(s.Path, path) || len(s.Under) >= len(path) || s.Many {
			continue
		}
		n++
		name := slices.Clone(s.Path[len(s.Under):])
		name[len(path)-1-len(s.Under)] = to
		word := dotted(name)
		if s.Header {
			word = "[" + word + "]"
		}
		src = src[:s.Key] + word + src[s.After:]
	}
	if n == 0 {
		return fmt.Errorf("there is no table %s", dotted(path))
	}
	return t.try(src)
}
