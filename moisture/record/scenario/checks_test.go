package scenario

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := Checks()
	require.NoError(t, err)
	assert.Len(t, rows, len(tables.MustRead("checks_climate").Rows))
	for _, res := range verify.Run(rows) {
		assert.NoErrorf(t, res.Err, "%s", res.Row.ID)
		assert.Truef(t, res.Pass, "%s: %s = %v, want %v ± %v %s (%s)", res.Row.ID, res.Row.What,
			res.Got, res.Row.Want, res.Row.Tolerance(), res.Row.Unit, res.Row.Source)
	}
}

// The factor 4 of the rule of thumb for the half-time (memory) stands for 17.24 g/m3.
func TestRuleOfThumbForTheHalfTime(t *testing.T) {
	c := Case{Volume: 500, Exchange: 0.5, Buffer: Buffer{Mass: 5, Capacity: 4}, Start: Climate{0.5, 20}}
	h, err := c.HalfTime()
	require.NoError(t, err)
	assert.InEpsilon(t, 4*4*10/0.5, h/24, 0.03) // air and wood left out there: 0.25 % here
}
