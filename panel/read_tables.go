package panel

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// table reads one table of the schema from what the file holds under the word as.
func (r *reader) table(t table, as string, raw any, order fileOrder) {
	m, ok := raw.(map[string]any)
	if !ok {
		if _, twice := lookTable(t.path, false); !t.named || !twice { // frame is told once
			r.notATable(t, as, raw)
		}
		return
	}
	if t.named {
		r.namedTable(t, as, m, order)
		return
	}
	_, alsoNamed := lookTable(t.path, true)
	own := map[string]any{}
	for name, v := range m {
		if _, sub := v.(map[string]any); !sub || !alsoNamed {
			own[name] = v
		}
	}
	r.keys(t, part{table: t.path, as: as, line: r.lines.Of(as)}, []string{as}, own, order)
}

func (r *reader) notATable(t table, as string, raw any) {
	hint := "write " + t.header("NAME") + " and its keys below it"
	if _, ok := raw.([]map[string]any); ok {
		hint = "write single brackets and a name: " + t.header("NAME")
	}
	r.add([]string{as}, as, "must be a table, got "+showRaw(raw), hint)
}

// mostParts is the largest number of parts of one table.
const mostParts = 300

func (r *reader) namedTable(t table, as string, m map[string]any, order fileOrder) {
	_, alsoOwn := lookTable(t.path, false)
	names := order.names(m, as)
	if len(names) == 0 && !alsoOwn {
		r.add([]string{as}, as, "needs a name of its own", "write "+strings.Replace(t.header("NAME"), t.path, as, 1))
	}
	if len(names) > mostParts {
		r.add([]string{as}, as, fmt.Sprintf("a panel file holds at most %d of these, got %d", mostParts, len(names)), "")
		return
	}
	for _, name := range names {
		sub, ok := m[name].(map[string]any)
		switch {
		case !ok && alsoOwn: // a key of the table without names
		case !ok:
			hint := "write " + t.header("NAME") + " with a name of your choice"
			if _, known := t.key(name); !known {
				hint = "each " + t.path + " has a table of its own"
			}
			r.add([]string{as, name}, as+"."+name, "stands in ["+as+"], which has no name", hint)
		case r.goodName(t, as, name):
			if t.path == "option" {
				sub = ownKeys(sub)
			}
			r.keys(t, part{table: t.path, name: name, as: as, line: r.lines.Of(as, name)}, []string{as, name}, sub, order)
		}
	}
}

// goodName reports a name that cannot be used.
func (r *reader) goodName(t table, as, name string) bool {
	switch {
	case len(t.names) > 0 && !slices.Contains(t.names, name):
		hint := "known: " + strings.Join(t.names, ", ")
		if n := nearest(name, t.names); n != "" {
			hint = "did you mean [" + t.path + "." + n + "]?"
		}
		r.add([]string{as, name}, as+"."+name, "unknown table", hint)
	case strings.TrimSpace(name) == "" || len([]rune(name)) > 60 || strings.ContainsRune(name, '.') ||
		strings.ContainsFunc(name, func(c rune) bool { return !unicode.IsPrint(c) }):
		r.add([]string{as, name}, as+"."+name, "a name must have 1 to 60 letters without a dot, got "+shown(name),
			"plain names such as left, middle, 2 read best")
	default:
		return true
	}
	return false
}

// keys reads the keys of one part.
func (r *reader) keys(t table, pt part, path []string, m map[string]any, order fileOrder) {
	if r.taken(pt) {
		return
	}
	r.panel.parts = append(r.panel.parts, pt)
	label := strings.Join(path, ".")
	for _, name := range order.names(m, path...) {
		at := append(slices.Clone(path), name)
		k, ok := t.key(name)
		if !ok {
			r.unknownKey(t, label, at, m[name])
			continue
		}
		v, msg, hint := convert(k, m[name])
		if msg != "" {
			r.broken[pt.at(name)] = true
			r.add(at, label+"."+name, msg, hint)
			continue
		}
		v.line = r.lines.Of(at...)
		r.panel.values[pt.at(name)] = v
	}
	for _, k := range t.keys {
		if _, ok := m[k.name]; k.required && !ok {
			r.add(path, label, k.name+" is missing: "+k.doc, "as in "+k.name+" = "+k.example)
		}
	}
}

func (r *reader) unknownKey(t table, label string, at []string, raw any) {
	name := at[len(at)-1]
	what := "unknown key"
	if _, ok := raw.(map[string]any); ok {
		what = "unknown table"
	}
	hint := ""
	if n := nearest(name, t.keyNames()); n != "" {
		hint = "did you mean " + n + "?"
	} else if h := belongs(name); h != "" {
		hint = "it belongs under " + h
	} else if name == "ends" || name == "format" {
		hint = name + " stands at the top of the file, before the first table"
	} else {
		hint = "known keys: " + strings.Join(t.keyNames(), ", ")
	}
	r.add(at, label+"."+name, what, hint)
}

// taken reports a part whose name another part of its table has, but for capitals, or that stands
// once as split and once as check.
func (r *reader) taken(pt part) bool {
	for _, other := range r.panel.parts {
		if other.table == pt.table && pt.name != "" && strings.EqualFold(other.name, pt.name) {
			r.add([]string{pt.as, pt.name}, pt.as+"."+pt.name,
				fmt.Sprintf("the name is taken by %s.%s", other.as, other.name), "give it a name of its own")
			return true
		}
	}
	return false
}
