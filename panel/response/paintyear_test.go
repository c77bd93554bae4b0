package response

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
)

// primed is one board with a ground of a state, nothing holding it.
func primed(t *testing.T, state string) *panel.Object {
	t.Helper()
	o := object(oakBoard(t, "a", 300, 10, 0))
	o.Front = panel.Face{Painted: true, Ground: "chalk-glue", GroundMM: 1, GroundState: state, GroundE: 3000, GroundEIntact: 3000, SdM: 2}
	return o
}

func paintOfYear(t *testing.T, o *panel.Object, m made) []PaintYear {
	t.Helper()
	y, err := planned(t, o, Coarse).Follow(context.Background(), m, drop{})
	require.NoError(t, err)
	return y.Paint
}

// A season so slow that the wood keeps up: the ground is stretched and pressed as in balance with the two ends, worked out the
// other way, state by state; stretched when damp, pressed when dry.
func TestPaintYearAgreesWithStates(t *testing.T) {
	o := primed(t, "continuous")
	p := paintOfYear(t, o, made{hours: 24 * 900, rh: swing(0.5, 0.1, 24*600)})
	require.Len(t, p, 1)
	assert.Equal(t, PaintWhole, p[0].Kind)
	c := planned(t, o, Coarse)
	states, err := c.Settle([]moisture.RH{0.40, 0.60})
	require.NoError(t, err)
	assert.InEpsilon(t, states[1].GroundStrain[1], p[0].Stretch.Strain, 0.06)
	assert.InEpsilon(t, states[0].GroundStrain[1], p[0].Press.Strain, 0.06)
	assert.Positive(t, p[0].Stretch.Strain)
	assert.Negative(t, p[0].Press.Strain)
	over, err := c.PaintOver(states)
	require.NoError(t, err)
	assert.InDelta(t, states[1].GroundStrain[1], over[0].Stretch.Strain, 1e-12)
}

// Slow swings do most where they are large, daily ones where nothing else moves; the harsh end of the law is never below the
// mild one; a ground that is cracked or loose is told apart and has no account.
func TestPaintSwings(t *testing.T) {
	season := paintOfYear(t, primed(t, "continuous"), made{hours: 24 * 700, rh: swing(0.5, 0.15, 24*350)})[0]
	assert.Greater(t, season.Swings[2], 0.9)
	assert.Greater(t, season.Damage.High, season.Damage.Low)
	daily := paintOfYear(t, primed(t, "continuous"), made{hours: 24 * 60, rh: swing(0.5, 0.15, 24)})[0]
	assert.Greater(t, daily.Swings[0], 0.5)
	assert.Less(t, daily.Stretch.Strain, season.Stretch.Strain/2, "a day does not reach far into the wood")
	var cycles float64
	for _, c := range daily.Classes {
		cycles += c.Cycles
	}
	assert.InDelta(t, 60, cycles, 3, "one swing a day")
	for state, kind := range map[string]PaintKind{"craquelured": PaintIslands, "lifting": PaintLoose, "": PaintUnknown} {
		y := paintOfYear(t, primed(t, state), made{hours: 24 * 100, rh: swing(0.5, 0.2, 24*50)})[0]
		assert.Equal(t, kind, y.Kind)
		assert.Equal(t, kind == PaintUnknown, y.Damage.High > 0, string(kind))
	}
	bare := primed(t, "continuous")
	bare.Front.Ground = "none"
	assert.Empty(t, paintOfYear(t, bare, made{hours: 48, rh: still(0.5)}))
}
