// Package tabletest reads reference values for tests.
package tabletest

import (
	"bytes"
	"encoding/csv"
	"testing"
)

// Cells returns the rows below the head line of a CSV file whose notes begin with #. It fails the test
// when the text is no CSV or holds no row.
func Cells(t testing.TB, src []byte) [][]string {
	t.Helper()
	r := csv.NewReader(bytes.NewReader(src))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("reference of %d rows: %v", len(rows), err)
	}
	return rows[1:]
}
