package fracture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := Checks()
	require.NoError(t, err)
	require.Equal(t, 34, len(rows))
	for _, r := range verify.Run(rows) {
		assert.NoError(t, r.Err, r.Row.ID)
		assert.True(t, r.Pass, "%s: got %g, want %g +- %g (%s)", r.Row.ID, r.Got, r.Row.Want, r.Row.Tolerance(), r.Row.Source)
	}
}
