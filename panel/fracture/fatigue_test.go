package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The law's own numbers are from memory and stand here as no expected value; the arithmetic is tested with
// an invented law of round numbers.
var roundLaw = GessoLaw{Single: 0.004, Slope: [2]float64{0.0005, 0.001}, Yield: 0.004, Brittle: 0.0025}

func TestGessoLimitsAreThoseOfTheTable(t *testing.T) {
	l, err := Gesso()
	require.NoError(t, err)
	assert.Equal(t, 0.0025, l.Brittle, "Richard, Mecklenburg & Tumosa 1998: brittle traditional gesso")
	assert.Equal(t, 0.004, l.Yield, "ibid.: wood, paint and glue")
	assert.Equal(t, "RICHARD1998", l.YieldSource)
	assert.True(t, l.FromMemory, "the law is marked")
	assert.Less(t, l.Slope[0], l.Slope[1])
}

func TestGessoLawByHand(t *testing.T) {
	for _, row := range []struct{ strain, harsh, mild float64 }{
		{0.004, 1, 1},       // at once
		{0.01, 1, 1},        // more than at once is at once
		{0.002, 1e2, 1e4},   // 0.002/0.001 and 0.002/0.0005 powers of ten
		{0.001, 1e3, 1e6},   // 0.003/0.001 and 0.003/0.0005
		{0.0005, 3162, 1e7}, // 3.5 and 7
	} {
		harsh, mild := roundLaw.Swings(row.strain)
		assert.InEpsilon(t, row.harsh, harsh, 1e-3, "%g", row.strain)
		assert.InEpsilon(t, row.mild, mild, 1e-3, "%g", row.strain)
	}
	for _, none := range []float64{0, -0.001, math.NaN()} {
		harsh, mild := roundLaw.Swings(none)
		assert.True(t, math.IsInf(harsh, 1) && math.IsInf(mild, 1), "%g", none)
	}
}

// 50 swings of 0.002 and 100 of 0.001, from rest into stretch: harsh 50/100 + 100/1000 = 0.6, mild
// 50/10^4 + 100/10^6 = 0.0051. The same about rest: the mild end counts the stretched half alone,
// 50/10^6 + 100/10^7; pressed only, it counts nothing.
func TestDamageByHand(t *testing.T) {
	sum := func(mean func(r float64) float64) (d Damage) {
		for _, c := range []Cycle{{Range: 0.002, Count: 50}, {Range: 0.001, Count: 100}} {
			c.Mean = mean(c.Range)
			d = d.Plus(roundLaw.Of(c))
		}
		return d
	}
	pulled := sum(func(r float64) float64 { return r / 2 })
	assert.InEpsilon(t, 0.6, pulled.High, 1e-9)
	assert.InEpsilon(t, 0.0051, pulled.Low, 1e-9)
	about := sum(func(float64) float64 { return 0 })
	assert.InEpsilon(t, 0.6, about.High, 1e-9)
	assert.InEpsilon(t, 6e-5, about.Low, 1e-9)
	pressed := sum(func(r float64) float64 { return -r / 2 })
	assert.Zero(t, pressed.Low)
	assert.InEpsilon(t, 0.6, pressed.High, 1e-9)
}
