package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := Checks()
	require.NoError(t, err)
	all(t, rows)
}

func TestAgainstRowsOfOtherPackages(t *testing.T) {
	got := map[string]value{}
	for id, theta := range map[string]float64{"00": 0, "45": 45, "60": 60, "90": 90} { // 0 = quarter-sawn in these rows
		ex, _, _ := straight(species.RingAngle(90-theta), 0.02, 0.04)
		got["MOV-ANG-"+id] = is(ex)
	}
	for id, fo := range map[string]float64{"0.01": 0.01, "0.05": 0.05, "0.1": 0.1, "0.2": 0.2, "0.5": 0.5, "1.0": 1} {
		mean, bend := OneSided(fo)
		got["CUP-DIFF-MEAN-"+id] = is(mean)
		if fo > 0.05 && fo < 1 {
			got["CUP-DIFF-K-"+id] = is(bend)
		}
	}
	_, bend := OneSided(0.01)
	got["CUP-DIFF-SHORT"] = is(bend)
	rows, err := verify.FromTable(tables.MustRead("checks_mechanics"), got)
	require.NoError(t, err)
	all(t, rows)
	// the radial direction leans 30 degrees to the right there, so the rings lean 60 to the left:
	// (eR - eT) sin 60
	_, _, g := straight(-60, 0.02, 0.04)
	assert.InDelta(t, -0.02*math.Sqrt(3)/2, g, 1e-12)
}

func all(t *testing.T, rows []verify.Row) {
	t.Helper()
	require.NotEmpty(t, rows)
	for _, r := range verify.Run(rows) {
		assert.NoError(t, r.Err, r.Row.ID)
		assert.True(t, r.Pass, "%s: got %g, want %g +- %g (%s)", r.Row.ID, r.Got, r.Row.Want, r.Row.Tolerance(), r.Row.Source)
	}
}

// Rows that stand in the checks of another package, computed by this one's stack as well: two ways
// to the same number.
func TestStackAgainstRowsOfRestraint(t *testing.T) {
	batten, err := Stack([]Layer{{11000, 20, 40, 0}, {693, 20, 300, -0.01}}) // batten at the back
	require.NoError(t, err)
	rows, err := verify.FromTable(tables.MustRead("checks_mechanics"), map[string]value{
		"BAT-GLUE-K":      is(-batten.Curvature), // panel shrinks at the front: hollow
		"BAT-GLUE-S2_BOT": is(batten.Stress(0, 20)),
		"BAT-GLUE-S2_TOP": is(batten.Stress(0, 0)),
		"BAT-GLUE-FLAT":   is(batten.FlatStress(1)),
		"BAT-GLUE-FLAT-F": is(batten.FlatStress(1) * 20 * 300),
	})
	require.NoError(t, err)
	all(t, rows)
}
