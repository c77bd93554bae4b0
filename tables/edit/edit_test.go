package edit

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func parse(t testing.TB, src string) *Text {
	x, err := Parse([]byte(src))
	require.NoError(t, err, src)
	return x
}

func path(s string) []string { return strings.Split(s, "/") }

func TestSet(t *testing.T) {
	for _, v := range []struct{ reason, src, at, literal, want string }{
		{"the value alone changes", "# a\n[a]\n  b  =  1   # why\nc = 2\n", "a/b", "[3, 4]", "# a\n[a]\n  b  =  [3, 4]   # why\nc = 2\n"},
		{"a new key has the indentation of the last", "[a]\n  b = 1\n\n# next\n[d]\n", "a/c", "2", "[a]\n  b = 1\n  c = 2\n\n# next\n[d]\n"},
		{"a table without keys", "[a]\n\n[d]\n", "a/c", "2", "[a]\nc = 2\n\n[d]\n"},
		{"no line end at the end", "[a]\nb = 1", "a/c", "2", "[a]\nb = 1\nc = 2\n"},
		{"an empty file", "", "a/c", "2", "[a]\nc = 2\n"},
		{"a new table of a known kind", "[b.x]\nk = 1\n\n# remark of z\n[z]\n", "b/y/k", "2", "[b.x]\nk = 1\n\n[b.y]\nk = 2\n\n# remark of z\n[z]\n"},
		{"line ends of Windows", "[a]\r\nb = 1\r\n", "a/c", "2", "[a]\r\nb = 1\r\nc = 2\r\n"},
		{"keys with dots", "p.h = 3\np.w = 4\n[z]\n", "p/t", "5", "p.h = 3\np.w = 4\np.t = 5\n[z]\n"},
		{"keys with dots under a table", "[board]\nleft.w = 3\n[z]\n", "board/left/t", "5", "[board]\nleft.w = 3\nleft.t = 5\n[z]\n"},
		{"in braces", "b.left = { w = 3 }\n", "b/left/t", "5", "b.left = { w = 3, t = 5 }\n"},
		{"in braces, the value alone", "b.left = { w = 3, t = 4 } # x\n", "b/left/w", "5", "b.left = { w = 5, t = 4 } # x\n"},
		{"in empty braces", "b = {}\n", "b/w", "5", "b = { w = 5 }\n"},
		{"at the top", "ends = \"bare\" # x\n[a]\n", "ends", `"coated"`, "ends = \"coated\" # x\n[a]\n"},
		{"new at the top", "[a]\nb = 1\n", "format", "1", "format = 1\n[a]\nb = 1\n"},
		{"over several lines", "[a]\nb = [\n 1, # one\n 2]\nc = \"\"\"\nx\n[no]\n\"\"\"\n", "a/b", "3", "[a]\nb = 3\nc = \"\"\"\nx\n[no]\n\"\"\"\n"},
		{"names in quotes", "[b.\"a.b c\"]\nw = 1\n", "b/a.b c/t", "2", "[b.\"a.b c\"]\nw = 1\nt = 2\n"},
		{"a name that needs quotes", "", "b/ה x/t", "2", "[b.\"ה x\"]\nt = 2\n"},
		{"the table above comes later", "[b.x]\nk = 1\n[b]\nj = 1\n", "b/i", "2", "[b.x]\nk = 1\n[b]\nj = 1\ni = 2\n"},
		{"the mark at the beginning stays", "\ufeff[a]\nb = 1\n", "a/b", "2", "\ufeff[a]\nb = 2\n"},
	} {
		x := parse(t, v.src)
		require.NoError(t, x.Set(v.literal, path(v.at)...), v.reason)
		assert.Equal(t, v.want, string(x.Bytes()), v.reason)
	}
}

