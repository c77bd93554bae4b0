package creep

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := Checks()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(rows), 110)
	for _, r := range verify.Run(rows) {
		assert.NoError(t, r.Err, r.Row.ID)
		assert.True(t, r.Pass, "%s: got %g (%g to %g), want %g +- %g", r.Row.ID, r.Got, r.Low, r.High, r.Row.Want, r.Row.Tolerance())
	}
}

// The factors were worked out apart from this program by integrating the chain as a differential
// equation, printed to three digits.
func TestRelaxationOfOtherChains(t *testing.T) {
	cases := []struct {
		dir   Direction
		sense Sense
		rh    int
		want  map[float64]float64 // days -> left
	}{
		{Tangential, Compression, 65, map[float64]float64{1. / 24: 0.836, 1: 0.593, 7: 0.477, 30: 0.392, 90: 0.342, 365: 0.315, 1e6: 0.314}},
		{Tangential, Tension, 90, map[float64]float64{1. / 24: 0.666, 1: 0.317, 7: 0.246, 30: 0.221, 90: 0.220, 365: 0.220}},
		{Radial, Tension, 65, map[float64]float64{1e6: 0.473}},
	}
	for _, c := range cases {
		chain, err := Spruce(c.dir, c.sense, c.rh)
		require.NoError(t, err)
		for d, want := range c.want {
			assert.InDelta(t, want, chain.Relaxation(d*day), 5e-4, "%s %d %d %% RH after %g d", c.dir, c.sense, c.rh, d)
		}
	}
}

// The exact modes must agree with the chain stepped in time, whatever the chain.
func TestModesAgainstSmallSteps(t *testing.T) {
	for i := range spruce {
		c := Chain{Tau: spruceTau(), G: spruce[i].g[:]}
		for _, end := range []float64{hour, day} {
			assert.InDelta(t, stepped(c, end, 4000), c.Relaxation(end), 2e-4, "row %d at %g s", i, end)
		}
	}
}

// stepped holds the strain 1 by implicit steps, elements relaxed exactly under the new stress.
func stepped(c Chain, end float64, n int) float64 {
	e := make([]float64, len(c.G))
	dt, sigma := end/float64(n), 1.0
	for range n {
		kept, give := 0.0, 1.0
		for k := range e {
			q := math.Exp(-dt / c.Tau[k])
			kept += e[k] * q
			give += c.G[k] * (1 - q)
		}
		sigma = (1 - kept) / give
		for k := range e {
			q := math.Exp(-dt / c.Tau[k])
			e[k] = e[k]*q + c.G[k]*sigma*(1-q)
		}
	}
	return sigma
}

func TestModesSumToOne(t *testing.T) {
	chains := []Chain{
		{},                                   // elastic
		{Tau: []float64{5}, G: []float64{0}}, // no creep
		{Tau: []float64{5, 5}, G: []float64{1, 2}},       // equal times act as one
		{Tau: []float64{1e9, 1}, G: []float64{3, 0.001}}, // unsorted, far apart
	}
	for _, c := range chains {
		require.NoError(t, c.Validate())
		m := c.Modes()
		assert.InDelta(t, 1, m.At(0), 1e-9, "%v", c)
		sum := 0.0
		for _, g := range c.G {
			sum += g
		}
		assert.InDelta(t, 1/(1+sum), c.Relaxation(1e15), 1e-9, "%v", c)
		assert.InDelta(t, 1, c.Ramp(0), 1e-12)
	}
	// one element: closed form 1/(1+g) + g/(1+g) exp(-(1+g) t/tau), derived by hand
	c := Chain{Tau: []float64{5, 5}, G: []float64{1, 2}}
	assert.InDelta(t, 0.25+0.75*math.Exp(-4*2/5.0), c.Relaxation(2), 1e-9)
}

func TestRelaxationFallsAndRampLagsBehind(t *testing.T) {
	for i := range spruce {
		c := Chain{Tau: spruceTau(), G: spruce[i].g[:]}
		last := 1.0
		for _, s := range []float64{1, hour, day, 30 * day, 365 * day} {
			now := c.Relaxation(s)
			assert.Less(t, now, last)
			assert.Greater(t, c.Ramp(s), now)
			last = now
		}
	}
}

func TestLeft(t *testing.T) {
	assert.Equal(t, 1.0, math.Round(Left(Radial, Tension, 0)*1e9)/1e9)
	assert.Greater(t, Left("R", Tension, 30*day), Left("T", Tension, 30*day), "radial wood keeps more")
	assert.True(t, math.IsNaN(Left("L", Tension, 1)))
}

func TestInvalidChains(t *testing.T) {
	for _, c := range []Chain{
		{Tau: []float64{1}}, {Tau: []float64{0}, G: []float64{1}}, {Tau: []float64{1}, G: []float64{-1}},
		{Tau: []float64{math.NaN()}, G: []float64{1}}, {Tau: []float64{1}, G: []float64{math.Inf(1)}},
	} {
		assert.Error(t, c.Validate(), "%v", c)
	}
	_, err := Spruce(Tangential, Tension, 50)
	assert.ErrorContains(t, err, "35, 65 or 90 % RH")
}

func TestMoistureDrivenStepsAddUp(t *testing.T) {
	e := MoistureDriven{M: 6.4, Path: 1}
	strain, gone := 0.0, 0.0
	for i := range 40 {
		dw := 0.11 * float64(1-2*(i%2))
		strain = e.Step(strain, 0.001, dw)
		gone += math.Abs(dw)
	}
	assert.InDelta(t, e.Strain(gone)*0.001, strain, 1e-12)
	// Ferrara & Wittel 2025: T, sum of compliances 21.8, elastic 3.39 1/GPa at 12 %: one 8-19-8 %
	// cycle (U 0.22) gives 5.7 1/GPa by all three elements; the slow one alone 19.82 (1-exp(-0.22)) = 3.9
	slow := MoistureDriven{M: 19.82 / 3.39, Path: 1}
	assert.InDelta(t, 3.9, slow.Strain(0.22)*3.39, 0.06)
}

func BenchmarkLeft(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Left(Tangential, Tension, 90*day)
	}
}
