package plan

import (
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"crossgrain/tables/tabletest"
)

// readCaseD reads the finite-element reference (source in the file's head) as variant/quantity.
func readCaseD(t *testing.T) map[string]float64 {
	t.Helper()
	src, err := os.ReadFile("../../../testdata/solvers/case_d.csv")
	require.NoError(t, err)
	rows := tabletest.Cells(t, src)
	out := map[string]float64{}
	for _, row := range rows {
		if row[4] != "own FE (scipy)" {
			continue
		}
		v, err := strconv.ParseFloat(row[2], 64)
		require.NoError(t, err)
		out[row[0]+"/"+row[1]] = v
	}
	require.NotEmpty(t, out)
	return out
}
