package fracture

import "math"

// Cycle is one swing counted by rainflow: the whole of it from its least to its greatest value.
type Cycle struct {
	Range, Mean float64 // greatest less least value; half their sum
	Count       float64 // 1 for a closed cycle, 0.5 for a half
	Lasts       float64 // twice the time between its two turning points, in the unit in which times were given
}

// Ends returns the least and the greatest value of the swing.
func (c Cycle) Ends() (low, high float64) { return c.Mean - c.Range/2, c.Mean + c.Range/2 }

// Rainflow counts the swings of a series that is handed over value by value; it keeps nothing but the
// turning points that are not yet part of a closed cycle. The zero value counts nothing: set Each.
//
// Three-point form: Y is the range of the last but one pair of turning points, X that of the last pair.
// When X is not less than Y, Y is a full cycle and its two points go, or, where it holds the first
// point that is left, half a cycle and that point alone goes. What is left at the end counts by halves.
// Source: ASTM E1049-85, section 5.4.4 (the standard itself not seen; as its worked example is carried
// by public programs, see the tests).
type Rainflow struct {
	// Threshold is the swing up to which a turn is not one: the series has turned when it has come back by
	// more than this. In the unit of the values, at least 0.
	Threshold float64
	Each      func(Cycle) // is handed every cycle as it is counted

	stack   []turn
	last    turn // the extreme since the last turning point, not yet confirmed
	other   turn // before the first turning point: the extreme on the other side
	rising  bool
	begun   bool // there is a value
	turned  bool // there is a turning point
	skipped int
}

type turn struct{ at, value float64 }

// Add takes the next value at a time, which must not fall. A value that is not a number is left out
// and counted, see [Rainflow.Skipped].
func (r *Rainflow) Add(at, value float64) {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		r.skipped++
		return
	}
	t := turn{at, value}
	switch {
	case !r.begun:
		r.begun, r.last, r.other = true, t, t
	case !r.turned:
		r.first(t)
	case r.rising == (value > r.last.value) && value != r.last.value:
		r.last = t
	case math.Abs(value-r.last.value) > r.Threshold:
		r.push(r.last)
		r.last, r.rising = t, !r.rising
	}
}

// first looks for the first turning point: last is the greatest value so far, other the least.
func (r *Rainflow) first(t turn) {
	if t.value > r.last.value {
		r.last = t
	}
	if t.value < r.other.value {
		r.other = t
	}
	if r.last.value-r.other.value <= r.Threshold {
		return
	}
	r.turned = true
	if r.rising = r.last == t; r.rising {
		r.push(r.other)
		return
	}
	r.push(r.last)
	r.last = r.other
}

// push puts a turning point on the stack and takes off what it closes.
func (r *Rainflow) push(t turn) {
	r.stack = append(r.stack, t)
	for n := len(r.stack); n >= 3; n = len(r.stack) {
		a, b, c := r.stack[n-3], r.stack[n-2], r.stack[n-1]
		if math.Abs(c.value-b.value) < math.Abs(b.value-a.value) {
			return
		}
		if n == 3 {
			r.count(a, b, 0.5)
			r.stack = append(r.stack[:0], b, c)
			continue
		}
		r.count(a, b, 1)
		r.stack = append(r.stack[:n-3], c)
	}
}

func (r *Rainflow) count(a, b turn, n float64) {
	r.Each(Cycle{Range: math.Abs(b.value - a.value), Mean: (a.value + b.value) / 2, Count: n, Lasts: 2 * (b.at - a.at)})
}

// Close ends the series: its last extreme is a turning point, and what is left counts by halves. The
// counter may then begin anew.
func (r *Rainflow) Close() {
	if r.turned {
		r.push(r.last)
	}
	for i := 1; i < len(r.stack); i++ {
		r.count(r.stack[i-1], r.stack[i], 0.5)
	}
	r.stack, r.begun, r.turned = r.stack[:0], false, false
}

// Open returns the number of turning points that are kept.
func (r *Rainflow) Open() int { return len(r.stack) }

// Skipped returns the number of values that were not numbers.
func (r *Rainflow) Skipped() int { return r.skipped }
