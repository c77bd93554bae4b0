package logger_test

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"crossgrain/moisture/record/logger"
)

// TestMadeCells writes numbers and times as spreadsheets and other programs disguise them.
func TestMadeCells(t *testing.T) {
	cells := func(f func(v float64) string) func(table, sample) []string {
		return func(x table, s sample) []string { return []string{f(s.rh), f(s.t)} }
	}
	form := func(layout string) func(*table) { return func(x *table) { x.stamp = clockForm(layout) } }
	nbsp, narrow := "\u00a0", "\u202f"
	var all []made
	for _, c := range []struct {
		name string
		f    func(*table)
	}{
		{"plus signs", func(x *table) { x.cells = cells(func(v float64) string { return fmt.Sprintf("%+.1f", v) }) }},
		{"exponents", func(x *table) { x.cells = cells(func(v float64) string { return fmt.Sprintf("%.4e", v) }) }},
		{"many decimals", func(x *table) { x.cells = cells(func(v float64) string { return fmt.Sprintf("%.6f", v) }) }},
		{"even numbers bare", func(x *table) { x.cells = cells(func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }) }},
		{"even numbers bare, commas", func(x *table) {
			x.delim = ";"
			x.cells = cells(func(v float64) string {
				return strings.Replace(strconv.FormatFloat(v, 'g', -1, 64), ".", ",", 1)
			})
		}},
		{"apostrophe", func(x *table) { x.cells = cells(func(v float64) string { return fmt.Sprintf("'%.1f", v) }) }},
		{"formula of text", func(x *table) { x.cells = cells(func(v float64) string { return fmt.Sprintf(`="%.1f"`, v) }) }},
		{"hard blank before the unit", func(x *table) {
			x.cells = func(x table, s sample) []string { return []string{x.num(s.rh) + nbsp + "%", x.num(s.t) + nbsp + "°C"} }
		}},
		{"hard blanks around", func(x *table) {
			x.cells = cells(func(v float64) string { return fmt.Sprintf("%s%.1f%s", nbsp, v, nbsp) })
		}},
		{"padded", func(x *table) { x.cells = cells(func(v float64) string { return fmt.Sprintf("%10.1f  ", v) }) }},
		{"narrow blank before PM", form("1/2/2006, 3:04:05" + narrow + "PM")},
		{"hours without noughts", func(x *table) {
			x.stamp = func(at time.Time) string {
				return fmt.Sprintf("%s %d:%02d", at.Format("02.01.2006"), at.Hour(), at.Minute())
			}
		}},
		{"iso with +0000", form("2006-01-02T15:04:05.000+0000")},
		{"microseconds", form("2006-01-02 15:04:05.000000")},
		{"slashes and T", form("2006/01/02T15:04:05")},
		{"underscore", form("2006-01-02_15:04:05")},
		{"hyphens all through", form("2006-01-02 15-04-05")},
		{"mangled degree sign", func(x *table) { x.head[2] = "T (Â°C)" }},
		{"head over two lines", func(x *table) { x.head[1], x.head[2] = "\"Humidity\n[%]\"", "\"Temperature\n[°C]\"" }},
		{"head quoted, cells not", func(x *table) { x.head = []string{`"Time"`, `"RH, [%]"`, `"T, [°C]"`} }},
		{"head shorter", func(x *table) { x.head = x.head[:3]; x.last = ",x,y" }},
		{"double blanks", form("2006-01-02  15:04:05")},
	} {
		x := change(c.f)
		if strings.Contains(x.stamp(time.Now()), ",") {
			x.delim = ";"
		}
		all = append(all, made{name: c.name, files: x.file(threeDays()), want: threeDays()})
	}
	runMade(t, all)
}

// TestMadeMixedFiles merges files of several layouts.
func TestMadeMixedFiles(t *testing.T) {
	all := weeks()
	iso := plain().file(all[:100])[0]
	german := change(func(x *table) { x.delim, x.decimal, x.stamp = ";", ',', clockForm("02.01.2006 15:04") }).file(all[100:200])[0]
	us := change(func(x *table) { x.stamp, x.delim = clockForm("1/2/2006 3:04 PM"), "\t" }).file(all[200:300])[0]
	js := jsonFile(t, each(all[300:], func(s sample) any { return object{"time": s.at.Format("2006-01-02 15:04:05"), "rh": s.rh, "t": s.t} }))[0]
	runMade(t, []made{{name: "four layouts", files: []logger.File{us, js, iso, german}, want: all}})
	_, how, err := logger.Read([]logger.File{us, js, iso, german}, logger.Options{})
	require.NoError(t, err)
	require.Len(t, how.Files, 4)
	assert.Equal(t, []int{100, 100, 100, 100}, []int{how.Files[0].Rows, how.Files[1].Rows, how.Files[2].Rows, how.Files[3].Rows})
}

