// Package sheet takes files of tables apart into rows of cells: texts of any encoding, and workbooks in
// the .xlsx form. What the cells mean is for those who read them.
package sheet

import (
	"bytes"
)

// Sheet is one table of cells as it stands in a file, before anything is decided. Moments are written
// as 2006-01-02 15:04:05, numbers with a decimal point.
type Sheet struct {
	Name string // of the file, with the sheet in brackets where there are several
	Rows []Row
}

// Row is one line of a sheet; Line counts from 1 as the user sees it.
type Row struct {
	Line  int
	Cells []string
}

// IsWorkbook says whether the bytes are a spreadsheet program's file, and not text: an .xlsx, or one
// of the older forms that [Workbook] names when it turns them away.
func IsWorkbook(src []byte) bool {
	return bytes.HasPrefix(src, []byte("PK\x03\x04")) || bytes.HasPrefix(src, []byte(oleMagic))
}
