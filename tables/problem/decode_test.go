package problem

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDecode(t *testing.T) {
	k := Kind{Name: "made file", Most: 60, Empty: "begin", Plain: "plain text", Table: "[a.b]"}
	for _, v := range []struct{ src, want string }{
		{"", "x.toml: the file is empty\n\thint: begin"},
		{"a = \"\x00\"", "x.toml: this is not a text file (it holds zero bytes)\n\thint: plain text"},
		{"a = 1\nb = \"\xe9\"\n", "x.toml: line 2 holds letters that are not UTF-8\n\thint: save the file as plain text in UTF-8"},
		{"a = 1\na = 2\n", "x.toml:2:7: a: key 'a' has already been defined\n\thint: each table and key may stand once; give the second part a name of its own"},
		{string(make([]byte, 61)), "x.toml: the file has 61 bytes; a made file has at most 60\n\thint: this looks like another kind of file"},
	} {
		_, _, list := k.Decode("x.toml", []byte(v.src), &map[string]any{})
		assert.EqualError(t, list, v.want, v.src)
	}
	doc := map[string]any{}
	meta, lines, list := k.Decode("x.toml", []byte("\ufeffformat = 1\n[store.\"a.b\"]\n  places = 3\n"), &doc)
	assert.Empty(t, list)
	assert.True(t, meta.IsDefined("store", "a.b", "places"))
	assert.Equal(t, 3, lines.Of("store", "a.b", "places"))
	assert.Equal(t, 2, lines.Of("store", "a.b", "record"), "the nearest above it")
	assert.Equal(t, 0, lines.Of("rack"))
}
