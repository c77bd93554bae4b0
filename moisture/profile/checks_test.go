package profile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/profile"
	"crossgrain/tables/verify"
)

func TestChecks(t *testing.T) {
	rows, err := profile.Checks()
	require.NoError(t, err)
	for _, r := range verify.Run(rows) {
		assert.NoError(t, r.Err, r.Row.ID)
		assert.True(t, r.Pass, "%s: got %.6g, want %.6g +- %.2g %s", r.Row.ID, r.Got, r.Row.Want, r.Row.Tolerance(), r.Row.Unit)
	}
}

// The figures a reader of the measured rows asks for.
func TestMeasuredFigures(t *testing.T) {
	rows, err := profile.Checks()
	require.NoError(t, err)
	n := 0
	for _, r := range verify.Run(rows) {
		if r.Row.Kind == verify.Measured {
			n++
			t.Logf("%s: measured %.3g, computed %.3g (%.3g to %.3g) %s", r.Row.ID, r.Row.Want, r.Got, r.Low, r.High, r.Row.Unit)
		}
	}
	assert.Equal(t, 7, n)
}

// Findings stay findings: a change of the model that removes or adds one must be looked at.
func TestFindings(t *testing.T) {
	f, err := profile.Findings()
	require.NoError(t, err)
	require.NotEmpty(t, f)
	for _, x := range f {
		t.Logf("%s: measured %.3g, predicted %.3g to %.3g %s: %s", x.ID, x.Measured, x.Low, x.High, x.Unit, x.Remark)
		assert.NotEmpty(t, x.Source)
	}
	ids := make([]string, len(f))
	for i, x := range f {
		ids[i] = x.ID
	}
	assert.Equal(t, []string{"P01", "P12", "P11"}, ids[:3])
	assert.Contains(t, strings.Join(ids[3:], " "), "D1-b-")
	assert.InDelta(t, 2.25, f[2].Low, 1e-9, "0.27 over 0.12, Bratasz et al., Table 1")
	assert.Less(t, f[0].Measured, f[0].Low)
	assert.Greater(t, 2*f[0].Measured, f[0].Low)
}