func TestSetRefuses(t *testing.T) {
	for _, v := range []struct{ reason, src, at, literal string }{
		{"two values", "[a]\nb = 1\n", "a/b", "1\nc = 2"},
		{"a remark behind", "[a]\nb = 1\n", "a/b", "1 # x"},
		{"nothing", "[a]\nb = 1\n", "a/b", ""},
		{"a key under a value", "[a]\nb = 1\n", "a/b/c", "2"},
		{"a list of tables", "[[a]]\nb = 1\n", "a/b", "2"},
		{"tables in a list", "a = [{ b = 1 }]\n", "a/b", "2"},
	} {
		x := parse(t, v.src)
		assert.Error(t, x.Set(v.literal, path(v.at)...), v.reason)
		assert.Equal(t, v.src, string(x.Bytes()), v.reason)
	}
	_, err := Parse([]byte("a = = 1"))
	assert.Error(t, err)
}

func TestRemove(t *testing.T) {
	for _, v := range []struct{ reason, src, at, want string }{
		{"with the remark behind", "[a]\n# one\nb = 1 # x\n# two\nc = 2\n", "a/b", "[a]\n# one\n# two\nc = 2\n"},
		{"over several lines", "[a]\nb = [\n1,\n]\nc = 2\n", "a/b", "[a]\nc = 2\n"},
		{"the first in braces", "a = { b = 1, c = 2 }\n", "a/b", "a = { c = 2 }\n"},
		{"the last in braces", "a = { b = 1, c = 2 }\n", "a/c", "a = { b = 1 }\n"},
		{"the only one in braces", "a = { b = 1 }\n", "a/b", "a = {  }\n"},
		{"at the end without a line end", "[a]\nb = 1", "a/b", "[a]\n"},
	} {
		x := parse(t, v.src)
		assert.True(t, x.Remove(path(v.at)...), v.reason)
		assert.Equal(t, v.want, string(x.Bytes()), v.reason)
		assert.False(t, x.Remove(path(v.at)...), v.reason)
	}
}

func TestRemoveTable(t *testing.T) {
	for _, v := range []struct{ reason, src, at, want string }{
		{"with the remarks above it", "[a]\nx = 1\n\n# of b\n[b]\ny = 1\n# inside\nz = 2\n\n# of c\n[c]\n", "b", "[a]\nx = 1\n# inside\n\n# of c\n[c]\n"},
		{"with what is below", "[b]\n[b.c]\nx = 1\n[d]\n", "b", "[d]\n"},
		{"in braces", "b = { c = 1 } # x\nd = 2\n", "b", "d = 2\n"},
		{"by keys with dots", "b.c = 1\nb.d = 2\ne = 3\n", "b", "e = 3\n"},
	} {
		x := parse(t, v.src)
		assert.True(t, x.RemoveTable(path(v.at)...), v.reason)
		assert.Equal(t, v.want, string(x.Bytes()), v.reason)
	}
}

func TestRenameTable(t *testing.T) {
	x := parse(t, "# of it\n[b.left] # here\nw = 1\n[o.x.b.left]\nw = 1\n[b.left.deep]\nv = 1\n")
	require.NoError(t, x.RenameTable("far left", "b", "left"))
	assert.Equal(t, "# of it\n[b.\"far left\"] # here\nw = 1\n[o.x.b.left]\nw = 1\n[b.\"far left\".deep]\nv = 1\n", string(x.Bytes()))
	assert.Error(t, x.RenameTable("left", "b", "none"))
	y := parse(t, "b.left = { w = 1 }\nb.right.w = 2\n")
	assert.Error(t, y.RenameTable("right", "b", "left"))
	require.NoError(t, y.RenameTable("mid", "b", "right"))
	assert.Equal(t, "b.left = { w = 1 }\nb.mid.w = 2\n", string(y.Bytes()))
}

