package response

import (
	"context"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/species"
)

// board makes an oak board; straight rings unless changed.
func oakBoard(t testing.TB, name string, width, thickness float64, ring species.RingAngle) panel.Board {
	t.Helper()
	w, err := species.Lookup("oak")
	require.NoError(t, err)
	n, _ := w.Numbers(species.Draw{})
	return panel.Board{
		Name: name, WoodName: w.Name, Wood: n, Sorption: w.Sorption(), Width: width, Thickness: thickness,
		ThicknessLeft: thickness, ThicknessRight: thickness, Ring: ring, RingRadius: math.Inf(1),
		HeartKnown: true, StiffnessReduction: 1,
	}
}

func object(boards ...panel.Board) *panel.Object {
	o := &panel.Object{Along: 800, UsedTo: 0.5, Temperature: 20, Boards: boards}
	for i := range o.Boards {
		o.Boards[i].Left = o.Across
		o.Across += o.Boards[i].Width
	}
	for i := 1; i < len(boards); i++ {
		o.Joins = append(o.Joins, panel.Join{
			Name: boards[i].Name, X: o.Boards[i].Left, Left: i - 1, Right: i, StrengthOfSound: 1,
		})
	}
	return o
}

func settle(t *testing.T, o *panel.Object, rh ...moisture.RH) []State {
	t.Helper()
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	s, err := c.Settle(rh)
	require.NoError(t, err)
	return s
}

func demand(t *testing.T, s State, m Mode, part string) Demand {
	t.Helper()
	for _, d := range s.Demands {
		if d.Mode == m && d.Part == part {
			return d
		}
	}
	t.Fatalf("no demand %s of %s", m, part)
	return Demand{}
}

func TestMovementByHand(t *testing.T) {
	// A quarter-sawn board of 200 mm: its width is radial, so the change is width, times 0.165 % per
	// % MC (oak, R, mean of the sources in panel_wood_defaults), times the change of moisture content
	// of the mean of the oak branches of Bratasz and others, Table 1: at 50 % RH (7.790 + 10.624)/2, at
	// 35 % (5.897 + 8.270)/2.
	s := settle(t, object(oakBoard(t, "a", 200, 15, 90)), 0.35)
	du := (5.897+8.270)/2 - (7.790+10.624)/2
	assert.InDelta(t, 200*0.00165*du, s[0].Width, 0.003, "width, mm")
	assert.InDelta(t, (5.897+8.270)/2, s[0].MC.Percent(), 0.001, "moisture content, %")

	// The same board flat-sawn: 0.355 % per % MC (T).
	f := settle(t, object(oakBoard(t, "a", 200, 15, 0)), 0.35)
	assert.InDelta(t, 200*0.00355*du, f[0].Width, 0.003)
	assert.Less(t, math.Abs(f[0].WidthLoop), math.Abs(f[0].Width), "the loop is the smaller end for oak")
	assert.Less(t, f[0].WidthLoop, 0.0, "dry shrinks along the loop too")
}

func TestSigns(t *testing.T) {
	b := oakBoard(t, "a", 300, 15, 0)
	b.RingRadius = 150
	b.HeartFront = true
	front := settle(t, object(b), 0.3, 0.5, 0.7)
	assert.Less(t, front[0].Width, 0.0, "dry shrinks")
	assert.Greater(t, front[2].Width, 0.0, "damp swells")
	assert.InDelta(t, 0, front[1].Width, 1e-12, "nothing moves at the used-to humidity")
	// On drying a board hollows on its bark side: with the heart at the front the painted face rounds.
	assert.Greater(t, front[0].Cup, 0.5)
	assert.Less(t, front[2].Cup, -0.5)
	b.HeartFront = false
	assert.InDelta(t, -front[0].Cup, settle(t, object(b), 0.3)[0].Cup, 0.15*front[0].Cup, "turned board, turned warp")
	b.HeartKnown = false
	u := settle(t, object(b), 0.3)[0]
	assert.Less(t, u.CupLow, -0.5, "an unknown heart side gives a warp of unknown direction")
	assert.Greater(t, u.CupHigh, 0.5)
}

