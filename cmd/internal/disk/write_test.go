package disk

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWriteWhole(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "new", "a.txt")
	require.NoError(t, WriteWhole(path, []byte("one")))
	require.NoError(t, WriteWhole(path, []byte("two")))
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "two", string(got))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "taken"), 0o755))
	assert.ErrorContains(t, WriteWhole(filepath.Join(dir, "taken"), []byte("x")), "cannot write")
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 2, "no temporary file is left behind")
}

func TestWriteFirstNeverWritesOver(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", "paper.html")
	require.NoError(t, WriteFirst(path, []byte("one")))
	assert.ErrorContains(t, WriteFirst(path, []byte("two")), "is there already and is not written over")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "one", string(data))
	left, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing half-written is left")
}
