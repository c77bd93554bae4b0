package figure

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// look writes every sample and extreme to a folder: go test ./cmd/internal/figure -look DIR.
var look = flag.String("look", "", "write the sample figures as PNG and SVG to the folder `DIR`, to be looked at")

func TestLook(t *testing.T) {
	if *look == "" {
		t.Skip("only with -look DIR")
	}
	require.NoError(t, os.MkdirAll(*look, 0o755))
	for _, s := range append(samples(), extremes()...) {
		var png, svg bytes.Buffer
		require.NoError(t, s.fig.PNG(&png, 160), s.name)
		require.NoError(t, s.fig.File(&svg), s.name)
		require.NoError(t, os.WriteFile(filepath.Join(*look, s.name+".png"), png.Bytes(), 0o644))
		require.NoError(t, os.WriteFile(filepath.Join(*look, s.name+".svg"), svg.Bytes(), 0o644))
		t.Log(s.name, s.fig.Sentence)
	}
}
