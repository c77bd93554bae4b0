package record

import (
	"fmt"
	"math"
	"time"

	"gonum.org/v1/gonum/mat"
)

// Harmonic is the yearly cycle as one cosine, in the quantity's unit (fraction or °C).
type Harmonic struct {
	Mean, Amplitude float64
	Maximum         time.Time // when it is highest, in the calendar year of the first reading
}

// tropicalYear is the mean length of the calendar year, s (365.2425 days).
const tropicalYear = 365.2425 * 86400

// Yearly fits mean + amplitude x cos(2 pi (t - maximum) / year) to a quantity by least squares,
// weighted by time. The record must cover a year; give a whole number of years (see
// [Record.Between]), since a part of a second one leans the fit to its season.
func (r *Record) Yearly(q Quantity) (Harmonic, error) {
	s := r.series(q)
	if length := s.length().Seconds() + float64(s.step)/1000; length < 365*86400 {
		return Harmonic{}, fmt.Errorf("the yearly cycle of %s needs a record of at least 365 days, it covers %.4g days", q, length/86400)
	}
	year := time.Date(r.Times[0].In(r.zone()).Year(), 1, 1, 0, 0, 0, 0, r.zone())
	begin := year.UnixMilli()
	var a mat.SymDense
	a.ReuseAsSym(3)
	b, row := mat.NewVecDense(3, nil), mat.NewVecDense(3, nil)
	for i, t := range s.t {
		sin, cos := math.Sincos(2 * math.Pi * float64(t-begin) / 1000 / tropicalYear)
		row.SetVec(0, 1)
		row.SetVec(1, cos)
		row.SetVec(2, sin)
		a.SymRankOne(&a, s.w[i], row)
		b.AddScaledVec(b, s.w[i]*s.v[i], row)
	}
	var x mat.VecDense
	if err := x.SolveVec(&a, b); err != nil {
		return Harmonic{}, fmt.Errorf("the yearly cycle of %s cannot be fitted: the readings leave out too much of the year", q)
	}
	phase := math.Atan2(x.AtVec(2), x.AtVec(1)) / (2 * math.Pi)
	if phase < 0 {
		phase++
	}
	return Harmonic{
		Mean: x.AtVec(0), Amplitude: math.Hypot(x.AtVec(1), x.AtVec(2)),
		Maximum: year.Add(time.Duration(phase * tropicalYear * float64(time.Second))),
	}, nil
}

// calendarDay is one day of a record, in civil time.
type calendarDay struct {
	Date      time.Time   // its first instant
	Hour      [24]float64 // mean of each hour of the clock, fraction or °C; NaN where there is no reading
	Low, High float64     // lowest and highest reading
	Covered   float64     // share of 24 h for which readings stand; up to 25/24 where the clock was put back
}

// Mean is a mean weighted by time, in the quantity's unit, and the hours behind it.
type Mean struct{ Value, Hours float64 } // NaN and 0 without readings

// Monthly returns the mean of each month of the calendar, January first, over all years of the record.
func (r *Record) Monthly(q Quantity) [12]Mean {
	s := r.series(q)
	var sum, w [12]float64
	local := r.local()
	month, from, to := 0, int64(0), int64(0) // the month that holds local times from, up to to
	for i, t := range s.t {
		if l := local(t); l < from || l >= to {
			at := time.UnixMilli(l).UTC()
			month = int(at.Month()) - 1
			begin := time.Date(at.Year(), at.Month(), 1, 0, 0, 0, 0, time.UTC)
			from, to = begin.UnixMilli(), begin.AddDate(0, 1, 0).UnixMilli()
		}
		sum[month], w[month] = sum[month]+s.w[i]*s.v[i], w[month]+s.w[i]
	}
	var out [12]Mean
	for m := range out {
		out[m] = Mean{sum[m] / w[m], w[m] / 3600} // 0/0 is NaN
	}
	return out
}

// Daily is the mean day of a quantity (fraction or °C) and how far it swings within a day.
type Daily struct {
	Hour            [24]float64 // mean by hour of the clock; NaN where there is no reading
	Median, Nine    float64     // median and 90th percentile of the daily range (highest less lowest of a calendar day)
	Days, LeftOut   int         // days counted, and days left out because readings cover less than 80 %
	Swing           float64     // highest less lowest of Hour
	Lowest, Highest int         // the hours (0 to 23) of the lowest and highest mean
}

// days returns the calendar days that hold readings of a quantity. An hour that the clock showed twice is the mean of both.
func (r *Record) days(q Quantity) []calendarDay {
	s := r.series(q)
	const hour = int64(time.Hour / time.Millisecond)
	local, zone := r.local(), r.zone()
	var out []calendarDay
	var d *calendarDay
	var w [24]float64
	number := int64(0)
	for i, t := range s.t {
		l := local(t)
		if n := floorDiv(l, 24*hour); d == nil || n != number {
			d.close(&w)
			out = append(out, calendarDay{Date: midnight(n, zone), Low: s.v[i], High: s.v[i]})
			d, number, w = &out[len(out)-1], n, [24]float64{}
		}
		h := floorDiv(l, hour) - 24*number
		d.Hour[h] += s.w[i] * s.v[i]
		w[h] += s.w[i]
		d.Low, d.High = min(d.Low, s.v[i]), max(d.High, s.v[i])
	}
	d.close(&w)
	return out
}

// close turns the sums of a day into means.
func (d *calendarDay) close(w *[24]float64) {
	if d == nil {
		return
	}
	for h := range w {
		d.Covered += w[h] / 86400
		d.Hour[h] /= w[h] // 0/0 is NaN
	}
}

// midnight returns the first instant of day n since 1 January 1970 in a zone.
func midnight(n int64, zone *time.Location) time.Time {
	y, m, d := time.Unix(n*86400, 0).UTC().Date()
	t, _ := Instant(time.Date(y, m, d, 0, 0, 0, 0, time.UTC), zone)
	return t
}

// floorDiv is a/b rounded down.
func floorDiv(a, b int64) int64 {
	if q := a / b; a%b >= 0 {
		return q
	}
	return a/b - 1
}

// Daily returns the daily cycle of a quantity. Days weigh alike in the percentiles, readings by time
// in the mean day.
func (r *Record) Daily(q Quantity) Daily {
	var out Daily
	var sum, n [24]float64
	var ranges []float64
	for _, d := range r.days(q) {
		if d.Covered < coverage {
			out.LeftOut++
			continue
		}
		ranges = append(ranges, d.High-d.Low)
		for h, x := range d.Hour {
			if !math.IsNaN(x) {
				sum[h], n[h] = sum[h]+x, n[h]+1
			}
		}
	}
	out.Days = len(ranges)
	p := percentiles(ranges, nil, true, 50, 90)
	out.Median, out.Nine = p[0], p[1]
	out.mean(sum, n)
	return out
}

// mean fills in the mean day.
func (d *Daily) mean(sum, n [24]float64) {
	d.Swing = nan()
	first := true
	for h := range sum {
		d.Hour[h] = sum[h] / n[h]
		if n[h] == 0 {
			continue
		}
		if first || d.Hour[h] < d.Hour[d.Lowest] {
			d.Lowest = h
		}
		if first || d.Hour[h] > d.Hour[d.Highest] {
			d.Highest = h
		}
		first = false
		d.Swing = d.Hour[d.Highest] - d.Hour[d.Lowest]
	}
}
