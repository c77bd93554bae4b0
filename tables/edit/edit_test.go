package edit

import (
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
		{"new at the top", "[a]\nb = 1\n", "format", "1", "format = 1\n\n[a]\nb = 1\n"},
		{"new at the top, below what is said of the file", "# file\n\n# of a\n[a]\n", "format", "1", "# file\n\nformat = 1\n\n# of a\n[a]\n"},
		{"nothing but remarks", "# file", "format", "1", "# file\nformat = 1\n"},
		{"over several lines", "[a]\nb = [\n 1, # one\n 2]\nc = \"\"\"\nx\n[no]\n\"\"\"\n", "a/b", "3", "[a]\nb = 3\nc = \"\"\"\nx\n[no]\n\"\"\"\n"},
		{"names in quotes", "[b.\"a.b c\"]\nw = 1\n", "b/a.b c/t", "2", "[b.\"a.b c\"]\nw = 1\nt = 2\n"},
		{"a name that needs quotes", "", "b/ה x/t", "2", "[b.\"ה x\"]\nt = 2\n"},
		{"the table above comes later", "[b.x]\nk = 1\n[b]\nj = 1\n", "b/i", "2", "[b.x]\nk = 1\n[b]\nj = 1\ni = 2\n"},
		{"in braces, a key with dots", "b = {left.w = 3}\n", "b/left/t", "5", "b = {left.w = 3, left.t = 5}\n"},
		{"in braces, a new table", "b = {}\n", "b/left/t", "5", "b = { left = { t = 5 } }\n"},
		{"in braces over several lines", "b = {\n w = 3, # x\n}\n", "b/t", "5", "b = {\n w = 3, t = 5, # x\n}\n"},
		{"in braces with a remark only", "b = {\n # x\n}\n", "b/t", "5", "b = { t = 5\n # x\n}\n"},
		{"remarks below a table stay with it", "[b.x]\nk = 1\n# t = 2\n\n[z]\n", "b/y/k", "2", "[b.x]\nk = 1\n# t = 2\n\n[b.y]\nk = 2\n\n[z]\n"},
		{"blanks at the end stay", "a = 1 # x  ", "b/k", "2", "a = 1 # x  \n\n[b]\nk = 2\n"},
		{"line ends of both kinds", "[a]\nb = 1\n[c]\r\n", "a/d", "2", "[a]\nb = 1\nd = 2\n[c]\r\n"},
		{"a name with letters written out", `"\u00e9\e" = 1`, "é\x1b", "2", `"\u00e9\e" = 2`},
		{"beside a list of tables", "[[a.m]]\nx = 1\n[a]\ny = 1\n", "a/z", "2", "[[a.m]]\nx = 1\n[a]\ny = 1\nz = 2\n"},
		{"names from right to left", "[\"לוח\".\"שמאל א\"]\nw = 1\n", "לוח/שמאל א/w", "2", "[\"לוח\".\"שמאל א\"]\nw = 2\n"},
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
		{"a table in a list of tables", "[[a]]\n[a.c]\nx = 1\n[[a]]\n[a.c]\n", "a/c/x", "2"},
		{"keys with dots in a list of tables", "[[a]]\nb.c = 1\n", "a/b/d", "2"},
		{"a new table in a list of tables", "[[a]]\nb = 1\n", "a/c/d", "2"},
		{"a table in the place of a value", "[a]\nb = 1\n", "a", "2"},
		{"a key in the place of a table, the table above it being without a header", "[a.b]\nc = 1\n", "a/b", "2"},
		{"a name that is no text", "[a]\nb = 1\n", "c/\xff", "2"},
		{"a blank before it", "[a]\nb = 1\n", "a/b", " 2"},
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
		{"keys with dots in braces", "b = {a = 3, c.x = 1, c.y = 2}\n", "b/c", "b = {a = 3}\n"},
		{"with a list of tables in it", "[b]\nx = 1\n[[b.c]]\ny = 1\n[d]\n", "b", "[d]\n"},
		{"a line of a text is no remark", "a = \"\"\"x\n# y\"\"\"\n[b]\nc = \"\"\"z\"\"\"\n", "b", "a = \"\"\"x\n# y\"\"\"\n"},
		{"a table above it is gone with it", "[b.c]\nx = 1\n[d]\n", "b/c", "[d]\n"},
		{"by keys with dots", "b.c = 1\nb.d = 2\ne = 3\n", "b", "e = 3\n"},
	} {
		x := parse(t, v.src)
		assert.True(t, x.RemoveTable(path(v.at)...), v.reason)
		assert.Equal(t, v.want, string(x.Bytes()), v.reason)
	}
}

