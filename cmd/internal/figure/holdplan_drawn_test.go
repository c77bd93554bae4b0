package figure

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHeldFiguresAreDrawn(t *testing.T) {
	for _, s := range append(holdSamples(), holdExtremes()...) {
		var svg bytes.Buffer
		require.NoError(t, s.fig.File(&svg), s.name)
		assert.NotContains(t, svg.String(), "NaN", s.name)
		assert.NotContains(t, svg.String(), "Inf", s.name)
		assert.NotEmpty(t, s.fig.Sentence, s.name)
		assert.NotContains(t, s.fig.Sentence+s.fig.Desc, "NaN", s.name)
		if *look != "" {
			var png bytes.Buffer
			require.NoError(t, s.fig.PNG(&png, 130), s.name)
			require.NoError(t, os.MkdirAll(*look, 0o755))
			require.NoError(t, os.WriteFile(filepath.Join(*look, s.name+".png"), png.Bytes(), 0o644))
			t.Log(s.name, s.fig.Sentence)
		}
	}
}

func TestHeldFiguresCoverNoLabel(t *testing.T) {
	for _, s := range append(holdSamples(), holdExtremes()...) {
		words, widths, paths := drawn(s.fig)
		require.NotEmpty(t, words, s.name)
		for i, a := range words {
			assert.True(t, a.box.Min.X >= 0 && a.box.Max.X <= s.fig.W && a.box.Min.Y >= 0 && a.box.Max.Y <= s.fig.height(true), "%s: %q is cut at the edge", s.name, a.text)
			assert.GreaterOrEqual(t, float64(a.size), 8.0, "%s: %q in points", s.name, a.text)
			for _, r := range a.text {
				assert.True(t, drawable(r), "%s: %q holds %q", s.name, a.text, r)
			}
			for _, b := range words[i+1:] {
				assert.False(t, overlap(a.box, b.box), "%s: %q covers %q", s.name, b.text, a.text)
			}
		}
		for _, w := range widths {
			assert.GreaterOrEqual(t, float64(w), 0.5, "%s: a line in points", s.name)
		}
		for _, p := range paths {
			for _, c := range p {
				require.True(t, c.Pos.X > -2 && c.Pos.X < s.fig.W+2 && c.Pos.Y > -2 && c.Pos.Y < s.fig.height(true)+2, "%s: a line runs to %v", s.name, c.Pos)
			}
		}
	}
}
