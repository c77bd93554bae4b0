package plan

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// readCaseD reads the finite-element reference (source in the file's head) as variant/quantity.
func readCaseD(t *testing.T) map[string]float64 {
	t.Helper()
	file, err := os.Open("../../../testdata/solvers/case_d.csv")
	require.NoError(t, err)
	defer file.Close()
	r := csv.NewReader(file)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	out := map[string]float64{}
	for _, row := range rows[1:] {
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
