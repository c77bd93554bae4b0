package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"crossgrain/tables/problem"
)

// longCell is the most lines that one row of a text may run over; more come from a quotation mark that
// is never closed (assumption).
const longCell = 40

// Text reads a text whose rows are cells parted by commas, semicolons, tabs or bars, whichever makes the
// most rows alike. A cell in quotation marks may hold the delimiter and line breaks. Cells are trimmed;
// an apostrophe that spreadsheets put before a formula's sign is taken off. Rows without a filled cell
// are left out, the numbers of the others stay.
func Text(name string, text []byte) (s Sheet, delimiter rune, err error) {
	delimiter = delimiterOf(text)
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = delimiter, -1, true
	s.Name = name
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return s, delimiter, nil
		}
		if err != nil {
			return s, delimiter, problem.List{{File: name, Msg: "cannot be read: " + err.Error(), Hint: "export it again as CSV, UTF-8"}}.Err()
		}
		line, _ := r.FieldPos(0)
		filled := false
		for i, c := range cells {
			if strings.Count(c, "\n") > longCell {
				return s, delimiter, problem.List{{File: name, Line: line, Msg: fmt.Sprintf("cell %d runs over %d lines", i+1, strings.Count(c, "\n")+1),
					Hint: "a quotation mark is opened in this line and never closed"}}.Err()
			}
			cells[i] = trimmed(c)
			filled = filled || cells[i] != ""
		}
		if filled {
			s.Rows = append(s.Rows, Row{Line: line, Cells: cells})
		}
	}
}

// trimmed takes blanks of every kind off both ends, and the mark of a text before a formula's sign.
func trimmed(c string) string {
	c = strings.TrimFunc(c, unicode.IsSpace)
	if len(c) > 1 && c[0] == '\'' && strings.ContainsRune("=+-@", rune(c[1])) {
		return c[1:]
	}
	return c
}

// delimiterOf finds the sign that makes most of the first rows have the same number of cells, and the
// more cells the better; rows that differ count twice against it.
func delimiterOf(text []byte) rune {
	best, most := ',', 0.0
	for _, d := range []rune{';', '\t', ',', '|'} {
		r := csv.NewReader(bytes.NewReader(text[:min(len(text), 1<<16)]))
		r.Comma, r.FieldsPerRecord, r.LazyQuotes, r.ReuseRecord = d, -1, true, true
		count, all := map[int]int{}, 0
		for range 50 {
			cells, err := r.Read()
			if err != nil {
				break
			}
			count[len(cells)]++
			all++
		}
		score := 0.0
		for n, rows := range count {
			score = max(score, float64((n-1)*rows*rows)/float64(all*all))
		}
		if score > most {
			best, most = d, score
		}
	}
	return best
}

// WriteText writes rows as text that [Text] and spreadsheets read again: UTF-8 with the mark that
// spreadsheets look for, CRLF, an apostrophe before what a spreadsheet would take for a formula.
func WriteText(rows [][]string, delimiter rune) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString("\ufeff")
	w := csv.NewWriter(&b)
	w.Comma, w.UseCRLF = delimiter, true
	for _, row := range rows {
		cells := make([]string, len(row))
		for i, c := range row {
			if c != "" && strings.ContainsRune("=+-@\t\r", rune(c[0])) {
				c = "'" + c
			}
			cells[i] = c
		}
		if err := w.Write(cells); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}
