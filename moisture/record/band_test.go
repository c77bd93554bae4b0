package record

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// every is an invented record of n readings at even steps; rh gives the humidity (fraction) of the
// time since its start, NaN for a reading that is left out.
func every(step time.Duration, n int, rh func(time.Duration) float64) *Record {
	r := &Record{}
	t0 := time.Date(2022, 3, 1, 0, 0, 0, 0, time.UTC)
	for i := range n {
		d := time.Duration(i) * step
		if v := rh(d); !math.IsNaN(v) {
			r.Times, r.RH = append(r.Times, t0.Add(d)), append(r.RH, v)
		}
	}
	return r
}

// square swings by x about 50 % every 12 h: its moving mean is 50 % and its departures are +-x.
func square(x float64) func(time.Duration) float64 {
	return func(d time.Duration) float64 {
		if d%(24*time.Hour) < 12*time.Hour {
			return 0.5 + x
		}
		return 0.5 - x
	}
}

const (
	thirteen = 395 * 24 // hours: 365 days and 15 on each side
	days     = 24 * time.Hour
)

// Readings that swing evenly leave limits known beforehand: the swing itself. The record must span
// 13 months and have a reading an hour (Heritage Science 2023, s40494-023-00888-6, abstract).
func TestBandOfAnEvenSwing(t *testing.T) {
	b := every(time.Hour, thirteen, square(0.12)).HistoricBand(BandOptions{})
	require.True(t, b.Applies, b.WhyNot)
	assert.InDelta(t, -0.12, b.Low, 2e-4) // 721 readings: one more of one kind
	assert.InDelta(t, 0.12, b.High, 2e-4)
	assert.InDelta(t, 0.5, b.Mean, 1e-9)
	assert.InDelta(t, 0.5, b.Moving.Lowest, 2e-4)
	assert.Equal(t, 15*days, b.From.Sub(time.Date(2022, 3, 1, 0, 0, 0, 0, time.UTC)))
	assert.InDelta(t, 8760, b.Used, 1)
}

func TestBandIsRefusedWithItsReason(t *testing.T) {
	gap := func(from, to int) func(time.Duration) float64 {
		return func(d time.Duration) float64 {
			if d >= time.Duration(from)*days && d < time.Duration(to)*days {
				return math.NaN()
			}
			return 0.5
		}
	}
	for name, tt := range map[string]struct {
		rec  *Record
		want string
	}{
		"an hour short":   {every(time.Hour, thirteen-1, square(0.1)), "too short: at least 13 months (395 days)"},
		"three hourly":    {every(3*time.Hour, thirteen, square(0.1)), "too sparse: at least one reading an hour is needed, the readings are 3 hours apart"},
		"gap of 60 days":  {every(time.Hour, thirteen, gap(100, 160)), "no 12 months of the record have a moving mean for 90 % of the time, the best have 7"},
		"nothing":         {&Record{}, "too short"},
		"only both ends":  {every(time.Hour, thirteen, gap(2, 393)), "gaps"},
		"short and spare": {every(12*time.Hour, 100, square(0.1)), "too sparse"},
	} {
		b := tt.rec.HistoricBand(BandOptions{})
		assert.False(t, b.Applies, name)
		assert.Contains(t, strings.Join(b.WhyNot, "; "), tt.want, name)
		assert.True(t, math.IsNaN(b.Low) && math.IsNaN(b.High) && math.IsNaN(b.Mean), name)
	}
	assert.True(t, every(time.Hour, thirteen, gap(100, 110)).HistoricBand(BandOptions{}).Applies, "ten days are bridged by the other twenty")
	late := every(time.Hour+30*time.Second, thirteen, square(0.1))
	assert.True(t, late.HistoricBand(BandOptions{}).Applies, "a clock that runs late is no sparse record")
	longer := every(time.Hour, 3*thirteen, gap(100, 160)).HistoricBand(BandOptions{})
	require.True(t, longer.Applies, longer.WhyNot)
	assert.Equal(t, 0, int(longer.Low), "the first year that carries it is taken")
	assert.Greater(t, longer.From.Sub(time.Date(2022, 3, 1, 0, 0, 0, 0, time.UTC)), 15*days)
}

// The floor of 10 points (memory of EN 15757): per side, or only where both sides are nearer. The
// swing is one-sided: 18 h at +5, 6 h at -15.
func TestFloor(t *testing.T) {
	oneSided := func(d time.Duration) float64 {
		if d%(24*time.Hour) < 18*time.Hour {
			return 0.55
		}
		return 0.35
	}
	for _, tt := range []struct {
		swing     func(time.Duration) float64
		floor     Floor
		low, high float64
	}{
		{oneSided, NoFloor, -0.15, 0.05}, {oneSided, PerSide, -0.15, 0.10}, {oneSided, BothSides, -0.15, 0.05},
		{square(0.04), NoFloor, -0.04, 0.04}, {square(0.04), PerSide, -0.10, 0.10}, {square(0.04), BothSides, -0.10, 0.10},
	} {
		b := every(time.Hour, thirteen, tt.swing).HistoricBand(BandOptions{Floor: tt.floor})
		assert.InDelta(t, tt.low, b.Low, 5e-4)
		assert.InDelta(t, tt.high, b.High, 5e-4)
	}
}

// The whole record instead of 12 months: the limits of the reference over all readings.
func TestBandOfTheWholeRecord(t *testing.T) {
	b := openRecord(t, openRecords[1].name).HistoricBand(BandOptions{WholeRecord: true})
	require.True(t, b.Applies)
	assert.Equal(t, 12505, b.Used)
	assert.InDelta(t, -21.7199, 100*b.Low, 5e-5)
	assert.InDelta(t, 18.7672, 100*b.High, 5e-5)
}

// Ten readings an hour for a month, one an hour for the rest: limits weigh by time.
func TestBandWeighsByTime(t *testing.T) {
	rough := func(d time.Duration) float64 { // a swing of 20 in the second month, of 2 else
		if d >= 30*days && d < 60*days {
			return square(0.20)(d)
		}
		return square(0.02)(d)
	}
	plain := every(time.Hour, thirteen, rough)
	dense := &Record{}
	for i, at := range plain.Times {
		k := 1
		if d := at.Sub(plain.Times[0]); d >= 30*days && d < 60*days {
			k = 10
		}
		for j := range k {
			dense.Times = append(dense.Times, at.Add(time.Duration(j)*6*time.Minute))
			dense.RH = append(dense.RH, plain.RH[i])
		}
	}
	a, b := plain.HistoricBand(BandOptions{}), dense.HistoricBand(BandOptions{})
	require.True(t, a.Applies && b.Applies)
	assert.Less(t, a.High, 0.05, "30 of 365 days, half of them high, are under 7 in 100")
	assert.InDelta(t, a.High, b.High, 2e-3)
	assert.InDelta(t, a.Mean, b.Mean, 1e-3)
}
