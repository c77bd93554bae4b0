package record

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// columns says which cell holds what; -1 for none.
type columns struct {
	names                []string
	time, hour, rh, temp int
	zone                 *time.Location
}

// quantity is what a column may hold.
type quantity int

const (
	other quantity = iota
	clockTime
	humidity
	temperature
)

// meaning returns the quantity of a column name in lower case without its unit.
func meaning(key string) quantity {
	switch key {
	case "time", "timestamp", "datetime", "date_time", "date time", "date", "t_utc", "utc":
		return clockTime
	case "rh", "rhe", "rh_pct", "relative humidity", "relative_humidity", "humidity":
		return humidity
	case "t", "te", "t_c", "temp", "temp_c", "temperature", "temperature_c":
		return temperature
	}
	return other
}

// unit is what stands in brackets, or a per cent sign, after a name; offset is the zone of a clock.
var (
	unit   = regexp.MustCompile(`\s*[\[(](.*?)[\])]\s*$|\s*%\s*$`)
	offset = regexp.MustCompile(`^(.*utc)([+-]\d{1,2})$`)
)

// head finds the columns and says what is missing or doubtful.
func (in *reader) head(line int, cells []string) bool {
	in.cols = columns{names: make([]string, len(cells)), time: -1, hour: -1, rh: -1, temp: -1, zone: time.UTC}
	for i, cell := range cells {
		in.column(line, i, strings.TrimSpace(cell))
	}
	if in.cols.time < 0 {
		in.fault(line, "", "the first line must name a time column, such as time or t_UTC+2", "without a head line nothing is guessed")
	}
	if in.cols.rh < 0 {
		in.fault(line, "", "the first line must name a column of relative humidity, such as RH", "without a head line nothing is guessed")
	}
	return len(in.faults) == 0
}

// column takes one name of the head line.
func (in *reader) column(line, i int, name string) {
	in.cols.names[i] = name
	key := strings.ToLower(name)
	u := ""
	if m := unit.FindStringSubmatch(key); m != nil {
		u, key = m[1], unit.ReplaceAllString(key, "")
	}
	if m := offset.FindStringSubmatch(key); m != nil {
		h, _ := strconv.Atoi(m[2])
		if h < -12 || h > 14 {
			in.fault(line, name, fmt.Sprintf("zone must lie between -12 and +14 hours, got %d", h), "")
			return
		}
		key, in.cols.zone = m[1], time.FixedZone(fmt.Sprintf("UTC%+d", h), h*3600)
	}
	switch meaning(key) {
	case clockTime:
		in.timeColumn(line, i, name, key)
	case humidity:
		in.only(line, &in.cols.rh, i, name)
	case temperature:
		if strings.Contains(u, "f") {
			in.fault(line, name, "temperature must be in °C", "")
			return
		}
		in.only(line, &in.cols.temp, i, name)
	default:
		in.note(line, name, "column is not read")
	}
}

// timeColumn takes a time, or a date and a time side by side.
func (in *reader) timeColumn(line, i int, name, key string) {
	switch {
	case in.cols.time >= 0 && in.cols.hour < 0 && key == "time" && strings.EqualFold(in.cols.names[in.cols.time], "date"):
		in.cols.hour = i
	case in.cols.time >= 0 && in.cols.hour < 0 && key == "date" && strings.EqualFold(in.cols.names[in.cols.time], "time"):
		in.cols.time, in.cols.hour = i, in.cols.time
	default:
		in.only(line, &in.cols.time, i, name)
	}
}

// only sets a column that may occur once.
func (in *reader) only(line int, col *int, i int, name string) {
	if *col >= 0 {
		in.fault(line, name, fmt.Sprintf("two columns could be meant, %q and %q", in.cols.names[*col], name), "keep one of them")
		return
	}
	*col = i
}
