package response

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
)

func reglued(t *testing.T, o *panel.Object, low, high moisture.RH) Reglue {
	t.Helper()
	r, err := planned(t, o, Coarse).Reglue(low, high, nil)
	require.NoError(t, err)
	require.Len(t, r, 1)
	return r[0]
}

// A split measured open when dry closes as it gets damper, later the wider it was; filled or held by nothing it does not.
func TestClosing(t *testing.T) {
	gap := func(mm float64) Reglue {
		o := splitPanel(t, 300)
		o.Splits[0].Gap, o.Splits[0].GapRH = mm, 0.40
		return reglued(t, o, 0.35, 0.65)
	}
	small, wide := gap(0.05), gap(0.12)
	require.Equal(t, ClosesAt, small.Closes)
	require.Equal(t, ClosesAt, wide.Closes)
	assert.Greater(t, small.ClosesRH, moisture.RH(0.40))
	assert.Greater(t, wide.ClosesRH, small.ClosesRH)
	assert.Equal(t, NeverCloses, gap(5).Closes)
	assert.Equal(t, GapUnknown, gap(0).Closes)

	o := splitPanel(t, 300)
	o.Splits[0].Gap, o.Splits[0].GapRH, o.Splits[0].Filled = 0.1, 0.40, "yes"
	assert.Equal(t, ClosesFilled, reglued(t, o, 0.35, 0.65).Closes)
	o.Splits[0].Filled, o.Battens = "no", nil
	free := reglued(t, o, 0.35, 0.65)
	assert.Equal(t, ClosesFree, free.Closes)
	assert.Zero(t, free.High, "nothing holds it: any humidity does")
}

// Glued damp, a line is pulled more when dry and pressed less when damp. The humidity that asks least lies where both shares
// are alike, or at an end; it is never beyond 30 to 70 % RH.
func TestGluing(t *testing.T) {
	o := splitPanel(t, 300)
	r := reglued(t, o, 0.35, 0.65)
	assert.GreaterOrEqual(t, r.At.RH, moisture.RH(0.35))
	assert.LessOrEqual(t, r.At.RH, moisture.RH(0.65))
	assert.LessOrEqual(t, r.At.Worst(), r.Used.Worst()+1e-12)
	if r.Indoors {
		assert.InDelta(t, r.At.Pull, r.At.Press, 0.1*r.At.Worst())
	}
	assert.Positive(t, r.Half)
	assert.Greater(t, r.Most, r.Half)
	damp := reglued(t, o, 0.60, 0.95)
	assert.InDelta(t, 0.70, float64(damp.High), 1e-9)
	c := planned(t, o, Coarse)
	states, err := c.Settle([]moisture.RH{0.35, 0.5, 0.65})
	require.NoError(t, err)
	s := c.strainsAt(0, states)
	var at Reglue
	c.recordedGap(&at, &c.lines[0])
	dryGlue, dampGlue := c.gluedAt(&at, 0, &s, 0.40, 0.35, 0.65), c.gluedAt(&at, 0, &s, 0.60, 0.35, 0.65)
	assert.Greater(t, dampGlue.Pull, dryGlue.Pull)
	assert.Less(t, dampGlue.Press, dryGlue.Press)
	_, err = c.Reglue(0.7, 0.3, nil)
	assert.ErrorContains(t, err, "low before high")
}