func TestGroundRoundsADryPanel(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 90))
	o.Front = panel.Face{Painted: true, Ground: "chalk-glue", GroundMM: 1, GroundState: "continuous", GroundE: 3000, GroundEIntact: 3000}
	s := settle(t, o, 0.3, 0.7)
	assert.Greater(t, s[0].Cup, 0.2, "the ground does not shrink with the wood")
	assert.Less(t, s[0].GroundStrain[1], 0.0, "it is pressed")
	assert.Less(t, s[1].Cup, -0.2)
	assert.Greater(t, s[1].GroundStrain[1], 0.0)
	assert.True(t, math.IsNaN(s[0].GroundStrain[0]), "no ground at the back")
	d := demand(t, s[1], GroundCracking, "face.front")
	assert.InDelta(t, 0.0025, d.Capacity, 1e-12, "brittle gesso, Richard, Mecklenburg & Tumosa 1998")
	assert.False(t, d.Mode.SetsRange())
}

// rigid is a batten so stiff and so fixed that the panel cannot move along it.
func rigid(y float64) panel.Batten {
	w, _ := species.Lookup("oak")
	n, _ := w.Numbers(species.Draw{})
	n.EL = 1e7
	return panel.Batten{
		Name: "b", Wood: n, Y: y, From: 0, To: 600, Width: 60, Depth: 60, Side: "let in", Fixing: "glued", Glued: true, Fixed: 0.5,
	}
}

func TestARigidBattenHoldsTheFreeStrain(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 0), oakBoard(t, "b", 300, 15, 0))
	o.Battens = []panel.Batten{rigid(400)}
	s := settle(t, o, 0.45)[0]
	free := -s.Width / 600 // positive: withheld shrinkage pulls
	held := s.Restraints[0].Held[0]
	assert.InDelta(t, free, held, 0.12*free, "Hooke, rigid hold: all the free strain is held")
	d := demand(t, s, WoodSplit, "board.a")
	assert.GreaterOrEqual(t, d.Value, held)
	assert.Zero(t, demand(t, s, CompressionSet, "board.a").Value)
	wet := settle(t, o, 0.55)[0]
	assert.Zero(t, demand(t, wet, WoodSplit, "board.a").Value)
	assert.Positive(t, demand(t, wet, CompressionSet, "board.a").Value)
}

func TestWithoutRestraintNothingIsHeld(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 0), oakBoard(t, "b", 300, 15, 90))
	o.Splits = []panel.Split{{Name: "s", Board: 0, X: 100, Start: 600, End: 800, Through: true}}
	for _, s := range settle(t, o, 0.05, 0.95) {
		assert.Empty(t, s.Restraints)
		assert.Zero(t, demand(t, s, CheckGrowth, "split.s").Value)
		assert.False(t, s.Lines[0].Grows)
	}
}

func TestASplitRunsTowardsAGluedBatten(t *testing.T) {
	share := func(length float64) float64 {
		o := object(oakBoard(t, "a", 600, 15, 0))
		o.Along = 1000
		o.Battens = []panel.Batten{rigid(300)}
		o.Splits = []panel.Split{{Name: "s", Board: 0, X: 300, Start: 1000 - length, End: 1000, Through: true}}
		return demand(t, settle(t, o, 0.35)[0], CheckGrowth, "split.s").Share()
	}
	far, near := share(150), share(550)
	assert.Less(t, far, 0.7*near, "quiet at first, driven harder the nearer its tip comes")
	assert.Positive(t, far)
}

func TestExtremes(t *testing.T) {
	for _, thick := range []float64{1, 200} {
		o := object(oakBoard(t, "a", 300, thick, 30), oakBoard(t, "b", 300, thick, -30))
		o.Battens = []panel.Batten{rigid(400)}
		for _, s := range settle(t, o, 0, 0.05, 0.95, 1) {
			for _, v := range []float64{s.Width, s.Cup, s.CupLow, s.CupHigh, s.CupPassing, s.WidthLoop} {
				assert.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%g mm at %v", thick, s.RH)
			}
			for _, d := range s.Demands {
				assert.False(t, math.IsNaN(d.Value) || d.Value < 0, "%+v", d)
				assert.Positive(t, d.Capacity, "%+v", d)
			}
		}
	}
	many := make([]panel.Board, 20)
	for i := range many {
		many[i] = oakBoard(t, string(rune('a'+i)), 60, 12, species.RingAngle(9*i-90))
	}
	s := settle(t, object(many...), 0.3)[0]
	assert.Len(t, s.BoardChange, 20)
	assert.Len(t, s.Stations, len(s.Profile))
}

