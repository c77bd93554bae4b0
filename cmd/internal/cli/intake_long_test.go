//go:build long

package cli

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestLongEveryPanelOfTheCollectionIsAssessed: what intake writes, assess reads.
func TestLongEveryPanelOfTheCollectionIsAssessed(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "..", "testdata", "collection", "panels", "*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		var out, remarks bytes.Buffer
		code := Run(context.Background(), []string{"assess", f}, strings.NewReader(""), &out, &remarks)
		assert.Equal(t, exitDone, code, "%s: %s", f, remarks.String())
	}
}
