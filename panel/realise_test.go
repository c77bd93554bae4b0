package panel_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
	"crossgrain/species"
	"crossgrain/tables"
)

func realise(t testing.TB, p *panel.Panel, z []float64) *panel.Object {
	t.Helper()
	o, err := p.Realise(z)
	require.NoError(t, err)
	return o
}

// finite fails on any number that no model could use.
func finite(t testing.TB, o *panel.Object) {
	t.Helper()
	pos := func(what string, v float64) {
		require.True(t, v > 0 && !math.IsNaN(v), "%s is %g", what, v)
	}
	pos("across", o.Across)
	pos("along", o.Along)
	require.True(t, o.UsedTo > 0 && o.UsedTo <= 1)
	for _, b := range o.Boards {
		pos("width", b.Width)
		pos("thickness", b.Thickness)
		pos("stiffness left", b.StiffnessReduction)
		pos("ring radius", b.RingRadius)
		require.LessOrEqual(t, math.Abs(float64(b.Ring)), 90.0)
	}
	for _, s := range o.Splits {
		b := o.Boards[s.Board]
		require.True(t, s.X > b.Left && s.X < b.Left+b.Width && s.Start >= 0 && s.End <= o.Along+1e-9 && s.Length() >= 0)
	}
	for _, j := range o.Joins {
		require.True(t, j.StrengthOfSound >= 0 && j.StrengthOfSound <= 1 && j.Open() >= 0 && j.OpenEnd <= o.Along+1e-9)
	}
	for _, b := range o.Battens {
		for _, f := range b.Fixings {
			pos("slip", f.Slip)
			pos("yield", f.Yield)
			pos("footprint", f.Footprint)
			require.True(t, f.X >= 0 && f.X <= o.Across && f.Clearance >= 0 && f.Friction >= 0)
		}
	}
}

func TestSixFacts(t *testing.T) {
	o := realise(t, readFile(t, "six_facts.toml"), nil)
	require.Len(t, o.Boards, 2)
	assert.Equal(t, 250.0, o.Boards[1].Left)
	assert.Equal(t, 500.0, o.Across)
	assert.Equal(t, 700.0, o.Along)
	require.NotNil(t, o.Cradle)
	assert.Equal(t, "not recorded", o.Cradle.Moves)
	assert.Equal(t, 9.0, o.Boards[0].Thickness, "a cradle makes thinning likely")
	require.Len(t, o.Splits, 1)
	assert.Equal(t, 700.0, o.Splits[0].End)
	assert.InDelta(t, 105, o.Splits[0].Length(), 1e-9)
	assert.Equal(t, o.Boards[0].Thickness, o.Splits[0].Depth)
	known, of := readFile(t, "six_facts.toml").Facts()
	assert.Equal(t, 6, known) // number, height, width, wood, boards, back
	assert.Equal(t, 20, of)
}

func TestThicknessWithoutCradle(t *testing.T) {
	p, problems := panel.Read("x", []byte("[panel]\naccession=\"INVENTED\"\nheight_mm=400\nwidth_mm=300\nwood=\"oak\"\n"))
	require.NoError(t, problems.Err())
	assert.Equal(t, 20.0, realise(t, p, nil).Boards[0].Thickness)
}

func TestGrainLevelTurnsThePanel(t *testing.T) {
	p, problems := panel.Read("x", []byte("[panel]\naccession=\"INVENTED\"\nheight_mm=400\nwidth_mm=900\ngrain=\"level\"\nboards=2\nwood=\"oak\"\n[split.a]\nfrom=\"left\"\nlength_mm=50\n"))
	require.NoError(t, problems.Err())
	o := realise(t, p, nil)
	assert.Equal(t, 400.0, o.Across)
	assert.Equal(t, 900.0, o.Along)
	assert.Equal(t, 0.0, o.Splits[0].Start)
	assert.Equal(t, 50.0, o.Splits[0].End)
}

func TestRealiseNilIsNilNormals(t *testing.T) {
	for _, f := range goodFiles(t) {
		p := readFile(t, f)
		a, b := realise(t, p, nil), realise(t, p, make([]float64, len(p.Inputs())))
		assert.Equal(t, a.Boards, b.Boards, f)
		assert.Equal(t, a.Joins, b.Joins, f)
		assert.Equal(t, a.Battens, b.Battens, f)
		assert.Equal(t, a.Cradle, b.Cradle, f)
		assert.Equal(t, a.Front, b.Front, f)
	}
}

