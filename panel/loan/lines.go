package loan

import "strings"

// lines maps the path of a table or key to its line, from 1.
type lines map[string]int

// linesOf finds the lines of tables and keys that stand at the beginning of a line.
func linesOf(text string) lines {
	out, under, n := lines{}, "", 0
	note := func(path string) {
		if _, ok := out[path]; !ok {
			out[path] = n
		}
	}
	for line := range strings.Lines(text) {
		n++
		s := strings.TrimSpace(line)
		if name, ok := strings.CutPrefix(s, "["); ok {
			name, _, _ = strings.Cut(name, "]")
			under = unquoted(name)
			note(under)
			first, _, _ := strings.Cut(under, ".")
			note(first)
			continue
		}
		key, _, ok := strings.Cut(s, "=")
		if !ok || strings.HasPrefix(s, "#") {
			continue
		}
		if key = unquoted(key); under != "" {
			key = under + "." + key
		}
		note(key)
	}
	return out
}

func unquoted(s string) string {
	return strings.NewReplacer(`"`, "", "'", "", " ", "").Replace(s)
}

// of returns the line of a path, or of the nearest table above it; 0 when none has one.
func (l lines) of(path string) int {
	for path != "" {
		if n, ok := l[path]; ok {
			return n
		}
		path = path[:max(strings.LastIndex(path, "."), 0)]
	}
	return 0
}
