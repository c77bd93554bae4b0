package plan

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var caseD = Sheet{Boards: []StripBoard{{Width: 600, Thickness: 15, E: 700}}, GLT: 700, Below: 400, Above: 400}

func sixPatches(foot float64) []Patch {
	out := make([]Patch, 6)
	for i := range out {
		out[i] = Patch{X: 50 + 100*float64(i), Length: foot}
	}
	return out
}

func TestStripIsASpringChain(t *testing.T) {
	boards := []StripBoard{{Width: 130, Thickness: 20, E: 500}, {Width: 270, Thickness: 12, E: 900}}
	f, err := Strip(boards, 250, []Patch{{X: 400}, {X: 0}, {X: 200}})
	require.NoError(t, err)
	// Springs by hand: 0..130 in the first board, 130..200 and 200..400 in the second.
	k1, k2 := 500.0*20*250, 900.0*12*250
	want := []float64{0, 130/k1 + 70/k2, 130/k1 + 270/k2}
	for i := range 3 {
		for j := range 3 {
			assert.InEpsilon(t, 1+want[min(i, j)], 1+f.U[i*3+j], 1e-15)
		}
	}
	assert.Equal(t, []float64{0, 200, 400}, f.X, "sorted")
	assert.Equal(t, 500.0*250*8000/12, f.Pieces[0].D)
}

func TestFootprintTakesASixthOff(t *testing.T) {
	// Mean of min(x, y) over a square of side L about X is X - L/6.
	f, err := Strip([]StripBoard{{Width: 100, Thickness: 10, E: 500}}, 10, []Patch{{X: 50, Length: 30}})
	require.NoError(t, err)
	assert.InEpsilon(t, 45/50000.0, f.U[0], 1e-14)
}

func TestSpreadLimits(t *testing.T) {
	wide, err := NewSpread(600, 700, 700, 1e5, 1e5)
	require.NoError(t, err)
	assert.InEpsilon(t, 2*600/math.Pi, wide.Width(), 1e-12, "long panel: 2 l")
	short, err := NewSpread(600, 700, 700, 3, 5)
	require.NoError(t, err)
	assert.InEpsilon(t, 8, short.Width(), 1e-3, "short panel: its length")
	assert.InDelta(t, 1, short.At(5), 1e-3)
	assert.InEpsilon(t, math.Exp(-1), wide.At(wide.Decay), 1e-9)
	assert.Equal(t, 1.0, wide.At(0))
	assert.Equal(t, short.At(-3), short.At(-30), "beyond the end: the end")
	for _, bad := range [][5]float64{{0, 1, 1, 1, 1}, {1, 0, 1, 1, 1}, {1, 1, math.NaN(), 1, 1}, {1, 1, 1, -1, 1}} {
		_, err := NewSpread(bad[0], bad[1], bad[2], bad[3], bad[4])
		assert.Error(t, err, bad)
	}
}

func TestBendingWidth(t *testing.T) {
	// Isotropic plate under q sin(k x) on a line: w = q/(4 D k^3), hence b = 4/k.
	b, err := BendingWidth(600, 1, 1, 1, 1e9)
	require.NoError(t, err)
	assert.InEpsilon(t, 4*600/math.Pi, b, 1e-12)
	b, err = BendingWidth(600, 1, 15, 2, 800)
	require.NoError(t, err)
	assert.Equal(t, 800.0, b, "never more than the panel")
	_, err = BendingWidth(600, 0, 1, 1, 1)
	assert.Error(t, err)
}

// The first wave of the sheet must be the strip of the effective width, exactly.
func TestFirstWaveIsTheStrip(t *testing.T) {
	sp, err := caseD.Spread()
	require.NoError(t, err)
	k := math.Pi / 600
	m := k // E = G
	assert.InEpsilon(t, 1/(700*15*sp.Width()*k*k), caseD.green(m, 0)/(700*15), 1e-12)
}

// Differences of movement between patches under pairs of opposite forces, against the finite-element
// flexibility. The closed form leaves out the stretch along the grain: it is 5 to 11 % stiffer.
func TestSheetFlexibilityCaseD(t *testing.T) {
	f, err := caseD.Flex(sixPatches(20))
	require.NoError(t, err)
	fe := readCaseD(t)
	pair := func(u func(i, j int) float64, i, j int) float64 { return u(i, i) + u(j, j) - 2*u(i, j) }
	ours := func(i, j int) float64 { return f.U[i*6+j] }
	ref := func(i, j int) float64 { return fe[fmt.Sprintf("flex/flex_%d_%d", i+1, j+1)] }
	for i := range 6 {
		for j := range i {
			t.Logf("%d %d  %.4g  fe %.4g  ratio %.3f", i, j, pair(ours, i, j), pair(ref, i, j), pair(ours, i, j)/pair(ref, i, j))
			assert.InEpsilon(t, pair(ref, i, j), pair(ours, i, j), 0.12, "patches %d and %d", j, i)
			assert.Equal(t, f.U[i*6+j], f.U[j*6+i], "reciprocity")
		}
	}
}

func TestRefusals(t *testing.T) {
	ok := []StripBoard{{Width: 100, Thickness: 10, E: 500}}
	for name, f := range map[string]func() error{
		"no board":      func() error { _, err := Strip(nil, 1, nil); return err },
		"no width":      func() error { _, err := Strip(ok, 0, nil); return err },
		"bad board":     func() error { _, err := Strip([]StripBoard{{}}, 1, nil); return err },
		"off the panel": func() error { _, err := Strip(ok, 1, []Patch{{X: 101}}); return err },
		"overlap":       func() error { _, err := Strip(ok, 1, []Patch{{X: 10, Length: 20}, {X: 29, Length: 20}}); return err },
		"twice":         func() error { _, err := Strip(ok, 1, []Patch{{X: 10}, {X: 10}}); return err },
		"NaN":           func() error { _, err := Strip(ok, 1, []Patch{{X: math.NaN()}}); return err },
		"point on sheet": func() error {
			_, err := Sheet{Boards: ok, GLT: 1, Below: 1, Above: 1}.Flex([]Patch{{X: 10}})
			return err
		},
		"sheet of none":   func() error { _, err := Sheet{}.Flex(nil); return err },
		"sheet no shear":  func() error { _, err := Sheet{Boards: ok}.Flex(nil); return err },
		"drive too short": func() error { return (&Flex{Boards: 3}).Fits(Drive{Strain: []float64{1, 2}}) },
		"drive NaN":       func() error { return (&Flex{Boards: 3}).Fits(Drive{Strain: []float64{math.NaN()}}) },
	} {
		assert.Error(t, f(), name)
	}
}

func TestContiguousPatchesAllowed(t *testing.T) {
	_, err := Strip([]StripBoard{{Width: 600, Thickness: 10, E: 500}}, 100, []Patch{{X: 50, Length: 100}, {X: 150, Length: 100}})
	assert.NoError(t, err)
}

func BenchmarkSheet(b *testing.B) {
	p := sixPatches(20)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = caseD.Flex(p)
	}
}
