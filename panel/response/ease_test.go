package response

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/restraint"
)

// battened makes an invented panel of flat-sawn oak boards 200 mm wide, heart in front, on 1 mm of
// ground, with battens of oak 40 mm wide.
func battened(t testing.TB, boards, battens int, thickness, depth float64) *panel.Object {
	t.Helper()
	var made []panel.Board
	for i := range boards {
		b := oakBoard(t, fmt.Sprint(i+1), 200, thickness, 0)
		b.RingRadius, b.HeartFront = 150, true
		made = append(made, b)
	}
	o := object(made...)
	o.Front = panel.Face{Painted: true, Ground: "chalk-glue", GroundMM: 1, GroundState: "continuous", GroundE: 3000, GroundEIntact: 3000}
	for i := range battens {
		x := panel.Batten{Name: fmt.Sprint(i + 1), Wood: made[0].Wood, Width: 40, Depth: depth, Side: "back", Fixing: "nailed", To: o.Across, Y: o.Along * (float64(i) + 0.5) / float64(battens)}
		for _, at := range []float64{40, o.Across / 2, o.Across - 40} {
			x.Fixings = append(x.Fixings, panel.Fixing{X: at, Footprint: 10, Slip: 600, Yield: 400})
		}
		o.Battens = append(o.Battens, x)
	}
	return o
}

func eased(t testing.TB, o *panel.Object, l EaseLimits) (*Case, Ease) {
	t.Helper()
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	e, err := c.Ease([2]moisture.RH{0.35, 0.65}, l)
	require.NoError(t, err)
	return c, e
}

// The upper limit by hand: panel and batten take one curvature, so of the warp the batten holds
// R = EI/(EI + D) with D relaxed, and the face of the panel is stressed E t/2 R kappa, kappa = 8 w/L^2
// (beams of one curvature side by side: S. Timoshenko, Strength of Materials, part I, beams of two materials). The batten
// is taken at its stiff end: E_L exp(1.645 sqrt(ln(1 + 0.22^2))), the scatter of the Wood Handbook 2021, table 5-6.
func TestEaseUpperLimitByHand(t *testing.T) {
	c, e := eased(t, battened(t, 2, 2, 12, 30), EaseLimits{Line: 0.1})
	b := &c.boards[0]
	d := b.stiff * 12 * 12 * 12 / 12 * 800 / 2 * b.left
	r := e.Bounds.Most / (e.Bounds.Most + d)
	warp := math.Max(math.Abs(e.Warp[0]), math.Abs(e.Warp[1]))
	s, err := c.Settle(e.Range[:])
	require.NoError(t, err)
	assert.Equal(t, math.Max(math.Abs(s[0].Cup), math.Abs(s[1].Cup)), e.Described)
	assert.GreaterOrEqual(t, e.Loose, e.Bounds.Most, "as described it warps no more than at the worst")
	stress := b.stiff * b.left * 12 / 2 * r * 8 * warp / (400 * 400)
	// nails: 400 mm apart at most, one of three outside the middle on each of two battens, 17.5 N assumed
	friction := 17.5 * 2 / (800 * 12)
	assert.InEpsilon(t, 0.1*b.breaks*b.stiff*b.left, stress+friction, 1e-9)
	el := b.Wood.EL * math.Exp(1.6449*math.Sqrt(math.Log(1+0.22*0.22)))
	p := e.Present[0]
	assert.InEpsilon(t, math.Cbrt(12*e.Bounds.Most/(el*40)), p.Does.Most, 1e-3, "depth for its width")
	assert.True(t, p.Above)
	assert.LessOrEqual(t, p.To, p.Does.Most)
	assert.Greater(t, p.To, p.Does.Most-0.5)
	for _, over := range []float64{-0.1, 0.1} {
		_, near := eased(t, battened(t, 2, 2, 12, p.Does.Most+over), EaseLimits{Line: 0.1})
		assert.Equal(t, over > 0, near.Present[0].Above)
		assert.Equal(t, over > 0, near.Present[0].To > 0, "one within the limit is left as it is")
	}
	assert.Equal(t, e.Depth, p.To, "fixings are counted for the planed batten")
}