// TestMadeSteps has one reading a day, or every ten seconds, or few readings.
func TestMadeSteps(t *testing.T) {
	start := time.Date(2023, 11, 13, 0, 0, 0, 0, time.UTC)
	days := series(start, 90, 24*time.Hour)
	date := change(func(x *table) { x.stamp = clockForm("2006-01-02") })
	points := change(func(x *table) { x.stamp, x.delim, x.decimal = clockForm("02.01.2006"), ";", ',' })
	fast := series(start.Add(7*time.Second), 500, 10*time.Second)
	runMade(t, []made{
		{name: "days", files: date.file(days), want: days},
		{name: "days in german", files: points.file(days), want: days},
		{name: "ten seconds", files: plain().file(fast), want: fast},
		{name: "ten seconds in german", files: change(func(x *table) { x.stamp, x.delim = clockForm("02.01.2006 15:04:05"), ";" }).file(fast), want: fast},
		{name: "one reading", files: plain().file(days[:1]), want: days[:1]},
		{name: "two readings", files: plain().file(days[:2]), want: days[:2]},
		{name: "five readings without head", files: change(func(x *table) { x.head = nil }).file(days[:5]), want: days[:5]},
	})
}

// TestMadeNumbered numbers its channels.
func TestMadeNumbered(t *testing.T) {
	one, two := threeDays(), attic(threeDays())
	num := plain().num
	for _, head := range []string{"Time;RH1;T1;RH2;T2", "Time;RH 1 [%];T 1 [°C];RH 2 [%];T 2 [°C]", "Time;Ch1 RH;Ch1 T;Ch2 RH;Ch2 T",
		"Zeit;Kanal 1 [%rF];Kanal 1 [°C];Kanal 2 [%rF];Kanal 2 [°C]", "Time;1: RH;1: T;2: RH;2: T", "Time;RH_1;T_1;RH_2;T_2", "Time;RH [%];T [°C];RH [%];T [°C]"} {
		text := head + "\n"
		for i := range one {
			text += strings.Join([]string{one[i].at.Format("2006-01-02 15:04"), num(one[i].rh), num(one[i].t), num(two[i].rh), num(two[i].t)}, ";") + "\n"
		}
		_, _, err := logger.Read(textFile(text), logger.Options{})
		var several *logger.ChannelError
		if !assert.ErrorAs(t, err, &several, head) || !assert.Len(t, several.Names, 2, head) {
			continue
		}
		for i, want := range [][]sample{one, two} {
			runMade(t, []made{{name: head + several.Names[i], files: textFile(text), o: logger.Options{Channel: several.Names[i]}, want: want}})
		}
	}
}

// TestStackedTables has two rooms below each other, or beside each other with a clock each. They may
// be told apart or refused, but never mixed without a word.
func TestStackedTables(t *testing.T) {
	one, two := threeDays(), attic(threeDays())
	x := plain()
	x.before = []string{"Room: Hall"}
	y := plain()
	y.before = []string{"", "Room: Attic"}
	beside := "Hall;;;;Attic\nTime;RH;T;;Time;RH;T\n"
	for i := range one {
		beside += x.stamp(one[i].at) + ";" + x.num(one[i].rh) + ";" + x.num(one[i].t) + ";;" + x.stamp(two[i].at) + ";" + x.num(two[i].rh) + ";" + x.num(two[i].t) + "\n"
	}
	for name, text := range map[string]string{"below": x.text(one) + y.text(two), "beside": beside} {
		_, how, err := logger.Read(textFile(text), logger.Options{})
		var several *logger.ChannelError
		switch {
		case errors.As(err, &several):
			assert.ElementsMatch(t, []string{"Hall", "Attic"}, several.Names, name)
		case err != nil:
			assert.Contains(t, err.Error(), "made.csv", name)
		default:
			assert.GreaterOrEqual(t, asideCount(how)+len(how.Guesses), 1, name)
		}
	}
}

