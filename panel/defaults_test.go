package panel_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

func with(t *testing.T, rest string) *panel.Panel {
	t.Helper()
	p, problems := panel.Read("x", []byte("[panel]\naccession=\"INVENTED\"\nheight_mm=600\nwidth_mm=400\nwood=\"oak\"\n"+rest+"\n"))
	require.NoError(t, problems.Err())
	return p
}

// What each way of fixing means for the model: glue does not slip, slots have play, springs are
// soft, keepers and dovetails hold by friction.
func TestFixings(t *testing.T) {
	for _, c := range []struct {
		fixing             string
		glued, middle      bool
		n                  int
		slip, yield        float64
		clearance, preload bool
	}{
		{fixing: "glued", glued: true},
		{fixing: "glued at the middle", middle: true, n: 1, slip: math.Inf(1), yield: math.Inf(1)},
		{fixing: "nailed", n: 3, slip: 600, yield: 400},
		{fixing: "screwed", n: 3, slip: 1500, yield: 1500},
		{fixing: "slotted", n: 3, slip: 1500, yield: 1500, clearance: true, preload: true},
		{fixing: "sliding dovetail", n: 3, slip: 2000, yield: math.Inf(1), clearance: true, preload: true},
		{fixing: "on springs", n: 3, slip: 5, yield: math.Inf(1), preload: true},
		{fixing: "held by keepers", n: 3, slip: 2000, yield: math.Inf(1), clearance: true, preload: true},
		{fixing: "nothing"},
	} {
		b := realise(t, with(t, "[batten.a]\nfixing=\""+c.fixing+"\""), nil).Battens[0]
		assert.Equal(t, c.glued, b.Glued, c.fixing)
		assert.Equal(t, c.middle, b.GluedMiddle, c.fixing)
		require.Len(t, b.Fixings, c.n, c.fixing)
		for _, f := range b.Fixings {
			assert.Equal(t, c.slip, f.Slip, c.fixing)
			assert.Equal(t, c.yield, f.Yield, c.fixing)
			assert.Equal(t, c.clearance, f.Clearance > 0, c.fixing)
			assert.Equal(t, c.preload, f.Preload > 0 && f.Friction > 0, c.fixing)
		}
	}
}

func TestFixingsFromTheFile(t *testing.T) {
	b := realise(t, with(t, "[batten.a]\nfixing=\"slotted\"\nspacing_mm=100\nclearance_mm=1.5\nfriction=0.2\npreload_n=30\nmeasured_at_rh_pct=60"), nil).Battens[0]
	var x []float64
	for _, f := range b.Fixings {
		x = append(x, f.X)
		assert.Equal(t, 1.5, f.Clearance)
		assert.Equal(t, 0.2, f.Friction)
		assert.Equal(t, 30.0, f.Preload)
		assert.InDelta(t, 0.6, float64(f.ClearRH), 1e-12)
	}
	assert.Equal(t, []float64{50, 150, 250, 350}, x)
	seized := realise(t, with(t, "[batten.a]\nfixing=\"slotted\"\nclearance_mm=1.5\nmoves=\"seized\""), nil).Battens[0]
	assert.True(t, seized.Seized)
	assert.Zero(t, seized.Fixings[0].Clearance)
}

// A continuous ground pulls fully, a craquelured one a little, a lost one not at all; all press
// with the modulus of the uncracked ground.
func TestGroundStates(t *testing.T) {
	want := map[string]float64{"continuous": 3000, "craquelured": 450, "lifting": 90, "lost": 0}
	for state, e := range want {
		f := realise(t, with(t, "[face.front]\nground=\"gypsum-glue\"\nground_state=\""+state+"\""), nil).Front
		assert.InDelta(t, e, f.GroundE, 1e-9, state)
		assert.Equal(t, 3000.0, f.GroundEIntact)
		assert.Equal(t, state == "lost", f.GroundMM == 0)
	}
	assert.Zero(t, realise(t, with(t, "[face.front]\nground=\"none\""), nil).Front.GroundE)
}

