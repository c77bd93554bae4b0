package edit

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/problem"
)

// made are texts with what panel files seldom have.
var made = []string{
	"",
	"\ufeff# mark\r\n[a]\r\nb = 1 # x\r\n\r\n# of c\r\n[a.c]\r\nd = 2",
	"a.b = 1\na.c.d = 2 # dots\n\n[z]\n  left.w = 3\n  # between\n  left.t = 4\n",
	"a = { b = 1, c = { d = 2, e.f = 3 }, g = [1, {h = 2}] } # braces\nz = {}\n",
	"[a.b]\n# sub first\nx = [\n  1, # one\n  2,\n]\n[a]\ny = \"\"\"\n# no remark\n[no]\n\"\"\"\n",
	"[['list'.of]]\nx = 1\n# remark\n[[list.of]]\nx = { y = 2 }\n[list.of.sub]\nz = 1\n[list.beside]\nw = 1\n",
	"\"a.b c\".'ה x' = 1\n[\"a.b c\".t]\nn = nan\nd = 1979-05-27\nt = 07:32:00\n# last",
	"a = {\n  b = 1, # over lines\n  # alone\n  c = 2,\n}\n",
}

// remarks are the lines of a text that hold nothing but a remark.
func remarks(src string) []string {
	var out []string
	for line := range strings.Lines(src) {
		if s := strings.TrimSpace(line); strings.HasPrefix(s, "#") {
			out = append(out, s)
		}
	}
	return out
}

// apart are the remarks that stand directly above no header and in no value: nothing that is taken out takes them with it.
func apart(src string) []string {
	for _, s := range problem.SpansOf(src) {
		if strings.Contains(src[s.Value:s.End], "#") {
			return nil
		}
	}
	var out, run []string
	for line := range strings.Lines(src) {
		switch s := strings.TrimSpace(line); {
		case strings.HasPrefix(s, "#"):
			run = append(run, s)
		case strings.HasPrefix(s, "["):
			run = nil
		default:
			out, run = append(out, run...), nil
		}
	}
	return append(out, run...)
}

func decode(t testing.TB, src []byte) map[string]any {
	doc := map[string]any{}
	_, err := toml.Decode(strings.TrimPrefix(string(src), "\ufeff"), &doc)
	require.NoError(t, err, "%s", src)
	return doc
}

// at looks a path up in a decoded document.
func at(doc map[string]any, path []string) (any, bool) {
	var v any = doc
	for _, p := range path {
		m, _ := v.(map[string]any)
		next, ok := m[p]
		if !ok {
			return nil, false
		}
		v = next
	}
	return v, true
}

// put sets a value in a decoded document, as Set should.
func put(doc map[string]any, value any, path ...string) {
	for _, p := range path[:len(path)-1] {
		next, ok := doc[p].(map[string]any)
		if !ok {
			next = map[string]any{}
			doc[p] = next
		}
		doc = next
	}
	doc[path[len(path)-1]] = value
}

// take takes a path out of a decoded document, and every table that has nothing in it: a table may be there by its last key alone.
func take(doc map[string]any, path []string) map[string]any {
	if len(path) > 0 {
		if in, ok := at(doc, path[:len(path)-1]); ok {
			if m, ok := in.(map[string]any); ok {
				delete(m, path[len(path)-1])
			}
		}
	}
	for k, v := range doc {
		if m, ok := v.(map[string]any); ok && len(take(m, nil)) == 0 {
			delete(doc, k)
		}
	}
	return doc
}

// shown writes a document so that two can be compared, NaN with NaN too.
func shown(doc map[string]any) string { return fmt.Sprintf("%#v", doc) }

// grown says whether a text is another one with one piece put in.
func grown(was, is string) bool {
	head := 0
	for head < min(len(was), len(is)) && was[head] == is[head] {
		head++
	}
	return len(is) >= len(was) && strings.HasSuffix(is, was[head:])
}

// within says whether a text is another one with pieces taken out.
func within(is, was string) bool {
	n := 0
	for i := 0; i < len(was) && n < len(is); i++ {
		if was[i] == is[n] {
			n++
		}
	}
	return n == len(is)
}

// trySet sets a value and checks all that must hold then, refused or not.
func trySet(t testing.TB, x *Text, literal string, path []string) {
	was, want := string(x.Bytes()), decode(t, x.Bytes())
	old, there := x.Raw(path...)
	err := x.Set(literal, path...)
	is := string(x.Bytes())
	if err != nil {
		require.Equal(t, was, is, "refused, and changed")
		return
	}
	var doc struct{ X any }
	_, err = toml.Decode("X = "+literal, &doc)
	require.NoError(t, err)
	put(want, doc.X, path...)
	require.Equal(t, shown(want), shown(decode(t, x.Bytes())), "%q at %q: %q", was, path, is)
	raw, ok := x.Raw(path...)
	require.True(t, ok)
	require.Equal(t, literal, raw)
	if there {
		require.NoError(t, x.Set(old, path...))
		require.Equal(t, was, string(x.Bytes()), "there and back")
		require.NoError(t, x.Set(literal, path...))
		require.Equal(t, is, string(x.Bytes()))
		return
	}
	require.True(t, grown(was, is), "%q at %q: %q", was, path, is)
}

