package record

import (
	"math"
	"slices"
	"time"
)

// gapSteps is how many usual steps two successive readings must lie apart for a gap.
const gapSteps = 1.5

// evenShare is how far the lightest reading may stay below the heaviest in a record of even steps.
const evenShare = 0.99

// series is one quantity on its time axis, without the readings whose cell was empty.
type series struct {
	t    []int64   // ms since 1970 (UnixMilli, so that no year overflows)
	v    []float64 // fraction or °C
	w    []float64 // s each reading stands for
	at   []int     // reading of the record; nil: the same index
	step int64     // ms, the usual step of the record (median); 0 with fewer than two readings
	runs []int64   // ms, the usual step where it differs for a while, of the interval before each reading; nil: nowhere
	even bool      // all readings weigh the same
}

// series returns one quantity; it is empty when the record has none.
func (r *Record) series(q Quantity) series {
	v := r.values(q)
	if v == nil {
		return series{}
	}
	s := series{t: millis(r.Times), v: v}
	s.step = usualStep(s.t)
	if slices.ContainsFunc(v, math.IsNaN) {
		s.compact()
	}
	s.runs = ownSteps(s.t, s.step)
	s.weigh()
	return s
}

// compact drops readings that are no number.
func (s *series) compact() {
	old := *s
	s.t, s.v = make([]int64, 0, len(old.t)), make([]float64, 0, len(old.t))
	for i, x := range old.v {
		if !math.IsNaN(x) {
			s.t, s.v, s.at = append(s.t, old.t[i]), append(s.v, x), append(s.at, i)
		}
	}
}

// reading returns the index in the record.
func (s *series) reading(i int) int {
	if s.at == nil {
		return i
	}
	return s.at[i]
}

// isGap says whether reading i lies more than 1.5 usual steps after the one before it.
func (s *series) isGap(i int) bool {
	return i > 0 && float64(s.t[i]-s.t[i-1]) > gapSteps*float64(s.usual(i))
}

// usual returns the usual step, ms, for the interval before reading i.
func (s *series) usual(i int) int64 {
	if s.runs == nil {
		return s.step
	}
	return s.runs[i]
}

// runLength is how many successive intervals must be alike, to a tenth, to be steps of their own: the
// interval of the logger was changed, or records of several loggers were joined (assumption).
const runLength = 12

// ownSteps returns the usual step of the interval before each reading where runs of alike intervals
// differ from the usual step of the record; nil where none do.
func ownSteps(t []int64, step int64) []int64 {
	var out []int64
	for lo := 1; lo < len(t); {
		d, hi := t[lo]-t[lo-1], lo+1
		for hi < len(t) && 10*distance(t[hi]-t[hi-1], d) <= d {
			hi++
		}
		if hi-lo >= runLength && 10*distance(d, step) > step {
			if out == nil {
				out = slices.Repeat([]int64{step}, len(t))
			}
			for i := lo; i < hi; i++ {
				out[i] = t[i] - t[i-1]
			}
		}
		lo = hi
	}
	return out
}

// weigh gives each reading half the way to its neighbours, at most half the usual step a side.
func (s *series) weigh() {
	s.w = make([]float64, len(s.t))
	lightest, heaviest := math.Inf(1), 0.0
	for i := range s.w {
		a, b := s.cell(i)
		s.w[i] = b - a
		lightest, heaviest = min(lightest, s.w[i]), max(heaviest, s.w[i])
	}
	s.even = lightest >= evenShare*heaviest
	if heaviest == 0 { // a single reading
		for i := range s.w {
			s.w[i] = 1
		}
	}
}

// cell returns the stretch a reading stands for, in s from the reading.
func (s *series) cell(i int) (from, to float64) {
	n := len(s.t)
	before, after := s.usual(min(i+1, n-1)), s.usual(i)
	if i > 0 {
		before = min(s.usual(i), s.t[i]-s.t[i-1])
	}
	if i < n-1 {
		after = min(s.usual(i+1), s.t[i+1]-s.t[i])
	}
	return -float64(before) / 2000, float64(after) / 2000
}

// missing returns for each reading the time without readings up to it, ms: of every gap what is
// longer than a usual step.
func (s *series) missing() []int64 {
	out := make([]int64, len(s.t))
	for i := 1; i < len(s.t); i++ {
		out[i] = out[i-1]
		if s.isGap(i) {
			out[i] += s.t[i] - s.t[i-1] - s.step
		}
	}
	return out
}

func millis(times []time.Time) []int64 {
	out := make([]int64, len(times))
	for i, t := range times {
		out[i] = t.UnixMilli()
	}
	return out
}

// usualStep returns the median interval, ms.
func usualStep(t []int64) int64 {
	if len(t) < 2 {
		return 0
	}
	d := make([]int64, len(t)-1)
	for i := range d {
		d[i] = t[i+1] - t[i]
	}
	slices.Sort(d)
	return d[len(d)/2]
}

// Weights returns the seconds each reading of a quantity stands for: half the way to its neighbours,
// but no more than half the usual step to each side, so that a gap counts for nothing. A reading
// without the quantity has 0, a single reading 1.
func (r *Record) Weights(q Quantity) []float64 {
	s := r.series(q)
	if s.at == nil && s.w != nil {
		return s.w
	}
	out := make([]float64, len(r.Times))
	for i, w := range s.w {
		out[s.at[i]] = w
	}
	return out
}

// Step returns the usual step: the median interval, to 1 ms; 0 with fewer than two readings.
func (r *Record) Step() time.Duration {
	return time.Duration(usualStep(millis(r.Times))) * time.Millisecond
}
