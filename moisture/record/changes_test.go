package record

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A ramp of 1 point an hour over two days, worked out by hand for each reading of "in 24 h".
func TestChangeOfARamp(t *testing.T) {
	r := every(time.Hour, 49, func(d time.Duration) float64 { return 0.2 + 0.01*d.Hours() })
	for _, tt := range []struct {
		how     Reading
		largest float64
		windows int
	}{
		{WithinWindow, 0.24, 25}, {PlusMinus, 0.12, 25}, {Apart, 0.24, 25},
		{FromMean, 0.115, 48}, // 23 h to the middle of a day of 24 readings; the last reading has no day
	} {
		c := r.Change(Humidity, 24*time.Hour, tt.how)
		assert.InDelta(t, tt.largest, c.Largest, 1e-9, tt.how)
		assert.Equal(t, tt.windows, c.Windows, tt.how)
		assert.Equal(t, 49, c.Windows+c.LeftOut, tt.how)
		assert.Empty(t, c.WhyNot)
		if tt.how != FromMean {
			assert.True(t, c.Rise, tt.how)
			assert.Equal(t, 24*time.Hour, c.To.Sub(c.From), tt.how)
		}
	}
	fall := every(time.Hour, 49, func(d time.Duration) float64 { return 0.8 - 0.01*d.Hours() })
	c := fall.Change(Humidity, 24*time.Hour, WithinWindow)
	assert.False(t, c.Rise)
	assert.True(t, c.From.Before(c.To))
}

// Up and down again within a day: seen by the range, not by readings 24 h apart.
func TestReadingsOfAChangeDiffer(t *testing.T) {
	r := every(time.Hour, 72, func(d time.Duration) float64 { return 0.5 + 0.1*math.Sin(2*math.Pi*d.Hours()/24) })
	assert.InDelta(t, 0.2, r.Change(Humidity, 24*time.Hour, WithinWindow).Largest, 1e-9)
	assert.InDelta(t, 0.1, r.Change(Humidity, 24*time.Hour, PlusMinus).Largest, 1e-9)
	assert.InDelta(t, 0, r.Change(Humidity, 24*time.Hour, Apart).Largest, 1e-9)
	assert.InDelta(t, 0.1, r.Change(Humidity, 24*time.Hour, FromMean).Largest, 1e-9)
}

// The queues of one pass give the same as all pairs of readings.
func TestRangeIsThatOfEveryWindow(t *testing.T) {
	r := every(time.Hour, 300, func(d time.Duration) float64 {
		return 0.5 + 0.3*math.Sin(d.Hours()*d.Hours()/40) + 0.1*math.Cos(d.Hours())
	})
	for _, window := range []time.Duration{time.Hour, 5 * time.Hour, 24 * time.Hour, 168 * time.Hour} {
		got := r.ChangeSeries(Humidity, window, WithinWindow)
		for i := range r.Times {
			if r.Times[i].Sub(r.Times[0]) < window {
				assert.True(t, math.IsNaN(got[i]))
				continue
			}
			lo, hi := math.Inf(1), math.Inf(-1)
			for k := i; k >= 0 && r.Times[i].Sub(r.Times[k]) <= window; k-- {
				lo, hi = min(lo, r.RH[k]), max(hi, r.RH[k])
			}
			require.InDelta(t, hi-lo, got[i], 1e-12, "%s %d", window, i)
		}
	}
}

func TestGapsInWindows(t *testing.T) {
	r := every(time.Hour, 96, func(d time.Duration) float64 {
		if h := d.Hours(); h > 40 && h < 60 { // 18 h and more are missing
			return math.NaN()
		}
		return 0.5 + 0.2*math.Floor(d.Hours()/50)
	})
	c := r.Change(Humidity, 24*time.Hour, WithinWindow)
	assert.InDelta(t, 0, c.Largest, 1e-12, "windows with the gap are left out: what is in them is not known")
	// 20 % of 24 h are 4.8: a window that begins 5 h before the first reading after the gap has 4 h of
	// it without readings, one that begins 6 h before has 5.
	series := r.ChangeSeries(Humidity, 24*time.Hour, WithinWindow)
	after := r.index(r.Times[0].Add(79 * time.Hour))
	assert.False(t, math.IsNaN(series[after]))
	assert.True(t, math.IsNaN(series[after-1]))
	c = r.Change(Humidity, 7*24*time.Hour, WithinWindow)
	assert.True(t, math.IsNaN(c.Largest))
	assert.Contains(t, c.WhyNot, "no window of 7 days lies inside the record")
	small := every(time.Hour, 96, func(d time.Duration) float64 {
		if h := d.Hours(); h > 48 && h < 52 {
			return math.NaN()
		}
		return 0.5 + 0.2*math.Floor(d.Hours()/50)
	})
	c = small.Change(Humidity, 24*time.Hour, WithinWindow)
	assert.InDelta(t, 0.2, c.Largest, 1e-12)
	assert.True(t, c.AcrossGap, "and it says so")
}

func TestChangeNeedsReadingsInTheWindow(t *testing.T) {
	daily := every(24*time.Hour, 30, square(0.1))
	assert.Contains(t, daily.Change(Humidity, time.Hour, WithinWindow).WhyNot, "24 hours apart, further than the window of 1 hours")
	assert.Contains(t, daily.Change(Temperature, 24*time.Hour, WithinWindow).WhyNot, "no two readings of temperature")
	assert.Contains(t, daily.Change(Humidity, 0, WithinWindow).WhyNot, "above 0")
	assert.Contains(t, (&Record{}).Changes(Apart).Day.WhyNot, "no two readings")
	for _, x := range daily.ChangeSeries(Temperature, time.Hour, Apart) {
		assert.True(t, math.IsNaN(x))
	}
}

// A clock that runs a minute late an hour still has 24 h in its window.
func TestClocksThatRunLate(t *testing.T) {
	r := every(time.Hour+time.Second, 100, func(d time.Duration) float64 { return 0.2 + 0.005*d.Hours() })
	c := r.Change(Humidity, 24*time.Hour, WithinWindow)
	assert.InDelta(t, 0.12, c.Largest, 1e-3)
}

func TestReadingsHaveNames(t *testing.T) {
	for _, h := range Readings() {
		got, err := ParseReading(" " + h.String())
		require.NoError(t, err)
		assert.Equal(t, h, got)
		assert.Contains(t, h.Words(24*time.Hour), "24 hours")
	}
	_, err := ParseReading("largest")
	assert.EqualError(t, err, `a change must be read as range, plus-minus, apart, from-mean, got "largest"`)
}
