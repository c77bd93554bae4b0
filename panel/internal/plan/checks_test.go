package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := Checks()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(rows), 90)
	for _, r := range verify.Run(rows) {
		require.NoError(t, r.Err, r.Row.ID)
		assert.True(t, r.Pass, "%s %s = %g, want %g +- %g %s (%s)", r.Row.ID, r.Row.What, r.Got, r.Row.Want, r.Row.Tolerance(), r.Row.Unit, r.Row.Source)
	}
}

// The registry alone would not see a sheet that is wrong by a factor in all: each kind of row must move
// with what it is about.
func TestChecksCanFail(t *testing.T) {
	s, err := newCheckSheet()
	require.NoError(t, err)
	a, err := s.solve(500, 1.2e7)
	require.NoError(t, err)
	b, err := s.solve(520, 1.2e7)
	require.NoError(t, err)
	for i := range 3 {
		assert.Greater(t, b.force[i]/a.force[i], 1.01, "a slip modulus 4 %% higher shows in F%d", i+1)
	}
	thick, err := middleOf(Plate{Width: checkWide, Thickness: 3.1, EX: 550, EL: 11000, GXL: 700, GXZ: 60, GLZ: 650, NuLX: 0.4}, 12, simplySupported)()
	require.NoError(t, err)
	thin, err := middleOf(Plate{Width: checkWide, Thickness: 3, EX: 550, EL: 11000, GXL: 700, GXZ: 60, GLZ: 650, NuLX: 0.4}, 12, simplySupported)()
	require.NoError(t, err)
	assert.InEpsilon(t, 1.0/1.0333/1.0333/1.0333, thick/thin, 0.005, "cube of the thickness")
}
