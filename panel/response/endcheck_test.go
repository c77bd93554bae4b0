package response

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand: at the humidity found the end of a board of oak wants to shrink by just what wood bears, 0.355 % for each % of moisture
// flat-sawn and 0.165 % quarter-sawn (oak, T and R, mean of the sources in panel_wood_defaults); damp panels fall farther; a panel
// that lives in the driest air has nothing left to fall; coated and covered ends have none.
func TestEndChecks(t *testing.T) {
	o := object(oakBoard(t, "flat", 200, 15, 0), oakBoard(t, "quarter", 200, 15, 90))
	prepared := func() *Case {
		c, err := Prepare(o, Quick)
		require.NoError(t, err)
		return c
	}
	c := prepared()
	e := c.EndChecks()
	require.Len(t, e, 2)
	for i, per := range [...]float64{0.355, 0.165} {
		b := &c.boards[i]
		assert.InEpsilon(t, b.breaks, per*float64(b.used-b.mc(e[i].RH, 20)), 0.01, e[i].Part)
	}
	o.UsedTo = 0.7
	assert.Greater(t, prepared().EndChecks()[0].RH, e[0].RH)
	o.UsedTo = 0.02
	assert.Zero(t, prepared().EndChecks()[0].RH)
	o.UsedTo = 1
	assert.Less(t, float64(prepared().EndChecks()[0].RH), 1.0)
	for _, ends := range [...]string{"coated", "covered"} {
		o.Ends = ends
		assert.Empty(t, prepared().EndChecks(), ends)
	}
}
