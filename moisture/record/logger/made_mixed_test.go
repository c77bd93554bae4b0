package logger_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record/logger"
)

// TestMadeRoomsNamedAsPlaces has rooms whose names hold a word that may name a column of places.
func TestMadeRoomsNamedAsPlaces(t *testing.T) {
	one, two := threeDays(), attic(threeDays())
	num := plain().num
	for _, form := range []string{"{}_RH;{}_T", "{} RH [%];{} T [°C]", "RH {} [%];T {} [°C]", "{}: Feuchte [%];{}: Temperatur [°C]"} {
		for _, names := range [][2]string{{"Sensor 1", "Sensor 2"}, {"Room A", "Room B"}, {"Logger_7", "Logger_8"}, {"Raum 101", "Raum 102"}} {
			head := "Time;" + strings.ReplaceAll(form, "{}", names[0]) + ";" + strings.ReplaceAll(form, "{}", names[1])
			text := head + "\n"
			for i := range one {
				text += strings.Join([]string{one[i].at.Format("2006-01-02 15:04"), num(one[i].rh), num(one[i].t), num(two[i].rh), num(two[i].t)}, ";") + "\n"
			}
			runMade(t, []made{
				{name: head, files: textFile(text), o: logger.Options{Channel: names[0]}, want: one},
				{name: head + " second", files: textFile(text), o: logger.Options{Channel: names[1]}, want: two},
			})
		}
	}
}

// TestMadeTabs has a row of units that begins with empty cells, and dates with blanks between tabs.
func TestMadeTabs(t *testing.T) {
	want := threeDays()
	x := change(func(x *table) {
		x.delim, x.decimal = "\t", ','
		x.head = []string{"No.", "Date", "Time", "Humidity", "Temperature", "Battery [V]"}
		x.stamp = func(at time.Time) string { return "7\n" + at.Format("Jan 02 2006\n15:04:05") }
		x.cells = func(x table, s sample) []string { return []string{x.num(s.rh), x.num(s.t), "3,6"} }
	})
	lines := x.lines(want)
	text := strings.Join(append([]string{lines[0], "\t\t\t%\t°C\tV"}, lines[1:]...), "\n")
	runMade(t, []made{{name: "units behind tabs", files: textFile(text), want: want, spare: 1}})
}

// TestTwoDigitYears of one day could be read year first; few write so, and it is said.
func TestTwoDigitYears(t *testing.T) {
	day := series(time.Date(2019, 5, 27, 0, 0, 0, 0, time.UTC), 24, time.Hour)
	x := change(func(x *table) { x.stamp = clockForm("02/01/06 15:04") })
	r, how, err := logger.Read(x.file(day), logger.Options{})
	require.NoError(t, err)
	assert.Equal(t, day[0].at, r.Times[0])
	assert.Contains(t, strings.Join(how.Guesses, "\n"), "--dates year-first")
	r, _, err = logger.Read(x.file(day), logger.Options{Dates: "ymd"})
	require.NoError(t, err)
	assert.Equal(t, time.Date(2027, 5, 19, 0, 0, 0, 0, time.UTC), r.Times[0])
	first := change(func(x *table) { x.stamp = clockForm("06/01/02 15:04") })
	runMade(t, []made{{name: "year first over weeks", files: first.file(weeks()), want: weeks()}})
}