func TestRefusals(t *testing.T) {
	o := object(oakBoard(t, "a", 300, 15, 0))
	_, err := Prepare(o, Fine+1)
	assert.ErrorContains(t, err, "setting must be")
	_, err = Prepare(&panel.Object{}, Quick)
	assert.ErrorContains(t, err, "no board")
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	for _, rh := range []moisture.RH{-0.1, 1.2, moisture.RH(math.NaN())} {
		_, err = c.Settle([]moisture.RH{rh})
		assert.ErrorContains(t, err, "between 0 and 100")
	}
}

type steps struct{ low, mid, high float64 }

func (s steps) RunningMean(time.Duration) (low, mid, high float64, err error) {
	return s.low, s.mid, s.high, nil
}

type keep []State

func (k *keep) Take(s *State) error { *k = append(*k, *s); return nil }

func TestThroughARecordAtQuick(t *testing.T) {
	c, err := Prepare(object(oakBoard(t, "a", 300, 15, 0)), Quick)
	require.NoError(t, err)
	var k keep
	end, err := c.Through(context.Background(), steps{0.3, 0.45, 0.6}, &k)
	require.NoError(t, err)
	assert.Equal(t, Ending{Steps: 3, Why: "done"}, end)
	require.Len(t, k, 3)
	assert.Equal(t, []string{"driest", "middle", "dampest"}, []string{k[0].Label, k[1].Label, k[2].Label})
	want, err := c.Settle([]moisture.RH{0.3})
	require.NoError(t, err)
	assert.InDelta(t, want[0].Width, k[0].Width, 1e-12)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = c.Through(ctx, steps{}, &k)
	assert.ErrorIs(t, err, context.Canceled)
}

func TestResponseTimesOrder(t *testing.T) {
	o := object(oakBoard(t, "thin", 300, 8, 0), oakBoard(t, "thick", 300, 24, 0))
	o.Front = panel.Face{Painted: true, SdM: 2}
	bare, err := Prepare(o, Quick)
	require.NoError(t, err)
	b, err := bare.Boards()
	require.NoError(t, err)
	assert.Greater(t, b[1].Window, 5*b[0].Window, "the square of the thickness, less what the films take")
	assert.Less(t, b[0].Half, b[0].Window/3)
	o.Back = panel.Face{SdM: 3} // wax
	waxed, err := Prepare(o, Quick)
	require.NoError(t, err)
	w, err := waxed.Boards()
	require.NoError(t, err)
	assert.Greater(t, w[0].Window, 2*b[0].Window, "a coated back slows it down")
}

func TestModesAreClosed(t *testing.T) {
	assert.Equal(t, []Mode{
		"join_tension", "wood_split", "check_growth", "compression_set", "rippling", "ground_cracking",
		"ground_cleavage", "fixing_overload", "slot_exhausted", "frame_bound", "handling",
	}, Modes())
}

func BenchmarkSettle(b *testing.B) {
	w, err := species.Lookup("oak")
	if err != nil {
		b.Fatal(err)
	}
	n, _ := w.Numbers(species.Draw{})
	bd := panel.Board{
		Name: "a", Wood: n, Sorption: w.Sorption(), Width: 200, Thickness: 12, Ring: 20, RingRadius: 150,
		HeartKnown: true, StiffnessReduction: 1,
	}
	o := object(bd, bd, bd)
	o.Battens = []panel.Batten{rigid(200), rigid(600)}
	c, err := Prepare(o, Quick)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Settle([]moisture.RH{0.4}); err != nil {
			b.Fatal(err)
		}
	}
}
