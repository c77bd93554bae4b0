package logger_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"crossgrain/moisture/record/logger"
)

// book writes a workbook: fill puts cells into it, save returns the file.
func book(t testing.TB, fill func(f *excelize.File)) []logger.File {
	t.Helper()
	f := excelize.NewFile()
	defer func() { _ = f.Close() }()
	fill(f)
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return []logger.File{{Name: "made.xlsx", Data: b.Bytes()}}
}

// put writes rows of cells from a corner on.
func put(t testing.TB, f *excelize.File, sheet string, row int, cells ...any) {
	t.Helper()
	name, err := excelize.CoordinatesToCellName(1, row)
	require.NoError(t, err)
	require.NoError(t, f.SetSheetRow(sheet, name, &cells))
}

func fillRows(t testing.TB, f *excelize.File, sheet string, from int, all []sample, cells func(sample) []any) {
	t.Helper()
	for i, s := range all {
		put(t, f, sheet, from+i, cells(s)...)
	}
}

func addSheet(t testing.TB, f *excelize.File, name string) {
	t.Helper()
	_, err := f.NewSheet(name)
	require.NoError(t, err)
}

// TestMadeWorkbooks writes workbooks as people keep them.
func TestMadeWorkbooks(t *testing.T) {
	want := threeDays()
	dates := func(s sample) []any { return []any{s.at, s.rh, s.t} }
	text := func(s sample) []any {
		return []any{s.at.Format("02.01.2006 15:04"), plain().num(s.rh), plain().num(s.t)}
	}
	commas := func(s sample) []any {
		c := func(v float64) string { return strings.Replace(plain().num(v), ".", ",", 1) }
		return []any{s.at.Format("02.01.2006 15:04"), c(s.rh), c(s.t)}
	}
	split := func(s sample) []any {
		return []any{s.at.Truncate(24 * time.Hour), float64(s.at.Hour()) / 24, s.rh, s.t}
	}
	const first = "Sheet1"
	head := func(f *excelize.File, sheet string, row int) { put(t, f, sheet, row, "Time", "RH [%]", "T [°C]") }
	style := func(f *excelize.File, form string, columns string) {
		id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &form})
		require.NoError(t, err)
		require.NoError(t, f.SetColStyle(first, columns, id))
	}
	runMade(t, []made{
		{name: "date cells", want: want, files: book(t, func(f *excelize.File) { head(f, first, 1); fillRows(t, f, first, 2, want, dates) })},
		{name: "date cells, weeks", want: weeks(), files: book(t, func(f *excelize.File) { head(f, first, 1); fillRows(t, f, first, 2, weeks(), dates) })},
		{name: "text cells", want: want, files: book(t, func(f *excelize.File) { head(f, first, 1); fillRows(t, f, first, 2, want, text) })},
		{name: "text cells with commas", want: want, files: book(t, func(f *excelize.File) { head(f, first, 1); fillRows(t, f, first, 2, want, commas) })},
		{name: "day numbers without a style", want: want, files: book(t, func(f *excelize.File) {
			head(f, first, 1)
			fillRows(t, f, first, 2, want, func(s sample) []any { return []any{daySerial(s.at), s.rh, s.t} })
		})},
		{name: "date and time apart", want: want, files: book(t, func(f *excelize.File) {
			put(t, f, first, 1, "Date", "Time", "RH [%]", "T [°C]")
			fillRows(t, f, first, 2, want, split)
			style(f, "hh:mm", "B")
			for i := range want {
				name, err := excelize.CoordinatesToCellName(2, i+2)
				require.NoError(t, err)
				form := "hh:mm"
				id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &form})
				require.NoError(t, err)
				require.NoError(t, f.SetCellStyle(first, name, name, id))
			}
		})},
		{name: "no head", want: want, files: book(t, func(f *excelize.File) { fillRows(t, f, first, 1, want, dates) })},
		{name: "lines above", want: want, files: book(t, func(f *excelize.File) {
			put(t, f, first, 1, "North store")
			put(t, f, first, 2, "Serial number", "00000001")
			put(t, f, first, 3, "Start", want[0].at)
			head(f, first, 6)
			fillRows(t, f, first, 7, want, dates)
		})},
		{name: "merged title", want: want, files: book(t, func(f *excelize.File) {
			put(t, f, first, 1, "North store, November")
			require.NoError(t, f.MergeCell(first, "A1", "C1"))
			head(f, first, 2)
			fillRows(t, f, first, 3, want, dates)
		})},
		{name: "readings in the second sheet", want: want, files: book(t, func(f *excelize.File) {
			put(t, f, first, 1, "Made by", "nobody")
			addSheet(t, f, "Data")
			head(f, "Data", 1)
			fillRows(t, f, "Data", 2, want, dates)
		})},
		{name: "hidden sheet of notes", want: want, files: book(t, func(f *excelize.File) {
			head(f, first, 1)
			fillRows(t, f, first, 2, want, dates)
			addSheet(t, f, "Notes")
			put(t, f, "Notes", 1, "not for the public")
			require.NoError(t, f.SetSheetVisible("Notes", false))
		})},
		{name: "empty sheet beside", want: want, files: book(t, func(f *excelize.File) {
			addSheet(t, f, "Data")
			head(f, "Data", 1)
			fillRows(t, f, "Data", 2, want, dates)
		})},
		{name: "statistics in the first sheet", want: want, files: book(t, func(f *excelize.File) {
			put(t, f, first, 1, "", "RH [%]", "T [°C]")
			put(t, f, first, 2, "Minimum", 44.3, 17.2)
			put(t, f, first, 3, "Maximum", 58.1, 21.0)
			addSheet(t, f, "Data")
			head(f, "Data", 1)
			fillRows(t, f, "Data", 2, want, dates)
		})},
		{name: "far from the corner", want: want, files: book(t, func(f *excelize.File) {
			put(t, f, first, 5, "", "", "Time", "RH [%]", "T [°C]")
			fillRows(t, f, first, 6, want, func(s sample) []any { return append([]any{"", ""}, dates(s)...) })
		})},
		{name: "a month in each sheet", want: weeks(), files: book(t, func(f *excelize.File) {
			require.NoError(t, f.SetSheetName(first, "October"))
			addSheet(t, f, "November")
			head(f, "October", 1)
			head(f, "November", 1)
			fillRows(t, f, "October", 2, weeks()[:288], dates)
			fillRows(t, f, "November", 2, weeks()[288:], dates)
		})},
	})
}

