package sheet

import (
	"bytes"

	"github.com/xuri/excelize/v2"
)

// WriteWorkbook writes rows as a workbook of one sheet. Every cell is text, so that numbers of objects
// keep their zeros and do not become dates.
func WriteWorkbook(rows [][]string) ([]byte, error) {
	f := excelize.NewFile()
	defer f.Close()
	w, err := f.NewStreamWriter(f.GetSheetName(0))
	if err != nil {
		return nil, err
	}
	for i, row := range rows {
		cells := make([]any, len(row))
		for k, c := range row {
			if c != "" {
				cells[k] = c
			}
		}
		at, err := excelize.CoordinatesToCellName(1, i+1)
		if err == nil {
			err = w.SetRow(at, cells)
		}
		if err != nil {
			return nil, err
		}
	}
	if err := w.Flush(); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = f.Write(&b)
	return b.Bytes(), err
}
