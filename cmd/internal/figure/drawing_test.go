package figure

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// word is a text as it was drawn.
type word struct {
	text string
	box  vg.Rectangle
	size vg.Length
	bold bool
}

// drawn records a figure: its texts and the widths of its lines.
func drawn(f Figure) (words []word, widths []vg.Length, paths []vg.Path) {
	var c recorder.Canvas
	h := f.height(true)
	f.onto(pen{c: draw.NewCanvas(&c, f.W, h), keep: true}, true)
	width := vg.Length(0)
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.SetLineWidth:
			width = a.Width
		case *recorder.Stroke:
			widths, paths = append(widths, width), append(paths, a.Path)
		case *recorder.Fill:
			paths = append(paths, a.Path)
		case *recorder.FillString:
			l := letters{size: a.Size, bold: a.Font.Weight > 0}
			q := a.Point
			words = append(words, word{a.String, box(q.X, q.Y-0.2*a.Size, q.X+l.width(a.String), q.Y+0.72*a.Size), a.Size, l.bold})
		}
	}
	return words, widths, paths
}

func TestNoLabelIsCutOrCovered(t *testing.T) {
	for _, s := range append(samples(), extremes()...) {
		t.Run(s.name, func(t *testing.T) {
			words, _, _ := drawn(s.fig)
			require.NotEmpty(t, words)
			for i, a := range words {
				assert.True(t, a.box.Min.X >= 0 && a.box.Max.X <= s.fig.W && a.box.Min.Y >= 0 && a.box.Max.Y <= s.fig.height(true),
					"%q is cut at the edge: %v of %v × %v", a.text, a.box, s.fig.W, s.fig.height(true))
				for _, b := range words[i+1:] {
					assert.False(t, overlap(a.box, b.box), "%q covers %q: %v %v", b.text, a.text, a.box, b.box)
				}
			}
		})
	}
}

func TestEveryLetterHasAGlyph(t *testing.T) {
	for _, s := range append(samples(), extremes()...) {
		words, _, _ := drawn(s.fig)
		for _, w := range words {
			for _, r := range w.text {
				assert.True(t, drawable(r), "%s: %q holds %q, which the letters do not have", s.name, w.text, r)
			}
		}
	}
	assert.False(t, drawable('⁻'), "the superscript minus is known to be missing")
	assert.True(t, drawable('−'))
}

func TestLinesAndLettersSurviveACopier(t *testing.T) {
	for _, s := range append(samples(), extremes()...) {
		words, widths, _ := drawn(s.fig)
		for _, w := range words {
			assert.GreaterOrEqual(t, float64(w.size), 8.0, "%s: %q in points", s.name, w.text)
		}
		for _, w := range widths {
			assert.GreaterOrEqual(t, float64(w), 0.5, "%s: a line in points", s.name)
		}
	}
}

func TestNothingIsDrawnFarOutside(t *testing.T) {
	for _, s := range append(samples(), extremes()...) {
		_, _, paths := drawn(s.fig)
		h := s.fig.height(true)
		for _, p := range paths {
			for _, c := range p {
				ok := c.Pos.X > -2 && c.Pos.X < s.fig.W+2 && c.Pos.Y > -2 && c.Pos.Y < h+2
				assert.True(t, ok, "%s: a line runs to %v, outside of %v × %v", s.name, c.Pos, s.fig.W, h)
			}
		}
	}
}

func TestTheMarkOfInventedExamples(t *testing.T) {
	for _, s := range samples() {
		if s.name == "1-cradle" {
			continue
		}
		assert.Contains(t, texts(s.fig), invented, s.name)
		assert.Contains(t, s.fig.Desc, "Invented example", s.name)
	}
	assert.NotContains(t, texts(sampleCradle().Draw()), invented)
}

func texts(f Figure) []string {
	words, _, _ := drawn(f)
	var out []string
	for _, w := range words {
		out = append(out, w.text)
	}
	return out
}

func find(t *testing.T, f Figure, text string) word {
	t.Helper()
	words, _, _ := drawn(f)
	for _, w := range words {
		if w.text == text {
			return w
		}
	}
	require.Fail(t, fmt.Sprintf("no text %q", text), "%v", texts(f))
	return word{}
}
