package figure

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

func TestBarsOfAStageEndAtItsRange(t *testing.T) {
	l := sampleLetGo()
	for k, c := range l.charts() {
		f := c.layout(box(0, 0, 480, 100))
		var rec recorder.Canvas
		l.draw(pen{c: draw.NewCanvas(&rec, 480, 140)}, f, k == 0)
		var paths []vg.Path
		for _, a := range rec.Actions {
			if s, ok := a.(*recorder.Stroke); ok {
				paths = append(paths, s.Path)
			}
		}
		for i, s := range l.Steps {
			lo, hi := s.pair(k == 0)
			x := l.bar(f, float64(i))
			assert.True(t, slices.ContainsFunc(paths, func(p vg.Path) bool {
				return len(p) == 5 && math.Abs(float64(p[0].Pos.X+p[1].Pos.X)/2-float64(x)) < 1e-6 &&
					math.Abs(float64(p[0].Pos.Y-f.sy.at(lo))) < 1e-6 && math.Abs(float64(p[2].Pos.Y-f.sy.at(hi))) < 1e-6
			}), "a bar from %v to %v mm over %s", lo, hi, s.Label)
			assert.True(t, slices.ContainsFunc(paths, func(p vg.Path) bool {
				return len(p) > 1 && p[1].Type == vg.ArcComp && hypot(p[1].Pos.Sub(at(x, f.sy.at((lo+hi)/2)))) < 1e-6
			}), "a dot in its middle")
			assert.True(t, f.sy.holds(lo) && f.sy.holds(hi))
			assert.Less(t, float64(x), float64(f.sx.at(float64(i+1))))
		}
	}
}

func TestStagesInWords(t *testing.T) {
	f := sampleLetGo().Draw()
	for _, s := range []string{"+0.3 to +0.9", "rounder", "−1.7 to −0.5", "narrower", "at once", "never", "and dry year"} {
		assert.Contains(t, texts(f), s)
	}
	assert.Equal(t, "At once: warp 0.3 to 0.9 mm rounder, width 0.2 to 0.4 mm narrower; after the first damp and dry year: 1.1 to 4.6 mm rounder, 0.5 to 1.7 mm narrower; "+
		"what never comes back: 0.5 to 2.2 mm rounder, 0.4 to 1.1 mm narrower.", f.Sentence)
	for _, c := range []struct {
		lo, hi float64
		want   string
	}{
		{-2, -0.4, "0.4 to 2.0 mm more hollow"}, {2, 0.4, "0.4 to 2.0 mm rounder"}, {-0.4, 1, "−0.4 to +1.0 mm"},
		{-0.04, 0.04, "no change"}, {math.NaN(), 1, "not known"}, {-15, -15, "15 mm more hollow"},
	} {
		assert.Equal(t, c.want, LetGoStep{WarpLow: c.lo, WarpHigh: c.hi}.words(true))
	}
	assert.Equal(t, "0.4 to 2.0 mm wider", LetGoStep{WidthLow: 0.4, WidthHigh: 2}.words(false))
}

func TestWhatStaysStandsApart(t *testing.T) {
	l := sampleLetGo()
	assert.Equal(t, 4, l.stays())
	_, widths, paths := drawn(l.Draw())
	require.NotEmpty(t, widths)
	l.Steps[4].Stays = false
	_, _, plain := drawn(l.Draw())
	assert.Greater(t, len(paths), len(plain), "hatching and the line before it")
	assert.NotContains(t, l.Draw().Sentence, "never comes back")
	assert.Equal(t, "What comes back was not calculated.", LetGo{}.Draw().Sentence)
	assert.Equal(t, -1, LetGo{}.stays())
}
