package cli

import (
	"math"
	"time"

	"crossgrain/moisture/record"
)

// series is a record as plain slices for drawing and for the table: humidity in per cent, time in days
// since the first midnight, one NaN in each gap.
type plainSeries struct {
	start        time.Time // midnight of the first day, civil time
	days         []float64
	rh, mean, tc []float64
}

// plainOf makes the series; mean is the moving mean (fraction) at each reading, or nil.
func plainOf(rec *record.Record, mean []float64) plainSeries {
	p := plainSeries{}
	if len(rec.Times) == 0 {
		return p
	}
	first := rec.Civil(0)
	p.start = time.Date(first.Year(), first.Month(), first.Day(), 0, 0, 0, 0, first.Location())
	gaps := rec.Gaps()
	for i, t := range rec.Times {
		if len(gaps) > 0 && i > 0 && rec.Times[i-1].Equal(gaps[0].From) {
			middle := gaps[0].From.Add(gaps[0].To.Sub(gaps[0].From) / 2)
			p.add(middle, math.NaN(), math.NaN(), math.NaN(), mean != nil, rec.T != nil)
			gaps = gaps[1:]
		}
		m, c := math.NaN(), math.NaN()
		if mean != nil {
			m = 100 * mean[i]
		}
		if rec.T != nil {
			c = rec.T[i]
		}
		p.add(t, 100*rec.RH[i], m, c, mean != nil, rec.T != nil)
	}
	return p
}

func (p *plainSeries) add(t time.Time, rh, mean, c float64, withMean, withC bool) {
	p.days = append(p.days, t.Sub(p.start).Hours()/24)
	p.rh = append(p.rh, rh)
	if withMean {
		p.mean = append(p.mean, mean)
	}
	if withC {
		p.tc = append(p.tc, c)
	}
}

// dayOf counts civil days from the day of first, whose clock stands at any hour.
func dayOf(first, t time.Time) int {
	a := time.Date(first.Year(), first.Month(), first.Day(), 12, 0, 0, 0, time.UTC)
	b := time.Date(t.Year(), t.Month(), t.Day(), 12, 0, 0, 0, time.UTC)
	return int(math.Round(b.Sub(a).Hours() / 24))
}

// mostDays is the longest map of days: 60 years.
const mostDays = 60 * 366

// cells sorts values into days and equal parts of the day by civil time; a cell is the mean of what
// falls into it, NaN where nothing does.
func cells(rec *record.Record, value []float64) [][]float64 {
	n := len(rec.Times)
	if n == 0 {
		return nil
	}
	parts := 24
	if step := rec.Step(); step > time.Hour {
		parts = max(1, min(24, int(24*time.Hour/step)))
	}
	first := rec.Civil(0)
	days := dayOf(first, rec.Civil(n-1)) + 1
	if days < 1 || days > mostDays {
		return nil
	}
	sum, count := make([][]float64, days), make([][]float64, days)
	for i := range sum {
		sum[i], count[i] = make([]float64, parts), make([]float64, parts)
	}
	for i := range rec.Times {
		t := rec.Civil(i)
		d := dayOf(first, t)
		if d < 0 || d >= days || math.IsNaN(value[i]) {
			continue
		}
		k := (t.Hour()*60 + t.Minute()) * parts / (24 * 60)
		sum[d][k], count[d][k] = sum[d][k]+value[i], count[d][k]+1
	}
	for i := range sum {
		for k := range sum[i] {
			sum[i][k] /= count[i][k] // 0/0 is NaN
		}
	}
	return sum
}
