package creep

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSet(t *testing.T) {
	// Hoadley 1998, p. 18: elastic limit 0.5 to 1 %; poplar T would swell 3.5 % from 20 to 80 % RH
	assert.InDelta(t, 0.030, Set(0.035, 0.005, 0), 1e-12)
	assert.InDelta(t, 0.025, Set(0.035, 0.010, 0), 1e-12)
	assert.Zero(t, Set(0.004, 0.005, 0), "below the limit nothing stays")
	assert.Zero(t, Set(-0.02, 0.005, 0), "shrinking crushes nothing")
	assert.InDelta(t, 0.003, Set(0.012, 0.005, 0.004), 1e-12)
}

func TestDampThenDryLeavesTension(t *testing.T) {
	b := Bar{Compression: 0.005, Tension: math.Inf(1)}
	assert.InDelta(t, -0.005, b.Hold(0.012), 1e-12)
	assert.InDelta(t, 0.007, b.Shortened, 1e-12)
	assert.InDelta(t, 0.007, b.Hold(0), 1e-12, "back at the start it is pulled by the set")
	assert.InDelta(t, 0.017, b.Hold(-0.010), 1e-12, "and further when drier")
}

// The closed form of the settled bar must be what many cycles, one by one, come to.
func TestSettledIsTheLimitOfCycles(t *testing.T) {
	for _, c := range []struct{ lc, lt, dry, damp float64 }{
		{0.005, math.Inf(1), -0.01, 0.012},
		{0.005, 0.009, -0.004, 0.006}, // within both limits: rests
		{0.005, 0.004, -0.010, 0.010}, // wider than both: never rests
		{0.01, 0.009, -0.001, 0.001},  // nothing happens
		{math.Inf(1), math.Inf(1), -0.1, 0.1},
	} {
		b := Bar{Compression: c.lc, Tension: c.lt}
		var damp, dry, set float64
		for range 30 {
			damp = b.Hold(c.damp)
			set = b.Shortened
			dry = b.Hold(c.dry)
		}
		s := Bar{Compression: c.lc, Tension: c.lt}.Settled(c.dry, c.damp)
		assert.InDelta(t, damp, s.Damp, 1e-12, "%v", c)
		assert.InDelta(t, dry, s.Dry, 1e-12, "%v", c)
		assert.InDelta(t, set, s.Set, 1e-12, "%v", c)
		assert.InDelta(t, math.Abs(b.Shortened-set), s.PerCycle, 1e-12, "%v", c)
		assert.Equal(t, s.PerCycle == 0, s.Lasting)
	}
}

// Wood in a frame that it can shrink away from, the gap packed in part each dry season: followed
// cycle by cycle against the closed form.
func TestPerpetualShrinkage(t *testing.T) {
	const swelling, limit = 0.03, 0.007
	for _, packed := range []float64{0, 0.3, 1} {
		set, fill := 0.0, 0.0
		for n := 1; n <= 12; n++ {
			held := swelling - (set - fill) // the gap left is swollen shut first
			set += Set(held, limit, 0)
			fill += packed * (set - fill)
			assert.InDelta(t, set, Perpetual(swelling, limit, packed, n), 1e-12, "packed %g, season %d", packed, n)
		}
	}
	assert.Zero(t, Perpetual(0.004, 0.005, 1, 100))
	assert.Zero(t, Perpetual(0.03, 0.005, 1, 0))
}
