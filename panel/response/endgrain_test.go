package response

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/species"
)

// refined settles a panel with the elements.
func refined(t testing.TB, o *panel.Object, set Setting, rh ...moisture.RH) []State {
	t.Helper()
	c, err := Prepare(o, set)
	require.NoError(t, err)
	require.Empty(t, c.Refine())
	s, err := c.Settle(rh)
	require.NoError(t, err)
	return s
}

// curved is an oak board with rings about a pith that is known to lie so many mm behind its middle.
func curved(t testing.TB, name string, radius float64, heartFront bool) panel.Board {
	b := oakBoard(t, name, 200, 12, 0)
	b.RingRadius, b.HeartFront = radius, heartFront
	return b
}

// TestElementsAgreeWithClosedForms: without a ground and with wide rings, both ways solve the same
// problem: the exact map of each board, joined at the edge faces. Edges that do not match bend their boards
// by a hundredth of a millimetre more, which the closed form leaves out.
func TestElementsAgreeWithClosedForms(t *testing.T) {
	for name, o := range map[string]*panel.Object{
		"one board":        object(curved(t, "a", 150, false)),
		"three alike":      object(curved(t, "a", 200, false), curved(t, "b", 200, false), curved(t, "c", 200, false)),
		"hearts in turn":   object(curved(t, "a", 200, false), curved(t, "b", 200, true), curved(t, "c", 200, false)),
		"straight, unlike": object(oakBoard(t, "a", 200, 12, 90), oakBoard(t, "b", 200, 12, 0)),
	} {
		for _, s := range refined(t, o, Coarse, 0.35, 0.65) {
			assert.InDelta(t, s.Section.ClosedCup, s.Cup, 0.02*math.Abs(s.Section.ClosedCup)+0.015, "%s at %.0f", name, s.RH.Percent())
			assert.InDelta(t, s.Section.ClosedWidth, s.Width, 0.01*math.Abs(s.Section.ClosedWidth), "%s at %.0f", name, s.RH.Percent())
			assert.Zero(t, s.Section.Ground)
		}
	}
}

// TestHeartTurnedRoundTurnsTheWarpRound is a mirror of the section about its middle plane; the warp is read
// at the back face, 6 mm nearer to the pith or farther off.
func TestHeartTurnedRoundTurnsTheWarpRound(t *testing.T) {
	back := refined(t, object(curved(t, "a", 1000, false)), Coarse, 0.35)[0]
	front := refined(t, object(curved(t, "a", 1000, true)), Coarse, 0.35)[0]
	assert.Greater(t, math.Abs(back.Cup), 0.03)
	assert.InEpsilon(t, -back.Cup, front.Cup, 12.0/1000*1.05)
	// Dry: the flat-sawn board shrinks most on its bark side, which hollows that side (common practice).
	assert.Less(t, back.Cup, 0.0, "heart at the back, bark towards the viewer: hollow when dry")
	assert.Less(t, back.Width, 0.0, "dry is narrower")
}

// TestElementsWithGround: a ground alone on a quarter-sawn board bends it as a strip of two layers. The
// elements add Poisson's effect of the ground along the grain, 1/(1-0.3^2) on its stiffness.
func TestElementsWithGround(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 90))
	o.Front = panel.Face{Painted: true, Ground: "chalk-glue", GroundMM: 1, GroundState: "continuous", GroundE: 3000, GroundEIntact: 3000}
	for _, s := range refined(t, o, Fine, 0.3, 0.7) {
		ratio := s.Cup / s.Section.ClosedCup
		assert.Greater(t, ratio, 1.0, "at %.0f", s.RH.Percent())
		assert.Less(t, ratio, 1/(1-0.09)+0.02, "at %.0f", s.RH.Percent())
		assert.Less(t, math.Abs(s.Width), math.Abs(s.Section.ClosedWidth), "the ground holds back a part")
		assert.LessOrEqual(t, s.CupLow, s.Cup)
		assert.GreaterOrEqual(t, s.CupHigh, s.Cup)
	}
}

// TestUnknownGroundWidensTheWarp: what the ground may do stands between none and the stiffest.
func TestUnknownGroundWidensTheWarp(t *testing.T) {
	o := object(curved(t, "a", 150, false))
	bare := refined(t, o, Coarse, 0.35)[0]
	o.Front = panel.Face{Painted: true, Ground: panel.GroundNotRecorded, GroundMM: 1, GroundE: 900, GroundEIntact: 3000}
	s := refined(t, o, Coarse, 0.35)[0]
	assert.InDelta(t, bare.Cup, s.CupLow, 1e-9, "none at the one end")
	assert.Greater(t, s.CupHigh, s.Cup)
	assert.Greater(t, s.Section.Ground, 0.0)
	assert.Less(t, s.Section.Ground, 1.0)
}

// TestGradientBendsAsItIsTold: a straight gradient of moisture gives its curvature without stress.
func TestGradientBendsAsItIsTold(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 90))
	c, err := Prepare(o, Coarse)
	require.NoError(t, err)
	require.Empty(t, c.Refine())
	m := c.still()
	m.rh[0], m.mc[0], m.loop[0], m.bend[0] = o.UsedTo, c.boards[0].used, c.boards[0].used, 1e-5
	s, err := c.at(m)
	require.NoError(t, err)
	assert.InDelta(t, 1e-5*300*300/8, s.Cup, 1e-3*s.Cup)
	assert.InDelta(t, 0, s.Section.Front.Pull, 0.02)
	fast := c.newWarper()
	assert.InDelta(t, s.Cup, fast.of(m.mc, m.bend), 0.01*s.Cup, "the quick way of a course says the same")
}

