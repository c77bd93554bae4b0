package record

import (
	"math"
	"time"

	"crossgrain/tables/problem"
)

// Record is a series of readings in rising order of time.
type Record struct {
	Name  string         // of the file, as the user named it
	Times []time.Time    // instants; their differences are elapsed time
	RH    []float64      // fraction, 0 to 1; never NaN
	T     []float64      // °C, NaN where the cell was empty; nil when the file has no such column
	Lines []int          // line of each reading in the file, from 1
	Notes problem.List   // what was left out or assumed
	Zone  *time.Location // civil time for display; nil: as the times stand
}

// Quantity says which of the two is meant.
type Quantity int

// The quantities of a record.
const (
	Humidity    Quantity = iota // relative humidity, fraction; differences in fractions (0.05 = 5 points)
	Temperature                 // °C; differences in K
)

func (q Quantity) String() string {
	if q == Temperature {
		return "temperature"
	}
	return "relative humidity"
}

// values returns the readings of a quantity; nil when there are none.
func (r *Record) values(q Quantity) []float64 {
	if q == Temperature {
		return r.T
	}
	return r.RH
}

// coverage is the share of a window that must hold readings for its figure to count (assumption).
const coverage = 0.8

// grain is what a comparison forgives, so that 55 less 45 is not more than 10: far below what any
// instrument resolves.
const grain = 1e-9

// Over says whether a value lies above a limit by more than rounding (1e-9).
func Over(value, limit float64) bool { return value > limit+grain }

// Between returns the readings from one instant up to, but without, another. Readings are shared
// with the record, not copied.
func (r *Record) Between(from, to time.Time) *Record {
	lo, hi := r.index(from), r.index(to)
	hi = max(lo, hi)
	part := *r
	part.Times, part.RH = r.Times[lo:hi], r.RH[lo:hi]
	if r.T != nil {
		part.T = r.T[lo:hi]
	}
	if len(r.Lines) == len(r.Times) {
		part.Lines = r.Lines[lo:hi]
	}
	return &part
}

// index returns the first reading at or after t.
func (r *Record) index(t time.Time) int {
	lo, hi := 0, len(r.Times)
	for lo < hi {
		if mid := (lo + hi) / 2; r.Times[mid].Before(t) {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// line returns the line of reading i in the file, 0 when it is not known.
func (r *Record) line(i int) int {
	if i < len(r.Lines) {
		return r.Lines[i]
	}
	return 0
}

func nan() float64 { return math.NaN() }
