package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"crossgrain/moisture"
	"crossgrain/panel"
)

// keptBy is a flat-sawn panel on one stiff batten, warped as it stands.
func keptBy(t *testing.T, kind string, warp float64) *panel.Object {
	t.Helper()
	o := object(oakBoard(t, "a", 600, 12, 0))
	o.Boards[0].RingRadius = 3000 // so long that its free shape is a parabola too
	o.Warp, o.WarpKnown = warp, true
	o.Battens = []panel.Batten{{Name: "a", Wood: o.Boards[0].Wood, Y: 400, To: 600, Width: 60, Depth: 60, Side: "back", Fixing: kind,
		Fixings: nails(5, 40, 560, 0.01, math.Inf(1))}}
	return o
}

// pressed is the greatest force across the thickness at one fixing.
func pressed(s State) float64 { return size(s.Restraints[0].Lift) }

// A batten fixed to a warped panel is at rest with it; one held by keepers leaves room behind a hollow back, into which the
// panel goes without force, not out of it; it never stands off a straight batten that lies against a flat panel.
func TestPresentWarpAndBattens(t *testing.T) {
	for _, rh := range []float64{0.42, 0.58} {
		at := func(kind string, warp float64) State {
			return one(t, planned(t, keptBy(t, kind, warp), Coarse), moisture.RH(rh))
		}
		assert.InDelta(t, pressed(at("nailed", 0)), pressed(at("nailed", 12)), 1e-9, "fitted to it")
		flat := at("held by keepers", 0)
		assert.Positive(t, pressed(flat))
		hollow, bulging := at("held by keepers", 40), at("held by keepers", -40)
		into := flat.Cup < 0 // the middle goes back, into the room behind a rounded panel
		free, held := hollow, bulging
		if !into {
			free, held = bulging, hollow
		}
		// free and held it bends to parabolas, so it goes half way from one to the other before it lies on the batten, and all the way
		// where that is as far off as it bends
		half, just := at("held by keepers", -flat.Shape.FreeWarp/2), at("held by keepers", -flat.Shape.FreeWarp)
		assert.InEpsilon(t, (flat.Shape.FreeWarp+flat.Shape.Warp)/2, half.Shape.Warp, 0.03)
		assert.Positive(t, pressed(half))
		assert.Less(t, pressed(just), 0.02*pressed(flat))
		assert.InEpsilon(t, flat.Shape.FreeWarp, just.Shape.Warp, 0.02)
		assert.Less(t, pressed(free), 0.02*pressed(flat), "into the room")
		assert.InDelta(t, free.Shape.FreeWarp, free.Shape.Warp, 0.02*math.Abs(free.Shape.FreeWarp))
		assert.Greater(t, pressed(held), 0.5*pressed(flat), "not out of it")
	}
}

// A batten glued at its middle is leant on where the panel goes back at its edges; behind a panel that falls away from it they
// first have room, and one that comes towards it has its batten shaped to lie.
func TestPresentWarpAndTheMiddle(t *testing.T) {
	at := func(warp float64) *Shape {
		o := keptBy(t, "glued at the middle", warp)
		o.Battens[0].GluedMiddle, o.Battens[0].Fixings = true, []panel.Fixing{{X: 300, Footprint: 40, Yield: math.Inf(1)}}
		return one(t, planned(t, o, Coarse), 0.58).Shape
	}
	flat := at(0)
	assert.Positive(t, flat.FreeWarp, "its edges go back")
	assert.Less(t, flat.Warp, 0.5*flat.FreeWarp)
	assert.Greater(t, at(-40).Warp, 0.8*flat.FreeWarp)
	assert.InDelta(t, flat.Warp, at(40).Warp, 1e-9)
	some := at(-0.3).Warp
	assert.Greater(t, some, flat.Warp, "leant on later")
	assert.Less(t, some, at(-40).Warp)
}

// The room by hand: a parabola over its chord, and over its tangent.
func TestStandsOff(t *testing.T) {
	c := planned(t, keptBy(t, "held by keepers", 10), Coarse)
	b := &c.o.Battens[0]
	b.Fixings = []panel.Fixing{{X: 0}, {X: 150}, {X: 300}, {X: 600}}
	assert.InDelta(t, 10, c.standsOff(b, 300), 1e-12)
	assert.InDelta(t, 7.5, c.standsOff(b, 150), 1e-12)
	assert.Zero(t, c.standsOff(b, 0))
	b.Fixings = []panel.Fixing{{X: 150}, {X: 300}, {X: 450}}
	assert.InDelta(t, 2.5, c.standsOff(b, 300), 1e-12, "a quarter over half the chord")
	b.Side = "front"
	assert.Zero(t, c.standsOff(b, 300))
	assert.InDelta(t, 2.5, c.standsOff(b, 450), 1e-12)
	b.Fixings = []panel.Fixing{{X: 300}}
	assert.InDelta(t, 2.5, c.fallsAway(b, 450), 1e-12)
	b.Side = "back"
	assert.Zero(t, c.fallsAway(b, 450))
}

// The room in depth that a frame must have counts from the warped state.
func TestDepthFromTheWarpedState(t *testing.T) {
	depth := func(warp float64) float64 {
		o := keptBy(t, "nailed", warp)
		o.Frame = &panel.Frame{ClearDepth: 30, Sides: map[string]panel.FrameSide{}}
		return demand(t, one(t, planned(t, o, Coarse), 0.40), FrameBound, "frame.depth").Value
	}
	cup := one(t, planned(t, keptBy(t, "nailed", 0), Coarse), 0.40).Cup
	assert.InDelta(t, math.Abs(cup), depth(0), 1e-12)
	assert.InDelta(t, math.Abs(cup+8), depth(8), 1e-12)
	assert.InDelta(t, math.Abs(cup-8), depth(-8), 1e-12)
}
