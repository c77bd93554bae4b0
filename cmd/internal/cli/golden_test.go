package cli

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden picture of the README")

// TestPictureOfTheReadme holds the picture that README.md shows against what the program draws.
func TestPictureOfTheReadme(t *testing.T) {
	dir := t.TempDir()
	var out, remarks bytes.Buffer
	code := Run(context.Background(), []string{"assess", "--out", dir}, strings.NewReader(""), &out, &remarks)
	require.Equal(t, exitDone, code, remarks.String())
	got, err := os.ReadFile(filepath.Join(dir, "panel.svg"))
	require.NoError(t, err)
	golden := filepath.Join("..", "..", "..", "testdata", "golden", "example_panel.svg")
	if *update {
		require.NoError(t, os.WriteFile(golden, got, 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(want, got), "the drawing has changed: look at it, then rewrite with -update")
}
