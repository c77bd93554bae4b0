package record

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func even(t *testing.T, r *Record, o EvenOptions) Evened {
	t.Helper()
	e, err := r.Even(o)
	require.NoError(t, err)
	return e
}

// The record's own step and times give the readings themselves.
func TestEvenOfEvenIsTheRecord(t *testing.T) {
	r := wave(100)
	e := even(t, r, EvenOptions{Step: time.Hour})
	require.Len(t, e.Segments, 1)
	assert.InDeltaSlice(t, r.RH, e.Segments[0].RH, 1e-12)
	assert.InDeltaSlice(t, r.T, e.Segments[0].T, 1e-12)
	assert.True(t, r.Times[0].Equal(e.Segments[0].Start))
	assert.Empty(t, e.Open)
}

// Averaging keeps the mean (full steps), and a straight line stays straight under Linear.
func TestEvenKeepsMeansAndLines(t *testing.T) {
	r := every(10*time.Minute, 6*24*6+1, func(d time.Duration) float64 { return 0.3 + 0.002*d.Hours() })
	for _, how := range []Between{Nearest, Linear, Hold} {
		for _, step := range []time.Duration{20 * time.Minute, time.Hour, 3 * time.Hour, 24 * time.Hour} {
			s := even(t, r, EvenOptions{Step: step, How: how}).Segments
			require.Len(t, s, 1)
			for i := 1; i < len(s[0].RH)-1; i++ {
				at := s[0].Start.Add(time.Duration(i) * step).Sub(r.Times[0])
				want := 0.3 + 0.002*at.Hours()
				if how == Hold {
					want -= 0.002 / 12 // a reading holds 10 min: 5 min behind on average
				}
				require.InDelta(t, want, s[0].RH[i], 1e-9, "%v %s %d", how, step, i)
			}
		}
	}
	fine := even(t, every(time.Hour, 10, func(d time.Duration) float64 { return 0.05 * d.Hours() }), EvenOptions{Step: 6 * time.Minute, How: Linear}).Segments[0]
	for i := 6; i < len(fine.RH)-6; i++ {
		require.InDelta(t, 0.05*fine.Start.Add(time.Duration(i)*6*time.Minute).Sub(time.Date(2022, 3, 1, 0, 0, 0, 0, time.UTC)).Hours(), fine.RH[i], 1e-9, i)
	}
}

// A gap parts the record unless it may be bridged; no value rests on readings from both sides.
func TestEvenNeverFillsAGap(t *testing.T) {
	r := every(time.Hour, 60, func(d time.Duration) float64 {
		switch h := d.Hours(); {
		case h < 20:
			return 0.4
		case h < 30:
			return math.NaN()
		}
		return 0.6
	})
	e := even(t, r, EvenOptions{Step: time.Hour})
	require.Len(t, e.Segments, 2)
	assert.Len(t, e.Open, 1)
	for _, x := range e.Segments[0].RH {
		assert.InDelta(t, 0.4, x, 1e-12)
	}
	for _, x := range e.Segments[1].RH {
		assert.InDelta(t, 0.6, x, 1e-12)
	}
	e = even(t, r, EvenOptions{Step: time.Hour, How: Linear, Bridge: 12 * time.Hour})
	require.Len(t, e.Segments, 1)
	assert.Len(t, e.Bridged, 1)
	assert.Equal(t, 11*time.Hour, e.Bridged[0].To.Sub(e.Bridged[0].From))
	lone := made([]float64{0, 1, 2, 3, 50, 100, 101, 102}, []float64{0.4, 0.4, 0.4, 0.4, 0.9, 0.4, 0.4, 0.4})
	e = even(t, lone, EvenOptions{Step: 12 * time.Hour})
	assert.NotEmpty(t, e.Dropped, "an hour is no half of twelve")
	flat := func(time.Duration) float64 { return 0.4 }
	assert.Empty(t, even(t, every(time.Hour, 5, flat), EvenOptions{Step: 12 * time.Hour}).Segments, "five of twelve hours")
	assert.Len(t, even(t, every(time.Hour, 7, flat), EvenOptions{Step: 12 * time.Hour}).Segments, 1, "six and a half of them")
}

func TestEvenTemperaturesMayBeMissing(t *testing.T) {
	r := wave(48)
	for i := 10; i < 20; i++ {
		r.T[i] = math.NaN()
	}
	s := even(t, r, EvenOptions{Step: time.Hour}).Segments
	require.Len(t, s, 1)
	assert.True(t, math.IsNaN(s[0].T[15]))
	assert.InDelta(t, r.T[25], s[0].T[25], 1e-12)
	assert.InDelta(t, r.RH[15], s[0].RH[15], 1e-12)
}

func TestEvenRefuses(t *testing.T) {
	r := wave(10)
	for want, o := range map[string]EvenOptions{
		"step must be at least 1 s":  {Step: time.Millisecond},
		"bridge must not be below 0": {Step: time.Hour, Bridge: -1},
	} {
		_, err := r.Even(o)
		assert.ErrorContains(t, err, want)
	}
	long := &Record{Times: []time.Time{time.Unix(0, 0), time.Unix(9e9, 0)}, RH: []float64{0.4, 0.5}}
	_, err := long.Even(EvenOptions{Step: time.Second})
	assert.ErrorContains(t, err, "at most")
	e, err := (&Record{}).Even(EvenOptions{Step: time.Hour})
	require.NoError(t, err)
	assert.Empty(t, e.Segments)
}