// TestMadeWorkbookRooms has a room in each sheet.
func TestMadeWorkbookRooms(t *testing.T) {
	hall, top := threeDays(), attic(threeDays())
	files := book(t, func(f *excelize.File) {
		require.NoError(t, f.SetSheetName("Sheet1", "Hall"))
		addSheet(t, f, "Attic")
		for name, all := range map[string][]sample{"Hall": hall, "Attic": top} {
			put(t, f, name, 1, "Time", "RH [%]", "T [°C]")
			fillRows(t, f, name, 2, all, func(s sample) []any { return []any{s.at, s.rh, s.t} })
		}
	})
	_, _, err := logger.Read(files, logger.Options{})
	var several *logger.ChannelError
	require.ErrorAs(t, err, &several)
	assert.Equal(t, []string{"Hall", "Attic"}, several.Names)
	runMade(t, []made{{name: "Hall", files: files, o: logger.Options{Channel: "Hall"}, want: hall},
		{name: "Attic", files: files, o: logger.Options{Channel: "Attic"}, want: top}})
}

// object is one value of JSON.
type object = map[string]any

func jsonFile(t testing.TB, v any) []logger.File {
	t.Helper()
	data, err := json.MarshalIndent(v, "", " ")
	require.NoError(t, err)
	return []logger.File{{Name: "made.json", Data: data}}
}

func each(all []sample, f func(sample) any) []any {
	out := make([]any, len(all))
	for i, s := range all {
		out[i] = f(s)
	}
	return out
}

