package logger_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record/logger"
)

// daySerial is the day number of spreadsheets: days since 1899-12-30 (common practice).
func daySerial(at time.Time) float64 {
	return at.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24
}

// inWords writes the month with words of a language, January first.
func inWords(form, months string) func(time.Time) string {
	words := strings.Fields(months)
	return func(at time.Time) string {
		s := at.Format(form)
		return strings.Replace(s, "MONTH", words[at.Month()-1], 1)
	}
}

const (
	german  = "Januar Februar März April Mai Juni Juli August September Oktober November Dezember"
	french  = "janvier février mars avril mai juin juillet août septembre octobre novembre décembre"
	frShort = "janv. févr. mars avr. mai juin juil. août sept. oct. nov. déc."
	dutch   = "januari februari maart april mei juni juli augustus september oktober november december"
	italian = "gennaio febbraio marzo aprile maggio giugno luglio agosto settembre ottobre novembre dicembre"
	spanish = "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre"
	itShort = "gen feb mar apr mag giu lug ago set ott nov dic"
	deShort = "Jan Feb Mrz Apr Mai Jun Jul Aug Sep Okt Nov Dez"
)

// TestMadeDates writes the same moments in every usual way.
func TestMadeDates(t *testing.T) {
	forms := []struct {
		name  string
		stamp func(time.Time) string
		delim string // comma when empty
	}{
		{name: "iso blank", stamp: clockForm("2006-01-02 15:04:05")},
		{name: "iso blank without seconds", stamp: clockForm("2006-01-02 15:04")},
		{name: "iso T", stamp: clockForm("2006-01-02T15:04:05")},
		{name: "iso T Z", stamp: clockForm("2006-01-02T15:04:05Z")},
		{name: "iso T Z thousandths", stamp: clockForm("2006-01-02T15:04:05.000Z")},
		{name: "iso blank UTC", stamp: clockForm("2006-01-02 15:04:05 UTC")},
		{name: "iso +00:00", stamp: clockForm("2006-01-02T15:04:05+00:00")},
		{name: "thousandths", stamp: clockForm("2006-01-02 15:04:05.000")},
		{name: "slashes year first", stamp: clockForm("2006/01/02 15:04:05")},
		{name: "slashes year first no zeros", stamp: clockForm("2006/1/2 15:04")},
		{name: "points year first", stamp: clockForm("2006.01.02 15:04")},
		{name: "points day first", stamp: clockForm("02.01.2006 15:04")},
		{name: "points day first two digits", stamp: clockForm("02.01.06 15:04:05")},
		{name: "points day first no zeros", stamp: clockForm("2.1.2006 15:04")},
		{name: "points, comma and time", stamp: clockForm("02.01.2006, 15:04"), delim: ";"},
		{name: "slashes month first", stamp: clockForm("01/02/2006 15:04")},
		{name: "slashes month first no zeros", stamp: clockForm("1/2/2006 15:04")},
		{name: "slashes month first two digits", stamp: clockForm("01/02/06 15:04:05")},
		{name: "slashes day first two digits", stamp: clockForm("02/01/06 15:04")},
		{name: "slashes day first", stamp: clockForm("02/01/2006 15:04:05")},
		{name: "hyphens day first", stamp: clockForm("02-01-2006 15:04")},
		{name: "hyphens month first", stamp: clockForm("01-02-2006 15:04")},
		{name: "time before date", stamp: clockForm("15:04:05 02/01/2006")},
		{name: "points in the time", stamp: clockForm("02.01.2006 15.04"), delim: ";"},
		{name: "hours with h", stamp: clockForm("02/01/2006 15h04")},
		{name: "english short", stamp: clockForm("02-Jan-2006 15:04")},
		{name: "english short two digits", stamp: clockForm("02-Jan-06 15:04:05")},
		{name: "english capitals", stamp: func(at time.Time) string { return strings.ToUpper(at.Format("02 Jan 2006 15:04")) }},
		{name: "english month first", stamp: clockForm("Jan 2, 2006 15:04"), delim: ";"},
		{name: "english month first 12 h", stamp: clockForm("Jan 2, 2006 3:04:05 PM"), delim: "\t"},
		{name: "english long", stamp: clockForm("2 January 2006 15:04")},
		{name: "english day of the week", stamp: clockForm("Mon 02 Jan 2006 15:04")},
		{name: "english as of a mail", stamp: clockForm("Mon, 02 Jan 2006 15:04:05"), delim: ";"},
		{name: "unix", stamp: clockForm("Mon Jan _2 15:04:05 2006")},
		{name: "german", stamp: inWords("02. MONTH 2006 15:04", german)},
		{name: "german Uhr", stamp: inWords("02. MONTH 2006, 15:04 Uhr", german), delim: ";"},
		{name: "german short", stamp: inWords("02. MONTH 2006 15:04", deShort)},
		{name: "french", stamp: inWords("2 MONTH 2006 15:04", french)},
		{name: "french short", stamp: inWords("2 MONTH 2006 15:04", frShort)},
		{name: "french à", stamp: inWords("2 MONTH 2006 à 15:04", french)},
		{name: "dutch", stamp: inWords("2 MONTH 2006 15:04", dutch)},
		{name: "italian", stamp: inWords("2 MONTH 2006 15:04", italian)},
		{name: "italian short", stamp: inWords("02-MONTH-2006 15:04", itShort)},
		{name: "spanish", stamp: inWords("2 MONTH 2006 15:04", spanish)},
		{name: "spanish de", stamp: inWords("2 de MONTH de 2006 15:04", spanish)},
		{name: "digits only", stamp: clockForm("20060102150405")},
		{name: "digits only without seconds", stamp: clockForm("200601021504")},
		{name: "digits, blank, digits", stamp: clockForm("20060102 1504")},
		{name: "digits T digits Z", stamp: clockForm("20060102T150405Z")},
		{name: "digits, colons", stamp: clockForm("20060102 15:04:05")},
		{name: "epoch seconds", stamp: func(at time.Time) string { return strconv.FormatInt(at.Unix(), 10) }},
		{name: "epoch milliseconds", stamp: func(at time.Time) string { return strconv.FormatInt(at.UnixMilli(), 10) }},
		{name: "epoch seconds with thousandths", stamp: func(at time.Time) string { return fmt.Sprintf("%d.000", at.Unix()) }},
		{name: "day number", stamp: func(at time.Time) string { return strconv.FormatFloat(daySerial(at), 'f', 6, 64) }},
		{name: "day number short", stamp: func(at time.Time) string { return strconv.FormatFloat(daySerial(at), 'g', -1, 64) }},
	}
	var all []made
	for _, f := range forms {
		x := change(func(x *table) {
			x.stamp = f.stamp
			if f.delim != "" {
				x.delim = f.delim
			}
		})
		all = append(all, made{name: f.name, files: x.file(threeDays()), want: threeDays()})
		long := x
		long.quoted = true
		all = append(all, made{name: f.name + " quoted, weeks", files: long.file(weeks()), want: weeks()})
	}
	runMade(t, all)
}

