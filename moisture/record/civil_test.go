package record

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func place(t *testing.T, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	require.NoError(t, err)
	return loc
}

// Changes of the clock as laid down by law (the zone database): Europe at 01:00 UTC of the last
// Sunday of March and October, Lord Howe by half an hour, Samoa without 30 December 2011.
func TestInstant(t *testing.T) {
	for _, tt := range []struct {
		zone, civil string
		often       Occurrence
		first, last string // UTC
	}{
		{"Europe/Rome", "2024-07-01 12:00", Once, "2024-07-01 10:00", "2024-07-01 10:00"},
		{"Europe/Rome", "2024-03-31 01:59", Once, "2024-03-31 00:59", "2024-03-31 00:59"},
		{"Europe/Rome", "2024-03-31 02:30", Never, "2024-03-31 01:30", "2024-03-31 01:30"},
		{"Europe/Rome", "2024-03-31 03:00", Once, "2024-03-31 01:00", "2024-03-31 01:00"},
		{"Europe/Rome", "2024-10-27 02:30", Twice, "2024-10-27 00:30", "2024-10-27 01:30"},
		{"Europe/Rome", "2024-10-27 03:00", Once, "2024-10-27 02:00", "2024-10-27 02:00"},
		{"America/New_York", "2024-11-03 01:15", Twice, "2024-11-03 05:15", "2024-11-03 06:15"},
		{"Australia/Lord_Howe", "2024-04-07 01:45", Twice, "2024-04-06 14:45", "2024-04-06 15:15"},
		{"Pacific/Apia", "2011-12-30 12:00", Never, "2011-12-30 22:00", "2011-12-30 22:00"},
		{"UTC", "2024-03-31 02:30", Once, "2024-03-31 02:30", "2024-03-31 02:30"},
	} {
		civil, err := time.Parse("2006-01-02 15:04", tt.civil)
		require.NoError(t, err)
		first, often := Instant(civil, place(t, tt.zone))
		assert.Equal(t, tt.often, often, "%s %s occurs %s", tt.zone, tt.civil, often)
		assert.Equal(t, tt.first, first.UTC().Format("2006-01-02 15:04"), "%s %s", tt.zone, tt.civil)
		last, again := LaterInstant(civil, place(t, tt.zone))
		assert.Equal(t, often, again)
		assert.Equal(t, tt.last, last.UTC().Format("2006-01-02 15:04"), "%s %s", tt.zone, tt.civil)
	}
}

// Days and hours go by the clock of the place: 31 March 2024 has 23 hours in Rome, 27 October 25.
func TestDaysGoByTheClock(t *testing.T) {
	rome := place(t, "Europe/Rome")
	r := &Record{Zone: rome}
	for at := time.Date(2024, 3, 30, 0, 0, 0, 0, rome); at.Before(time.Date(2024, 4, 2, 0, 0, 0, 0, rome)); at = at.Add(time.Hour) {
		r.Times, r.RH = append(r.Times, at.UTC()), append(r.RH, float64(at.Hour())/100)
	}
	d := r.days(Humidity)
	require.Len(t, d, 3)
	assert.Equal(t, "2024-03-31 00:00 CET", d[1].Date.Format("2006-01-02 15:04 MST"))
	assert.True(t, math.IsNaN(d[1].Hour[2]), "2 o'clock was never shown")
	assert.InDelta(t, 0.03, d[1].Hour[3], 1e-12)
	assert.InDelta(t, 23.0/24, d[1].Covered, 1e-9)
	assert.InDelta(t, 1, d[2].Covered, 1e-9)
	assert.Equal(t, "2024-04-01 00:00 CEST", r.Civil(47).Format("2006-01-02 15:04 MST"))
}

func TestMeanDay(t *testing.T) {
	r := every(time.Hour, 72, func(d time.Duration) float64 { return 0.4 + 0.01*float64(int(d.Hours())%24) })
	m := r.Daily(Humidity)
	assert.Equal(t, []int{3, 0, 0, 23}, []int{m.Days, m.LeftOut, m.Lowest, m.Highest})
	assert.InDeltaSlice(t, []float64{0.23, 0.23, 0.23, 0.45}, []float64{m.Swing, m.Median, m.Nine, m.Hour[5]}, 1e-9)
	m = every(time.Hour, 30, square(0.1)).Daily(Humidity)
	assert.Equal(t, []int{1, 1}, []int{m.Days, m.LeftOut}, "six hours are no day")
	assert.True(t, math.IsNaN((&Record{}).Daily(Humidity).Swing))
}

// Coverage by hand: 15 of 31 days of January, all of February 2024 (29 days), 10 of March.
func TestMonths(t *testing.T) {
	r := &Record{}
	for at := time.Date(2024, 1, 17, 0, 0, 0, 0, time.UTC); at.Before(time.Date(2024, 3, 11, 0, 0, 0, 0, time.UTC)); at = at.Add(time.Hour) {
		if h := at.Add(30 * time.Minute); !h.Before(time.Date(2024, 1, 17, 0, 0, 0, 0, time.UTC)) {
			r.Times, r.RH = append(r.Times, h), append(r.RH, 0.5)
		}
	}
	m := r.Stats().Months
	require.Len(t, m, 3)
	assert.InDelta(t, 15.0/31, m[0].Covered, 1e-12)
	assert.InDelta(t, 1, m[1].Covered, 1e-12)
	assert.InDelta(t, 10.0/31, m[2].Covered, 1e-12)
	// Readings a day apart at six in the evening stand for six hours of the next month.
	daily := made([]float64{18, 42, 66, 31*24 - 6, 31*24 + 18}, []float64{0.5, 0.5, 0.5, 0.5, 0.5})
	m = daily.Stats().Months
	assert.InDelta(t, 3.75/31, m[0].Covered, 1e-12, "three days, and 18 hours of the last")
	assert.InDelta(t, 1.25/29, m[1].Covered, 1e-12)
}

// January 2023 and January 2024 together; what a reading stands for counts, not how many there are.
func TestMonthlyMeans(t *testing.T) {
	r := every(time.Hour, 24*400, func(d time.Duration) float64 {
		at := time.Date(2022, 3, 1, 0, 0, 0, 0, time.UTC).Add(d)
		return float64(at.Month())/100 + float64(at.Year()-2022)/10
	})
	m := r.Monthly(Humidity)
	assert.InDelta(t, 0.11, m[0].Value, 1e-9, "January 2023")
	assert.InDelta(t, (0.03*31*24+0.13*31*24)/(62*24), m[2].Value, 1e-9, "March of both years")
	assert.InDelta(t, 62*24, m[2].Hours, 1e-6)
	assert.InDelta(t, 0.05, m[4].Value, 1e-9)
	for _, x := range r.Monthly(Temperature) {
		assert.True(t, math.IsNaN(x.Value) && x.Hours == 0)
	}
}