// The lower limit by hand: 5 q L^4/[384 (D + EI/b)] is half a thickness (beam on two supports, evenly
// loaded: S. Timoshenko, Strength of Materials, part I).
func TestEaseLowerLimitByHand(t *testing.T) {
	c, e := eased(t, battened(t, 6, 3, 5, 10), EaseLimits{})
	b := &c.boards[0]
	q := b.Wood.Density * 9.80665 * 1e-9 * 5
	width := 1200.0
	need := 5*q*math.Pow(width, 4)/384/2.5 - b.stiff*5*5*5/12 // for each mm of height
	require.Greater(t, need, 0.0)
	assert.InEpsilon(t, need*800/3, e.Bounds.Least, 1e-9)
	assert.Equal(t, restraint.Outside, e.Bare.Reach, "5 mm over 1.2 m")
	assert.True(t, e.Present[0].Below || e.Present[0].Depth > e.Present[0].Does.Least)
	for _, r := range e.Rows {
		assert.InEpsilon(t, 2.5, e.Easing.T*e.Limits.Sag, 1e-9)
		assert.LessOrEqual(t, r.Sag[1], 2.5+1e-9, "at least as deep as needed")
	}
}

// Halving a batten's depth leaves an eighth of E I (beam theory; T. Marchant 1998, in The Structural
// Conservation of Panel Paintings).
func TestEaseHalvedDepth(t *testing.T) {
	_, full := eased(t, battened(t, 2, 2, 12, 30), EaseLimits{})
	_, half := eased(t, battened(t, 2, 2, 12, 15), EaseLimits{})
	for i := range 2 {
		assert.InEpsilon(t, 8, full.Present[0].Stiffness[i]/half.Present[0].Stiffness[i], 1e-12)
	}
	odds := func(p EaseBatten) float64 { return p.Does.Held[0] / (1 - p.Does.Held[0]) }
	assert.InEpsilon(t, 8, odds(full.Present[0])/odds(half.Present[0]), 1e-9)
	assert.Equal(t, full.Bounds, half.Bounds, "the limits are the panel's, not the batten's")
	assert.Less(t, half.Present[0].Does.Sag[0], 12.0)
	assert.Greater(t, half.Present[0].Does.Sag[0], full.Present[0].Does.Sag[0])
}

func TestEaseSigns(t *testing.T) {
	o := battened(t, 3, 2, 12, 20)
	c, e := eased(t, o, EaseLimits{Line: 0.1})
	assert.Less(t, e.Easing.Swing.Dry, 0.0)
	assert.Greater(t, e.Easing.Swing.Damp, 0.0)
	// Slots by hand at the outermost fixing, 260 mm from the middle: shrinking and doubt inwards.
	last := e.Slots[len(e.Slots)-1]
	assert.Equal(t, 260.0, last.Distance)
	assert.InDelta(t, 260*(-e.Swing[0]/600+e.Easing.Swing.Doubt)+1, last.Inward, 1e-9)
	assert.InDelta(t, 5+2+260*((e.Swing[1]-e.Swing[0])/600+2*e.Easing.Swing.Doubt), last.Length, 1e-9)
	assert.Equal(t, 0.0, e.Slots[0].Distance)
	assert.InDelta(t, 7, e.Slots[0].Length, 1e-12, "shank and play alone at the fixed point")
	dry, err := c.Ease([2]moisture.RH{0.3, 0.4}, EaseLimits{})
	require.NoError(t, err)
	assert.Equal(t, 0.0, dry.Easing.Swing.Damp, "it is never wider than where it is used to")
	assert.Greater(t, dry.Warp[1], 0.5, "heart in front: rounds on drying")
	wider, err := c.Ease([2]moisture.RH{0.2, 0.8}, EaseLimits{Line: 0.1})
	require.NoError(t, err)
	assert.Less(t, wider.Bounds.Most, e.Bounds.Most, "a wider range allows less restraint")
	assert.Greater(t, wider.Room.Width, e.Room.Width)
	strict, err := c.Ease(e.Range, EaseLimits{Line: 0.07})
	require.NoError(t, err)
	assert.Less(t, strict.Bounds.Most, e.Bounds.Most)
	held, err := c.Ease(e.Range, EaseLimits{Share: 0.1})
	require.NoError(t, err)
	assert.InEpsilon(t, c.boards[0].stiff*12*12*12/12*800/2*e.Easing.Left/9, held.Bounds.Most, 1e-9, "EI/(EI+D) = 1/10")
}

