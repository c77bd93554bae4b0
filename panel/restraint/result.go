package restraint

import (
	"fmt"
	"math"
	"strings"

	"crossgrain/panel/internal/plan"
)

// Bearing says what a fixing is doing.
type Bearing int

// What a fixing can do.
const (
	Idle     Bearing = iota // carries nothing: in its play, or nothing moves
	Stuck                   // friction holds it
	Sliding                 // friction is overcome, the stop not reached
	Bears                   // the stop, nail or glue carries
	Yielding                // at its yield load
)

var bearingWords = [...]string{"carries nothing", "is held by friction", "slides against friction", "bears", "yields"}

func (b Bearing) String() string {
	if b < 0 || int(b) >= len(bearingWords) {
		return fmt.Sprintf("Bearing(%d)", int(b))
	}
	return bearingWords[b]
}

// Result is a panel on one bar. Lists of fixings are in the caller's order, lists along the panel
// from the left.
type Result struct {
	Force  []float64 // on the panel, N, positive to the right
	Slip   []float64 // of the panel against the bar, mm
	Does   []Bearing
	At     []float64 // middle between neighbouring fixings, mm
	Axial  []float64 // force in the panel there, N, tension positive (the bar carries the opposite)
	Max    float64   // the largest of them in size, N, and its place
	MaxAt  float64
	Held   []float64 // a board: held strain at mid-thickness, the largest in size; tension positive
	Mean   []float64 // a board: the mean of it over the board's width
	Front  []float64 // a board: held strain at the painted face, the largest in size
	Back   []float64 // a board: the same at the back
	Cup    float64   // of the strip over the panel's width, mm, positive = painted face rounded
	Free   float64   // cup without the bar, mm
	Moment float64   // in the bar, the largest in size, N mm (held flat: what it takes)
	// Share is how much of the free movement between the outermost fixings is held back: 0 nothing,
	// 1 all of it.
	Share    float64
	Words    string // what the fixings do, in one phrase
	Residual Residual
}

// Report reads the result from a state that was stepped to the drive d.
func (s *System) Report(d plan.Drive, st *State) Result {
	n, nb := len(s.fix), s.flex.Boards
	mem := make([]float64, 2*n+2*max(n-1, 0)+4*nb)
	take := func(k int) (v []float64) { v, mem = mem[:k:k], mem[k:]; return v }
	r := Result{Force: take(n), Slip: take(n), At: take(max(n-1, 0)), Axial: take(max(n-1, 0)),
		Held: take(nb), Mean: take(nb), Front: take(nb), Back: take(nb), Does: make([]Bearing, n)}
	sum := 0.0
	var count [len(bearingWords)]int
	for i, o := range s.order {
		r.Force[o], r.Slip[o] = -st.Force[i], st.Slip[i]
		r.Does[o] = s.does(i, st)
		count[r.Does[o]]++
		sum += st.Force[i]
		if i+1 < n {
			// What lies to the left is pulled to the left by -law: N = -sum of forces on the panel.
			r.Axial[i], r.At[i] = sum, (s.fix[i].X+s.fix[i+1].X)/2
			if math.Abs(sum) > math.Abs(r.Max) {
				r.Max, r.MaxAt = sum, r.At[i]
			}
		}
	}
	s.alongBoards(d, &r)
	r.Words = words(n, count)
	return r
}

func (s *System) does(i int, st *State) Bearing {
	x, stop, f := &s.fix[i], math.Abs(st.Stop[i]), math.Abs(st.Force[i]-st.Stop[i])
	tiny := 1e-9 * (1 + x.cap())
	switch {
	case stop > tiny && stop >= x.Yield*(1-1e-9):
		return Yielding
	case stop > tiny:
		return Bears
	case f > tiny && f >= x.cap()*(1-1e-9):
		return Sliding
	case f > tiny:
		return Stuck
	}
	return Idle
}

// words tells the mechanism.
func words(n int, count [len(bearingWords)]int) string {
	switch {
	case n == 0:
		return "no fixing: the panel moves freely"
	case n == 1:
		return "one fixing keeps the panel in place and holds no movement back"
	case count[Idle] == n:
		return "no fixing bears: the panel moves freely within the play"
	}
	var parts []string
	for b := Yielding; b >= Idle; b-- {
		if count[b] == n {
			return fmt.Sprintf("each of %d fixings %s", n, bearingWords[b])
		}
		if count[b] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", count[b], bearingWords[b]))
		}
	}
	return fmt.Sprintf("of %d fixings ", n) + strings.Join(parts, ", ")
}
