package intake

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"crossgrain/tables/sheet"
)

var update = flag.Bool("update", false, "rewrite the panel files of the invented collection")

var collection = filepath.Join("..", "..", "testdata", "collection")

// TestInventedCollection: the list of the invented collection gives its panel files, from CSV and from a
// workbook alike.
func TestInventedCollection(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(collection, "collection.csv"))
	require.NoError(t, err)
	l, err := Read("collection.csv", data, Options{})
	require.NoError(t, err)
	require.Len(t, l.Rows, 40)
	s, _, err := sheet.Text("collection.csv", data)
	require.NoError(t, err)
	var rows [][]string
	for _, r := range s.Rows {
		rows = append(rows, r.Cells)
	}
	book, err := sheet.WriteWorkbook(rows)
	require.NoError(t, err)
	fromBook, err := Read("collection.csv", book, Options{}) // the name stands in the files
	require.NoError(t, err)
	assert.Equal(t, "workbook", fromBook.Encoding)
	for i, r := range l.Rows {
		assert.Contains(t, r.Accession, "INVENTED")
		assert.Equal(t, string(r.Text), string(fromBook.Rows[i].Text))
		path := filepath.Join(collection, "panels", r.File)
		if *update {
			require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o777))
			require.NoError(t, os.WriteFile(path, r.Text, 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(r.Text), "rewrite with -update")
	}
	files, err := filepath.Glob(filepath.Join(collection, "panels", "*.toml"))
	require.NoError(t, err)
	assert.Len(t, files, 40)
}

// TestWorkbookThatSpoiltItsNumbers: a workbook holds 1923.10 as the number 1923.1 and 12-3 as a day.
func TestWorkbookThatSpoiltItsNumbers(t *testing.T) {
	f := excelize.NewFile()
	for i, row := range [][]any{
		{"number", "height (cm)", "width (cm)"}, {1923.1, 62, 47.5}, {"1923.9", 62, 47.5}, {"1923.11", 62, 47.5}, {time.Date(2024, 3, 12, 0, 0, 0, 0, time.UTC), 62, 47.5},
	} {
		at, err := excelize.CoordinatesToCellName(1, i+1)
		require.NoError(t, err)
		require.NoError(t, f.SetSheetRow("Sheet1", at, &row))
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	l, err := Read("list.xlsx", b.Bytes(), Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{NumberZeros}, ids(l.Rows[0]))
	assert.Equal(t, "1923.1", l.Rows[0].Accession, "told, not mended")
	assert.Contains(t, string(l.Rows[0].Text), `width_mm = "47.5 cm"`)
	assert.Equal(t, []string{NumberDate}, ids(l.Rows[3]))
}

func TestSeveralSheets(t *testing.T) {
	f := excelize.NewFile()
	for _, name := range []string{"Store 1", "Store 2", "Legend"} {
		_, err := f.NewSheet(name)
		require.NoError(t, err)
		row := []any{"number", "size (cm)"}
		if name == "Legend" {
			row = []any{"blue", "on loan"}
		}
		require.NoError(t, f.SetSheetRow(name, "A1", &row))
		require.NoError(t, f.SetSheetRow(name, "A2", &[]any{name, "62 x 47"}))
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	_, err := Read("list.xlsx", b.Bytes(), Options{})
	assert.ErrorContains(t, err, "several sheets hold a list: Store 1, Store 2")
	assert.ErrorContains(t, err, "--sheet")
	l, err := Read("list.xlsx", b.Bytes(), Options{Sheet: "store 2"})
	require.NoError(t, err)
	assert.Equal(t, "Store 2", l.Rows[0].Accession)
	_, err = Read("list.xlsx", b.Bytes(), Options{Sheet: "Store 9"})
	assert.ErrorContains(t, err, `asked was the sheet "Store 9"`)
}
