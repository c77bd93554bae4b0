package profile

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Poplar in cycles: square moves most, then sine, then triangle, all less than the static swing; the
// sine lags 1.3 to 1.7 times as long as the triangle in cycles of 6 and 24 h, not in one of 1 h (see
// Findings). Source: Yang, Ma and Li 2019, BioResources 14(3), which does not say at which period.
func TestCycles(t *testing.T) {
	for _, hours := range []float64{1, 6, 24} {
		period := hours * 3600
		sq, _, err := cycle(square, period)
		require.NoError(t, err)
		si, _, err := cycle(sine, period)
		require.NoError(t, err)
		tr, _, err := cycle(triangle, period)
		require.NoError(t, err)
		ratio, err := lagRatio(period)
		require.NoError(t, err)
		t.Logf("%g h: square %.3f, sine %.3f, triangle %.3f %% MC, lag ratio %.2f", hours, 100*sq, 100*si, 100*tr, ratio)
		static, _, err := cycle(sine, 3000*3600)
		require.NoError(t, err)
		assert.Less(t, sq, 1.001*static)
		assert.Less(t, si, sq)
		assert.Less(t, tr, si)
		if hours > 1 {
			assert.InDelta(t, 1.5, ratio, 0.2, "%g h", hours)
		}
	}
}
