package record

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand at position (n-1)p/100 with straight lines between neighbours: of 1 to 5, p25 = 2, p10 = 1.4.
func TestPercentilesByHand(t *testing.T) {
	v := []float64{5, 3, 1, 2, 4}
	assert.InDeltaSlice(t, []float64{1, 1.4, 2, 3, 4.6, 5}, percentiles(v, nil, true, 0, 10, 25, 50, 90, 100), 1e-12)
	assert.Equal(t, []float64{5, 3, 1, 2, 4}, v)
	assert.InDeltaSlice(t, []float64{1, 1.4, 2, 3, 4.6, 5}, percentiles(v, []float64{2, 2, 2, 2, 2}, false, 0, 10, 25, 50, 90, 100), 1e-12,
		"equal weights give the plain form")
	assert.InDeltaSlice(t, []float64{7, 7}, percentiles([]float64{7}, []float64{3}, false, 7, 93), 1e-12)
	for _, x := range percentiles(nil, nil, true, 7, 93) {
		assert.True(t, math.IsNaN(x))
	}
}

// Three values that weigh 1, 2 and 1 stand at 0, 1.5 and 3 of 3: p25 is half way to the second.
func TestPercentilesWeighByTime(t *testing.T) {
	assert.InDeltaSlice(t, []float64{10, 15, 20, 25, 30}, percentiles([]float64{30, 10, 20}, []float64{1, 1, 2}, false, 0, 25, 50, 75, 100), 1e-12)
	// Readings six times as dense in the damp half of a record move the plain median, not the weighted one.
	r := &Record{}
	t0 := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 100 {
		r.Times, r.RH = append(r.Times, t0.Add(time.Duration(i)*time.Hour)), append(r.RH, 0.4)
	}
	for i := range 594 {
		r.Times, r.RH = append(r.Times, t0.Add(100*time.Hour+time.Duration(i)*10*time.Minute)), append(r.RH, 0.6)
	}
	s := r.Stats()
	require.True(t, s.TimeWeighted)
	assert.InDelta(t, 0.5, s.MeanRH, 1e-3)
	assert.Empty(t, s.Gaps, "two intervals, no gap")
	assert.InDelta(t, 199, s.HoursCovered, 1)
	assert.InDelta(t, 0.4, percentiles(r.RH, r.Weights(Humidity), false, 49)[0], 1e-9)
	assert.InDelta(t, 0.6, percentiles(r.RH, nil, true, 49)[0], 1e-9)
	sum := 0.0
	for _, w := range r.Weights(Humidity) {
		sum += w
	}
	assert.InDelta(t, s.HoursCovered, sum/3600, 1e-9)
}
