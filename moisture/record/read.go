package record

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"crossgrain/tables/problem"
)

// shown is how many problems of a file are listed in full.
const shown = 20

// Temperatures outside are taken for a faulty sensor or another unit (assumption), °C.
const coldest, hottest = -60.0, 80.0

// ReadCSV reads a record from plain text: one head line naming the columns (such as
// "t_UTC+2,T,RH"), then one reading a line, parted by commas, semicolons or tabs. RH is in per cent
// (0 to 100), temperature in °C (-60 to 80), times are ISO 8601 and must rise. With semicolons the
// decimal sign may be a comma. A clock without a zone is read as it stands.
//
// Faults are returned together as a problem.List with their lines; then there is no record. Empty
// cells and columns not read are listed in Notes.
func ReadCSV(name string, src []byte) (*Record, error) {
	in := &reader{rec: &Record{Name: name}}
	in.read(src)
	if err := in.faults.Err(); err != nil {
		return nil, err
	}
	return in.rec, nil
}

// reader holds what is known while a file is read.
type reader struct {
	rec     *Record
	faults  problem.List
	more    int // faults beyond those shown
	cols    columns
	commas  bool // decimal comma allowed
	emptyRH []int
	emptyT  []int
}

func (in *reader) fault(line int, part, msg, hint string) {
	if len(in.faults) >= shown {
		in.more++
		return
	}
	in.faults.Add(problem.Problem{File: in.rec.Name, Line: line, Part: part, Msg: msg, Hint: hint})
}

func (in *reader) note(line int, part, msg string) {
	in.rec.Notes.Add(problem.Problem{File: in.rec.Name, Line: line, Part: part, Msg: msg})
}

func (in *reader) read(src []byte) {
	src = bytes.TrimPrefix(src, []byte("\ufeff"))
	if !utf8.Valid(src) || bytes.IndexByte(src, 0) >= 0 {
		in.fault(0, "", "the file is not plain text in UTF-8", "save it as CSV, UTF-8")
		return
	}
	delim := delimiter(src)
	in.commas = delim == ';'
	r := csv.NewReader(bytes.NewReader(src))
	r.Comma, r.FieldsPerRecord = delim, -1
	head, err := r.Read()
	if err != nil {
		in.fault(0, "", "the file is empty or its head line cannot be read", "")
		return
	}
	line, _ := r.FieldPos(0)
	if !in.head(line, head) {
		return
	}
	in.rows(r, len(head))
	in.close()
}

// delimiter returns the sign that parts the cells of the first line.
func delimiter(src []byte) rune {
	first, _, _ := bytes.Cut(bytes.TrimLeft(src, "\r\n"), []byte("\n"))
	for _, d := range ";\t" {
		if bytes.ContainsRune(first, d) {
			return d
		}
	}
	return ','
}

func (in *reader) rows(r *csv.Reader, width int) {
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			in.fault(bad.Line, "", "quotation marks do not match", "")
			return
		}
		line, _ := r.FieldPos(0)
		if len(cells) != width {
			in.fault(line, "", fmt.Sprintf("row must have %d cells as the head line, got %d", width, len(cells)),
				"decimal commas need semicolons between the cells")
			continue
		}
		in.row(line, cells)
	}
}

// row adds one reading, or says what is wrong with it.
func (in *reader) row(line int, cells []string) {
	t, ok := in.clock(line, cells)
	rh := in.number(line, in.cols.rh, cells, 0, 100, "%")
	temp := math.NaN()
	if in.cols.temp >= 0 {
		temp = in.number(line, in.cols.temp, cells, coldest, hottest, "°C")
	}
	if !ok {
		return
	}
	if n := len(in.rec.Times); n > 0 && !t.After(in.rec.Times[n-1]) {
		in.fault(line, "time", fmt.Sprintf("times must rise, got %s after %s",
			t.Format(isoSeconds), in.rec.Times[n-1].Format(isoSeconds)),
			"end of summer time, or two files joined in the wrong order")
		return
	}
	if math.IsNaN(rh) {
		return
	}
	in.rec.Times = append(in.rec.Times, t)
	in.rec.RH = append(in.rec.RH, rh/100)
	in.rec.Lines = append(in.rec.Lines, line)
	if in.cols.temp >= 0 {
		in.rec.T = append(in.rec.T, temp)
	}
}

// number reads a cell; empty cells are counted and give NaN, as do faults.
func (in *reader) number(line, col int, cells []string, lo, hi float64, unit string) float64 {
	s, what := strings.TrimSpace(cells[col]), in.cols.names[col]
	if s == "" {
		if col == in.cols.rh {
			in.emptyRH = append(in.emptyRH, line)
		} else {
			in.emptyT = append(in.emptyT, line)
		}
		return math.NaN()
	}
	if in.commas && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || strings.Trim(s, "0123456789+-.eE") != "" {
		in.fault(line, what, fmt.Sprintf("must be a number with a decimal point, got %q", cells[col]), "")
		return math.NaN()
	}
	if v < lo || v > hi {
		in.fault(line, what, fmt.Sprintf("must lie between %g and %g %s, got %g", lo, hi, unit, v), "")
		return math.NaN()
	}
	return v
}

// close looks at the record as a whole.
func (in *reader) close() {
	r := in.rec
	in.noteEmpty(in.emptyRH, "relative humidity", "the readings are left out as gaps")
	in.noteEmpty(in.emptyT, "temperature", "the humidity is kept")
	if in.more > 0 {
		in.faults.Add(problem.Problem{File: r.Name, Msg: fmt.Sprintf("and %d more faults", in.more)})
	}
	if len(in.faults) > 0 {
		return
	}
	if len(r.Times) == 0 {
		in.fault(0, "", "the file holds no readings", "")
		return
	}
	most := 0.0
	for _, h := range r.RH {
		most = max(most, h)
	}
	if most <= 0.01 {
		in.fault(0, in.cols.names[in.cols.rh], fmt.Sprintf("must be in per cent, but no reading is above %g", 100*most),
			"fractions must be multiplied by 100")
	}
}

func (in *reader) noteEmpty(lines []int, what, then string) {
	if len(lines) == 0 {
		return
	}
	var first []string
	for _, l := range lines[:min(3, len(lines))] {
		first = append(first, strconv.Itoa(l))
	}
	in.note(lines[0], what, fmt.Sprintf("%d empty cells, the first on line %s: %s", len(lines), strings.Join(first, ", "), then))
}

const isoSeconds = "2006-01-02 15:04:05"

// clock reads the time of a row.
func (in *reader) clock(line int, cells []string) (time.Time, bool) {
	s := strings.TrimSpace(cells[in.cols.time])
	if in.cols.hour >= 0 {
		s += " " + strings.TrimSpace(cells[in.cols.hour])
	}
	for _, layout := range layouts() {
		if t, err := time.ParseInLocation(layout, s, in.cols.zone); err == nil {
			return t, true
		}
	}
	in.fault(line, "time", fmt.Sprintf("must be a date and time as 2024-03-31 14:00, got %q", s),
		"day and month cannot be told apart in other orders; write year-month-day")
	return time.Time{}, false
}

// layouts returns the forms of ISO 8601 that are read; fractions of a second are allowed in each.
func layouts() [7]string {
	return [...]string{
		isoSeconds, "2006-01-02T15:04:05", "2006-01-02 15:04", "2006-01-02T15:04",
		time.RFC3339, "2006-01-02 15:04:05Z07:00", "2006-01-02",
	}
}
