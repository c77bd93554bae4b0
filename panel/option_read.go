package panel

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"crossgrain/tables/problem"
)

// mostOptions is the largest number of options of one file: each is worked out as a panel of its own.
const mostOptions = 20

// ownKeys are those of an option itself, without the tables below it.
func ownKeys(m map[string]any) map[string]any {
	out := maps.Clone(m)
	maps.DeleteFunc(out, func(name string, v any) bool {
		_, sub := v.(map[string]any)
		_, own := mustOption().key(name)
		return sub && !own
	})
	return out
}

func mustOption() table { t, _ := lookTable("option", true); return t }

// options makes the panel that every option would give, by the same reader, and reports what is wrong with it.
func (r *reader) options(doc map[string]any, order fileOrder) {
	all, _ := doc["option"].(map[string]any)
	names := r.panel.Names("option")
	if len(names) > mostOptions {
		r.add([]string{"option"}, "option", fmt.Sprintf("a panel file holds at most %d options, got %d", mostOptions, len(names)), "")
		return
	}
	delete(doc, "option")
	for _, name := range names {
		raw, _ := all[name].(map[string]any)
		x := &optionReader{reader: r, doc: copied(doc), raw: raw, order: order, lines: map[string][]string{}}
		x.o.Name = name
		if n := len(r.problems); x.all() && len(r.problems) == n {
			r.panel.options = append(r.panel.options, x.o)
		}
	}
}

// copied is a deep copy of the tables of a document; what they hold is never changed in place.
func copied(doc map[string]any) map[string]any {
	out := make(map[string]any, len(doc))
	for k, v := range doc {
		if m, ok := v.(map[string]any); ok {
			v = copied(m)
		}
		out[k] = v
	}
	return out
}

// optionReader applies one option to a copy of the document.
type optionReader struct {
	*reader
	o     Option
	doc   map[string]any
	raw   map[string]any
	order fileOrder
	lines map[string][]string // path in the changed document -> path in the file
}

// tell reports a problem with a key of the option.
func (x *optionReader) tell(under []string, msg, hint string) {
	at := append([]string{"option", x.o.Name}, under...)
	x.add(at, strings.Join(at, "."), msg, hint)
}

// all reads the option; false when it cannot be applied.
func (x *optionReader) all() bool {
	p, self := x.panel, part{table: "option", name: x.o.Name}
	x.o.Does, x.o.Note = p.word(self.at("does")), p.word(self.at("note"))
	x.o.Reach, x.o.Reversible, x.o.Touches = p.word(self.at("reach")), p.word(self.at("reversible")), p.word(self.at("touches_original"))
	x.o.AtRH, x.o.HasRH = p.Number(self.at("at_rh_pct"))
	own := change{of: self, keys: map[string]value{}}
	for _, k := range mustOption().keys {
		if v, ok := p.values[self.at(k.name)]; ok {
			own.keys[k.name] = v
		}
	}
	x.o.changes = append(x.o.changes, own)
	before := len(x.problems)
	x.remove(p.values[self.at("remove")].names)
	x.reglue(p.values[self.at("reglue")].names)
	x.bring(p.values[self.at("add")].names)
	x.tables()
	if len(x.problems) == before && len(x.o.Removed)+len(x.o.Added)+len(x.o.Reglued)+len(x.o.Changed) == 0 {
		x.tell(nil, "changes nothing", "doing nothing is told beside the options anyway; name parts under remove, or give keys as in [option."+x.o.Name+".batten.upper]")
		return false
	}
	if x.o.Reach == "" {
		x.o.Reach = x.o.reach()
	}
	x.o.Structural = x.o.structural()
	return x.make() && len(x.problems) == before
}

