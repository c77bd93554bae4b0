package panel

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/BurntSushi/toml"

	"crossgrain/tables/problem"
)

// MaxFile is the largest panel file that is read, in bytes.
const MaxFile = 1 << 20

// typed is what problems call such a file.
var typed = problem.Kind{
	Name: "panel file", Most: MaxFile, Table: "[board.left]",
	Empty: "`crossgrain start` writes a file to fill in", Plain: "a panel file is plain text; `crossgrain start` writes one to fill in",
}

// Read reads a panel file; name is used in problems only. All problems are found at once, sorted
// by line; with any problem the panel is nil. A syntax error is the only problem reported, since
// what follows it cannot be trusted.
func Read(name string, src []byte) (*Panel, problem.List) {
	doc := map[string]any{}
	meta, lines, problems := typed.Decode(name, src, &doc)
	if len(problems) > 0 {
		return nil, problems
	}
	r := &reader{file: name, lines: lines, panel: &Panel{values: map[string]value{}}}
	r.document(doc, orderOf(meta.Keys()))
	r.panel.settle()
	if len(r.problems) == 0 || r.has("panel.height_mm") && r.has("panel.width_mm") {
		r.agree()
	}
	r.options(doc, orderOf(meta.Keys()))
	if len(r.problems) > 0 {
		r.problems.Sort()
		return nil, r.problems
	}
	return r.panel, nil
}

// reader builds a panel from a decoded file and collects what is wrong with it.
type reader struct {
	file     string
	lines    problem.Lines
	problems problem.List
	panel    *Panel
	broken   map[string]bool // paths that were given but could not be read
}

func (r *reader) has(path string) bool { _, ok := r.panel.values[path]; return ok }

// add records a problem at the line of the path.
func (r *reader) add(path []string, part, msg, hint string) {
	r.problems.Add(problem.Problem{File: r.file, Line: r.lines.Of(path...), Part: plainPart(part), Msg: msg, Hint: hint})
}

// plainPart makes a path from a file fit to be printed: no control characters, not too long.
func plainPart(part string) string {
	out := strings.Map(func(c rune) rune {
		if !unicode.IsPrint(c) {
			return '?'
		}
		return c
	}, part)
	if r := []rune(out); len(r) > 120 {
		out = string(r[:120]) + "..."
	}
	return out
}

// document reads every table in the order of the schema, then reports what is left over.
func (r *reader) document(doc map[string]any, order fileOrder) {
	r.broken = map[string]bool{}
	r.format(doc)
	if s, ok := doc["ends"].(string); ok { // ends = "bare" at the top
		doc["ends"] = map[string]any{"state": s}
		r.lines["ends"+problem.PathSep+"state"] = r.lines.Of("ends")
	}
	for _, t := range schema {
		for _, as := range []string{t.path, t.also} {
			if raw, ok := doc[as]; ok && as != "" {
				r.table(t, as, raw, order)
			}
		}
	}
	for _, top := range order.names(doc) {
		r.stray(top, doc[top])
	}
	if _, ok := doc["panel"]; !ok {
		r.add(nil, "panel", "the table [panel] is missing", "it holds at least accession, height_mm and width_mm")
	}
}

func (r *reader) format(doc map[string]any) {
	if v, ok := doc["format"]; ok && v != int64(1) {
		r.add([]string{"format"}, "format", fmt.Sprintf("must be 1, got %s", showRaw(v)), "this program reads format 1")
	}
}

// fileOrder holds, by the path of a table, the names under it in the order of the file.
type fileOrder map[string][]string

func orderOf(keys []toml.Key) fileOrder {
	o := fileOrder{}
	seen := map[string]bool{}
	for _, k := range keys {
		for n := range min(len(k), problem.Deepest) {
			under, id := strings.Join(k[:n], problem.PathSep), strings.Join(k[:n+1], problem.PathSep)
			if !seen[id] {
				seen[id] = true
				o[under] = append(o[under], k[n])
			}
		}
	}
	return o
}

// names lists the keys of m, which stands under the given path, in the order of the file.
func (o fileOrder) names(m map[string]any, under ...string) []string {
	out := make([]string, 0, len(m))
	listed := map[string]bool{}
	for _, n := range o[strings.Join(under, problem.PathSep)] {
		if _, ok := m[n]; ok {
			out = append(out, n)
			listed[n] = true
		}
	}
	var rest []string // should there be any: by name
	for n := range m {
		if !listed[n] {
			rest = append(rest, n)
		}
	}
	slices.Sort(rest)
	return append(out, rest...)
}

// stray reports what stands at the top of the file and belongs nowhere.
func (r *reader) stray(top string, raw any) {
	if slices.Contains(tableNames(), top) {
		return
	}
	what := "unknown table"
	if _, ok := raw.(map[string]any); !ok {
		what = "unknown key"
	}
	hint := ""
	if h := belongs(top); h != "" && !strings.HasPrefix(what, "unknown table") {
		hint = "it belongs under " + h
	} else if n := nearest(top, tableNames()); n != "" {
		hint = "did you mean " + n + "?"
	} else {
		hint = "known tables: " + strings.Join(tableNames()[1:], ", ")
	}
	r.add([]string{top}, top, what, hint)
}
