package cli

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record"
	"crossgrain/moisture/record/terms"
)

// hourly is an invented record of hours from a civil time in Rome, without those that are left out.
func hourly(t *testing.T, from time.Time, n int, without func(int) bool) *record.Record {
	t.Helper()
	rome, err := time.LoadLocation("Europe/Rome")
	require.NoError(t, err)
	r := &record.Record{Zone: rome}
	start := time.Date(from.Year(), from.Month(), from.Day(), from.Hour(), 0, 0, 0, rome)
	for i := range n {
		if without != nil && without(i) {
			continue
		}
		r.Times, r.RH = append(r.Times, start.Add(time.Duration(i)*time.Hour)), append(r.RH, float64(i%100)/100)
	}
	return r
}

func TestCellsFollowTheClockThroughSummerTime(t *testing.T) {
	r := hourly(t, time.Date(2024, 3, 30, 0, 0, 0, 0, time.UTC), 72, nil)
	c := cells(r, r.RH)
	require.Len(t, c, 4) // the third day ends an hour later by the clock
	assert.True(t, math.IsNaN(c[1][2]), "2 o'clock of 31 March 2024 was never shown")
	assert.InDelta(t, 0.25, c[1][1], 1e-12)
	assert.InDelta(t, 0.26, c[1][3], 1e-12, "the next hour of the record")
	r = hourly(t, time.Date(2024, 10, 27, 0, 0, 0, 0, time.UTC), 25, nil)
	c = cells(r, r.RH)
	require.Len(t, c, 1)
	assert.InDelta(t, 0.025, c[0][2], 1e-12, "2 o'clock came twice: the mean of both")
}

func TestCellsOfCoarseRecords(t *testing.T) {
	r := hourly(t, time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC), 48, func(i int) bool { return i%6 != 0 })
	c := cells(r, r.RH)
	require.Len(t, c, 2)
	assert.Len(t, c[0], 4)
	assert.InDelta(t, 0.06, c[0][1], 1e-12)
}

func TestPlainSeriesKeepsGapsOpen(t *testing.T) {
	r := hourly(t, time.Date(2024, 1, 1, 6, 0, 0, 0, time.UTC), 50, func(i int) bool { return i >= 20 && i < 30 })
	p := plainOf(r, nil)
	require.Len(t, p.rh, 41)
	assert.True(t, math.IsNaN(p.rh[20]))
	assert.InDelta(t, 0.25, p.days[0], 1e-12, "days count from midnight")
	assert.Nil(t, p.mean)
	assert.Nil(t, p.tc)
}

func TestDayShares(t *testing.T) {
	r := hourly(t, time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC), 72, func(i int) bool { return i >= 24 && i < 48 })
	side := make([]int8, len(r.Times))
	for i := range 6 {
		side[i], side[47-i] = 1, -1
	}
	above, below := dayShares(r, record.Humidity, side)
	require.Len(t, above, 3)
	assert.InDelta(t, 0.25, above[0], 1e-9)
	assert.Zero(t, below[0])
	assert.True(t, math.IsNaN(above[1]) && math.IsNaN(below[1]), "a day without readings")
	assert.InDelta(t, 0.25, below[2], 1e-9)
	for i := range 18 {
		side[i+6] = terms.NotJudged
	}
	above, _ = dayShares(r, record.Humidity, side)
	assert.InDelta(t, 1, above[0], 1e-9, "all that was judged of the day")
}
