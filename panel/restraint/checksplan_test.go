package restraint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/verify"
)

// What is told as not met must stay so, or be told as met.
func TestMisses(t *testing.T) {
	for _, r := range verify.Run(Misses()) {
		require.NoError(t, r.Err, r.Row.ID)
		t.Logf("%s: %.3f to %.3f, seen %g", r.Row.ID, r.Low, r.High, r.Row.Want)
		assert.False(t, r.Pass, "%s passes: move it to the checks", r.Row.ID)
		assert.Less(t, r.Low, r.Row.Want, "the band holds what was seen")
		assert.Greater(t, r.High, r.Row.Want)
	}
}

// The measured rows can fail: strips nailed hard at both edges are held, and stiff springs hold warp.
func TestMeasuredRowsCanFail(t *testing.T) {
	loose, err := floorMoves(1, 28.5)
	require.NoError(t, err)
	fast, err := floorMoves(100, 2, 55)
	require.NoError(t, err)
	t.Logf("movement kept: nails in the middle %.4f, hard at both edges %.4f", loose, fast)
	assert.Less(t, fast, 0.9)
	last := 0.0
	for _, spring := range []float64{2, 5, 20, inf} {
		v, err := crossbars{30, spring}.held()
		require.NoError(t, err)
		t.Logf("springs of %g N/mm: %.3f held", spring, v)
		assert.Greater(t, v, last)
		last = v
	}
}