// tryRemove takes a key or a table out and checks all that must hold then.
func tryRemove(t testing.TB, x *Text, path []string, remove func(...string) bool) {
	was, want := string(x.Bytes()), decode(t, x.Bytes())
	done := remove(path...)
	is := string(x.Bytes())
	if !done {
		require.Equal(t, was, is, "refused, and changed")
		return
	}
	got := decode(t, x.Bytes())
	_, there := at(got, path)
	require.False(t, there)
	require.Equal(t, shown(take(want, path)), shown(take(got, nil)), "%q without %q: %q", was, path, is)
	require.True(t, within(is, was), "%q without %q: %q", was, path, is)
}

// tryRename gives a table another name, and the old one again.
func tryRename(t testing.TB, x *Text, to string, path []string) {
	was, want := string(x.Bytes()), decode(t, x.Bytes())
	if err := x.RenameTable(to, path...); err != nil {
		require.Equal(t, was, string(x.Bytes()), "refused, and changed")
		return
	}
	in, _ := at(want, path[:len(path)-1])
	m, last := in.(map[string]any), path[len(path)-1]
	moved := m[last]
	delete(m, last)
	m[to] = moved
	require.Equal(t, shown(want), shown(decode(t, x.Bytes())), "%q: %q to %q", was, path, to)
	require.Equal(t, len(remarks(was)), len(remarks(string(x.Bytes()))))
	if last == "" {
		return // a name that no table is given
	}
	back := append(slices.Clone(path[:len(path)-1]), to)
	require.NoError(t, x.RenameTable(last, back...))
	require.Equal(t, shown(decode(t, []byte(was))), shown(decode(t, x.Bytes())))
}

// TestManyEdits changes real and made texts at random: after every change the document is the old one with that change, and nothing
// else in the text is another.
func TestManyEdits(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "panels", "*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	texts := slices.Clone(made)
	for _, f := range files {
		src, err := os.ReadFile(f)
		require.NoError(t, err)
		texts = append(texts, string(src))
	}
	literals := []string{"7", `"two words # no remark"`, "[1,\n 2, # two\n]", "{ in = 1 }", "nan", "'''\n[no]\n'''", "{}"}
	for n, src := range texts {
		rnd := rand.New(rand.NewPCG(1, uint64(n)))
		x := parse(t, src)
		for range 120 {
			path := somePath(rnd, x)
			said := remarks(string(x.Bytes()))
			if raw, _ := x.Raw(path...); strings.Contains(raw, "#") {
				said = nil // what is said in a value goes with it
			}
			switch rnd.IntN(8) {
			case 0:
				tryRemove(t, x, path, x.Remove)
			case 1:
				said = apart(string(x.Bytes()))
				tryRemove(t, x, path[:len(path)-1], x.RemoveTable)
			case 2:
				if len(path) > 1 {
					tryRename(t, x, fmt.Sprintf("name %d", rnd.IntN(3)), path[:len(path)-1])
				}
			default:
				trySet(t, x, literals[rnd.IntN(len(literals))], path)
			}
			require.Subset(t, remarks(string(x.Bytes())), said)
		}
	}
}

// somePath is the path of a key that is there, or of a new one in a table that is there or not.
func somePath(rnd *rand.Rand, x *Text) []string {
	tables := append(x.Tables(), nil, []string{"new"}, []string{"a", "new.x"}, []string{"list", "of"}, []string{"board", "ה"})
	path := slices.Clone(tables[rnd.IntN(len(tables))])
	if rnd.IntN(6) == 0 {
		path = append(path, fmt.Sprintf("sub_%d", rnd.IntN(2)))
	}
	if keys := x.Keys(path...); len(keys) > 0 && rnd.IntN(2) == 0 {
		return append(path, keys[rnd.IntN(len(keys))])
	}
	return append(path, fmt.Sprintf("made_%d", rnd.IntN(4)))
}

func FuzzEdit(f *testing.F) {
	for i, src := range made {
		f.Add(src, "a", "b", "c", []string{"2", `"x"`, "[1,\n2]", "{ d = 1 }"}[i%4])
	}
	f.Add("[a]\nb = 1 # x\n", "a", "c", "", "2")
	f.Add("a.b = { c = [1, {d = 2}] }\n", "a", "b", "c", `"x"`)
	f.Add("\"a\".'b' = 1\r\n[\"a\".c]\r\n", "a", "c", "d", "1")
	f.Fuzz(func(t *testing.T, src, first, second, third, literal string) {
		x, err := Parse([]byte(src))
		if err != nil {
			return
		}
		require.Equal(t, src, string(x.Bytes()), "untouched, and changed")
		path := []string{first, second, third}
		if third == "" {
			path = path[:2]
		}
		again := func() *Text { return parse(t, src) }
		tryRename(t, again(), third, path[:2])
		for n := 1; n <= len(path); n++ {
			y := again()
			tryRemove(t, y, path[:n], y.RemoveTable)
			y = again()
			tryRemove(t, y, path[:n], y.Remove)
			trySet(t, again(), literal, path[:n])
		}
		for _, table := range x.Tables() {
			y := again()
			tryRemove(t, y, table, y.RemoveTable)
			tryRename(t, again(), "other", table)
			trySet(t, again(), literal, append(slices.Clone(table), first))
		}
		trySet(t, x, literal, path)
		tryRemove(t, x, path, x.Remove)
		tryRemove(t, x, path[:1], x.RemoveTable)
	})
}
