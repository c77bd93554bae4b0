package scenario

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Without stages between, an empty case is opened when the difference a day before is what is allowed.
func TestOpeningAnEmptyCase(t *testing.T) {
	c := Case{Volume: 100, Exchange: 0.2, Start: Climate{0.5, 20}}
	got, err := c.Opening(Climate{0.3, 20}, 5)
	require.NoError(t, err)
	require.Len(t, got, 2)
	assert.InEpsilon(t, 24*(1+math.Log(20./5)/0.2), got[0].Hours, 1e-3)
	assert.InDelta(t, 0.5, float64(got[0].From), 1e-9)
	assert.InDelta(t, 0.3+0.05*math.Exp(-0.2), float64(got[0].To), 1e-4)
	assert.Equal(t, got[0].To, got[1].From)
	assert.InDelta(t, 0.3, float64(got[1].To), 1e-12)
	near, err := c.Opening(Climate{0.46, 20}, 5)
	require.NoError(t, err)
	assert.Zero(t, near[0].Hours, "near enough to be opened at once")
	_, err = c.Opening(Climate{0.1, 20}, 5)
	assert.ErrorContains(t, err, "even closed the case changes by 7.25 points in 24 h") // 40 (1 - exp(-0.2))
}

// The course worked out by the solver stage by stage never changes faster than allowed, and nearly as
// fast at the moments of going on; stages between make the whole quicker.
func TestOpeningInStages(t *testing.T) {
	c := Case{Volume: 200, Exchange: 0.2, Buffer: Buffer{1, 2}, Start: Climate{0.5, 20}}
	room := Climate{0.35, 20}
	plain, err := c.Opening(room, 3)
	require.NoError(t, err)
	staged, err := c.Opening(room, 3, 5, 20)
	require.NoError(t, err)
	require.Len(t, staged, 4)
	total := 0.0
	var rh []float64
	for _, s := range staged {
		total += s.Hours
		leg, at := c, Climate{s.From, 20}
		leg.Exchange, leg.Start = s.Exchange, at
		for k := range int(4 * s.Hours) {
			x, err := leg.After(room, float64(k)/4)
			require.NoError(t, err)
			rh = append(rh, float64(x.RH))
		}
	}
	for range 100 {
		rh = append(rh, 0.35)
	}
	assert.Less(t, total, plain[0].Hours)
	most := 0.0
	for i := 96; i < len(rh); i++ {
		most = max(most, math.Abs(rh[i]-rh[i-96]))
	}
	assert.InDelta(t, 0.03, most, 0.0005)
}

func TestOpeningWaitsForTheTemperature(t *testing.T) {
	c := crate()
	got, err := c.Opening(Climate{0.49, 10}, 5)
	require.NoError(t, err)
	assert.InDelta(t, 6*math.Log(10), got[0].Hours, 1e-9) // 10 K down to 1 K
	_, err = c.Opening(Climate{0.49, 10}, 5, 0.5)
	assert.ErrorContains(t, err, "each stage more open")
	_, err = c.Opening(Climate{0.49, 10}, 0)
	assert.ErrorContains(t, err, "change must lie between 0.5 and 50 points")
	c.Exchange = math.Inf(1)
	_, err = c.Opening(Climate{0.49, 10}, 5)
	assert.ErrorContains(t, err, "must be closed")
	c.Exchange, c.Wood.Mass, c.Buffer.Mass = 0, 0, 0
	_, err = c.Opening(Climate{0.2, 20}, 5)
	assert.ErrorContains(t, err, "does not come near enough")
}
