package record

import (
	"math"
	"time"
)

// Gap is a stretch without readings: two successive readings more than 1.5 usual steps apart. The
// usual step is the median of the record, or that of a stretch of at least 12 even steps.
type Gap struct{ From, To time.Time }

// Month is the coverage of one calendar month in civil time.
type Month struct {
	Start   time.Time // first instant of the month
	Covered float64   // share of the whole month for which readings stand, 0 to 1
}

// Stats are the plain figures of a record. Means, hours and (with uneven steps) percentiles are
// weighted by time; see [Record.Weights].
type Stats struct {
	Readings             int
	From, To             time.Time     // first and last reading
	Step                 time.Duration // the usual one (median)
	MeanRH, MinRH, MaxRH float64       // fraction
	MeanT, MinT, MaxT    float64       // °C; NaN without temperatures
	RH                   Percentiles   // fraction
	T                    Percentiles   // °C; NaN without temperatures
	TimeWeighted         bool          // the percentiles weigh by time, because the steps are uneven
	Gaps                 []Gap
	Months               []Month // from the month of the first reading to that of the last
	WithoutTemperature   int     // readings whose temperature is missing
	HoursCovered         float64 // h for which readings stand
	HoursAbove75         float64 // h above 75 %
	HoursBelow25         float64 // h below 25 %
	Hours40To60          float64 // h from 40 to 60 %, both included
}

// Stats returns the plain figures of the record; all are NaN or zero for an empty one.
func (r *Record) Stats() Stats {
	rh := r.series(Humidity)
	s := Stats{Readings: len(r.Times), WithoutTemperature: len(r.Times), Gaps: r.gaps(rh)}
	s.Step = time.Duration(rh.step) * time.Millisecond
	s.MeanRH, s.MinRH, s.MaxRH = rh.summary()
	s.RH = rh.ladder()
	temp := r.series(Temperature)
	s.MeanT, s.MinT, s.MaxT = temp.summary()
	s.T = temp.ladder()
	s.WithoutTemperature -= len(temp.v)
	if len(r.Times) == 0 {
		return s
	}
	s.TimeWeighted = !rh.even
	s.From, s.To = r.Times[0], r.Times[len(r.Times)-1]
	s.Months = r.months(rh)
	in, _, above := rh.hours(0, 0.75)
	s.HoursCovered, s.HoursAbove75 = in+above, above
	_, s.HoursBelow25, _ = rh.hours(0.25, 1)
	s.Hours40To60, _, _ = rh.hours(0.40, 0.60)
	return s
}

// summary returns weighted mean, lowest and highest; NaN when there are no values.
func (s *series) summary() (mean, lo, hi float64) {
	if len(s.v) == 0 {
		return nan(), nan(), nan()
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	total := 0.0
	for i, x := range s.v {
		mean += s.w[i] * x
		total += s.w[i]
		lo, hi = min(lo, x), max(hi, x)
	}
	return mean / total, lo, hi
}

// hours returns the hours for which readings stand inside a band, below it and above it. The ends of
// the band count as inside; gaps and missing readings count for nothing.
func (s *series) hours(lo, hi float64) (inside, below, above float64) {
	for i, x := range s.v {
		switch {
		case Over(lo, x):
			below += s.w[i]
		case Over(x, hi):
			above += s.w[i]
		default:
			inside += s.w[i]
		}
	}
	return inside / 3600, below / 3600, above / 3600
}

// Gaps returns the stretches without readings: successive readings more than 1.5 usual steps apart.
func (r *Record) Gaps() []Gap {
	s := series{t: millis(r.Times)}
	s.step = usualStep(s.t)
	s.runs = ownSteps(s.t, s.step)
	return r.gaps(s)
}

func (r *Record) gaps(s series) []Gap {
	var out []Gap
	for i := range s.t {
		if s.isGap(i) {
			out = append(out, Gap{r.Times[s.reading(i-1)], r.Times[s.reading(i)]})
		}
	}
	return out
}

// months returns the coverage of each calendar month; the time a reading stands for is parted where
// months meet.
func (r *Record) months(s series) []Month {
	zone := r.zone()
	first := r.Times[0].In(zone)
	m := Month{Start: time.Date(first.Year(), first.Month(), 1, 0, 0, 0, 0, zone)}
	begin, end := m.bounds()
	var out []Month
	last := math.Inf(-1) // end of what the reading before stands for
	for i, t := range s.t {
		before, after := s.cell(i)
		at := float64(t) / 1000
		for at >= end {
			m.Covered += max(0, end-max(begin, at+before))
			out = append(out, m.share(begin, end))
			m = Month{Start: m.Start.AddDate(0, 1, 0)}
			begin, end = m.bounds()
			m.Covered = max(0, min(end, last)-begin)
		}
		last = at + after
		m.Covered += min(end, last) - max(begin, at+before)
	}
	return append(out, m.share(begin, end))
}

// share turns the seconds covered into a share.
func (m Month) share(begin, end float64) Month {
	m.Covered = min(1, m.Covered/(end-begin))
	return m
}

// bounds returns the first instant of a month and of the next, in s since 1970.
func (m Month) bounds() (begin, end float64) {
	return float64(m.Start.Unix()), float64(m.Start.AddDate(0, 1, 0).Unix())
}
