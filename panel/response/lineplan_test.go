package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/fracture"
)

// splitPanel returns three boards on two nailed battens with a split at the top of the middle board.
func splitPanel(t testing.TB, length float64) *panel.Object {
	t.Helper()
	o := onBattens(t, 2, nails(6, 40, 560, 600, 400))
	o.Splits = []panel.Split{{Name: "top", Board: 1, X: 300, Start: 800 - length, End: 800, Depth: 12, Through: true}}
	return o
}

// The elements stand beside the strip formula: less for a short line held by nails, which give; both settings agree; what
// they say goes with the square of how far it stands open, and not below nought.
func TestLineByElements(t *testing.T) {
	var slow [2]float64
	for k, set := range []Setting{Coarse, Fine} {
		c := planned(t, splitPanel(t, 150), set)
		l, strip := one(t, c, 0.30).Lines[0], stripGlued(t, c, 0.30)
		require.True(t, l.Elements, l.Why)
		assert.Positive(t, l.Slow)
		assert.Less(t, l.Slow, strip)
		assert.Greater(t, l.Slow, strip/5)
		assert.Less(t, l.Sudden, l.Slow)
		assert.Positive(t, l.Opening)
		slow[k] = l.Slow
	}
	assert.InEpsilon(t, slow[1], slow[0], 0.1)
	c := planned(t, splitPanel(t, 150), Coarse)
	dry, damp := one(t, c, 0.30).Lines[0], one(t, c, 0.70).Lines[0]
	assert.Zero(t, damp.Slow, "pressed together it sets nothing free")
	half := one(t, c, 0.40).Lines[0]
	assert.InEpsilon(t, half.Slow/(half.Opening*half.Opening), dry.Slow/(dry.Opening*dry.Opening), 1e-9)
}

// stripGlued is the strip formula of the first line with the strain held along it while it is shut.
func stripGlued(t *testing.T, c *Case, rh moisture.RH) float64 {
	t.Helper()
	glued, _, err := c.closedUp(nil)
	require.NoError(t, err)
	return one(t, glued, rh).Lines[0].Strip
}

// Between two glued battens far from the line and held flat the panel is nearly the strip between rigid edges of the formula
// E eps^2 H/2 once the line is long against the span.
func TestLongLineIsAStrip(t *testing.T) {
	o := onBattens(t, 0, nil)
	for i, y := range []float64{100, 200, 300, 400, 500, 600, 700} {
		o.Battens = append(o.Battens, panel.Batten{
			Name: string(rune('a' + i)), Wood: o.Boards[0].Wood, Y: y, To: 600, Width: 60, Depth: 60, Side: "back", Fixing: "glued at the edges",
			Fixings: []panel.Fixing{{X: 15, Footprint: 30, Slip: math.Inf(1), Yield: math.Inf(1)}, {X: 585, Footprint: 30, Slip: math.Inf(1), Yield: math.Inf(1)}},
		})
	}
	o.Splits = []panel.Split{{Name: "top", Board: 1, X: 300, Start: 350, End: 800, Depth: 12, Through: true}}
	c := planned(t, o, Fine)
	l := one(t, c, 0.45).Lines[0]
	require.True(t, l.Elements, l.Why)
	assert.InEpsilon(t, stripGlued(t, c, 0.45), l.Slow, 0.35, "and the difference is what rows of single fixings let go between them")
}

// A split far from a glued batten is quiet at first and runs towards it once it is on its way.
func TestByElementsASplitRunsTowardsAGluedBatten(t *testing.T) {
	o := onBattens(t, 0, nil)
	o.Along = 1200
	o.Battens = []panel.Batten{{Name: "b", Wood: o.Boards[0].Wood, Y: 600, To: 600, Width: 60, Depth: 40, Side: "back", Fixing: "glued", Glued: true}}
	energy := func(length float64) float64 {
		p := *o
		p.Splits = []panel.Split{{Name: "top", Board: 1, X: 300, Start: 1200 - length, End: 1200, Depth: 12, Through: true}}
		l := one(t, planned(t, &p, Coarse), 0.40).Lines[0]
		require.True(t, l.Elements, l.Why)
		return l.Slow
	}
	far, near := energy(200), energy(500) // 400 and 100 mm from the batten
	assert.Greater(t, near, 4*far)
}

// What cannot be followed is said, and the strip formula stands alone.
func TestLineThatCannotBeFollowed(t *testing.T) {
	o := splitPanel(t, 400)
	o.Boards[1].GrainSlope = 6
	l := one(t, planned(t, o, Coarse), 0.35).Lines[0]
	assert.False(t, l.Elements)
	assert.Contains(t, l.Why, "grain")
	assert.Positive(t, l.Strip)
	none := splitPanel(t, 150)
	none.Battens = nil
	free := one(t, planned(t, none, Coarse), 0.35).Lines[0]
	assert.Zero(t, free.Slow, "nothing holds it, nothing drives it")
}

// Shorter than the process zone of spruce (25 mm) strength decides where it is worse than toughness; a long line is judged by
// toughness alone.
func TestShortLinesByStrength(t *testing.T) {
	short, long := one(t, planned(t, splitPanel(t, 1), Coarse), 0.30), one(t, planned(t, splitPanel(t, 300), Coarse), 0.30)
	assert.Equal(t, fracture.ByToughness, long.Lines[0].By)
	assert.Equal(t, fracture.ByStress, short.Lines[0].By)
	share := demand(t, short, CheckGrowth, "split.top").Share()
	assert.Greater(t, share, math.Sqrt(short.Lines[0].Slow/short.Lines[0].Toughness))
}

func BenchmarkLineByElements(b *testing.B) {
	for _, set := range []Setting{Coarse, Fine} {
		b.Run(set.String(), func(b *testing.B) {
			c := planned(b, splitPanel(b, 150), set)
			for b.Loop() {
				c.planned.elements = nil
				if e := c.byElements(0); e.why != "" {
					b.Fatal(e.why)
				}
			}
		})
	}
}
