package report

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWriteCSV(t *testing.T) {
	a := invented()
	a.Panel.Accession = "=HYPERLINK(1)"
	var b bytes.Buffer
	require.NoError(t, a.WriteCSV(&b))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+len(a.States)*len(a.Worst), "one row for each state and mode")
	unit := regexp.MustCompile(`_(text|pct|mm|in_row_unit|1|yes_no)$`)
	for _, name := range rows[0] {
		assert.Regexp(t, unit, name)
	}
	assert.Equal(t, "'=HYPERLINK(1)", rows[1][0])
	assert.Equal(t, "-5.1", rows[1][4], "a negative number stays a number")
	last := rows[len(rows)-1]
	assert.Equal(t, "slot_exhausted", last[8])
	assert.Empty(t, last[11], "no capacity, no number")
}

func TestCellText(t *testing.T) {
	for in, want := range map[string]string{
		"=1+1": "'=1+1", "+1": "'+1", "-x": "'-x", "@a": "'@a", "\tx": "'\tx", "board a": "board a", "": "", "é=": "é=",
	} {
		assert.Equal(t, want, cellText(in))
	}
}