func TestTablesAndKeys(t *testing.T) {
	x := parse(t, "top = 1\np.h = 3\n[b.left]\nw = 1\ni = { j = 2 }\n[[many]]\nq = 1\n")
	assert.Equal(t, [][]string{{"p"}, {"b", "left"}, {"b", "left", "i"}}, x.Tables())
	assert.Equal(t, []string{"w"}, x.Keys("b", "left"))
	assert.Equal(t, []string{"top"}, x.Keys())
	raw, ok := x.Raw("b", "left", "i")
	assert.True(t, ok)
	assert.Equal(t, "{ j = 2 }", raw)
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

func decode(t testing.TB, src []byte) map[string]any {
	doc := map[string]any{}
	_, err := toml.Decode(strings.TrimPrefix(string(src), "\ufeff"), &doc)
	require.NoError(t, err, "%s", src)
	return doc
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

// TestManyEditsOfPanelFiles changes real files at random: after every change the document is the old one with that value, and no remark
// is lost.
func TestManyEditsOfPanelFiles(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "panels", "*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, f := range files {
		src, err := os.ReadFile(f)
		require.NoError(t, err)
		x := parse(t, string(src))
		for range 60 {
			before := decode(t, x.Bytes())
			said := remarks(string(x.Bytes()))
			tables := x.Tables()
			at := append([]string{}, tables[rnd.IntN(len(tables))]...)
			if rnd.IntN(6) == 0 {
				at = []string{at[0], fmt.Sprintf("new %d", rnd.IntN(4))}
			}
			keys := x.Keys(at...)
			key := fmt.Sprintf("made_%d", rnd.IntN(5))
			if len(keys) > 0 && rnd.IntN(2) == 0 {
				key = keys[rnd.IntN(len(keys))]
			}
			n := int64(rnd.IntN(1000))
			if err := x.Set(fmt.Sprint(n), append(at, key)...); err != nil {
				assert.Equal(t, before, decode(t, x.Bytes()), "refused, and changed")
				continue
			}
			put(before, n, append(at, key)...)
			require.Equal(t, before, decode(t, x.Bytes()), "%s: %v", f, append(at, key))
			require.Subset(t, remarks(string(x.Bytes())), said)
		}
	}
}

func TestQuote(t *testing.T) {
	for _, s := range []string{"", `a"b\c`, "two\nlines\tand\x01\x7f", "ה 字 ½", "bad\xff"} {
		var doc struct{ X string }
		_, err := toml.Decode("X = "+Quote(s), &doc)
		require.NoError(t, err)
		assert.Equal(t, strings.ToValidUTF8(s, "\ufffd"), doc.X)
	}
}

func FuzzEdit(f *testing.F) {
	f.Add("[a]\nb = 1 # x\n", "a", "c", "2")
	f.Add("a.b = { c = [1, {d = 2}] }\n", "a", "b", `"x"`)
	f.Add("[[a]]\nb = '''\n# no\n'''\n", "a", "b", "[1,\n2]")
	f.Add("\"a\".'b' = 1\r\n[\"a\".c]\r\n", "a", "c", "1")
	f.Fuzz(func(t *testing.T, src, table, key, literal string) {
		table, key = strings.ToValidUTF8(table, "?"), strings.ToValidUTF8(key, "?")
		x, err := Parse([]byte(src))
		if err != nil {
			return
		}
		if got := string(x.Bytes()); got != src {
			t.Fatalf("untouched, and changed: %q to %q", src, got)
		}
		before := decode(t, []byte(src))
		if err := x.Set(literal, table, key); err == nil {
			var doc struct{ X any }
			_, err := toml.Decode("X = "+literal, &doc)
			require.NoError(t, err)
			put(before, doc.X, table, key)
		}
		after := decode(t, x.Bytes())
		require.Equal(t, fmt.Sprint(before), fmt.Sprint(after))
		x.Remove(table, key)
		x.RemoveTable(table, key)
		_ = x.RenameTable(key, table)
		decode(t, x.Bytes())
		x.RemoveTable(table)
		if _, ok := decode(t, x.Bytes())[table]; ok {
			for _, s := range x.spans {
				if s.Many {
					return
				}
			}
		}
	})
}
