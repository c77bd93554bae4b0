package panel_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

func write(t testing.TB, p *panel.Panel) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, p.Write(&b))
	return b.String()
}

func TestWriteReadsBack(t *testing.T) {
	for _, f := range goodFiles(t) {
		t.Run(f, func(t *testing.T) {
			p := readFile(t, f)
			text := write(t, p)
			q, problems := panel.Read("written", []byte(text))
			require.NoError(t, problems.Err(), text)
			assert.Equal(t, text, write(t, q))
			assert.Equal(t, p.Digest(), q.Digest())
			a, err := p.Realise(nil)
			require.NoError(t, err)
			b, err := q.Realise(nil)
			require.NoError(t, err)
			assert.Equal(t, a.Boards, b.Boards)
			assert.Equal(t, p.Inputs(), q.Inputs())
		})
	}
}

func TestWriteKeepsWhatWasTyped(t *testing.T) {
	text := write(t, readFile(t, "four_board_poplar_glued_cradle.toml"))
	assert.Contains(t, text, `width_mm = "31 1/2 in"`)
}

func TestDigestDoesNotDependOnRemarks(t *testing.T) {
	src, err := os.ReadFile(filepath.Join(folder, "three_boards.toml"))
	require.NoError(t, err)
	p, _ := panel.Read("a", src)
	q, _ := panel.Read("b", append([]byte("# one more\n\n"), src...))
	r, _ := panel.Read("c", bytes.Replace(src, []byte("height_mm = 880"), []byte("height_mm = 881"), 1))
	assert.Equal(t, p.Digest(), q.Digest())
	assert.NotEqual(t, p.Digest(), r.Digest())
	assert.Len(t, p.Digest(), 64)
}

func TestTemplate(t *testing.T) {
	src := panel.Template()
	p, problems := panel.Read("template", src)
	require.NoError(t, problems.Err())
	_, err := p.Realise(nil)
	require.NoError(t, err)
	assert.True(t, p.Invented())
	first, _, _ := strings.Cut(string(src), "# ----")
	active := 0
	for _, l := range strings.Split(first, "\n") {
		if strings.Contains(l, "=") && !strings.HasPrefix(l, "#") {
			active++
		}
	}
	assert.Equal(t, 6, active, "format and five facts; cradle and crack are asked below them:\n"+first)
	for _, l := range strings.Split(string(src), "\n") {
		assert.NotContains(t, first, "slip_n_per_mm", l)
	}
}

func TestReferenceIsInStep(t *testing.T) {
	golden(t, filepath.Join(folder, "KEYS.md"), string(panel.Reference()))
}

func TestNotUsedOnce(t *testing.T) {
	p := readFile(t, "three_boards.toml")
	got := p.NotUsed()
	assert.Contains(t, got, "join.kind: how it is made")
	seen := map[string]bool{}
	for _, s := range got {
		assert.False(t, seen[s], s)
		seen[s] = true
	}
	assert.Empty(t, readFile(t, "six_facts.toml").NotUsed())
}
