package restraint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Spans of 100 mm under q = 1 N/mm2 with D = 1e6: moments in q h^2, sag in q h^4/D.
func unitWeight(width float64) Weight {
	return Weight{E: 12e6, T: 1, Span: width, Density: 1 / (1e-12 * Gravity * 1e3)}
}

// doubleIntegral returns the largest sag, q h^4/D, of a continuous beam of n spans of 1 whose reactions are
// known: the moment of load and reactions integrated twice from the left end, the slope there from the
// second bearer. It also says how far the other bearers are missed.
func doubleIntegral(reaction []float64) (sag, miss float64) {
	const steps = 20000
	n := len(reaction) - 1
	h := float64(n) / (steps * float64(n))
	var slope, w, secondAt float64
	all := make([]float64, n*steps+1)
	moment := func(x float64) float64 {
		m := -x * x / 2
		for i, r := range reaction {
			m += r * max(0, x-float64(i))
		}
		return m
	}
	for i := range n * steps {
		c := -moment((float64(i) + 0.5) * h)
		w += slope*h + c*h*h/2
		slope += c * h
		all[i+1] = w
	}
	secondAt = all[steps]
	for i := range all {
		all[i] -= secondAt * float64(i) * h
		sag = max(sag, math.Abs(all[i]))
	}
	for i := range reaction {
		miss = max(miss, math.Abs(all[i*steps]))
	}
	return sag, miss
}

// Continuous beams of equal spans, all loaded: reactions and moments over the bearers are the fractions
// of Clapeyron's theorem, worked out by hand (S. Timoshenko, Strength of Materials, part I); the sag
// follows from them by integrating twice.
func TestContinuousBeams(t *testing.T) {
	for _, c := range []struct {
		moment   float64   // of largest size, q h^2
		reaction []float64 // q h
		source   string
	}{
		{1. / 8, []float64{0.5, 0.5}, "two edges: q h^2/8"},
		{-1. / 8, []float64{3. / 8, 10. / 8, 3. / 8}, "two spans: 3/8, 10/8"},
		{-1. / 10, []float64{0.4, 1.1, 1.1, 0.4}, "three spans: 4/10, 11/10"},
		{-3. / 28, []float64{11. / 28, 32. / 28, 26. / 28, 32. / 28, 11. / 28}, "four spans: 11/28, 32/28, 26/28"},
	} {
		n := len(c.reaction)
		w := 100 * float64(n-1)
		at, err := EvenBearers(n, w, 0)
		require.NoError(t, err)
		b, err := unitWeight(w).On(at)
		require.NoError(t, err)
		assert.InDelta(t, c.moment, b.Moment/1e4, 1e-9, c.source)
		for i, r := range c.reaction {
			assert.InDelta(t, r, b.Reaction[i]/100, 1e-9, c.source)
		}
		sag, miss := doubleIntegral(c.reaction)
		require.InDelta(t, 0, miss, 1e-7, c.source)
		assert.InEpsilon(t, sag, b.Deflection*1e6/1e8, 1e-5, c.source)
		assert.Empty(t, b.Lifted)
	}
}

func TestBearersFaceDown(t *testing.T) {
	w := Weight{E: 490, T: 10, Span: 1000, Density: 440}
	simple, err := w.Bend()
	require.NoError(t, err)
	two, err := w.On([]float64{0, 1000})
	require.NoError(t, err)
	assert.InEpsilon(t, simple.Deflection, two.Deflection, 1e-9, "5 q L^4/(384 D), two edges")
	assert.Equal(t, Outside, two.Reach)

	w.Lie = OnMiddle
	mid, err := w.Bend()
	require.NoError(t, err)
	one, err := w.On([]float64{500})
	require.NoError(t, err)
	assert.InEpsilon(t, mid.Deflection, one.Deflection, 1e-9, "cantilever q c^4/(8 D) on both sides")
	assert.InEpsilon(t, mid.Stress, one.Stress, 1e-9)

	// q (L-2c)^2/8 - q c^2/2 = q c^2/2 gives c = L/(2 + 2 sqrt 2) (hand)
	c := 1000 / (2 + 2*math.Sqrt2)
	best, err := w.On([]float64{c, 1000 - c})
	require.NoError(t, err)
	for _, other := range []float64{c - 20, c + 20} {
		b, err := w.On([]float64{other, 1000 - other})
		require.NoError(t, err)
		assert.Greater(t, b.Stress, best.Stress, "inset %g", other)
	}
}

// More bearers: less sag; the sag falls with the fourth power of the span, the stress with the second.
func TestMoreBearers(t *testing.T) {
	w := Weight{E: 245, T: 5, Span: 1200, Density: 440}
	last := math.Inf(1)
	for n := 2; n <= 30; n++ {
		at, err := EvenBearers(n, w.Span, 0)
		require.NoError(t, err)
		b, err := w.On(at)
		require.NoError(t, err)
		assert.Less(t, math.Abs(b.Deflection), last)
		last = math.Abs(b.Deflection)
	}
	w.E /= 2
	at, _ := EvenBearers(30, w.Span, 0)
	b, err := w.On(at)
	require.NoError(t, err)
	assert.InEpsilon(t, 2*last, math.Abs(b.Deflection), 1e-9, "half the modulus, twice the sag")
	assert.Equal(t, Inside, b.Reach)
}

// A bearer just inside the outermost one under an overhang would have to pull: the overhang tips the
// panel up there.
func TestPanelLiftsOffABearer(t *testing.T) {
	w := Weight{E: 490, T: 10, Span: 1000, Density: 440}
	b, err := w.On([]float64{400, 450, 900})
	require.NoError(t, err)
	assert.Equal(t, []int{1}, b.Lifted)
	assert.Equal(t, 0.0, b.Reaction[1])
	without, err := w.On([]float64{400, 900})
	require.NoError(t, err)
	assert.Equal(t, without.Deflection, b.Deflection)
	c, err := w.continuous([]float64{400, 900}, []int{0, 1})
	require.NoError(t, err)
	assert.Negative(t, c.deflection(450), "above the bearer")
}

func TestBearersRefused(t *testing.T) {
	w := Weight{E: 490, T: 10, Span: 1000, Density: 440}
	for _, at := range [][]float64{nil, {300}, {500, 400}, {-1, 500}, {500, 500}, {math.NaN(), 500}} {
		_, err := w.On(at)
		assert.Error(t, err, "%v", at)
	}
	_, err := Weight{}.On([]float64{0})
	assert.Error(t, err)
	for _, f := range []func() error{
		func() error { _, err := EvenBearers(0, 1, 0); return err },
		func() error { _, err := EvenBearers(2, 100, 50); return err },
	} {
		assert.Error(t, f())
	}
	for _, tk := range []float64{0.5, 300} {
		w.T = tk
		b, err := w.On([]float64{100, 900})
		require.NoError(t, err)
		assert.False(t, math.IsNaN(b.Stress) || math.IsInf(b.Stress, 0))
	}
}

// The panel runs straight over a bearer: no kink at unequal overhangs.
func TestNoKinkOverABearer(t *testing.T) {
	c, err := Weight{E: 490, T: 10, Span: 1000, Density: 440}.continuous([]float64{80, 420, 700}, []int{0, 1, 2})
	require.NoError(t, err)
	for _, x := range []float64{80, 420, 700} {
		const h = 1e-3
		assert.InDelta(t, 0, c.deflection(x), 1e-9)
		assert.InEpsilon(t, -c.deflection(x-h), c.deflection(x+h), 1e-3, "at %g", x)
	}
}
