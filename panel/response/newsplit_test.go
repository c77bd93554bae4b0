package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
)

// places are all candidates of a state by the closed forms.
func places(t *testing.T, c *Case, rh moisture.RH) []candidates {
	t.Helper()
	m := c.settled([]moisture.RH{rh, rh, rh}[:len(c.boards)])
	res, err := c.closed(m, make([]float64, len(c.boards)))
	require.NoError(t, err)
	return c.newSplits(closedHolding{c, res}, c.holders(), res)
}

func place(t *testing.T, l candidates, at SplitAt, of string) NewSplit {
	t.Helper()
	p := l.like(NewSplit{At: at, Of: of})
	require.NotNil(t, p, "%s %s", at, of)
	return *p
}

// Two nails on one batten, by hand: half of the force F in the strip passes their line in the mean of both sides, F/(2 E t W), and the nail
// itself adds its own pull, F/(2 L t E) spread over its patch.
func TestNewSplitAtANail(t *testing.T) {
	c, err := Prepare(onBattens(t, 1, nails(2, 50, 550, 600, math.Inf(1))), Quick)
	require.NoError(t, err)
	s := one(t, c, 0.40)
	f, b := math.Abs(s.Restraints[0].Fixing[0]), &c.boards[0]
	e := b.stiff * b.left
	p := place(t, places(t, c, 0.40)[0], SplitFixing, "batten.a")
	own := p.Strain - f/2/(e*b.Thickness*c.restraints[0].spread.Width())
	assert.GreaterOrEqual(t, own, c.local(0, f, 20, 20, 1), "bending, which goes with the pull, comes on top")
	assert.InEpsilon(t, c.local(0, f, 20, 20, 1), own, 0.15)
	assert.Less(t, own, f/(2*25*b.Thickness)/e)
	assert.Greater(t, own, f/(2*25*b.Thickness)/e/2)

	// A nail that yields hands over less.
	soft, err := Prepare(onBattens(t, 1, nails(2, 50, 550, 600, f/2)), Quick)
	require.NoError(t, err)
	assert.Less(t, place(t, places(t, soft, 0.40)[0], SplitFixing, "batten.a").Strain, 0.7*p.Strain)
}

// The own pull of a nail by elements in a small panel, cells of 3 to 5 mm: half of the step in the mean over the zone along the grain,
// from one side to the other. The closed form gives the same within 6 % from 5 to 20 mm away (the elements feel the panel's edges).
func TestNewSplitOwnPullByElements(t *testing.T) {
	o := object(oakBoard(t, "a", 200, 12, 0))
	o.Along = 240
	fix := nails(2, 60, 140, 600, math.Inf(1))
	fix[0].Footprint, fix[1].Footprint = 6, 6
	o.Battens = []panel.Batten{{Name: "a", Wood: o.Boards[0].Wood, Y: 120, To: 200, Width: 40, Depth: 20, Side: "back", Fixing: "nailed", Fixings: fix}}
	c, err := Prepare(o, Fine)
	require.NoError(t, err)
	c.planned, err = c.newWhole(nil)
	require.NoError(t, err)
	s := one(t, c, 0.35)
	r, b := &s.Restraints[0], &c.boards[0]
	assert.Negative(t, r.Fixing[0], "dried wood is drawn outwards")
	assert.Positive(t, r.Fixing[1])
	for _, d := range [...]float64{5, 10, 15, 20} {
		var side [2]float64
		for i, x := range [2]float64{r.X[0] - d, r.X[0] + d} {
			for y := -12.0; y <= 12; y++ {
				at := c.planned.a.Station(x, r.Y+y, 0, false)
				n, _ := at.Read(s.stood.force, s.stood.load)
				side[i] += n / 25
			}
		}
		assert.InEpsilon(t, (side[1]-side[0])/2, c.local(0, r.Fixing[0], 2*d, 10, 1)*b.stiff*b.left*b.Thickness, 0.06, "%g mm", d)
	}
}

