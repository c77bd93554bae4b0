package restraint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := Checks()
	require.NoError(t, err)
	for _, r := range verify.Run(rows) {
		assert.NoError(t, r.Err, r.Row.ID)
		assert.True(t, r.Pass, "%s %s = %g, want %g +- %g %s (%s)", r.Row.ID, r.Row.What, r.Got, r.Row.Want, r.Row.Tolerance(), r.Row.Unit, r.Row.Source)
	}
}
