package moisture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := Checks()
	require.NoError(t, err)
	assert.Greater(t, len(rows), 250)
	ids := map[string]bool{}
	for _, res := range verify.Run(rows) {
		assert.NoErrorf(t, res.Err, "%s", res.Row.ID)
		assert.Falsef(t, ids[res.Row.ID], "%s stands twice", res.Row.ID)
		ids[res.Row.ID] = true
		assert.Truef(t, res.Pass, "%s: %s = %v, want %v ± %v %s (%s)", res.Row.ID, res.Row.What,
			res.Got, res.Row.Want, res.Row.Tolerance(), res.Row.Unit, res.Row.Source)
	}
}