// TestMadeSplit parts date and time, or more than these, over several cells.
func TestMadeSplit(t *testing.T) {
	var all []made
	for _, f := range []struct {
		name, form string
		head       []string
	}{
		{"date and time", "2006-01-02\n15:04:05", []string{"Date", "Time"}},
		{"german", "02.01.2006\n15:04", []string{"Datum", "Uhrzeit"}},
		{"french", "02/01/2006\n15:04:05", []string{"Date", "Heure"}},
		{"italian", "02/01/2006\n15:04", []string{"Data", "Ora"}},
		{"spanish", "02/01/2006\n15:04", []string{"Fecha", "Hora"}},
		{"dutch", "02-01-2006\n15:04", []string{"Datum", "Tijd"}},
		{"us 12 h", "1/2/2006\n3:04:05 PM", []string{"Date", "Time"}},
		{"time first", "15:04\n2006-01-02", []string{"Time", "Date"}},
		{"half of the day in a cell", "01/02/2006\n03:04\nPM", []string{"Date", "Time", "AM/PM"}},
		{"packed clock", "20060102\n1504", []string{"Date", "Time"}},
		{"year month day hour minute", "2006\n1\n2\n15\n4", []string{"Year", "Month", "Day", "Hour", "Minute"}},
		{"year month day hour", "2006\n01\n02\n15", []string{"YYYY", "MM", "DD", "HH"}},
		{"german parts", "2006\n1\n2\n15", []string{"Jahr", "Monat", "Tag", "Stunde"}},
	} {
		x := change(func(x *table) {
			x.stamp = clockForm(f.form)
			x.head = append(f.head, x.head[1:]...)
		})
		all = append(all, made{name: f.name, files: x.file(threeDays()), want: threeDays()},
			made{name: f.name + " weeks", files: x.file(weeks()), want: weeks()})
	}
	dayOfYear := change(func(x *table) {
		x.head = []string{"Year", "DOY", "Hour", "RH [%]", "T [°C]"}
		x.stamp = func(at time.Time) string { return fmt.Sprintf("%d\n%d\n%d", at.Year(), at.YearDay(), at.Hour()) }
	})
	dates := change(func(x *table) {
		x.head = []string{"Day number", "Date", "Time", "RH [%]", "T [°C]"}
		x.stamp = func(at time.Time) string {
			return fmt.Sprintf("%d\n%s\n%s", at.YearDay(), at.Format("2006-01-02"), at.Format("15:04"))
		}
	})
	all = append(all, made{name: "day of year", files: dayOfYear.file(threeDays()), want: threeDays()},
		made{name: "day number beside the date", files: dates.file(threeDays()), want: threeDays()})
	runMade(t, all)
}

