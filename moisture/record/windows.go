package record

import (
	"math"
	"time"
)

// queue holds readings whose values fall (sign +1) or rise (-1) from its head on: the head is the
// highest or lowest of a moving window. Each reading enters and leaves once.
type queue struct {
	at   []int32
	head int
	sign float64
}

// push adds reading i and drops those it outdoes.
func (q *queue) push(v []float64, i int) {
	for len(q.at) > q.head && q.sign*v[q.at[len(q.at)-1]] <= q.sign*v[i] {
		q.at = q.at[:len(q.at)-1]
	}
	if q.head == len(q.at) {
		q.at, q.head = q.at[:0], 0
	}
	q.at = append(q.at, int32(i))
}

// first drops readings before lo and returns the head.
func (q *queue) first(lo int) int {
	for int(q.at[q.head]) < lo {
		q.head++
	}
	return int(q.at[q.head])
}

// ranges calls f with every reading whose window is judged, largest less smallest of the window
// that ends there, and the two readings in order of time.
func (s *series) ranges(window time.Duration, f func(i int, x float64, a, b int)) {
	high, low := queue{sign: 1}, queue{sign: -1}
	missing := s.missing()
	long := window.Milliseconds()
	reach, lo := long+s.late(), 0
	for i, t := range s.t {
		high.push(s.v, i)
		low.push(s.v, i)
		for t-s.t[lo] > reach {
			lo++
		}
		if t-s.t[0] < long-s.late() || !s.covered(t-long, lo, i, missing, long) {
			continue
		}
		a, b := high.first(lo), low.first(lo)
		f(i, s.v[a]-s.v[b], min(a, b), max(a, b))
	}
}

// covered says whether readings lo to i cover the window from begin to reading i: gaps between them
// and before the first one may take 20 % of it.
func (s *series) covered(begin int64, lo, i int, missing []int64, long int64) bool {
	lost := missing[i] - missing[lo]
	if lo > 0 && s.isGap(lo) {
		lost += max(0, s.t[lo]-begin-s.step)
	}
	return float64(lost) <= (1-coverage)*float64(long)
}

// apart calls f with every reading that has another one window earlier, to within half a usual step.
func (s *series) apart(window time.Duration, f func(i int, x float64, a, b int)) {
	j := 0
	for i, t := range s.t {
		want := t - window.Milliseconds()
		for j+1 < i && distance(s.t[j+1], want) <= distance(s.t[j], want) {
			j++
		}
		if j < i && 2*distance(s.t[j], want) <= s.step {
			f(i, math.Abs(s.v[i]-s.v[j]), j, i)
		}
	}
}

func distance(a, b int64) int64 { return max(a-b, b-a) }

// blocks returns the number of the calendar hour, day or week (or other length, counted from
// 1 January 1970) in which an instant (ms) lies, on the clock of the place. Weeks begin on Monday.
func (r *Record) blocks(window time.Duration) func(ms int64) int64 {
	local, long := r.local(), window.Milliseconds()
	const day, week = int64(24 * time.Hour / time.Millisecond), int64(7 * 24 * time.Hour / time.Millisecond)
	shift := int64(0)
	if long%week == 0 {
		shift = 4 * day // 5 January 1970 was a Monday
	}
	return func(ms int64) int64 {
		l := local(ms) - shift
		n := l / long
		if l%long < 0 {
			n--
		}
		return n
	}
}

// fromMean calls f with every reading of blocks that are covered to 80 %, and its departure from
// the mean of its block.
func (s *series) fromMean(window time.Duration, block func(int64) int64, f func(i int, x float64, a, b int)) {
	for lo := 0; lo < len(s.t); {
		id := block(s.t[lo])
		hi, total, sum := lo, 0.0, 0.0
		for ; hi < len(s.t) && block(s.t[hi]) == id; hi++ {
			total, sum = total+s.w[hi], sum+s.w[hi]*s.v[hi]
		}
		if total >= coverage*window.Seconds() {
			for i := lo; i < hi; i++ {
				f(i, math.Abs(s.v[i]-sum/total), i, i)
			}
		}
		lo = hi
	}
}
