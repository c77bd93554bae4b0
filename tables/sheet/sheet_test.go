package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/sheet"
)

func cells(s sheet.Sheet) [][]string {
	var out [][]string
	for _, r := range s.Rows {
		out = append(out, r.Cells)
	}
	return out
}

func TestTextFindsItsDelimiter(t *testing.T) {
	for _, c := range []struct {
		text   string
		delim  rune
		reason string
	}{
		{"a,b,c\n1,2,3\n", ',', "commas"},
		{"a;b\n62,5;47,5\n60,5;40,5\n", ';', "decimal commas beside semicolons"},
		{"a\tb\n1, 2\t3\n", '\t', "tabs"},
		{"a|b\n1|3\n", '|', "bars"},
		{"a\n1\n2\n", ',', "one column"},
	} {
		s, d, err := sheet.Text("x.csv", []byte(c.text))
		require.NoError(t, err, c.reason)
		assert.Equal(t, string(c.delim), string(d), c.reason)
		assert.Len(t, s.Rows, strings.Count(c.text, "\n"), c.reason)
	}
}

func TestTextKeepsLinesAndQuotes(t *testing.T) {
	s, _, err := sheet.Text("x.csv", []byte("a,b\n\n\"two\nlines, one cell\",\u00a0x \n,,\n24 1/2\",'=1\n"))
	require.NoError(t, err)
	require.Equal(t, [][]string{{"a", "b"}, {"two\nlines, one cell", "x"}, {`24 1/2"`, "=1"}}, cells(s))
	assert.Equal(t, []int{1, 3, 6}, []int{s.Rows[0].Line, s.Rows[1].Line, s.Rows[2].Line}, "lines as an editor counts them")
}

func TestTextNamesTheQuotationMarkThatIsNeverClosed(t *testing.T) {
	_, _, err := sheet.Text("x.csv", []byte("a,b\n1,2\n\"3,4\n"+strings.Repeat("5,6\n", 100)))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "x.csv:3: cell 1 runs over")
	assert.Contains(t, err.Error(), "never closed")
}

func TestWrittenRowsReadTheSame(t *testing.T) {
	rows := [][]string{{"number", "note"}, {"1923.10", "=1+1"}, {"00123", "-3"}, {"12-3", "a; \"b\"\nc"}, {"1e5", "é"}}
	text, err := sheet.WriteText(rows, ';')
	require.NoError(t, err)
	assert.Contains(t, string(text), "'=1+1", "no formula leaves")
	plain, _, err := sheet.Decode("x.csv", text)
	require.NoError(t, err)
	s, d, err := sheet.Text("x.csv", plain)
	require.NoError(t, err)
	assert.Equal(t, ';', d)
	assert.Equal(t, rows, cells(s))

	book, err := sheet.WriteWorkbook(rows)
	require.NoError(t, err)
	require.True(t, sheet.IsWorkbook(book))
	sheets, err := sheet.Workbook("x.xlsx", book)
	require.NoError(t, err)
	require.Len(t, sheets, 1)
	assert.Equal(t, rows, cells(sheets[0]), "every cell stays text: zeros and dashes are kept")
}
