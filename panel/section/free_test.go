package section

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
	"crossgrain/tables"
)

// Case A: independent finite-element solution (order-4 elements), this project's test data, and the
// exact small-strain solution. Its cup is positive when the front is hollow.
func TestFreeAgainstCaseA(t *testing.T) {
	boards := map[string]Board{}
	for name, pith := range map[string][2]float64{"flat": {150, -60}, "quarter": {-50, 10}, "deg45": {50, -90}} {
		boards[name] = Board{Width: 300, Thickness: 20, PithKnown: true, PithX: pith[0], PithZ: pith[1]}
	}
	const k = 1e-5 // strains so small that only the linear part is left
	seen := 0
	for _, row := range read(t, "../../testdata/solvers/case_a.csv") {
		small, err := boards[row["variant"]].Free(-0.0075*k, -0.015*k)
		require.NoError(t, err)
		want, err := strconv.ParseFloat(row["value"], 64)
		require.NoError(t, err)
		digits, err := strconv.Atoi(row["digits"])
		require.NoError(t, err)
		if strings.HasPrefix(row["solver"], "FreeFem") && row["variant"] == "quarter" {
			digits = 2 // 0.0004 mm is at the end of that program's accuracy
		}
		got := map[string]float64{
			"cup_back": -small.CupBack, "cup_front": -small.CupFront, "dW_mid": small.Width,
			"dT_left": small.Thickness[0], "dT_centre": small.Thickness[1], "dT_right": small.Thickness[2],
		}[row["quantity"]] / k
		last := math.Pow(10, math.Floor(math.Log10(math.Abs(want)))+1-float64(digits))
		assert.InDelta(t, want, got, math.Max(last, 2e-7), "%s %s by %s", row["variant"], row["quantity"], row["solver"])
		seen++
	}
	require.Greater(t, seen, 30)
}

func read(t *testing.T, path string) []map[string]string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, c := range cells {
			row[all[0][i]] = c
		}
		out = append(out, row)
	}
	return out
}

// The finite map differs from the linear one by what the square of the strain can do, not more.
func TestFiniteStrainStaysNearTheLinearAnswer(t *testing.T) {
	b := Board{Width: 300, Thickness: 20, PithKnown: true, PithX: 150, PithZ: -60}
	f, err := b.Free(-0.0075, -0.015)
	require.NoError(t, err)
	assert.InEpsilon(t, -1.339076, f.CupBack, 0.01)
	assert.InEpsilon(t, -3.440878, f.Width, 0.01)
}

func TestSigns(t *testing.T) {
	behind := Board{Width: 200, Thickness: 15, RingRadius: 120}
	front := behind
	front.HeartFront = true
	dry, err := behind.Free(-0.01, -0.02)
	require.NoError(t, err)
	assert.Negative(t, dry.Cup, "heart behind, drying: the bark side, the front, goes hollow")
	assert.Negative(t, dry.Width, "drying shrinks")
	damp, err := behind.Free(0.01, 0.02)
	require.NoError(t, err)
	assert.Positive(t, damp.Cup)
	assert.Positive(t, damp.Width)
	other, err := front.Free(-0.01, -0.02)
	require.NoError(t, err)
	assert.Positive(t, other.Cup, "heart in front: rounded")
	assert.InDelta(t, dry.Cup, -other.Cup, 1e-9, "the two boards are mirror images")
	assert.InDelta(t, dry.CupBack, -other.CupFront, 1e-9)
	assert.Positive(t, dry.TurnRight, "the edge faces of a hollow front lean towards one another")
	assert.Negative(t, dry.TurnLeft)
	assert.Negative(t, dry.Bend)
	still, err := behind.Free(0, 0)
	require.NoError(t, err)
	assert.InDelta(t, 0, still.Cup, 1e-10)
	assert.InDelta(t, 0, still.Width, 1e-10)
	isotropic, err := behind.Free(-0.01, -0.01)
	require.NoError(t, err)
	assert.InDelta(t, 0, isotropic.Cup, 1e-9, "alike in all directions: smaller, not warped")
	assert.InDelta(t, -2, isotropic.Width, 1e-9)
}

// The pith made from ring angle, radius and heart side must be the pith one would measure.
func TestPithFromTheRings(t *testing.T) {
	for _, c := range []struct {
		name   string
		ring   species.RingAngle
		front  bool
		x, z   float64
		reason string
	}{
		{"flat, heart behind", 0, false, 100, 10 - 150, "straight below the middle"},
		{"flat, heart in front", 0, true, 100, 10 + 150, "straight above"},
		{"leaning right, heart behind", 30, false, 100 + 75, 10 - 150*math.Cos(math.Pi/6), "rings rise to the right around a pith at lower right"},
		{"leaning left, heart behind", -30, false, 100 - 75, 10 - 150*math.Cos(math.Pi/6), "and to the left around one at lower left"},
		{"quarter", 90, true, -50, 10, "beside the board"},
	} {
		b := Board{Width: 200, Thickness: 20, Ring: c.ring, RingRadius: 150, HeartFront: c.front}
		x, z, ok := b.Pith()
		require.True(t, ok)
		assert.InDelta(t, c.x, x, 1e-9, "%s: %s", c.name, c.reason)
		assert.InDelta(t, c.z, z, 1e-9, "%s: %s", c.name, c.reason)
		known := Board{Width: 200, Thickness: 20, PithKnown: true, PithX: x, PithZ: z}
		a, err := b.Free(-0.01, -0.02)
		require.NoError(t, err)
		k, err := known.Free(-0.01, -0.02)
		require.NoError(t, err)
		assert.Equal(t, a, k, c.name)
	}
}

