package record

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// made returns a record of the given hours and humidities.
func made(hours []float64, rh []float64) *Record {
	r := &Record{RH: rh}
	t0 := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, h := range hours {
		r.Times = append(r.Times, t0.Add(time.Duration(h*float64(time.Hour))))
	}
	return r
}

func TestDenseStretchDoesNotWeighMore(t *testing.T) {
	// Hourly readings of 40 %, then ten minutes apart at 60 %, as long a time.
	var hours, rh []float64
	for i := range 24 {
		hours, rh = append(hours, float64(i)), append(rh, 0.4)
	}
	for i := range 20 {
		hours, rh = append(hours, 24+float64(i)/6), append(rh, 0.6)
	}
	s := made(hours, rh).Stats()
	assert.InDelta(t, (24*0.4+3.5*0.6)/27.5, s.MeanRH, 0.005)
}

func TestGapsCountForNothing(t *testing.T) {
	var hours, rh []float64
	for i := range 100 {
		h := float64(i)
		if i >= 50 {
			h += 200 // eight days without readings
		}
		hours, rh = append(hours, h), append(rh, 0.4+0.2*float64(i/50))
	}
	r := made(hours, rh)
	assert.InDelta(t, 0.5, r.Stats().MeanRH, 1e-12)
	assert.Len(t, r.Gaps(), 1)
	low, _, high, err := r.RunningMean(24 * time.Hour)
	require.NoError(t, err)
	assert.InDelta(t, 0.4, low, 1e-12)
	assert.InDelta(t, 0.6, high, 1e-12)
	_, _, _, err = r.RunningMean(200 * time.Hour)
	assert.ErrorContains(t, err, "gaps leave no window")
}

func TestShortRecordIsRefused(t *testing.T) {
	r := made([]float64{0, 1, 2}, []float64{0.4, 0.5, 0.6})
	_, _, _, err := r.RunningMean(month)
	assert.EqualError(t, err, "the record must be longer than the window of 30 days, it covers 2 hours")
	_, _, _, err = (&Record{}).RunningMean(month)
	assert.Error(t, err)
	_, _, _, err = r.RunningMean(0)
	assert.ErrorContains(t, err, "window must be above 0")
	low, mid, high, err := r.RunningMean(2 * time.Hour)
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{0.5, 0.5, 0.5}, []float64{low, mid, high}, 1e-12)
}

func BenchmarkRunningMean(b *testing.B) {
	r := openRecord(b, openRecords[0].name)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, _, err := r.RunningMean(month); err != nil {
			b.Fatal(err)
		}
	}
}