func TestRealiseRefusesBadNormals(t *testing.T) {
	p := readFile(t, "six_facts.toml")
	_, err := p.Realise(make([]float64, 3))
	assert.ErrorContains(t, err, "standard normals are needed")
	z := make([]float64, len(p.Inputs()))
	z[1] = math.NaN()
	_, err = p.Realise(z)
	assert.ErrorContains(t, err, "must be finite")
}

// Each input, moved far either way, changes the object and leaves every number usable.
func TestInputsActAndStayPhysical(t *testing.T) {
	for _, f := range goodFiles(t) {
		p := readFile(t, f)
		nominal := realise(t, p, nil)
		in := p.Inputs()
		seen := map[string]bool{}
		for i, x := range in {
			assert.False(t, seen[x.Path], x.Path)
			seen[x.Path] = true
			assert.Less(t, x.Low, x.High, x.Path)
			assert.True(t, x.Low <= x.Nominal && x.Nominal <= x.High, x.Path)
			assert.NotEmpty(t, x.What, x.Path)
			assert.Equal(t, x.Measurable, x.Means != "" && x.Minutes > 0, x.Path)
			changed := false
			for _, v := range []float64{-6, -1, 1, 6} {
				z := make([]float64, len(in))
				z[i] = v
				o := realise(t, p, z)
				finite(t, o)
				changed = changed || !assert.ObjectsAreEqual(plain(nominal), plain(o))
			}
			assert.True(t, changed, "%s: %s changes nothing", f, x.Path)
		}
	}
}

// plain leaves out the curves, which are the same for one wood and slow to compare.
func plain(o *panel.Object) panel.Object {
	c := *o
	c.Boards = slices.Clone(o.Boards)
	for i := range c.Boards {
		c.Boards[i].Sorption = species.Sorption{}
	}
	return c
}

// The share of draws below the stated ends, and the median, follow from the kind of spread.
func TestSpread(t *testing.T) {
	p := readFile(t, "three_boards.toml")
	in := p.Inputs()
	i := slices.IndexFunc(in, func(x panel.Input) bool { return x.Path == "board.right.thickness_mm" })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, panel.Uniform, in[i].Dist)
	at := func(z float64) float64 {
		v := make([]float64, len(in))
		v[i] = z
		return realise(t, p, v).Boards[2].Thickness
	}
	assert.InDelta(t, 10, at(0), 1e-12)
	assert.InDelta(t, 9+2*0.1586552539, at(-1), 1e-6) // normal distribution function at -1
	assert.InDelta(t, 9+2*0.8413447461, at(1), 1e-6)
	assert.InDelta(t, 9, at(-9), 1e-9)

	s := slices.IndexFunc(in, func(x panel.Input) bool { return x.Path == "batten.upper.slip_n_per_mm" })
	z := make([]float64, len(in))
	z[s] = 1.6448536269514722 // 5 in 100 above
	got := realise(t, p, z).Battens[0].Fixings[0].Slip
	assert.InDelta(t, 600*math.Sqrt(1500.0/200), got, 1e-6)
}

func TestWoodComesFirstAndBoardsOfOneWoodMoveTogether(t *testing.T) {
	p := readFile(t, "three_boards.toml")
	in := p.Inputs()
	assert.Equal(t, "wood", in[0].Group)
	i := slices.IndexFunc(in, func(x panel.Input) bool { return strings.HasSuffix(x.Path, ".stiffness") })
	z := make([]float64, len(in))
	z[i] = 1
	o, n := realise(t, p, z), realise(t, p, nil)
	assert.Greater(t, o.Boards[0].Wood.ET, n.Boards[0].Wood.ET)
	assert.Equal(t, o.Boards[0].Wood.ET, o.Boards[2].Wood.ET)
}

// The pith 40 mm behind the back of an 18 mm board, under its middle: rings lie flat, their radius
// at mid-thickness is 49 mm, the heart side is the back.
func TestPithGivesRings(t *testing.T) {
	b := realise(t, readFile(t, "single_flat_pith.toml"), nil).Boards[0]
	assert.InDelta(t, 0, float64(b.Ring), 1e-9)
	assert.InDelta(t, 49, b.RingRadius, 1e-9)
	assert.False(t, b.HeartFront)
	assert.True(t, b.HeartKnown)
}