func TestRemoveRefuses(t *testing.T) {
	for _, v := range []struct{ reason, src, at string }{
		{"a key", "a = 1\n", "a"},
		{"a list of tables", "[[a]]\nb = 1\n", "a"},
		{"a table in a list of tables", "[[a]]\n[a.b]\nc = 1\n", "a/b"},
		{"a table in a list", "a = [{ b = { c = 1 } }]\n", "a/b"},
		{"what is not there", "[a]\n", "b"},
	} {
		x := parse(t, v.src)
		assert.False(t, x.RemoveTable(path(v.at)...), v.reason)
		assert.Equal(t, v.src, string(x.Bytes()), v.reason)
	}
	x := parse(t, "[[a]]\nb = 1\n")
	assert.False(t, x.Remove("a", "b"))
	assert.False(t, x.RemoveTable())
}

func TestAddTable(t *testing.T) {
	for _, src := range []string{"", "[a]\nb = 1\n", "[a]\n\n# of c\n[c]\n", "[a.x]\nk = 1\n# k = 2\n\n[z]\n", "# remark\r\n", "[a]\n\n\n"} {
		x := parse(t, src)
		require.NoError(t, x.AddTable("a", "new"))
		assert.Contains(t, x.Tables(), []string{"a", "new"})
		require.NoError(t, x.AddTable("a", "new"), "a second time changes nothing")
		assert.True(t, x.RemoveTable("a", "new"))
		assert.Equal(t, src, string(x.Bytes()), "added and taken out again")
	}
	x := parse(t, "a = 1\n[[m]]\n")
	assert.Error(t, x.AddTable("a"))
	assert.Error(t, x.AddTable("a", "b"))
	assert.ErrorContains(t, x.AddTable("m", "b"), "[[m]] is a list of tables")
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

func TestRenameTableKeepsOtherNames(t *testing.T) {
	for _, v := range []struct{ reason, src, at, to, want string }{
		{"letter for letter", "[ 'b' . left ] # x\n", "b/left", "right", "[ 'b' . right ] # x\n"},
		{"a list of tables in it", "[b.left]\n[[b.left.m]]\nx = 1\n[b.left.m.n]\n", "b/left", "right", "[b.right]\n[[b.right.m]]\nx = 1\n[b.right.m.n]\n"},
		{"in braces", "b = { left = { w = 1 }, 'left x'.w = 2 }\n", "b/left", "mid", "b = { mid = { w = 1 }, 'left x'.w = 2 }\n"},
		{"the first name", "[b.left]\n[b]\nleft2 = 1\n", "b", "c", "[c.left]\n[c]\nleft2 = 1\n"},
	} {
		x := parse(t, v.src)
		require.NoError(t, x.RenameTable(v.to, path(v.at)...), v.reason)
		assert.Equal(t, v.want, string(x.Bytes()), v.reason)
	}
	x := parse(t, "a = 1\n[[m]]\n[m.n]\n[c]\n")
	for _, at := range []string{"a", "m", "m/n", "none"} {
		assert.Error(t, x.RenameTable("other", path(at)...), at)
	}
	assert.Error(t, x.RenameTable("a", "c"), "the name of a key")
	assert.Error(t, x.RenameTable("", "c"))
}

func TestTablesAndKeys(t *testing.T) {
	x := parse(t, "top = 1\np.h = 3\n[b.left]\nw = 1\ni = { j = 2 }\n[[many]]\nq = 1\nr.s = 1\nt = { u = 1 }\n[many.v]\n")
	assert.Equal(t, [][]string{{"p"}, {"b", "left"}, {"b", "left", "i"}}, x.Tables())
	assert.Equal(t, []string{"w"}, x.Keys("b", "left"))
	assert.Equal(t, []string{"top"}, x.Keys())
	assert.Empty(t, x.Keys("many"), "a list of tables is not changed by key")
	raw, ok := x.Raw("b", "left", "i")
	assert.True(t, ok)
	assert.Equal(t, "{ j = 2 }", raw)
}

func TestQuote(t *testing.T) {
	for _, s := range []string{"", `a"b\c`, "two\nlines\tand\x01\x7f", "ה 字 ½", "bad\xff"} {
		var doc struct{ X string }
		_, err := toml.Decode("X = "+Quote(s), &doc)
		require.NoError(t, err)
		assert.Equal(t, strings.ToValidUTF8(s, "\ufffd"), doc.X)
	}
}
