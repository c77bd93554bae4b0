package record

import (
	"fmt"
	"math"
	"time"
)

// Floor says whether limits that are nearer than 10 points are widened to 10 points. EN 15757 is
// remembered to accept +-10 where the limits found would be needlessly strict; whether each side
// counts alone is not known here, hence the choice.
type Floor int

// The floors.
const (
	NoFloor   Floor = iota // the limits as found
	PerSide                // each limit nearer than 10 points becomes 10 points
	BothSides              // only when both limits are nearer than 10 points
)

const floorPoints = 0.10

// BandOptions are choices which the method leaves open; the zero value is the usual form.
type BandOptions struct {
	Floor       Floor
	WholeRecord bool // limits from all readings with a moving mean instead of from 12 months
}

// Figures of the method: EN 15757:2010 as reported by others, and choices of this package.
const (
	bandWindow  = 30 * 24 * time.Hour  // 15 days to each side (memory)
	bandYear    = 365 * 24 * time.Hour // the 12 months used
	bandLength  = bandYear + bandWindow
	bandLow     = 7.0         // percentile of the departures (memory)
	bandHigh    = 93.0        // percentile of the departures (memory)
	bandDensity = time.Hour   // at least one reading an hour (Heritage Science 2023, s40494-023-00888-6, abstract)
	bandShare   = 0.9         // of the 12 months must have a moving mean (assumption)
	bandJitter  = time.Minute // a clock may run late by this (assumption)
)

// Band is the historic band of humidity as EN 15757:2010 describes it: a moving mean, and how far
// readings depart from it. Humidities are fractions.
type Band struct {
	Applies  bool
	WhyNot   []string  // in words; empty when it applies
	Low      float64   // lower limit of the departures, below 0, after the floor; NaN when it does not apply
	High     float64   // upper limit, above 0
	P7, P93  float64   // the same before the floor
	Mean     float64   // mean humidity of the time used
	From, To time.Time // first and last reading used
	Used     int       // readings used
	Moving   Moving    // the moving mean of the whole record, whether or not the band applies
	Options  BandOptions
}

// Moving is the central moving mean of a record and the readings' departures from it, fractions.
type Moving struct {
	Mean            []float64 // one a reading; NaN where there is none
	Readings        int       // that have a moving mean
	Lowest, Highest float64   // of the moving mean; NaN when there is none
	P7, P93         float64   // of the departures, over all readings with a moving mean
	Least, Most     float64   // extreme departures
	From, To        time.Time // first and last reading with a moving mean
}

// HistoricBand returns the historic band of humidity, or says why the record does not carry one.
//
// The moving mean at a reading is that of all readings within 15 days before and after it, both ends
// included, weighted by time; it is formed where the 30 days lie inside the record and readings cover
// at least 80 % of them. Departures are readings less the moving mean. The limits are their 7th and
// 93rd percentile (order statistics at (n-1)p/100, linear between neighbours; weighted by time where
// steps are uneven) over the first 12 months of which at least 90 % have a moving mean. The record
// must span 13 months with a reading an hour.
//
// The band says what the climate was, not that it was good: it holds for objects in stable condition
// in the climate in which they were kept, and must not justify a climate that harms them.
//
// Sources: scope of EN 15757:2010 from its catalogue page
// (https://standards.iteh.ai/catalog/standards/cen/ad03d50b-22dc-4c57-b198-2321863f3870/en-15757-2010),
// 13 months and one reading an hour from Heritage Science 2023, s40494-023-00888-6, abstract; the
// mean over 30 days, the percentiles and the floor from memory: the standard itself was not read.
func (r *Record) HistoricBand(o BandOptions) Band {
	s := r.series(Humidity)
	b := Band{Options: o, Low: nan(), High: nan(), P7: nan(), P93: nan(), Mean: nan()}
	b.Moving = r.movingOf(&s, bandWindow)
	b.WhyNot = s.bandRefusal()
	if len(b.WhyNot) > 0 {
		return b
	}
	lo, hi := 0, len(s.t)
	if !o.WholeRecord {
		var best float64
		if lo, hi, best = s.year(b.Moving.Mean); lo == hi {
			b.WhyNot = append(b.WhyNot, fmt.Sprintf(
				"gaps: no 12 months of the record have a moving mean for 90 %% of the time, the best have %.0f %%", 100*best))
			return b
		}
	}
	b.Applies = true
	b.fit(r, &s, lo, hi)
	return b
}