// make reads the changed document and reports what does not agree in it.
func (x *optionReader) make() bool {
	if x.o.Structural {
		if seen, ok := x.doc["observed"].(map[string]any); ok { // the warp of rest stays known; gaps were of the panel as it is
			for _, v := range seen {
				if m, ok := v.(map[string]any); ok {
					delete(m, "gap_mm")
					delete(m, "at")
				}
			}
		}
	}
	v := &reader{file: x.file, lines: problem.Lines{}, panel: &Panel{values: map[string]value{}}}
	head := x.reader.lines.Of("option", x.o.Name)
	for path := range x.reader.lines {
		v.lines[path] = head
	}
	for path, at := range x.lines {
		v.lines[path] = x.reader.lines.Of(at...)
	}
	v.document(x.doc, x.order)
	v.panel.settle()
	v.agree()
	told := map[[2]string]bool{}
	for _, q := range x.problems {
		told[[2]string{q.Part, q.Msg}] = true
	}
	sound := true
	for _, q := range v.problems {
		if !told[[2]string{q.Part, q.Msg}] {
			if q.Line == 0 {
				q.Line = head
			}
			x.problems.Add(problem.Problem{File: q.File, Line: q.Line, Part: plainPart("option." + x.o.Name + "." + q.Part), Msg: q.Msg, Hint: q.Hint})
		}
		sound = false
	}
	if x.o.Structural {
		v.panel.changedWhy = afterChange
	}
	x.o.Panel = v.panel
	return sound
}

// find returns the table of a path such as batten.upper in the document, and its path there; nil when there is none.
func (x *optionReader) find(path string) (m map[string]any, at []string) {
	kind, name, named := strings.Cut(path, ".")
	words := []string{kind}
	if kind == "split" || kind == "check" {
		words = []string{"split", "check"}
	}
	for _, w := range words {
		top, _ := x.doc[w].(map[string]any)
		if !named {
			if _, ok := lookTable(w, false); ok && top != nil {
				return top, []string{w}
			}
			continue
		}
		if sub, ok := top[name].(map[string]any); ok {
			return sub, []string{w, name}
		}
	}
	return nil, nil
}

// parts lists the paths of what is described, for hints.
func (x *optionReader) parts() []string {
	var out []string
	for _, pt := range x.panel.parts {
		if pt.table != "option" && pt.table != "panel" && pt.table != "used_to" && pt.table != "observed" && pt.table != "treated" {
			out = append(out, pt.path())
		}
	}
	return out
}

func (x *optionReader) missing(under []string, path string) {
	hint := "the file describes: " + strings.Join(x.parts(), ", ")
	if n := nearest(path, x.parts()); n != "" {
		hint = "did you mean " + n + "?"
	}
	x.tell(under, "there is no part "+shown(path), hint)
}

// What an option may not touch, and why.
const (
	thinning = "thinning of the panel is refused: original wood that is taken cannot be put back, and a thinner panel answers the air sooner and warps more"
	thinHint = "members on the back may be planed, as in [option.NAME.batten.upper] with depth_mm"
	history  = "an option changes parts and surroundings; what the panel is, where it lived and what was seen stay as they are"
)

// refused says why a table cannot be changed by an option, or "".
func refused(table, key string) (msg, hint string) {
	thick := strings.Contains(key, "thickness") || key == "bevel_width_mm"
	switch {
	case (table == "board" || table == "panel") && thick:
		return thinning, thinHint
	case slices.Contains([]string{"panel", "used_to", "observed", "treated", "option"}, table):
		return "cannot be changed by an option", history
	}
	return "", ""
}

// remove takes parts and keys away.
func (x *optionReader) remove(paths []string) {
	for _, path := range paths {
		kind, rest, _ := strings.Cut(path, ".")
		_, key, _ := strings.Cut(rest, ".")
		if _, single := lookTable(kind, false); key == "" && single {
			key = rest
		}
		if msg, hint := refused(kind, key); msg != "" {
			x.tell([]string{"remove"}, msg, hint)
			continue
		}
		if kind == "board" {
			x.tell([]string{"remove"}, "a board cannot be removed, it is the painting", history)
			continue
		}
		if !x.take(path) {
			x.missing([]string{"remove"}, path)
			continue
		}
		x.o.Removed = append(x.o.Removed, path)
	}
}

