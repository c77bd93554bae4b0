package report

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/verify"
)

func TestNewVerify(t *testing.T) {
	value := func(v float64) func() (float64, error) { return func() (float64, error) { return v, nil } }
	rows := []verify.Row{
		{ID: "A", What: "a closed form", Unit: "mm", Source: "made up", Kind: verify.Closed, Want: 2, Tol: 0.1, Got: value(2.05)},
		{ID: "B", What: "one that fails", Unit: "mm", Source: "made up, p. 7", Kind: verify.Printed, Want: 2, Tol: 0.1, Relative: true, Got: value(3)},
		{ID: "C", What: "measured", Unit: "mm", Source: "made up", Kind: verify.Measured, Want: 5,
			Band: func() (float64, float64, error) { return 4, 6, nil }},
		{ID: "D", What: "one with an error", Source: "made up", Kind: verify.Closed,
			Got: func() (float64, error) { return 0, errors.New("outside") }},
		{ID: "E", What: "no source", Kind: verify.Closed, Got: value(0)},
	}
	v := NewVerify(Head{Version: "devel"}, verify.Run(rows), []verify.Finding{{ID: "F1", What: "what is not met", Unit: "-", Measured: 2, Low: 3, High: 3, Source: "made for this test"}})
	assert.Equal(t, 3, v.Failed)
	assert.Equal(t, "verify", v.Kind)
	assert.InDelta(t, 0.2, v.Checks[1].Tolerance, 1e-12, "a relative tolerance is given in the unit")
	assert.Nil(t, v.Checks[2].Got)
	assert.InDelta(t, 4, *v.Checks[2].Low, 0)
	var b bytes.Buffer
	require.NoError(t, v.WriteText(&b))
	for _, want := range []string{
		"5 checks", "3 fail", "FAIL  B", "source: made up, p. 7", "measured 5, predicted 4 to 6 mm", "could not be computed: outside",
	} {
		assert.Contains(t, b.String(), want)
	}
	require.NoError(t, v.WriteCSV(&bytes.Buffer{}))
	assert.Contains(t, toJSON(t, v), `"failed": 3`)
}
