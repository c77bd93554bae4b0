package sheet

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// Bounds of a workbook. The text inside a workbook is repetitive XML: some 10 to 40 times larger than
// its packed form (assumption), so 100 times is still a workbook and more is a trap.
const (
	workbookUnpackRatio = 100
	workbookUnpackFloor = 32 << 20 // bytes
	workbookUnpackMost  = 2 << 30  // bytes
	workbookColumns     = 1000     // cells farther right are not looked at
	workbookBlanks      = 50       // empty cells kept per filled one
	workbookBlankFloor  = 1 << 20
)

// The number formats of the workbook are replaced, in memory, by formats that mark the cell with one
// of these signs and then print the plain number. XML cannot hold them, so no text can imitate them.
const (
	markDate    = '\x01'
	markClock   = '\x02'
	markPercent = '\x03'
)

const oleMagic = "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1" // of the compound file: old .xls and encrypted .xlsx

// Workbook reads all sheets of a spreadsheet in the .xlsx form. Date cells become
// 2006-01-02 15:04:05 (2006-01-02 in a column of whole days), clock cells 15:04:05, cells shown in per
// cent keep the sign ("55.2%"); formulas give their stored value, errors their text.
func Workbook(name string, src []byte) (sheets []Sheet, err error) {
	defer func() {
		if p := recover(); p != nil { // the workbook library on damaged files
			sheets, err = nil, fmt.Errorf("%s: the workbook is damaged (%v); save it again or export as CSV", name, p)
		}
	}()
	most, err := workbookContainer(name, src)
	if err != nil {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(src), excelize.Options{UnzipSizeLimit: most, UnzipXMLSizeLimit: most})
	if err != nil {
		return nil, fmt.Errorf("%s: the workbook cannot be read: %w; save it again or export as CSV", name, err)
	}
	defer f.Close()
	markFormats(f)
	props, err := f.GetWorkbookProps()
	if err != nil {
		return nil, fmt.Errorf("%s: the workbook cannot be read: %w", name, err)
	}
	from1904 := props.Date1904 != nil && *props.Date1904
	for _, title := range f.GetSheetList() {
		s, err := workbookSheet(f, name, title, from1904)
		if err != nil {
			return nil, err
		}
		if len(s.Rows) > 0 {
			sheets = append(sheets, s)
		}
	}
	if len(sheets) == 0 {
		return nil, fmt.Errorf("%s: the workbook has no filled cell in any sheet", name)
	}
	return sheets, nil
}