// take removes a part, a key of one, or all parts of a table; false when there is none.
func (x *optionReader) take(path string) bool {
	if m, at := x.find(path); m != nil {
		if len(at) == 1 {
			delete(x.doc, at[0])
		} else {
			delete(x.doc[at[0]].(map[string]any), at[1])
			if t, ok := lookTable(at[0], false); len(x.doc[at[0]].(map[string]any)) == 0 && (!ok || t.path == "") {
				delete(x.doc, at[0])
			}
		}
		return true
	}
	if _, ok := lookTable(path, true); ok { // all of them
		_, some := x.doc[path]
		delete(x.doc, path)
		return some
	}
	if i := strings.LastIndex(path, "."); i > 0 {
		if m, _ := x.find(path[:i]); m != nil {
			_, ok := m[path[i+1:]]
			delete(m, path[i+1:])
			return ok
		}
	}
	return false
}

// bring makes room for new parts.
func (x *optionReader) bring(paths []string) {
	for _, path := range paths {
		kind, name, named := strings.Cut(path, ".")
		if kind == "check" {
			kind = "split"
		}
		t, ok := lookTable(kind, named)
		msg, hint := refused(kind, "")
		switch {
		case msg != "":
		case kind == "board":
			msg, hint = "a board cannot be added to a painting", history
		case !ok || named && name == "":
			msg, hint = shown(path)+" is no part", "as in "+`add = ["batten.third"]`
		default:
			if m, _ := x.find(path); m != nil {
				msg, hint = shown(path)+" is there already", "give the keys that change in [option."+x.o.Name+"."+path+"], without add"
			}
		}
		if msg != "" {
			x.tell([]string{"add"}, msg, hint)
			continue
		}
		x.o.Added = append(x.o.Added, path)
		into := x.doc
		at := kind
		if named {
			top, _ := x.doc[kind].(map[string]any)
			if top == nil {
				top = map[string]any{}
				x.doc[kind] = top
			}
			into, at = top, name
		}
		into[at] = map[string]any{}
		x.anew(into[at].(map[string]any), t)
	}
}

// anew fixes a part at the humidity of the option.
func (x *optionReader) anew(m map[string]any, t table) {
	if _, ok := t.key("fixed_at_rh_pct"); ok && x.o.HasRH {
		m["fixed_at_rh_pct"] = x.raw["at_rh_pct"]
	}
}

// reglue closes joins and splits.
func (x *optionReader) reglue(paths []string) {
	for _, path := range paths {
		m, at := x.find(path)
		switch {
		case m == nil:
			x.missing([]string{"reglue"}, path)
			continue
		case at[0] == "split" || at[0] == "check":
			x.take(path)
		case at[0] == "join":
			if m["open_from"] == nil && m["open_mm"] == nil && m["start_mm"] == nil {
				x.tell([]string{"reglue"}, shown(path)+" does not stand open", "name joins and splits that are open")
				continue
			}
			for _, key := range []string{"open_from", "open_mm", "start_mm", "end_mm", "open_face", "gap_mm", "step_mm", "measured_at_rh_pct", "filled"} {
				delete(m, key)
			}
			m["condition"] = "opened before"
			if m["glue"] == "none" {
				m["glue"] = "animal"
			}
			t, _ := lookTable("join", true)
			x.anew(m, t)
		default:
			x.tell([]string{"reglue"}, shown(path)+" is neither a join nor a split", `as in reglue = ["join.left-middle"]`)
			continue
		}
		x.o.Reglued = append(x.o.Reglued, path)
	}
}