// TestMadeClocks writes hours in the ways of clocks of 12 h and of days that end at 24:00.
func TestMadeClocks(t *testing.T) {
	var all []made
	for _, c := range []struct {
		name string
		swap []string
		form string
	}{
		{"AM", nil, "01/02/2006 03:04:05 PM"},
		{"AM joined", nil, "01/02/2006 3:04PM"},
		{"am", nil, "01/02/2006 3:04 pm"},
		{"a.m.", []string{"am", "a.m.", "pm", "p.m."}, "02/01/2006 3:04 pm"},
		{"a. m. with a blank", []string{"am", "a. m.", "pm", "p. m."}, "02/01/2006 3:04 pm"},
		{"A", []string{"AM", "A", "PM", "P"}, "01/02/2006 03:04 PM"},
		{"hours only", nil, "01/02/2006 3 PM"},
	} {
		x := change(func(x *table) {
			x.stamp = func(at time.Time) string { return strings.NewReplacer(c.swap...).Replace(at.Format(c.form)) }
		})
		all = append(all, made{name: c.name, files: x.file(threeDays()), want: threeDays()})
	}
	ending := change(func(x *table) {
		x.stamp = func(at time.Time) string {
			if at.Hour() == 0 {
				return at.AddDate(0, 0, -1).Format("02.01.2006") + " 24:00"
			}
			return at.Format("02.01.2006 15:04")
		}
	})
	hours := change(func(x *table) {
		x.head = []string{"Date", "Hour", "RH [%]", "T [°C]"}
		x.stamp = func(at time.Time) string {
			if at.Hour() == 0 {
				return at.AddDate(0, 0, -1).Format("2006-01-02") + "\n24"
			}
			return at.Format("2006-01-02") + "\n" + strconv.Itoa(at.Hour())
		}
	})
	all = append(all, made{name: "24:00", files: ending.file(threeDays()), want: threeDays()},
		made{name: "hours 1 to 24", files: hours.file(threeDays()), want: threeDays()})
	runMade(t, all)
}

// TestMadeOffsets writes instants, at home in other zones.
func TestMadeOffsets(t *testing.T) {
	east, west := time.FixedZone("", 2*3600), time.FixedZone("", -8*3600)
	in := func(zone *time.Location, form string) func(time.Time) string {
		return func(at time.Time) string { return at.In(zone).Format(form) }
	}
	civil := berlin(t)
	var all []made
	for _, c := range []struct {
		name  string
		stamp func(time.Time) string
		head  string
	}{
		{"+02:00", in(east, "2006-01-02T15:04:05-07:00"), "Time"},
		{"+0200", in(east, "2006-01-02T15:04:05-0700"), "Time"},
		{"blank +02:00", in(east, "2006-01-02 15:04:05 -07:00"), "Time"},
		{"-08:00", in(west, "2006-01-02T15:04:05-07:00"), "Time"},
		{"changes with summer time", in(civil, "2006-01-02T15:04:05-07:00"), "Time"},
		{"names of zones", in(civil, "2006-01-02 15:04:05 MST"), "Time"},
		{"UTC+2 in the head", in(east, "2006-01-02 15:04:05"), "t_UTC+2"},
		{"GMT-08:00 in the head", in(west, "2006-01-02 15:04:05"), "\"Date Time, GMT-08:00\""},
		{"UTC in brackets in the head", in(time.UTC, "2006-01-02 15:04:05"), "Time (UTC)"},
		{"UTC+02:00 in brackets in the head", in(east, "2006-01-02 15:04:05"), "Time [UTC+02:00]"},
	} {
		x := change(func(x *table) { x.stamp, x.head[0] = c.stamp, c.head })
		all = append(all, made{name: c.name, files: x.file(weeks()), want: weeks()})
	}
	for _, line := range []string{"Time zone: UTC+02:00", "Timezone,GMT+2", "# Zeitzone: UTC+2", "UTC offset: +02:00", "Time zone;UTC+02:00;;"} {
		x := change(func(x *table) {
			x.stamp, x.before = in(east, "2006-01-02 15:04:05"), []string{"Serial number: 00000001", line}
		})
		all = append(all, made{name: line, files: x.file(weeks()), want: weeks()})
	}
	x := change(func(x *table) {
		x.stamp, x.before = in(civil, "2006-01-02 15:04:05"), []string{"Time zone: Europe/Berlin"}
	})
	all = append(all, made{name: "Europe/Berlin in the head", files: x.file(weeks()), want: weeks()})
	runMade(t, all)
}

