package species_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := species.Checks()
	require.NoError(t, err)
	ids := map[string]bool{}
	for _, r := range verify.Run(rows) {
		assert.False(t, ids[r.Row.ID], "twice: %s", r.Row.ID)
		ids[r.Row.ID] = true
		require.NoError(t, r.Err, r.Row.ID)
		assert.True(t, r.Pass, "%s (%s) = %g, band %g to %g, want %g ± %g %s (%s)", r.Row.ID, r.Row.What, r.Got, r.Low, r.High,
			r.Row.Want, r.Row.Tolerance(), r.Row.Unit, r.Row.Source)
	}
	for _, r := range tables.MustRead("checks_mechanics").Rows {
		id := r.Text("id")
		for _, mine := range []string{"MOV-", "ELA-OFF-", "SIH-"} {
			if strings.HasPrefix(id, mine) {
				assert.True(t, ids[id], "not covered: %s", id)
			}
		}
	}
}

// What measured wood contradicts is shown, with numbers that do lie outside.
func TestFindings(t *testing.T) {
	findings, err := species.Findings()
	require.NoError(t, err)
	var ids []string
	for _, f := range findings {
		ids = append(ids, f.ID)
		assert.True(t, f.Measured < f.Low || f.Measured > f.High, "%s lies inside: it belongs to the checks", f.ID)
		assert.NotEmpty(t, f.Source)
		assert.NotEmpty(t, f.Remark)
	}
	assert.Equal(t, []string{"P13-spruce", "D1-c-R", "P23-modulus-R", "P23-strength_tension-T"}, ids)
}
