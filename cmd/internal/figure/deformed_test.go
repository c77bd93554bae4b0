package figure

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/section"
)

// go test ./cmd/internal/figure -run EndGrain -look DIR: in colour and in grey.
func TestLookAtEndGrain(t *testing.T) {
	if *look == "" {
		t.Skip("only with -look DIR")
	}
	require.NoError(t, os.MkdirAll(*look, 0o755))
	for _, s := range endGrainFigures(t) {
		var b, svg, dull bytes.Buffer
		require.NoError(t, s.fig.PNG(&b, 200), s.name)
		require.NoError(t, s.fig.File(&svg), s.name)
		img, err := png.Decode(bytes.NewReader(b.Bytes()))
		require.NoError(t, err)
		g := image.NewGray(img.Bounds())
		draw.Draw(g, g.Bounds(), img, image.Point{}, draw.Src)
		require.NoError(t, png.Encode(&dull, g))
		for end, data := range map[string][]byte{".png": b.Bytes(), ".svg": svg.Bytes(), "-grey.png": dull.Bytes()} {
			require.NoError(t, os.WriteFile(filepath.Join(*look, s.name+end), data, 0o644))
		}
		t.Log(s.name, svg.Len(), s.fig.Sentence)
	}
}

// oneFlat is a single flat-sawn board without ground.
func oneFlat(pithZ float64) []section.Timber { return []section.Timber{invent(200, 24, 100, pithZ)} }

// boardsInARow is n boards w by t mm, hearts in turn.
func boardsInARow(n int, w, t float64) []section.Timber {
	var out []section.Timber
	for i := range n {
		z := -40.0
		if i%2 == 1 {
			z = t + 40
		}
		b := invent(w, t, w/2, z)
		b.Front = []section.Coat{{Thickness: min(1, t/6), E: 900, Nu: 0.3}}
		out = append(out, b)
	}
	return out
}

// wedged has a bevel, a wedge, a step at the back and a ground on both faces.
func wedged() []section.Timber {
	out := threeBoards(true)
	out[0].BevelLeft = section.Bevel{Width: 40, Edge: 10}
	out[1].ThicknessLeft, out[1].ThicknessRight = 20, 28
	out[2].Thickness = 30
	out[1].Back = []section.Coat{{Thickness: 2, E: 500, Nu: 0.3}}
	return out
}

func endGrainFigures(t testing.TB) []named {
	broken := sampleDeformed(t, threeBoards(true))
	broken.States[0].DxMM[1][3] = math.NaN()
	gaps := sampleStressMap(t, threeBoards(true))
	for e := range 200 {
		gaps.States[0].MPa[0][e] = [4]float64{math.NaN(), math.Inf(1), 1, math.NaN()}
	}
	many := sampleDeformed(t, boardsInARow(40, 20, 3))
	out := []named{
		{"deformed", sampleDeformed(t, threeBoards(true)).Draw()},
		{"deformed-bare", sampleDeformed(t, threeBoards(false)).Draw()},
		{"deformed-heart-back", sampleDeformed(t, oneFlat(-48)).Draw()},
		{"deformed-heart-front", sampleDeformed(t, oneFlat(72)).Draw()},
		{"deformed-wedged", sampleDeformed(t, wedged()).Draw()},
		{"deformed-thick", sampleDeformed(t, boardsInARow(2, 100, 120)).Draw()},
		{"deformed-40", many.Draw()},
		{"deformed-nan", broken.Draw()},
		{"deformed-empty", Deformed{}.Draw()},
		{"deformed-bad", Deformed{Boards: []EndGrain{{XMM: []float64{1}, Elements: [][8]int{{9}}}}, States: make([]DeformedState, 2)}.Draw()},
		{"stress", sampleStressMap(t, threeBoards(true)).Draw()},
		{"stress-bare", sampleStressMap(t, threeBoards(false)).Draw()},
		{"stress-wedged", sampleStressMap(t, wedged()).Draw()},
		{"stress-thick", sampleStressMap(t, boardsInARow(1, 100, 120)).Draw()},
		{"stress-40", StressMap{Boards: many.Boards, States: []StressState{solve(t, boardsInARow(40, 20, 3), section.Options{}, freeStrain(-0.006, -0.002, 0)).stress("dry", 30)}}.Draw()},
		{"stress-nan", gaps.Draw()},
		{"stress-none", StressMap{Boards: many.Boards[:3], States: make([]StressState, 1)}.Draw()},
		{"stress-empty", StressMap{}.Draw()},
	}
	return out
}

