package record

import (
	"math"
	"slices"
	"time"

	"crossgrain/tables/problem"
)

// Record is a series of readings in rising order of time.
type Record struct {
	Name  string // of the file, as the user named it
	Times []time.Time
	RH    []float64    // fraction, 0 to 1
	T     []float64    // °C, NaN where the cell was empty; nil when the file has no such column
	Lines []int        // line of each reading in the file, from 1
	Notes problem.List // what was left out or assumed
}

// Gap is a stretch without readings, longer than twice the usual step.
type Gap struct{ From, To time.Time }

// Stats are the plain figures of a record, means weighted by time.
type Stats struct {
	Readings             int
	From, To             time.Time
	Step                 time.Duration // the usual one (median)
	MeanRH, MinRH, MaxRH float64       // fraction
	MeanT, MinT, MaxT    float64       // °C; NaN without temperatures
	Gaps                 []Gap
	WithoutTemperature   int // readings whose temperature is missing
}

// Stats returns the plain figures of the record; all are NaN or zero for an empty one.
func (r *Record) Stats() Stats {
	s := Stats{Readings: len(r.Times), WithoutTemperature: len(r.Times), Gaps: r.Gaps(), Step: r.step()}
	s.MeanRH, s.MinRH, s.MaxRH, s.MeanT, s.MinT, s.MaxT = math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()
	if len(r.Times) == 0 {
		return s
	}
	s.From, s.To = r.Times[0], r.Times[len(r.Times)-1]
	w := r.weights()
	s.MeanRH, s.MinRH, s.MaxRH, _ = summary(r.RH, w)
	if r.T != nil {
		var n int
		s.MeanT, s.MinT, s.MaxT, n = summary(r.T, w)
		s.WithoutTemperature = len(r.Times) - n
	}
	return s
}

// summary returns weighted mean, lowest and highest of the values that are numbers, and their count.
func summary(v, w []float64) (mean, lo, hi float64, n int) {
	lo, hi = math.Inf(1), math.Inf(-1)
	total := 0.0
	for i, x := range v {
		if math.IsNaN(x) {
			continue
		}
		mean += w[i] * x
		total += w[i]
		lo, hi = min(lo, x), max(hi, x)
		n++
	}
	if n == 0 {
		return math.NaN(), math.NaN(), math.NaN(), 0
	}
	return mean / total, lo, hi, n
}

// Gaps returns the stretches without readings that are longer than twice the usual step.
func (r *Record) Gaps() []Gap {
	var out []Gap
	step := r.step()
	for i := 1; i < len(r.Times); i++ {
		if r.Times[i].Sub(r.Times[i-1]) > 2*step {
			out = append(out, Gap{r.Times[i-1], r.Times[i]})
		}
	}
	return out
}

// step returns the median interval; 0 with fewer than two readings.
func (r *Record) step() time.Duration {
	if len(r.Times) < 2 {
		return 0
	}
	d := make([]time.Duration, len(r.Times)-1)
	for i := range d {
		d[i] = r.Times[i+1].Sub(r.Times[i])
	}
	slices.Sort(d)
	return d[len(d)/2]
}

// weights returns the seconds each reading stands for.
func (r *Record) weights() []float64 {
	w := make([]float64, len(r.Times))
	if len(w) == 1 {
		w[0] = 1
		return w
	}
	half := r.step() / 2
	for i := range w {
		before, after := half, half
		if i > 0 {
			before = min(half, r.Times[i].Sub(r.Times[i-1])/2)
		}
		if i < len(w)-1 {
			after = min(half, r.Times[i+1].Sub(r.Times[i])/2)
		}
		w[i] = (before + after).Seconds()
	}
	return w
}