// tables puts the keys of the option's tables into the document.
func (x *optionReader) tables() {
	for _, kind := range x.order.names(x.raw, "option", x.o.Name) {
		sub, ok := x.raw[kind].(map[string]any)
		if _, own := mustOption().key(kind); own || !ok {
			continue
		}
		path := "" // of a table without a name, whose keys stand beside named ones
		single, isSingle := lookTable(kind, false)
		named, isNamed := lookTable(kind, true)
		if !isSingle && !isNamed {
			hint := "tables of an option change parts, as in [option." + x.o.Name + ".batten.upper]"
			if n := nearest(kind, tableNames()); n != "" {
				hint = "did you mean " + n + "?"
			}
			x.tell([]string{kind}, "unknown table", hint)
			continue
		}
		own := map[string]any{}
		for _, name := range x.order.names(sub, "option", x.o.Name, kind) {
			m, isTable := sub[name].(map[string]any)
			switch {
			case isTable && isNamed:
				x.part(named, kind, kind+"."+name, []string{kind, name}, m)
			default:
				own[name] = sub[name]
			}
		}
		if isSingle && (len(own) > 0 || !isNamed) {
			path = kind
			x.part(single, kind, path, []string{kind}, own)
		} else if len(own) > 0 {
			x.tell([]string{kind}, "needs the name of a part", "as in [option."+x.o.Name+"."+kind+".NAME]")
		}
	}
}

// part changes keys of one part.
func (x *optionReader) part(t table, kind, path string, under []string, keys map[string]any) {
	m, at := x.find(path)
	if m == nil && (slices.Contains(surroundings, t.path) || t.path == "face" || t.path == "ends") && (len(t.names) == 0 || slices.Contains(t.names, under[1])) {
		x.room(under)
		m, at = x.find(path)
	}
	names := x.order.names(keys, append([]string{"option", x.o.Name}, under...)...)
	for _, name := range names {
		if msg, hint := refused(t.path, name); msg != "" {
			x.tell(append(slices.Clone(under), name), msg, hint)
		}
	}
	if msg, hint := refused(t.path, ""); msg != "" {
		if len(names) == 0 {
			x.tell(under, msg, hint)
		}
		return
	}
	if m == nil {
		x.missing(under, path)
		return
	}
	c := change{of: part{table: t.path}, keys: map[string]value{}}
	if len(under) > 1 {
		c.of.name = under[1]
	}
	for _, name := range names {
		if name == "channel_depth_mm" && x.deeper(m[name], keys[name]) {
			x.tell(append(slices.Clone(under), name), "a deeper channel is refused: it takes original wood that cannot be put back", thinHint)
		}
		m[name] = keys[name]
		x.lines[strings.Join(append(slices.Clone(at), name), problem.PathSep)] = append([]string{"option", x.o.Name}, append(slices.Clone(under), name)...)
		x.o.Changed = append(x.o.Changed, c.of.at(name))
		if k, ok := t.key(name); ok {
			if v, msg, _ := convert(k, keys[name]); msg == "" {
				c.keys[name] = v
			}
		}
	}
	if _, fixed := keys["fixing"]; fixed && keys["fixed_at_rh_pct"] == nil {
		x.anew(m, t)
	}
	x.o.changes = append(x.o.changes, c)
}

// deeper says whether a channel would be cut deeper than it is.
func (x *optionReader) deeper(was, is any) bool {
	k, _ := mustBatten().key("channel_depth_mm")
	b, msg, _ := convert(k, is)
	if msg != "" {
		return false // told by the reader
	}
	if was == nil {
		return b.high > 0
	}
	a, msg, _ := convert(k, was)
	return msg == "" && b.high > a.high
}

func mustBatten() table { t, _ := lookTable("batten", true); return t }

// room makes an empty table in the document.
func (x *optionReader) room(under []string) {
	m := x.doc
	for _, name := range under {
		sub, ok := m[name].(map[string]any)
		if !ok {
			sub = map[string]any{}
			m[name] = sub
		}
		m = sub
	}
}