// TestDatesUndecidable holds dates of which every day is at most 12, an hour apart: nothing says which
// number is the month.
func TestDatesUndecidable(t *testing.T) {
	day := series(time.Date(2024, 4, 3, 0, 0, 0, 0, time.UTC), 24, time.Hour)
	for _, form := range []string{"02/01/2006 15:04", "02.01.2006 15:04", "2-1-06 15:04", "01/02/06 3:04 PM"} {
		x := change(func(x *table) { x.stamp = clockForm(form) })
		_, _, err := logger.Read(x.file(day), logger.Options{})
		if form == "02.01.2006 15:04" && err == nil {
			continue // points are hardly ever month first
		}
		if !assert.Error(t, err, form) {
			continue
		}
		assert.Contains(t, err.Error(), "--dates", form)
		assert.Contains(t, err.Error(), "made.csv", form)
	}
	x := change(func(x *table) { x.stamp = clockForm("02/01/2006 15:04") })
	runMade(t, []made{
		{name: "settled", files: x.file(day), o: logger.Options{Dates: "dmy"}, want: day},
		{name: "settled by another file", files: append(x.file(day), logger.File{Name: "later.csv",
			Data: []byte(x.text(threeDays()))}), o: logger.Options{Dates: "dmy"}, want: append(threeDays(), day...)},
	})
	_, _, err := logger.Read(x.file(threeDays()), logger.Options{Dates: "mdy"})
	require.Error(t, err, "13/11 is no month first")
}

// TestDatesWordsOfGuess wants the line that decided.
func TestDatesWordsOfGuess(t *testing.T) {
	all := series(time.Date(2024, 4, 11, 0, 0, 0, 0, time.UTC), 72, time.Hour)
	x := change(func(x *table) { x.stamp = clockForm("02/01/2006 15:04") })
	_, how, err := logger.Read(x.file(all), logger.Options{})
	require.NoError(t, err)
	require.NotEmpty(t, how.Guesses)
	assert.Contains(t, strings.Join(how.Guesses, "\n"), "line 50") // head and two days of 24 h
	assert.Contains(t, strings.Join(how.Guesses, "\n"), "13")
	assert.Equal(t, "day/month/year", how.Files[0].Dates)
}

// TestDatesResaved holds what a spreadsheet of another country makes of dates: those that it can read
// the wrong way round it turns, the others it leaves as text.
func TestDatesResaved(t *testing.T) {
	all := series(time.Date(2024, 3, 1, 0, 0, 0, 0, time.UTC), 1000, time.Hour)
	turned := func(inner, outer string) table {
		return change(func(x *table) {
			x.stamp = func(at time.Time) string {
				if at.Day() <= 12 {
					return at.Format(inner)
				}
				return at.Format(outer)
			}
		})
	}
	for name, x := range map[string]table{
		"same form":     turned("01/02/2006 15:04", "02/01/2006 15:04"),
		"another form":  turned("1/2/2006 15:04", "02.01.2006 15:04"),
		"as ISO":        turned("2006-02-01 15:04:05", "02/01/2006 15:04"), // day and month exchanged
		"us, 12 h text": turned("2/1/2006 3:04 PM", "01/02/2006 3:04 PM"),
	} {
		_, _, err := logger.Read(x.file(all), logger.Options{})
		if assert.Error(t, err, name) {
			assert.Contains(t, err.Error(), "made.csv", name)
			assert.Contains(t, err.Error(), "order", name)
		}
	}
}