func TestEndGrainIsLegible(t *testing.T) {
	for _, s := range endGrainFigures(t) {
		t.Run(s.name, func(t *testing.T) {
			words, widths, paths := drawn(s.fig)
			h := s.fig.height(true)
			for i, a := range words {
				assert.True(t, a.box.Min.X >= 0 && a.box.Max.X <= s.fig.W && a.box.Min.Y >= 0 && a.box.Max.Y <= h, "%q is cut: %v", a.text, a.box)
				assert.GreaterOrEqual(t, float64(a.size), 8.0)
				for _, b := range words[i+1:] {
					assert.False(t, overlap(a.box, b.box), "%q covers %q", b.text, a.text)
				}
			}
			for _, w := range widths {
				assert.GreaterOrEqual(t, float64(w), 0.5)
			}
			for _, p := range paths {
				for _, c := range p {
					require.True(t, c.Pos.X > -2 && c.Pos.X < s.fig.W+2 && c.Pos.Y > -2 && c.Pos.Y < h+2, "%v of %v x %v", c.Pos, s.fig.W, h)
				}
			}
			var one, two bytes.Buffer
			require.NoError(t, s.fig.SVG(&one))
			require.NoError(t, s.fig.SVG(&two))
			assert.Equal(t, one.String(), two.String())
			assert.NotContains(t, one.String(), "NaN")
			assert.Less(t, one.Len(), 900_000)
			require.NoError(t, s.fig.PNG(&two, 40))
		})
	}
}

// A flat-sawn board that dries turns its bark side hollow: heart at the back, the painted face is hollow; heart in
// front, it is rounded (common practice; exact map of package section).
func TestHeartTurnedRoundTurnsTheWarpRound(t *testing.T) {
	for pith, want := range map[float64]string{-48: "painted face hollow", 72: "painted face rounded"} {
		d := sampleDeformed(t, oneFlat(pith))
		r := d.layout().rows[0]
		assert.Contains(t, r.words(), want)
		s := d.layout()
		r = s.rows[0]
		foot, ok := s.backAt(r, Width/2, 0, s.times)
		require.True(t, ok)
		assert.Equal(t, pith > 0, foot > 0, "drawn height of the back at mid-width: %v", foot)
		assert.InDelta(t, s.times*r.WarpMM*float64(s.per), float64(foot), 0.02*float64(s.per), "drawn warp is the written one times the factor")
	}
}

func TestFactorIsTheOneDrawn(t *testing.T) {
	d := sampleDeformed(t, oneFlat(-48))
	for _, give := range []float64{0, 1, 2, 5, 10} {
		d.Magnification = give
		s := d.layout()
		if give > 0 {
			assert.Equal(t, give, s.times)
		}
		// the width drawn is the width and times its change, to the scale
		v := s.view(s.rows[0], 0, s.times, 0)
		lo, hi, _ := extent(v.x)
		assert.InDelta(t, 200+s.times*d.States[0].WiderMM, hi-lo, 0.05*s.times*math.Abs(d.States[0].WiderMM)+0.2)
		said := fmt.Sprintf("movement drawn %s times too large", fixed(s.times, 0))
		if s.times == 1 {
			said = "movement to scale too"
		}
		assert.Contains(t, s.words(), said)
		assert.Contains(t, strings.Join(texts(d.Draw()), " "), said)
	}
	d.Magnification = 1e9
	assert.LessOrEqual(t, d.layout().times, 50.0)
}

func TestWithoutMovementTheFactorIsOne(t *testing.T) {
	d := sampleDeformed(t, oneFlat(-48))
	for i := range d.States {
		for _, s := range [][][]float64{d.States[i].DxMM, d.States[i].DzMM} {
			for b := range s {
				for k := range s[b] {
					s[b][k] = 1e-12 * float64(k%3)
				}
			}
		}
		d.States[i].WarpMM, d.States[i].LargestMM, d.States[i].WiderMM = 0, 0, 0
	}
	s := d.layout()
	assert.Equal(t, 1.0, s.times)
	assert.Contains(t, s.words(), "movement to scale too")
	assert.Contains(t, d.Draw().Sentence, "flat at the middle")
}

func TestUnknownMovementIsSaid(t *testing.T) {
	d := sampleDeformed(t, oneFlat(-48))
	d.States[0].DzMM[0][7] = math.NaN()
	d.States[2].DxMM = nil
	f := d.Draw()
	assert.Equal(t, "Dry, 35 % RH: movement not known; damp, 75 % RH: movement not known.", f.Sentence)
	assert.Equal(t, 1.0, d.layout().times)
}

func TestOutlineAndRings(t *testing.T) {
	d := sampleDeformed(t, oneFlat(-48))
	n := d.Boards[0].net()
	require.Len(t, n.outline(false), 1)
	area, q := 0.0, n.outline(false)[0]
	for i, a := range q {
		b := q[(i+1)%len(q)]
		area += (n.x[a]*n.z[b] - n.x[b]*n.z[a]) / 2
	}
	assert.InDelta(t, 200*24, area, 1e-9, "anticlockwise")
	assert.Empty(t, n.outline(true), "no ground")
	require.Len(t, n.top, 1)
	for _, k := range n.top[0] {
		assert.Equal(t, 24.0, n.z[k])
	}
	v := view{x: n.x, z: n.z, kx: 1, kz: 1}
	// straight over triangles of half an element, 3.33 x 3 mm: within their longest side squared over 8 r, r 50.5 mm
	// on the innermost ring
	for _, r := range n.rings(5) {
		for _, p := range v.line(r.course) {
			assert.InDelta(t, 48+5*(float64(r.nth)+0.5), math.Hypot(float64(p.X)-100, float64(p.Y)+48), 0.05, "a circle about the pith")
		}
	}
	assert.Len(t, n.rings(1e-6), 0, "too many to draw")
}