// bandRefusal says what of the record itself is against the method.
func (s *series) bandRefusal() []string {
	var why []string
	step := time.Duration(s.step) * time.Millisecond
	if length := s.length(); length+step < bandLength {
		why = append(why, fmt.Sprintf("too short: at least 13 months (395 days) are needed, the record covers %s", words(length)))
	}
	if step > bandDensity+bandJitter {
		why = append(why, fmt.Sprintf("too sparse: at least one reading an hour is needed, the readings are %s apart", words(step)))
	}
	return why
}

// year returns the first 12 months that begin at a reading with a moving mean and of which 90 %
// have one; lo = hi and the best share when there are none.
func (s *series) year(mean []float64) (lo, hi int, best float64) {
	long := bandYear.Milliseconds()
	covered := 0.0
	for lo = range s.t {
		for hi < len(s.t) && s.t[hi] < s.t[lo]+long {
			if !math.IsNaN(mean[hi]) {
				covered += s.w[hi]
			}
			hi++
		}
		if math.IsNaN(mean[lo]) {
			continue
		}
		best = max(best, covered/bandYear.Seconds())
		if covered >= bandShare*bandYear.Seconds() {
			return lo, hi, best
		}
		covered -= s.w[lo]
	}
	return 0, 0, best
}

// fit forms the limits from the readings lo up to, without, hi.
func (b *Band) fit(r *Record, s *series, lo, hi int) {
	d, w := make([]float64, 0, hi-lo), make([]float64, 0, hi-lo)
	sum, total := 0.0, 0.0
	for i := lo; i < hi; i++ {
		m := b.Moving.Mean[i]
		if math.IsNaN(m) {
			continue
		}
		if len(d) == 0 {
			b.From = r.Times[i]
		}
		b.To = r.Times[i]
		d, w = append(d, s.v[i]-m), append(w, s.w[i])
		sum, total = sum+s.w[i]*s.v[i], total+s.w[i]
	}
	p := percentiles(d, w, s.even, bandLow, bandHigh)
	b.Used, b.Mean, b.P7, b.P93 = len(d), sum/total, p[0], p[1]
	b.Low, b.High = b.P7, b.P93
	near := b.P7 > -floorPoints && b.P93 < floorPoints
	if b.Options.Floor == PerSide || b.Options.Floor == BothSides && near {
		b.Low, b.High = min(b.Low, -floorPoints), max(b.High, floorPoints)
	}
}

func (r *Record) movingOf(s *series, window time.Duration) Moving {
	m := Moving{Mean: s.moving(window), Lowest: nan(), Highest: nan(), P7: nan(), P93: nan(), Least: nan(), Most: nan()}
	d, w := make([]float64, 0, len(s.t)), make([]float64, 0, len(s.t))
	for i, mean := range m.Mean {
		if math.IsNaN(mean) {
			continue
		}
		x := s.v[i] - mean
		if len(d) == 0 {
			m.Lowest, m.Highest, m.Least, m.Most, m.From = mean, mean, x, x, r.Times[i]
		}
		m.Lowest, m.Highest, m.Least, m.Most = min(m.Lowest, mean), max(m.Highest, mean), min(m.Least, x), max(m.Most, x)
		m.To = r.Times[i]
		d, w = append(d, x), append(w, s.w[i])
	}
	p := percentiles(d, w, s.even, bandLow, bandHigh)
	m.Readings, m.P7, m.P93 = len(d), p[0], p[1]
	return m
}