// The mean of both sides of a nail: read anew from the plan, and as the pulls of its image behind the edge 50 mm away, of the other nail
// and of that one's image (further images left out). By equilibrium alone, the strip evenly pulled, it is less.
func TestNewSplitBesideANail(t *testing.T) {
	c, err := Prepare(onBattens(t, 1, nails(2, 50, 550, 600, math.Inf(1))), Coarse)
	require.NoError(t, err)
	require.Empty(t, c.Refine())
	s := one(t, c, 0.40)
	closed, err := c.closed(c.settled([]moisture.RH{0.40, 0.40, 0.40}), make([]float64, 3))
	require.NoError(t, err)
	by, plain := plannedHolding{c, s.stood}, closedHolding{c, closed}
	for i, x := range s.Restraints[0].X {
		b := &c.boards[c.boardAt(x)]
		d, across := 10.0, c.planned.holders[0].fix[i].Footprint
		if across > d {
			d = across
		}
		var n float64
		for _, at := range [2]float64{x - d, x + d} {
			st := c.planned.a.Station(at, 400, c.planned.slabAt(at), false)
			side, _ := st.Read(s.stood.force, s.stood.load)
			n += side / 2
		}
		got, strip := by.beside(0, i).mid, plain.beside(0, i).mid
		assert.InEpsilon(t, n/(b.stiff*b.left*b.Thickness), got, 0.01)
		assert.Positive(t, strip)
		assert.Greater(t, got, strip)
		var images float64
		for _, far := range [...]float64{100, 500, 600} {
			images += c.local(c.boardAt(x), s.Restraints[0].Fixing[i], 2*far, across, 1)
		}
		assert.InEpsilon(t, images, got, 0.1)
	}
}

// No wood can be pulled at an edge that a force points away from.
func TestNewSplitAtAnEdge(t *testing.T) {
	c, err := Prepare(object(oakBoard(t, "a", 300, 15, 0)), Quick)
	require.NoError(t, err)
	for _, q := range []struct{ x, force, across, want float64 }{
		{0, 1, 0, 0}, {0, -1, 0, 1}, {300, -1, 0, 0}, {300, 1, 0, 1}, {150, 1, 10, 1}, {150, -1, 10, 1},
		{12.5, 1, 0, 0.5}, {12.5, 1, 10, 0.3}, {287.5, -1, 10, 0.3}, {2, 1, 10, 0},
	} {
		assert.InDelta(t, q.want, c.room(q.x, q.force, q.across), 1e-12, "%+v", q)
	}
}

// A butterfly holds wood that dries, and pulls at the wood beyond its ends when it swells.
func TestNewSplitAtAnInsert(t *testing.T) {
	o := object(oakBoard(t, "a", 400, 15, 0))
	n := oakBoard(t, "x", 1, 1, 0).Wood
	o.Inserts = []panel.Insert{{Name: "i", Kind: "butterfly", Wood: n, X: 200, Y: 400, AcrossGrain: true, Length: 80, Width: 30, Depth: 8, Fixed: 0.5}}
	for _, set := range [...]Setting{Quick, Coarse} {
		c, err := Prepare(o, set)
		require.NoError(t, err)
		if set != Quick {
			require.Empty(t, c.Refine())
		}
		for _, rh := range [...]moisture.RH{0.35, 0.65} {
			s := one(t, c, rh)
			require.Len(t, s.Splits, 1)
			assert.Equal(t, SplitInsert, s.Splits[0].At, "%v %v", set, rh)
			assert.Equal(t, "insert.i", s.Splits[0].Of)
			assert.Positive(t, s.Splits[0].Share())
			d := demand(t, s, WoodSplit, "board.a")
			assert.InDelta(t, s.Splits[0].Share(), d.Share(), 1e-12, "the worst place decides")
		}
		assert.InDelta(t, 0, one(t, c, 0.5).Splits[0].Share(), 1e-9, "nothing is held where it was fixed")
	}
}