// TestMadeJSON writes what web pages of loggers hand out.
func TestMadeJSON(t *testing.T) {
	want := threeDays()
	iso := func(s sample) any { return s.at.Format("2006-01-02T15:04:05Z") }
	flat := func(s sample) any { return object{"time": iso(s), "humidity": s.rh, "temperature": s.t} }
	epoch := func(s sample) any { return object{"ts": s.at.Unix(), "rh": s.rh, "t": s.t} }
	lines := ""
	for _, s := range want {
		b, err := json.Marshal(flat(s))
		require.NoError(t, err)
		lines += string(b) + "\n"
	}
	pair := func(v func(sample) float64) []any {
		return each(want, func(s sample) any { return []any{s.at.UnixMilli(), v(s)} })
	}
	rh, temp := func(s sample) float64 { return s.rh }, func(s sample) float64 { return s.t }
	var long []any
	for _, s := range want {
		long = append(long, object{"time": iso(s), "quantity": "humidity", "value": s.rh}, object{"time": iso(s), "quantity": "temperature", "value": s.t})
	}
	runMade(t, []made{
		{name: "array of objects", files: jsonFile(t, each(want, flat)), want: want},
		{name: "array below a name", files: jsonFile(t, object{"device": "unit-a", "readings": each(want, flat), "from": "2023-11-13"}), want: want},
		{name: "array far below", files: jsonFile(t, object{"result": object{"data": object{"points": each(want, flat)}}, "status": "ok"}), want: want},
		{name: "object of arrays", files: jsonFile(t, object{"time": each(want, iso), "humidity": each(want, func(s sample) any { return s.rh }), "temperature": each(want, func(s sample) any { return s.t })}), want: want},
		{name: "arrays with units", files: jsonFile(t, object{"hourly": object{"time": each(want, iso), "relative_humidity": each(want, func(s sample) any { return s.rh }), "temperature": each(want, func(s sample) any { return s.t })},
			"hourly_units": object{"relative_humidity": "%", "temperature": "°C"}}), want: want},
		{name: "epoch seconds", files: jsonFile(t, each(want, epoch)), want: want},
		{name: "epoch milliseconds", files: jsonFile(t, each(want, func(s sample) any { return object{"timestamp": s.at.UnixMilli(), "RH": s.rh, "T": s.t} })), want: want},
		{name: "numbers as text", files: jsonFile(t, each(want, func(s sample) any {
			return object{"time": iso(s), "humidity": plain().num(s.rh), "temperature": plain().num(s.t)}
		})), want: want},
		{name: "nested values", files: jsonFile(t, each(want, func(s sample) any {
			return object{"time": iso(s), "values": object{"humidity": s.rh, "temperature": s.t}}
		})), want: want},
		{name: "value and unit", files: jsonFile(t, each(want, func(s sample) any {
			return object{"time": iso(s), "humidity": object{"value": s.rh, "unit": "%"}, "temperature": object{"value": s.t, "unit": "°C"}}
		})), want: want},
		{name: "lines", files: []logger.File{{Name: "made.ndjson", Data: []byte(lines)}}, want: want},
		{name: "head and rows", files: jsonFile(t, object{"columns": []string{"time", "humidity", "temperature"}, "rows": each(want, func(s sample) any { return []any{iso(s), s.rh, s.t} })}), want: want},
		{name: "rows with head", files: jsonFile(t, append([]any{[]any{"time", "humidity", "temperature"}}, each(want, func(s sample) any { return []any{iso(s), s.rh, s.t} })...)), want: want},
		{name: "pairs by quantity", files: jsonFile(t, object{"humidity": pair(rh), "temperature": pair(temp)}), want: want},
		{name: "series with names", files: jsonFile(t, []any{object{"name": "humidity", "data": pair(rh)}, object{"name": "temperature", "data": pair(temp)}}), want: want},
		{name: "one value each", files: jsonFile(t, long), want: want},
		{name: "null", files: jsonFile(t, each(want, func(s sample) any {
			if s.at.Hour() == 5 {
				return object{"time": iso(s), "humidity": nil, "temperature": nil}
			}
			return flat(s)
		})), want: without(want, 5, 29, 53), aside: []aside{{3, nil, ""}}},
	})
	runMade(t, []made{{name: "with mark", files: []logger.File{{Name: "made.json", Data: append([]byte("\ufeff"), jsonFile(t, each(want, flat))[0].Data...)}}, want: want}})
}