// Straight rings at an angle: the lozenge. Width from the ring-angle formula, edge faces turned by
// the shear, no warp; and a far pith must come to the same.
func TestStraightRings(t *testing.T) {
	for _, ring := range []species.RingAngle{0, 30, -45, 45, 90} {
		b := Board{Width: 200, Thickness: 20, Ring: ring, RingRadius: math.Inf(1)}
		f, err := b.Free(-0.01, -0.02)
		require.NoError(t, err)
		th := ring.Theta() // handbook angle: eps = eR cos^2 + eT sin^2
		cos := math.Cos(th)
		assert.InDelta(t, 200*(-0.01*cos*cos-0.02*(1-cos*cos)), f.Width, 3e-3, "ring angle %g", float64(ring))
		assert.InDelta(t, 0, f.Cup, 1e-9)
		assert.InDelta(t, f.TurnLeft, f.TurnRight, 1e-12)
		shear := (-0.02 + 0.01) * math.Sin(2*float64(ring)*math.Pi/180)
		assert.InDelta(t, -shear, f.TurnLeft, 2e-4, "ring angle %g: upright edges lean by the shear", float64(ring))

		far := b
		far.RingRadius = 1e7
		g, err := far.Free(-0.01, -0.02)
		require.NoError(t, err)
		assert.InDelta(t, f.Width, g.Width, 1e-4)
		assert.InDelta(t, 0, g.Cup, 1e-4)
	}
}

// Curvature and strain handed to the panel on its battens, added up twice along the board, must give
// back width and warp of the small-strain map.
func TestLocalAddsUpToFree(t *testing.T) {
	const k, n = 1e-6, 2000
	for _, b := range []Board{
		{Width: 300, Thickness: 20, PithKnown: true, PithX: 150, PithZ: -60},
		{Width: 300, Thickness: 20, PithKnown: true, PithX: 50, PithZ: -90},
		{Width: 300, Thickness: 20, PithKnown: true, PithX: 220, PithZ: 70},
		{Width: 300, Thickness: 20, Ring: 20, RingRadius: math.Inf(1)},
	} {
		f, err := b.Free(-0.0075*k, -0.015*k)
		require.NoError(t, err)
		var width, sag float64
		for i := range n {
			x := b.Width * (float64(i) + 0.5) / n
			e, kappa := b.Local(-0.0075*k, -0.015*k, x)
			width += e * b.Width / n
			arm := math.Min(x, b.Width-x) / 2 // unit-load theorem for the middle
			sag += kappa * arm * b.Width / n
		}
		assert.InDelta(t, f.Width/k, width/k, 1e-4)
		assert.InDelta(t, f.Cup/k, sag/k, 1e-4)
	}
	// limit 2 (eT-eR)/d at mid-width, not 1: rotation of the radii alone would halve the warp
	b := Board{Width: 10, Thickness: 20, PithKnown: true, PithX: 5, PithZ: 10 - 500}
	_, kappa := b.Local(-0.01, -0.02, 5)
	assert.InDelta(t, -2*0.01/500, kappa, 1e-12)
}

func TestPithInside(t *testing.T) {
	for _, b := range []Board{
		{Width: 200, Thickness: 20, PithKnown: true, PithX: 100, PithZ: 10},
		{Width: 200, Thickness: 20, PithKnown: true, PithX: 0, PithZ: 0},
		{Width: 200, Thickness: 20, Ring: 0, RingRadius: 8},
		{Width: 400, Thickness: 20, Ring: 90, RingRadius: 150},
	} {
		_, err := b.Free(-0.01, -0.02)
		var inside *PithInsideError
		require.ErrorAs(t, err, &inside)
		assert.ErrorContains(t, err, "without stress")
	}
	near := Board{Width: 200, Thickness: 20, PithKnown: true, PithX: 100, PithZ: -0.001}
	f, err := near.Free(-0.01, -0.02)
	require.NoError(t, err)
	assert.False(t, math.IsNaN(f.Cup))
}

func TestRefusals(t *testing.T) {
	good := Board{Width: 200, Thickness: 20, RingRadius: math.Inf(1)}
	for name, b := range map[string]Board{
		"no width": {Thickness: 20, RingRadius: 1}, "no thickness": {Width: 1, RingRadius: 1},
		"no radius": {Width: 1, Thickness: 1}, "angle": {Width: 1, Thickness: 1, RingRadius: 100, Ring: 120},
		"nan": {Width: math.NaN(), Thickness: 1, RingRadius: 100}, "endless": {Width: math.Inf(1), Thickness: 1, RingRadius: 100},
		"pith nan": {Width: 1, Thickness: 1, PithKnown: true, PithX: math.NaN()},
	} {
		_, err := b.Free(0, 0)
		assert.Error(t, err, name)
	}
	_, err := good.Free(math.NaN(), 0)
	var r *tables.RangeError
	assert.True(t, errors.As(err, &r))
	_, err = good.Free(0, 0.6)
	assert.ErrorAs(t, err, &r)
}

func TestThinAndThick(t *testing.T) {
	for _, h := range []float64{1, 200} {
		for _, w := range []float64{1, 20, 2000} {
			f, err := Board{Width: w, Thickness: h, RingRadius: 500}.Free(-0.01, -0.02)
			require.NoError(t, err, "%g x %g", w, h)
			assert.Negative(t, f.Width)
			assert.False(t, math.IsNaN(f.Cup+f.TurnLeft+f.Z[3]))
		}
	}
}

func BenchmarkFree(b *testing.B) {
	board := Board{Width: 300, Thickness: 20, RingRadius: 150, Ring: 20}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := board.Free(-0.0075, -0.015); err != nil {
			b.Fatal(err)
		}
	}
}
