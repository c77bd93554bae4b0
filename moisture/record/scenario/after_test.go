package scenario

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
)

func moistureT(t float64) moisture.Celsius { return moisture.Celsius(t) }

// The closed form against the solver, hour by hour: the same where the curve is straight and the
// temperature stays (tolerance: that of the solver), within a point otherwise.
func TestAfterAgreesWithTheSolver(t *testing.T) {
	for name, x := range map[string]struct {
		c    Case
		room Climate
		tol  float64
	}{
		"buffer": {Case{Volume: 100, Exchange: 2, Buffer: Buffer{0.2, 2}, Start: Climate{0.5, 20}}, Climate{0.3, 20}, 1e-4},
		"straight wood": {Case{Volume: 100, Exchange: 5, Buffer: Buffer{0.05, 2},
			Wood: Wood{Mass: 2, Quick: 0.2, Hours: 50, Isotherm: straight{}}, Start: Climate{0.5, 20}}, Climate{0.3, 20}, 1e-4},
		"wood":           {Case{Volume: 100, Exchange: 5, Wood: Wood{Mass: 2, Quick: 0.2, Hours: 50}, Start: Climate{0.5, 20}}, Climate{0.3, 20}, 0.01},
		"crate, cooled":  {crate(), Climate{0.35, 12}, 0.01},
		"crate, warmed":  {crate(), Climate{0.25, 28}, 0.01},
		"leaky, warmed":  {Case{Volume: 100, Exchange: 24, Wood: Wood{Mass: 1, Quick: 1}, Lag: 4, Start: Climate{0.5, 10}}, Climate{0.35, 20}, 0.02},
		"already there":  {crate(), Climate{0.5, 20}, 1e-6},
		"sealed, warmed": {Case{Volume: 100, Wood: Wood{Mass: 3, Quick: 0.2, Hours: 10}, Lag: 1, Start: Climate{0.5, 15}}, Climate{0.3, 25}, 0.01},
	} {
		room, err := StepAndHold(Clock{}, x.room, x.room, time.Hour, 20*days)
		require.NoError(t, err)
		in, err := x.c.Inside(room)
		require.NoError(t, err)
		for i := range in.RH {
			got, err := x.c.After(x.room, float64(i))
			require.NoError(t, err, name)
			require.InDelta(t, in.RH[i], float64(got.RH), x.tol, "%s after %d h", name, i)
			if x.c.Lag > 0 {
				require.InDelta(t, in.T[i], float64(got.T), 1e-9, name)
			}
		}
	}
}

// straight is an invented straight moisture curve.
type straight struct{}

func (straight) MC(h moisture.RH, _ moisture.Celsius) moisture.MC { return moisture.MC(0.2 * h) }
func (straight) Slope(moisture.RH, moisture.Celsius) float64      { return 0.2 }
func (straight) RH(u moisture.MC, _ moisture.Celsius) (moisture.RH, error) {
	return moisture.RH(u / 0.2), nil
}

// The hours at which a reading is reached, put back, give the reading; the half-time gives half way.
func TestUntil(t *testing.T) {
	c := Case{Volume: 100, Exchange: 2, Buffer: Buffer{1, 2}, Start: Climate{0.5, 20}}
	half, err := c.HalfTime()
	require.NoError(t, err)
	room := Climate{0.3, 20}
	h, ok, err := c.Until(room, 0.4)
	require.NoError(t, err)
	assert.True(t, ok)
	assert.InEpsilon(t, half, h, 1e-6)
	_, ok, err = c.Until(room, 0.29)
	require.NoError(t, err)
	assert.False(t, ok, "it never gets drier than the room")
	h, ok, err = c.Until(room, 0.5)
	assert.True(t, ok && h == 0 && err == nil)
	_, _, err = c.Until(room, 40)
	assert.ErrorContains(t, err, "reading must lie between 0 and 100 %")
	_, err = c.After(room, -1)
	assert.ErrorContains(t, err, "time must lie between")
	_, err = c.After(Climate{3, 20}, 1)
	assert.ErrorContains(t, err, "humidity of the room")
	_, err = Case{Volume: 100, Exchange: 1, Start: Climate{0.7, 25}}.After(Climate{0.5, 0}, 10)
	assert.ErrorContains(t, err, "water condenses in the case at 0 °C")
	open := Case{Volume: 100, Exchange: math.Inf(1), Start: Climate{0.7, 25}}
	x, err := open.After(room, 0)
	require.NoError(t, err)
	assert.InDelta(t, 0.3, float64(x.RH), 1e-12)
	half, err = open.HalfTime()
	assert.True(t, half == 0 && err == nil)
	open.Exchange = 0
	half, err = open.HalfTime()
	assert.True(t, math.IsInf(half, 1) && err == nil)
}

// The two exponentials against their own equation: the derivative at any time is right.
func TestPairFollowsItsEquation(t *testing.T) {
	p := pair{leak: 0.05, take: 0.4, follow: 0.02}
	const e = 1e-5
	for _, x := range []float64{0, 0.5, 10, 300} {
		d, g := p.after(0.2, -0.1, x)
		d2, g2 := p.after(0.2, -0.1, x+e)
		assert.InDelta(t, -p.leak*d-p.take*(d-g), (d2-d)/e, 1e-6)
		assert.InDelta(t, p.follow*(d-g), (g2-g)/e, 1e-6)
	}
}