func TestJoinStrength(t *testing.T) {
	const boards = "[board.a]\n[board.b]\n[join.x]\nbetween=[\"a\",\"b\"]\n"
	for rest, want := range map[string]float64{
		"condition=\"sound\"": 1, "condition=\"opened before\"": 0.5, "": 0.8, "glue=\"none\"": 0, "open_mm=50": 0.5,
	} {
		assert.Equal(t, want, realise(t, with(t, boards+rest), nil).Joins[0].StrengthOfSound, rest)
	}
}

func TestInsects(t *testing.T) {
	last := 1.01
	for _, w := range []string{"none", "scattered", "dense", "friable"} {
		b := realise(t, with(t, "[board.a]\ninsects=\""+w+"\""), nil).Boards[0]
		assert.Less(t, b.StiffnessReduction, last, w)
		assert.InDelta(t, 0.35*(1-b.StiffnessReduction), b.DensityLoss, 1e-12)
		last = b.StiffnessReduction
	}
}

func TestCradleMoves(t *testing.T) {
	last := -1.0
	for _, w := range []string{"by hand", "with taps", "?", "seized"} {
		k := realise(t, with(t, "[cradle]\nmoves=\""+w+"\""), nil).Cradle
		assert.Greater(t, k.ShareStuck, last, w)
		last = k.ShareStuck
	}
	assert.Equal(t, 1.0, last)
}

// Half of the cases lie on each side of the nominal value; within each half the spread is a
// triangle that falls to nothing at its end: at z the value is end + (nominal - end) sqrt(2 P), P
// the share beyond z (from the definition of the density).
func TestTriangularSpread(t *testing.T) {
	p := with(t, "")
	in := p.Inputs()
	i := slices.IndexFunc(in, func(x panel.Input) bool { return x.Path == "panel.thickness_mm" })
	require.Equal(t, panel.Triangular, in[i].Dist)
	z := make([]float64, len(in))
	z[i] = 1.2815515655446004 // a tenth lies beyond
	assert.InDelta(t, 30-10*math.Sqrt(0.2), realise(t, p, z).Boards[0].Thickness, 1e-9)
	z[i] = -z[i]
	assert.InDelta(t, 10+10*math.Sqrt(0.2), realise(t, p, z).Boards[0].Thickness, 1e-9)
}

// What insects leave is of the whole board, of its back half, (1 + left)/2 for both halves side by side, or of its sapwood alone;
// sapwood is the first to be eaten unless it is seen to be sound (common practice).
func TestWeakZones(t *testing.T) {
	board := func(keys string) panel.Board { return realise(t, with(t, "[board.a]\n"+keys), nil).Boards[0] }
	b := board("insects=\"dense\"\nwhere=\"throughout\"")
	assert.Equal(t, 0.5, b.StiffnessReduction)
	assert.Zero(t, b.SapLeft+b.SapRight+b.WeakBack)
	b = board("insects=\"dense\"\nwhere=\"back\"")
	assert.Equal(t, 0.75, b.StiffnessReduction)
	assert.InDelta(t, 0.5, b.WeakBack*b.StiffnessReduction, 1e-12)
	b = board("insects=\"dense\"\nwhere=\"sapwood edge\"\nsapwood_edge=\"left\"")
	assert.Equal(t, []float64{1, 0.5, 0, 0}, []float64{b.StiffnessReduction, b.SapLeft, b.SapRight, b.DensityLoss})
	b = board("insects=\"dense\"\nwhere=\"sapwood edge\"")
	assert.Equal(t, []float64{0.5, 0.5}, []float64{b.SapLeft, b.SapRight}, "no edge named: both")
	b = board("sapwood_edge=\"right\"")
	assert.Equal(t, []float64{1, 0, 0.7}, []float64{b.StiffnessReduction, b.SapLeft, b.SapRight})
	assert.Equal(t, 1.0, board("sapwood_edge=\"both\"\ninsects=\"none\"").SapLeft, "seen to be sound")
	assert.Zero(t, board("sapwood_edge=\"none\"").SapLeft)
	assert.Zero(t, board("where=\"back\"").WeakBack, "no holes, no weak back")
}