func TestEaseWeakestLine(t *testing.T) {
	o := battened(t, 3, 2, 12, 20)
	o.Joins[1].StrengthOfSound, o.Joins[1].OpenEnd = 0.5, 200
	c, e := eased(t, o, EaseLimits{})
	assert.Equal(t, "join."+o.Joins[1].Name, e.Weakest.Part)
	assert.InEpsilon(t, 0.5*0.75*c.boards[1].bears(), e.Weakest.Stress, 1e-9, "half as strong, a quarter of 800 mm open")
	o.Splits = []panel.Split{{Name: "s", Board: 0, X: 100, End: 300, Depth: 9}}
	_, e = eased(t, o, EaseLimits{})
	assert.Equal(t, "split.s", e.Weakest.Part)
	assert.Equal(t, 3.0, e.Weakest.Bears, "9 of 12 mm deep")
	// Quarter-sawn oak keeps so much of a stress that its short strength decides.
	o = battened(t, 1, 1, 12, 20)
	o.Boards[0].Ring = 90
	c, e = eased(t, o, EaseLimits{})
	assert.InEpsilon(t, o.Boards[0].Ring.Tension(o.Boards[0].Wood), e.Weakest.Stress, 1e-9)
	assert.Less(t, e.Weakest.Stress, c.boards[0].breaks*c.boards[0].stiff*c.boards[0].left)
	// A board of its own thickness keeps its bending stiffness: E t^3.
	o = battened(t, 2, 2, 12, 20)
	o.Boards[1].Thickness = 6
	c, _ = eased(t, o, EaseLimits{})
	assert.InEpsilon(t, c.boards[1].stiff*6*6*6, c.folded()[0]*9*9*9, 1e-9)
	assert.InEpsilon(t, c.boards[0].stiff*12*12*12, c.folded()[1]*9*9*9, 1e-9)
}

func TestEaseExtremes(t *testing.T) {
	for _, x := range []struct {
		boards, battens  int
		thickness, depth float64
	}{{1, 0, 18, 0}, {4, 0, 5, 0}, {4, 2, 5, 12}, {4, 2, 200, 12}, {20, 12, 15, 20}, {1, 1, 0.5, 300}, {2, 30, 20, 1}} {
		_, e := eased(t, battened(t, x.boards, x.battens, x.thickness, x.depth), EaseLimits{})
		assert.Len(t, e.Present, x.battens)
		assert.Equal(t, x.battens == 0, len(e.Rows) == 0, "no table of new battens")
		assert.Equal(t, x.battens == 0, len(e.Springs) == 0 && len(e.Slots) == 0)
		assert.GreaterOrEqual(t, e.Bounds.Least, 0.0)
		assert.False(t, math.IsNaN(e.Bounds.Most))
		for i := 1; i < len(e.Rows); i++ {
			assert.LessOrEqual(t, e.Rows[i].Most, e.Rows[i-1].Most, "wider, shallower")
		}
		switch x.thickness {
		case 5:
			assert.Equal(t, restraint.Outside, e.Bare.Reach)
			assert.Greater(t, e.Bounds.Least, 0.0)
		case 200:
			assert.Equal(t, 0.0, e.Bounds.Least, "it carries itself")
		}
	}
}

// A cradle's sliders count as battens; they pull with the friction of their notches.
func TestEaseCradle(t *testing.T) {
	o := battened(t, 2, 0, 9, 0)
	o.Cradle = cradle(t)
	_, e := eased(t, o, EaseLimits{})
	assert.Len(t, e.Present, 2)
	assert.Equal(t, "cradle.slider 1", e.Present[0].Part)
	assert.Equal(t, 80.0, e.Easing.Grip)
	assert.Contains(t, e.Limits.Widths, 28.0)
}

func TestEaseRefuses(t *testing.T) {
	c, err := Prepare(battened(t, 1, 1, 12, 20), Quick)
	require.NoError(t, err)
	for _, r := range [][2]moisture.RH{{0.6, 0.4}, {-0.1, 0.5}, {0.5, 1.1}, {moisture.RH(math.NaN()), 0.5}} {
		_, err := c.Ease(r, EaseLimits{})
		assert.ErrorContains(t, err, "to one not below it")
	}
	for _, l := range []EaseLimits{{Line: -1}, {Line: 2}, {Sag: -1}, {Share: 2}, {Load: -1}, {Play: math.NaN()}, {Shank: -1}, {Points: 2}, {Widths: []float64{0}}} {
		_, err := c.Ease([2]moisture.RH{0.4, 0.6}, l)
		assert.Error(t, err, "%+v", l)
	}
	for _, r := range [][2]moisture.RH{{0, 1}, {0.5, 0.5}} {
		_, err = c.Ease(r, EaseLimits{})
		assert.NoError(t, err)
	}
}

func BenchmarkEase(b *testing.B) {
	c, err := Prepare(battened(b, 3, 2, 12, 20), Quick)
	require.NoError(b, err)
	for b.Loop() {
		if _, err := c.Ease([2]moisture.RH{0.35, 0.65}, EaseLimits{}); err != nil {
			b.Fatal(err)
		}
	}
}