// TestBareCommas parts cells and decimals by the same sign: 45,2 becomes 45 and 2.
func TestBareCommas(t *testing.T) {
	for _, head := range []string{"Zeit,Feuchte [%],Temperatur [°C]", "Zeit,Temperatur [°C],Feuchte [%]"} {
		text := head + "\n"
		for _, s := range threeDays() {
			a, b := s.rh, s.t
			if strings.HasSuffix(head, "[%]") {
				a, b = b, a
			}
			text += s.at.Format("02.01.2006 15:04") + strings.ReplaceAll(fmt.Sprintf(",%.1f,%.1f\n", a, b), ".", ",")
		}
		r, how, err := logger.Read(textFile(text), logger.Options{})
		if err != nil {
			assert.Contains(t, err.Error(), "made.csv")
			continue
		}
		same(t, made{want: threeDays()}, r.Times, r.RH, r.T)
		assert.NotEmpty(t, how.Guesses)
	}
}

// TestSparseDates writes the date in the first row of each day only.
func TestSparseDates(t *testing.T) {
	x := change(func(x *table) {
		x.head = []string{"Datum", "Zeit", "RH [%]", "T [°C]"}
		x.stamp = func(at time.Time) string {
			if at.Hour() == 0 {
				return at.Format("02.01.2006\n15:04")
			}
			return at.Format("\n15:04")
		}
	})
	r, how, err := logger.Read(x.file(threeDays()), logger.Options{})
	if err != nil {
		assert.Contains(t, err.Error(), "made.csv")
		return
	}
	assert.Equal(t, 72, len(r.Times)+asideCount(how))
}

// TestElapsed has hours since the start instead of moments.
func TestElapsed(t *testing.T) {
	text := "Start: 2023-11-13 00:00\nElapsed [h],RH [%],T [°C]\n"
	for i, s := range threeDays() {
		text += fmt.Sprintf("%d,%.1f,%.1f\n", i, s.rh, s.t)
	}
	refused(t, "made.csv", []byte(text))
}

// TestMadeJSONRooms has rooms by name.
func TestMadeJSONRooms(t *testing.T) {
	hall, top := threeDays(), attic(threeDays())
	flat := func(s sample) any {
		return object{"time": s.at.Format(time.RFC3339), "humidity": s.rh, "temperature": s.t}
	}
	var tagged []any
	for i := range hall {
		for name, s := range map[string]sample{"Hall": hall[i], "Attic": top[i]} {
			tagged = append(tagged, object{"time": s.at.Format(time.RFC3339), "sensor": name, "humidity": s.rh, "temperature": s.t})
		}
	}
	byTime := object{}
	for _, s := range hall {
		byTime[s.at.Format(time.RFC3339)] = object{"humidity": s.rh, "temperature": s.t}
	}
	for name, files := range map[string][]logger.File{
		"by name":  jsonFile(t, object{"Hall": each(hall, flat), "Attic": each(top, flat)}),
		"below":    jsonFile(t, object{"rooms": object{"Hall": object{"readings": each(hall, flat)}, "Attic": object{"readings": each(top, flat)}}}),
		"list":     jsonFile(t, []any{object{"name": "Hall", "readings": each(hall, flat)}, object{"name": "Attic", "readings": each(top, flat)}}),
		"in each":  jsonFile(t, tagged),
		"in lists": jsonFile(t, object{"sensors": []any{object{"sensor": "Hall", "data": each(hall, flat)}, object{"sensor": "Attic", "data": each(top, flat)}}}),
	} {
		_, _, err := logger.Read(files, logger.Options{})
		var several *logger.ChannelError
		if !assert.ErrorAs(t, err, &several, name) || !assert.Len(t, several.Names, 2, name) {
			continue
		}
		for _, n := range several.Names {
			want := hall
			if strings.Contains(n, "Attic") {
				want = top
			} else {
				assert.Contains(t, n, "Hall", name)
			}
			runMade(t, []made{{name: name + n, files: files, o: logger.Options{Channel: n}, want: want}})
		}
	}
	runMade(t, []made{{name: "keyed by time", files: jsonFile(t, byTime), want: hall}})
}

// TestMadeWorkbook1904 counts its days from 1904, as workbooks of one maker of computers did.
func TestMadeWorkbook1904(t *testing.T) {
	want := threeDays()
	files := book(t, func(f *excelize.File) {
		yes := true
		require.NoError(t, f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}))
		put(t, f, "Sheet1", 1, "Time", "RH [%]", "T [°C]")
		fillRows(t, f, "Sheet1", 2, want, func(s sample) []any { return []any{daySerial(s.at) - 1462, s.rh, s.t} })
		form := "dd.mm.yyyy hh:mm"
		id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &form})
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle("Sheet1", "A2", "A73", id))
	})
	runMade(t, []made{{name: "1904", files: files, want: want}})
}