// workbookContainer looks at the packing and gives the most bytes that may be unpacked.
func workbookContainer(name string, src []byte) (int64, error) {
	if bytes.HasPrefix(src, []byte(oleMagic)) {
		return 0, fmt.Errorf("%s: an old or a password-protected spreadsheet; save as .xlsx without password, or as CSV", name)
	}
	z, err := zip.NewReader(bytes.NewReader(src), int64(len(src)))
	if err != nil {
		return 0, fmt.Errorf("%s: the workbook is cut short or damaged (%w); copy it again or export as CSV", name, err)
	}
	most := min(int64(len(src))*workbookUnpackRatio+workbookUnpackFloor, workbookUnpackMost)
	var sum uint64
	book := false
	for _, e := range z.File {
		part := strings.ToLower(strings.ReplaceAll(e.Name, `\`, "/"))
		switch {
		case part == "mimetype" || part == "content.xml":
			return 0, fmt.Errorf("%s: an OpenDocument file; save as .xlsx or CSV", name)
		case part == "xl/workbook.bin":
			return 0, fmt.Errorf("%s: a binary workbook (.xlsb); save as .xlsx or CSV", name)
		case part == "xl/workbook.xml" || part == "_rels/.rels":
			book = true
		}
		sum += min(e.UncompressedSize64, math.MaxInt64/4)
		if sum > uint64(most) {
			return 0, fmt.Errorf("%s: unpacked the workbook would be above %d MB, refused; save the sheet as CSV", name, most>>20)
		}
	}
	if !book {
		return 0, fmt.Errorf("%s: a zip archive without a workbook; unpack it and give the files, or save as .xlsx or CSV", name)
	}
	return most, nil
}

// markFormats replaces date, clock and per cent formats by marking ones and all others by none.
func markFormats(f *excelize.File) {
	st := f.Styles
	if st == nil || st.CellXfs == nil {
		return
	}
	own := map[int]string{}
	if st.NumFmts != nil {
		for _, n := range st.NumFmts.NumFmt {
			own[n.NumFmtID] = n.FormatCode
		}
		st.NumFmts = nil
	}
	fresh := map[rune]int{}
	for i, xf := range st.CellXfs.Xf {
		id := 0
		if xf.NumFmtID != nil {
			id = *xf.NumFmtID
		}
		var to *int
		if m := formatMark(id, own[id]); m != 0 {
			if _, ok := fresh[m]; !ok {
				fresh[m] = addFormat(f, m)
			}
			to = new(int)
			*to = fresh[m]
		}
		st.CellXfs.Xf[i].NumFmtID = to
	}
}

// addFormat makes the marking format by way of a style that nobody uses.
func addFormat(f *excelize.File, m rune) int {
	code := fmt.Sprintf(`"%c"0.000000000;"%c"-0.000000000;"%c"0.000000000;@`, m, m, m)
	id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
	if err != nil || id >= len(f.Styles.CellXfs.Xf) || f.Styles.CellXfs.Xf[id].NumFmtID == nil {
		return 0
	}
	return *f.Styles.CellXfs.Xf[id].NumFmtID
}

// formatMark says what a number format shows. Built-in formats: ECMA-376 part 1, 18.8.30; 27..36 and
// 50..58 are dates of the East Asian settings there.
func formatMark(id int, code string) rune {
	if code != "" {
		return codeMark(code)
	}
	switch {
	case id == 9 || id == 10:
		return markPercent
	case id >= 14 && id <= 17, id == 22, id >= 27 && id <= 36, id >= 50 && id <= 58:
		return markDate
	case id >= 18 && id <= 21, id >= 45 && id <= 47:
		return markClock
	}
	return 0
}

// codeMark reads a custom format: y or d anywhere outside quotes and brackets makes a date, h or s
// alone a clock; m counts with them only. A "General" is no format.
func codeMark(code string) rune {
	code, _, _ = strings.Cut(strings.ToLower(code), ";")
	code = strings.ReplaceAll(code, "general", "")
	day, clock, month, percent := false, false, false, false
	for i := 0; i < len(code); i++ {
		switch code[i] {
		case '\\', '_', '*':
			i++
		case '"':
			i = skipTo(code, i+1, '"')
		case '[':
			end := skipTo(code, i+1, ']')
			inside := code[i+1 : min(end, len(code))]
			clock = clock || inside != "" && strings.Trim(inside, "hms") == ""
			i = end
		case 'y', 'd', 'e':
			day = day || code[i] != 'e' || !strings.Contains(code, "e+") && !strings.Contains(code, "e-")
		case 'h', 's':
			clock = true
		case 'm':
			month = true
		case '%':
			percent = true
		}
	}
	switch {
	case day, month && !clock:
		return markDate
	case clock:
		return markClock
	case percent:
		return markPercent
	}
	return 0
}

// skipTo gives the index of the next c at or after i, or the length.
func skipTo(s string, i int, c byte) int {
	if k := strings.IndexByte(s[i:], c); k >= 0 {
		return i + k
	}
	return len(s)
}

// workbookSheet reads one sheet; a sheet of charts has no rows.
func workbookSheet(f *excelize.File, name, title string, from1904 bool) (Sheet, error) {
	s := Sheet{Name: fmt.Sprintf("%s [%s]", name, title)}
	if shown, err := f.GetSheetVisible(title); err == nil && !shown {
		s.Name = fmt.Sprintf("%s [%s, hidden]", name, title)
	}
	rows, err := f.Rows(title)
	if err != nil {
		var none excelize.ErrSheetNotExist
		if errors.As(err, &none) {
			return s, nil
		}
		return s, fmt.Errorf("%s: cannot be read: %w", s.Name, err)
	}
	defer rows.Close()
	w := sheetWriter{from1904: from1904}
	for line := 1; rows.Next(); line++ {
		cells, err := rows.Columns()
		if err != nil {
			return s, fmt.Errorf("%s: row %d cannot be read: %w", s.Name, line, err)
		}
		if !w.add(line, cells) {
			return s, fmt.Errorf("%s: row %d: a few values spread over too many empty columns; save the readings as CSV", s.Name, line)
		}
	}
	if err := rows.Error(); err != nil {
		return s, fmt.Errorf("%s: cannot be read: %w", s.Name, err)
	}
	w.wholeDays()
	s.Rows = w.rows
	return s, nil
}

// sheetWriter collects the rows of one sheet.
type sheetWriter struct {
	from1904      bool
	rows          []Row
	filled, blank int
	days          map[int]bool // columns with date cells: true while all of them stand at midnight
}

// add takes one row; it is false when the empty cells outgrow the filled ones.
func (w *sheetWriter) add(line int, cells []string) bool {
	cells = cells[:min(len(cells), workbookColumns)]
	for len(cells) > 0 && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	if len(cells) == 0 {
		return true
	}
	for i, c := range cells {
		if c == "" {
			w.blank++
			continue
		}
		w.filled++
		if c[0] <= markPercent {
			cells[i] = w.marked(i, c)
		}
	}
	w.rows = append(w.rows, Row{Line: line, Cells: cells[:len(cells):len(cells)]})
	return w.blank <= workbookBlankFloor+workbookBlanks*w.filled
}

// marked writes a number behind a mark as what it stands for.
func (w *sheetWriter) marked(col int, c string) string {
	text := strings.TrimSpace(c[1:])
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) {
		return text
	}
	plain := strconv.FormatFloat(v, 'f', -1, 64)
	if c[0] == markPercent {
		return strconv.FormatFloat(math.Round(v*1e8)/1e6, 'f', -1, 64) + "%"
	}
	// a clock format on a full day number still holds the day; a date format below 1 only the clock
	if v >= 0 && (v < 1 || c[0] == markClock && v < 1000) {
		return ClockText(v)
	}
	t, ok := dayNumber(v, w.from1904)
	if !ok {
		return plain
	}
	whole := t.Hour() == 0 && t.Minute() == 0 && t.Second() == 0 && c[0] == markDate
	if w.days == nil {
		w.days = map[int]bool{}
	}
	if before, seen := w.days[col]; seen {
		whole = whole && before
	}
	w.days[col] = whole
	return t.Format("2006-01-02 15:04:05")
}

// wholeDays shortens the cells of columns where every date stands at midnight: the clock is then in
// another column, or the readings are daily.
func (w *sheetWriter) wholeDays() {
	for _, r := range w.rows {
		for i, c := range r.Cells {
			if w.days[i] && len(c) == len("2006-01-02 00:00:00") && strings.HasSuffix(c, " 00:00:00") {
				r.Cells[i] = c[:10]
			}
		}
	}
}

// ClockText writes a part of a day, or elapsed days, as hours, minutes and seconds.
func ClockText(v float64) string {
	s := int64(math.Round(v * 86400))
	return fmt.Sprintf("%02d:%02d:%02d", s/3600, s/60%60, s%60)
}

// dayNumber turns the day number of a spreadsheet into a time, rounded to the second. Day 1 is
// 1900-01-01, the day 1900-02-29 is counted though it never was (hence two origins); in workbooks of
// the other origin day 0 is 1904-01-01. False outside the years up to 9999.
func dayNumber(v float64, from1904 bool) (time.Time, bool) {
	if v < 0 || v >= 2958466 {
		return time.Time{}, false
	}
	origin := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case from1904:
		origin = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case v < 60:
		origin = origin.AddDate(0, 0, 1)
	}
	whole, part := math.Modf(v)
	t := origin.AddDate(0, 0, int(whole)).Add(time.Duration(math.Round(part*86400)) * time.Second)
	return t, t.Year() <= 9999
}