// Under a channel of half the thickness the pull of its member is as far greater as the closed form of the sheet says; a nail in it has
// half the wood to pull at. A batten that lets go leaves a channel that asks nothing, and one as deep as the board is taken to leave a tenth.
func TestNewSplitUnderAChannel(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 0), oakBoard(t, "b", 300, 15, 0))
	o.Battens = []panel.Batten{rigid(400)}
	at := func(depth float64) NewSplit {
		o.Battens[0].ChannelDepth = depth
		c, err := Prepare(o, Quick)
		require.NoError(t, err)
		kind := SplitMiddle
		if depth > 0 {
			kind = SplitChannel
			assert.Equal(t, kind, one(t, c, 0.45).Splits[0].At)
		}
		for _, l := range places(t, c, 0.45)[0] {
			if l.At == kind && l.Strain > 0 {
				return l
			}
		}
		t.Fatalf("%s: no such place", kind)
		return NewSplit{}
	}
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	m, half, deep := at(0), at(7.5), at(15)
	x := c.restraints[0].width / 2 / c.restraints[0].spread.Decay
	assert.InEpsilon(t, (1-1/(math.Cosh(x)+math.Sinh(x)/2))*2/(1-math.Exp(-x)), half.Strain/m.Strain, 1e-9, "nothing bends here")
	assert.Greater(t, half.Strain, m.Strain)
	assert.Greater(t, deep.Strain, half.Strain)
	assert.Less(t, deep.Strain, 10*m.Strain)

	// A nail in the channel: the same force in half the wood.
	o = onBattens(t, 1, nails(2, 50, 550, 600, math.Inf(1)))
	whole, err := Prepare(o, Quick)
	require.NoError(t, err)
	o.Battens[0].ChannelDepth = o.Boards[0].Thickness / 2
	cut, err := Prepare(o, Quick)
	require.NoError(t, err)
	f := math.Abs(one(t, cut, 0.40).Restraints[0].Fixing[0])
	more := place(t, places(t, cut, 0.40)[0], SplitFixing, "batten.a").Strain - place(t, places(t, whole, 0.40)[0], SplitFixing, "batten.a").Strain
	assert.InEpsilon(t, whole.local(0, f, 20, 20, 1), more, 1e-9)

	o.Battens[0].Empty, o.Battens[0].Fixings = true, nil
	for _, set := range [...]Setting{Quick, Coarse} {
		c, err := Prepare(o, set)
		require.NoError(t, err)
		if set != Quick {
			_ = c.Refine()
		}
		for _, n := range one(t, c, 0.40).Splits {
			assert.Zero(t, n.Share())
		}
	}
	o.Battens[0].Empty, o.Battens[0].Fixing = false, "nothing"
	c, err = Prepare(o, Coarse)
	require.NoError(t, err)
	require.Empty(t, c.Refine())
	for _, n := range one(t, c, 0.40).Splits {
		assert.Zero(t, n.Share())
	}
}

// Sapwood and a back of half the strength bear half; sapwood outside what is held bears nothing, and a board without insects has neither.
func TestNewSplitInWeakZones(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 0), oakBoard(t, "b", 300, 15, 0))
	o.Battens = []panel.Batten{rigid(400)}
	settled := func(set Setting) State {
		c, err := Prepare(o, set)
		require.NoError(t, err)
		if set != Quick {
			require.Empty(t, c.Refine())
		}
		return one(t, c, 0.45)
	}
	for _, set := range [...]Setting{Quick, Coarse} {
		sound := settled(set).Splits[0]
		assert.Equal(t, SplitMiddle, sound.At, "under the glued batten")
		o.Boards[0].SapRight = 0.5
		sap := settled(set).Splits[0]
		assert.Equal(t, SplitSapwood, sap.At)
		assert.Equal(t, "right", sap.Of)
		assert.InEpsilon(t, 0.5, sap.Bears/sound.Bears, 1e-9)
		assert.InEpsilon(t, 2*sound.Share(), sap.Share(), 0.15)
		o.Boards[0].SapRight, o.Boards[0].WeakBack = 0, 0.5
		assert.Equal(t, SplitBack, settled(set).Splits[0].At)
		o.Boards[0].WeakBack = 0
	}
	o.Boards[0].SapLeft = 0.5
	o.Battens[0].From = 100
	assert.NotEqual(t, SplitSapwood, settled(Quick).Splits[0].At, "no member reaches over it")
}

func TestNewSplitExtremes(t *testing.T) {
	o := onBattens(t, 2, nails(6, 40, 560, 600, 400))
	o.Boards[0].SapLeft, o.Boards[1].WeakBack = 0.05, 0.05
	o.Battens[0].ChannelDepth = 12
	for _, set := range [...]Setting{Quick, Coarse} {
		c, err := Prepare(o, set)
		require.NoError(t, err)
		if set != Quick {
			require.Empty(t, c.Refine())
		}
		for _, rh := range [...]moisture.RH{0, 0.5, 1} {
			for _, n := range one(t, c, rh).Splits {
				assert.False(t, math.IsNaN(n.Share()) || math.IsInf(n.Share(), 0), "%v at %v", n, rh)
				assert.GreaterOrEqual(t, n.Strain, 0.0)
			}
		}
	}
	c, err := Prepare(object(oakBoard(t, "a", 300, 15, 0)), Quick)
	require.NoError(t, err)
	assert.Empty(t, one(t, c, 0.3).Splits, "nothing holds it")
}
