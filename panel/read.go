package panel

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"crossgrain/tables/problem"
)

// MaxFile is the largest panel file that is read, in bytes.
const MaxFile = 1 << 20

// Read reads a panel file; name is used in problems only. All problems are found at once, sorted
// by line; with any problem the panel is nil. A syntax error is the only problem reported, since
// what follows it cannot be trusted.
func Read(name string, src []byte) (*Panel, problem.List) {
	if msg, hint := unreadable(src); msg != "" {
		return nil, problem.List{{File: name, Msg: msg, Hint: hint}}
	}
	text := strings.TrimPrefix(string(src), "\ufeff")
	doc := map[string]any{}
	meta, err := toml.Decode(text, &doc)
	if err != nil {
		return nil, problem.List{syntaxProblem(name, err)}
	}
	r := &reader{file: name, lines: indexLines(text), panel: &Panel{values: map[string]value{}}}
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

// manyDots matches a dotted key that is far too long; reading one takes memory with the square of
// its parts.
var manyDots = regexp.MustCompile(`(?:(?:"[^"\n]*"|'[^'\n]*'|[A-Za-z0-9_-]+)[ \t]*\.[ \t]*){40}`)

// tooDeep finds keys and brackets nested far beyond what a panel file needs.
func tooDeep(src []byte) bool {
	depth := 0
	for _, c := range src {
		switch c {
		case '[', '{':
			depth++
		case ']', '}':
			depth = max(0, depth-1)
		}
		if depth > 500 {
			return true
		}
	}
	return manyDots.Match(src)
}

// unreadable says why bytes cannot be a panel file, or "".
func unreadable(src []byte) (msg, hint string) {
	utf16 := bytes.HasPrefix(src, []byte{0xff, 0xfe}) || bytes.HasPrefix(src, []byte{0xfe, 0xff})
	switch {
	case len(src) > MaxFile:
		return fmt.Sprintf("the file has %d bytes; a panel file has at most %d", len(src), MaxFile),
			"this looks like another kind of file"
	case len(bytes.TrimSpace(src)) == 0:
		return "the file is empty", "`crossgrain start` writes a file to fill in"
	case utf16:
		return "the file is written in UTF-16", "save it as plain text in UTF-8"
	case bytes.IndexByte(src, 0) >= 0:
		return "this is not a text file (it holds zero bytes)", "a panel file is plain text; `crossgrain start` writes one to fill in"
	case !utf8.Valid(src):
		line := 1 + bytes.Count(src[:firstInvalid(src)], []byte("\n"))
		return fmt.Sprintf("line %d holds letters that are not UTF-8", line), "save the file as plain text in UTF-8"
	}
	if tooDeep(src) {
		return "the file is nested far deeper than a panel file", "tables stand side by side, as in [board.left]"
	}
	return "", ""
}

func firstInvalid(src []byte) int {
	for i := 0; i < len(src); {
		r, n := utf8.DecodeRune(src[i:])
		if r == utf8.RuneError && n <= 1 {
			return i
		}
		i += n
	}
	return len(src)
}

func syntaxProblem(name string, err error) problem.Problem {
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		return problem.Problem{File: name, Msg: strings.TrimPrefix(err.Error(), "toml: ")}
	}
	p := problem.Problem{File: name, Line: pe.Position.Line, Col: pe.Position.Col, Part: pe.LastKey, Msg: plainly(pe.Message)}
	switch {
	case strings.Contains(pe.Message, "already") || strings.Contains(pe.Message, "duplicate"):
		p.Hint = "each table and key may stand once; give the second part a name of its own"
	case strings.Contains(pe.Message, "expected value"):
		p.Hint = `words stand in quotes, as in wood = "oak"; numbers do not`
	default:
		p.Hint = "only this mistake in writing is shown; the rest is read once it is mended"
	}
	return p
}

// plainly writes a message of the TOML library as ours: no capital, no full stop.
func plainly(msg string) string {
	msg = strings.TrimRight(msg, ".")
	if len(msg) > 1 && msg[0] >= 'A' && msg[0] <= 'Z' && msg[1] >= 'a' && msg[1] <= 'z' {
		msg = strings.ToLower(msg[:1]) + msg[1:]
	}
	return msg
}

// reader builds a panel from a decoded file and collects what is wrong with it.
type reader struct {
	file     string
	lines    index
	problems problem.List
	panel    *Panel
	broken   map[string]bool // paths that were given but could not be read
}

func (r *reader) has(path string) bool { _, ok := r.panel.values[path]; return ok }

// add records a problem at the line of the path.
func (r *reader) add(path []string, part, msg, hint string) {
	r.problems.Add(problem.Problem{File: r.file, Line: r.lines.line(path...), Part: plainPart(part), Msg: msg, Hint: hint})
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
		r.lines["ends"+pathSep+"state"] = r.lines.line("ends")
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
		for n := range min(len(k), deepest) {
			under, id := strings.Join(k[:n], pathSep), strings.Join(k[:n+1], pathSep)
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
	for _, n := range o[strings.Join(under, pathSep)] {
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
