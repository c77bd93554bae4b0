package restraint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
)

// pianoStrip is the crown of a spruce strip 1219 x 102 x 9.5 mm (48 in along the crown, across the
// grain) with two ribs of 3/8 x 3/4 in glued on its back, once the strip has swollen.
func pianoStrip(t *testing.T, er, el, swell float64, onEdge bool) float64 {
	t.Helper()
	w, d := 2*19.0, 9.5
	if onEdge {
		w, d = 2*9.5, 19
	}
	fix, err := Glued(0, 1219, 9, inf, w)
	require.NoError(t, err)
	s := system(t, []plan.StripBoard{{Width: 1219, Thickness: 9.5, E: er}}, 102,
		Bar{E: el, Width: w, Depth: d, Offset: (9.5 + d) / 2}, fix)
	r, err := s.Solve(drive(swell))
	require.NoError(t, err)
	return r.Cup
}

// P02: T. Farrell, pianotech list, 29 Mar and 9 Apr 2003 (trade list, eye estimates). Glued flat at
// 4 to 5 % MC; crown 50 to 76 mm at 45 % RH (8.4 % MC, handbook table 4-2), 150 to 200 mm at about
// 18 % MC. Stated inputs: E_R 600 to 1000 MPa falling with MC, E_L 10 to 12 GPa, movement 0.14 to
// 0.16 % per % MC; whether the ribs lie flat or on edge is not said. Agreement asked: 40 %,
// here of the middle inputs (E_R 900 dry, 700 damp) in both ways of lying.
func TestSpruceStripWithRibs(t *testing.T) {
	for _, c := range []struct {
		name           string
		dMC            float64 // % MC
		er             [3]float64
		seenLo, seenHi float64
	}{
		{"45 % RH", 8.4 - 4.5, [3]float64{800, 900, 1000}, 50, 76},
		{"18 % MC", 18 - 4.5, [3]float64{600, 700, 800}, 150, 200},
	} {
		seen := (c.seenLo + c.seenHi) / 2
		var at [2][3]float64
		for k, edge := range []bool{false, true} {
			for i := range 3 {
				at[k][i] = pianoStrip(t, c.er[i], []float64{12000, 11000, 10000}[i], []float64{0.0014, 0.0015, 0.0016}[i]*c.dMC, edge)
			}
		}
		t.Logf("%s: ribs flat %.0f, on edge %.0f mm; seen %g..%g", c.name, at[0], at[1], c.seenLo, c.seenHi)
		assert.InEpsilon(t, seen, at[0][1], 0.40, "%s: ribs flat, middle inputs", c.name)
		assert.InEpsilon(t, seen, at[1][1], 0.40, "%s: ribs on edge, middle inputs", c.name)
		assert.LessOrEqual(t, at[1][0], c.seenHi, "%s: lowest reading", c.name)
		assert.GreaterOrEqual(t, at[0][2], c.seenLo, "%s: highest reading", c.name)
		assert.Positive(t, at[1][1], "swelling with ribs behind: front rounded")
	}
}

// Nailed strip floor, 80 to 30 to 80 % RH: nailed boards moved like loose ones (USDA FPL,
// treesearch 64430, abstract). A sign, not a proof: nails are soft against wood this wide. Inputs
// (assumption): red-oak board 57 or 127 mm wide, 19 mm thick, E across the grain 700 to 1200 MPa,
// two rows of nails (the real floor has one, which holds nothing), slip by EN 1995-1-1 for 700
// kg/m3 and 3 mm, doubled at the strict end, every 200 mm; sub-floor rigid, no yield.
func TestNailedFloorIsHardlyHeld(t *testing.T) {
	for _, width := range []float64{57, 127} {
		for _, e := range []float64{700, 1200} {
			k := 2 * SlipNailDriven(700, 3)
			nail := Fixing{Slip: k, Yield: inf}
			two := []Fixing{nail, nail}
			two[0].X, two[1].X = 8, width-8
			s := system(t, []plan.StripBoard{{Width: width, Thickness: 19, E: e}}, 200, Bar{E: inf, Width: 1, Depth: 1, HoldsFlat: true}, two)
			r, err := s.Solve(drive(-0.03))
			require.NoError(t, err)
			t.Logf("%g mm, E %g: held %.1f %%", width, e, 100*r.Share)
			assert.Less(t, r.Share, 0.10)
			assert.Greater(t, r.Share, 0.001, "the nails do hold something")
			one, err := system(t, []plan.StripBoard{{Width: width, Thickness: 19, E: e}}, 200, Bar{E: inf, Width: 1, Depth: 1, HoldsFlat: true}, two[:1]).Solve(drive(-0.03))
			require.NoError(t, err)
			assert.Equal(t, 0.0, one.Share)
		}
	}
}
