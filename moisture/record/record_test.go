package record

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	house    = "../../testdata/records/indoor_house_tampere_2010-2012_hourly.csv"
	houseSum = "e98e53944a33bb6b32ecebe1819467f15a9d869bbf566d0bd3cca64ae87e6f33" // published beside the file
	month    = 30 * 24 * time.Hour
)

func readHouse(tb testing.TB) *Record {
	tb.Helper()
	src, err := os.ReadFile(house)
	require.NoError(tb, err)
	sum := sha256.Sum256(src)
	require.Equal(tb, houseSum, hex.EncodeToString(sum[:]), "the file is not the published one")
	r, err := ReadCSV("house.csv", src)
	require.NoError(tb, err)
	return r
}

// Expected values were computed from the file apart from this program (testdata/records/README.md).
func TestHouse(t *testing.T) {
	r := readHouse(t)
	s := r.Stats()
	assert.Equal(t, 14449, s.Readings)
	assert.Equal(t, time.Hour, s.Step)
	assert.Empty(t, s.Gaps)
	assert.Equal(t, "2010-11-15 00:00:00 +0200 UTC+2", s.From.String())
	assert.Equal(t, "2012-07-09 00:00:00 +0200 UTC+2", s.To.String())
	assert.InDelta(t, 22.6387, s.MeanT, 5e-5)
	assert.InDelta(t, 38.4516, 100*s.MeanRH, 5e-5)
	assert.InDelta(t, 15.60, 100*s.MinRH, 1e-9)
	assert.InDelta(t, 68.75, 100*s.MaxRH, 1e-9)
	low, _, high, err := r.RunningMean(month)
	require.NoError(t, err)
	assert.InDelta(t, 24.3453, 100*low, 5e-5)
	assert.InDelta(t, 61.3372, 100*high, 5e-5)
}

func TestHouseRunningMeanAtThreeTimes(t *testing.T) {
	r := readHouse(t)
	want := map[string]float64{"2010-11-30 00:00:00": 31.9028, "2011-09-12 00:00:00": 60.5485, "2012-06-24 00:00:00": 45.5411}
	n, found := 0, 0
	r.running(month, func(i int, mean, _ float64) {
		n++
		if w, ok := want[r.Times[i].Format(isoSeconds)]; ok {
			found++
			assert.InDelta(t, w, 100*mean, 5e-5, r.Times[i])
		}
	})
	assert.Equal(t, 13729, n)
	assert.Equal(t, 3, found)
}

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
	var short *ShortError
	require.True(t, errors.As(err, &short))
	assert.Equal(t, ShortError{Window: month, Length: 2 * time.Hour}, *short)
	assert.EqualError(t, err, "the record must be longer than the window of 30 days, it covers 2 hours")
	_, _, _, err = (&Record{}).RunningMean(month)
	assert.Error(t, err)
	_, _, _, err = r.RunningMean(0)
	assert.ErrorContains(t, err, "window must be above 0")
	low, mid, high, err := r.RunningMean(2 * time.Hour)
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{0.5, 0.5, 0.5}, []float64{low, mid, high}, 1e-12)
}

func BenchmarkRead(b *testing.B) {
	src, err := os.ReadFile(house)
	require.NoError(b, err)
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ReadCSV("house.csv", src); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRunningMean(b *testing.B) {
	r := readHouse(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, _, err := r.RunningMean(month); err != nil {
			b.Fatal(err)
		}
	}
}