// A pith to the left and behind: from it to the middle of the board is up to the right, so the
// rings, square to that, lean to the left going up (negative).
func TestPithSign(t *testing.T) {
	base := "[panel]\naccession=\"INVENTED\"\nheight_mm=400\nwidth_mm=100\n[board.a]\nwood=\"oak\"\nwidth_mm=100\nthickness_mm=20\n"
	for _, c := range []struct {
		across, behind string
		ring           float64
		front          bool
	}{
		{"0", "40", -45, false}, {"100", "40", 45, false}, // 50 mm across, 50 mm behind the middle
		{"0", "-60", 45, true}, {"100", "-60", -45, true}, // 50 mm in front of the middle
	} {
		p, problems := panel.Read("x", []byte(base+"pith_across_mm="+c.across+"\npith_behind_mm="+c.behind+"\n"))
		require.NoError(t, problems.Err())
		b := realise(t, p, nil).Boards[0]
		assert.InDelta(t, c.ring, float64(b.Ring), 1e-9, "%v", c)
		assert.Equal(t, c.front, b.HeartFront, "%v", c)
		assert.InDelta(t, 50*math.Sqrt2, b.RingRadius, 1e-9)
	}
}

func TestHomeInWords(t *testing.T) {
	p := readFile(t, "four_board_poplar_glued_cradle.toml")
	o := realise(t, p, nil)
	assert.InDelta(t, 0.42, float64(o.UsedTo), 1e-12)
	i := slices.IndexFunc(p.Assumptions(), func(a panel.Assumption) bool { return a.Path == "used_to.rh_pct" })
	require.GreaterOrEqual(t, i, 0)
	assert.Contains(t, p.Assumptions()[i].Text, "TRH-1")
	assert.InDelta(t, 800.1, o.Across, 0.2) // 31 1/2 in
}

// What was fixed at an unknown humidity follows the used-to one.
func TestFixedFollowsUsedTo(t *testing.T) {
	p := readFile(t, "four_board_poplar_glued_cradle.toml")
	in := p.Inputs()
	i := slices.IndexFunc(in, func(x panel.Input) bool { return x.Path == "used_to.rh_pct" })
	z := make([]float64, len(in))
	z[i] = 1
	o := realise(t, p, z)
	assert.Greater(t, float64(o.UsedTo), 0.42)
	assert.InDelta(t, float64(o.UsedTo), float64(o.Cradle.Fixed), 1e-12)
	assert.InDelta(t, float64(o.UsedTo), float64(o.Joins[0].Fixed), 1e-12)
}

func TestEveryAssumptionSaysWhy(t *testing.T) {
	for _, f := range goodFiles(t) {
		seen := map[string]bool{}
		for _, a := range readFile(t, f).Assumptions() {
			assert.False(t, seen[a.Path], a.Path)
			seen[a.Path] = true
			assert.NotEqual(t, tables.MeasuredHere, a.Grade, a.Path)
			assert.NotEmpty(t, a.What, a.Path)
			assert.False(t, strings.HasSuffix(a.Text, "."), a.Text)
			assert.False(t, math.IsNaN(a.Value), a.Path)
			if !strings.HasPrefix(a.Path, "wood.") && !strings.HasSuffix(a.Path, "heart_side") {
				assert.Contains(t, a.Text, "(", a.Path)
			}
		}
	}
}

func TestUnmovableWoodIsRefused(t *testing.T) {
	for _, w := range species.All() {
		if w.Movable() == nil {
			continue
		}
		p, problems := panel.Read("x", []byte("[panel]\naccession=\"INVENTED\"\nheight_mm=400\nwidth_mm=300\nwood=\""+w.Name+"\"\n"))
		require.NoError(t, problems.Err())
		_, err := p.Realise(nil)
		assert.Error(t, err, w.Name)
	}
}

func BenchmarkRealise(b *testing.B) {
	p := readFile(b, "three_boards.toml")
	z := make([]float64, len(p.Inputs()))
	b.ReportAllocs()
	for b.Loop() {
		_, _ = p.Realise(z)
	}
}