// TestSectionExtremes: sizes at both ends, a pith inside, boards whose heart side is not known.
func TestSectionExtremes(t *testing.T) {
	for _, thick := range []float64{1, 200} {
		o := object(oakBoard(t, "a", 300, thick, 45))
		s := refined(t, o, Coarse, 0, 1)
		assert.Less(t, s[0].Width, 0.0)
		assert.Greater(t, s[1].Width, 0.0)
	}
	b := oakBoard(t, "a", 300, 30, 0)
	b.PithKnown, b.PithAcross, b.PithBehind = true, 150, -15
	s := refined(t, object(b), Coarse, 0.4)[0]
	assert.Equal(t, []string{"a"}, s.Section.Straight)
	unknown := curved(t, "a", 150, false)
	unknown.HeartKnown = false
	s = refined(t, object(unknown), Coarse, 0.4)[0]
	assert.InDelta(t, 0, s.Cup, 0.02, "half way between its two turns")
	assert.Less(t, s.CupLow, -0.1)
	assert.Greater(t, s.CupHigh, 0.1)
}

// TestSectionThatCannotBeMade keeps the closed forms and says why.
func TestSectionThatCannotBeMade(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 2, 90))
	o.Front = panel.Face{Painted: true, Ground: "chalk-glue", GroundMM: 3, GroundState: "continuous", GroundE: 3000, GroundEIntact: 3000}
	c, err := Prepare(o, Coarse)
	require.NoError(t, err)
	assert.Contains(t, c.Refine(), "ground")
	s, err := c.Settle([]moisture.RH{0.4})
	require.NoError(t, err)
	assert.Nil(t, s[0].Section)
	assert.NotZero(t, s[0].Cup)
}

// TestJoinOfUnlikeBoards: a flat-sawn board beside a quarter-sawn one wants to shrink more in thickness
// or width than its neighbour; what they do to one another sums to nothing.
func TestJoinOfUnlikeBoards(t *testing.T) {
	s := refined(t, object(oakBoard(t, "a", 200, 20, 20), oakBoard(t, "b", 200, 20, species.RingAngle(80))), Fine, 0.35)[0]
	require.Len(t, s.Section.Joins, 1)
	j := s.Section.Joins[0]
	assert.Equal(t, "b", j.Name)
	assert.InDelta(t, 0, j.N, 1e-6)
	assert.InDelta(t, 0, j.M, 1e-5)
	assert.Greater(t, j.Pull, 0.01)
}

func BenchmarkRefine(b *testing.B) {
	o := object(curved(b, "a", 200, false), curved(b, "b", 200, true), curved(b, "c", 200, false))
	o.Front = panel.Face{Painted: true, Ground: "chalk-glue", GroundMM: 1, GroundState: "continuous", GroundE: 3000, GroundEIntact: 3000}
	for _, set := range []Setting{Coarse, Fine} {
		b.Run(set.String(), func(b *testing.B) {
			c, err := Prepare(o, set)
			require.NoError(b, err)
			for b.Loop() {
				require.Empty(b, c.Refine())
			}
		})
	}
}

// TestYearKeepsTheRangesOfItsWarps: the least and greatest warp of a course come with what ground and
// heart side leave open, and with the error of one stiffness.
func TestYearKeepsTheRangesOfItsWarps(t *testing.T) {
	o := object(curved(t, "a", 150, false))
	o.Front = panel.Face{Painted: true, Ground: panel.GroundNotRecorded, GroundMM: 1, GroundE: 900, GroundEIntact: 3000, SdM: 1}
	c, err := Prepare(o, Coarse)
	require.NoError(t, err)
	require.Empty(t, c.Refine())
	var k gather
	y, err := c.Follow(context.Background(), made{hours: 8760, rh: swing(0.5, 0.2, 8760)}, &k)
	require.NoError(t, err)
	low, high := math.Inf(1), math.Inf(-1)
	for _, d := range y.Days {
		low, high = min(low, d.Warp[0]), max(high, d.Warp[1])
	}
	assert.LessOrEqual(t, y.Hollow[0], low+1e-9)
	assert.GreaterOrEqual(t, y.Round[1], high-1e-9)
	assert.Less(t, y.Hollow[0], y.Hollow[1])
	assert.Less(t, y.Round[0], y.Round[1])
	assert.Greater(t, y.OneStiffness[1], 0.02)
	assert.Less(t, y.OneStiffness[1], 0.5)
}

// TestBevelIsInTheSection: a back planed down towards the outer edges stiffens the ground's hold there.
func TestBevelIsInTheSection(t *testing.T) {
	ground := panel.Face{Painted: true, Ground: "chalk-glue", GroundMM: 1, GroundState: "continuous", GroundE: 3000, GroundEIntact: 3000}
	o := object(oakBoard(t, "a", 300, 15, 90))
	o.Front = ground
	whole := refined(t, o, Coarse, 0.35)[0]
	o.Boards[0].BevelWidth, o.Boards[0].BevelEdge = 60, 5
	s := refined(t, o, Coarse, 0.35)[0]
	assert.Equal(t, whole.Section.ClosedCup, s.Section.ClosedCup, "the closed form does not know bevels")
	assert.Greater(t, math.Abs(s.Cup-whole.Cup), 0.05*math.Abs(whole.Cup), "thin edges bend more")
	o.Boards[0].BevelWidth = 200
	c, err := Prepare(o, Coarse)
	require.NoError(t, err)
	assert.Contains(t, c.Refine(), "bevel")
}
