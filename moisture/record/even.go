package record

import (
	"fmt"
	"math"
	"time"
)

// Between says what is supposed between two readings that are not further apart than the bridge.
type Between int

// What is supposed between readings.
const (
	Nearest Between = iota // each reading holds half the way to its neighbours: the weights of all means here
	Linear                 // a straight line
	Hold                   // a reading holds until the next one
)

// EvenOptions say how a record is brought to even steps.
type EvenOptions struct {
	Step   time.Duration // above 0
	How    Between
	Bridge time.Duration // longest time between two readings that is filled; 0: the larger of Step and 1.5 usual steps
}

// Segment is a stretch of a record at even steps, without a gap.
type Segment struct {
	Start time.Time // of the first value; the others follow at Step
	Step  time.Duration
	RH    []float64 // fraction
	T     []float64 // °C, NaN where readings cover less than half of a step; nil without temperatures
}

// Evened is a record at even steps.
type Evened struct {
	Segments []Segment
	Bridged  []Gap // gaps of the record (over 1.5 usual steps) that were filled
	Open     []Gap // gaps that part the segments: nothing is known there
	Dropped  []Gap // stretches between gaps that are too short for one value
	Options  EvenOptions
}

// Even brings a record to even steps, for a model that marches in time.
//
// A value stands at each whole multiple of Step since 1 January 1970 UTC, and is the mean over half
// a Step before and half a Step after it of a curve through the readings. Between readings that are
// at most Bridge apart the curve is what How says. Where readings are further apart nothing is
// supposed: each holds for half the usual step and the record is split, so that no value rests on
// readings from both sides. At the ends of a segment a value is kept when the curve covers at least
// half of its step, and is the mean of what is covered.
//
// Nearest with the record's own step and times gives the readings themselves; it keeps the mean. A
// step finer than the record's needs Linear or Hold, else the values move in stairs half way.
func (r *Record) Even(o EvenOptions) (Evened, error) {
	s := r.series(Humidity)
	if o.Step < time.Second {
		return Evened{}, fmt.Errorf("step must be at least 1 s, got %s", o.Step)
	}
	if o.Bridge < 0 {
		return Evened{}, fmt.Errorf("bridge must not be below 0, got %s", o.Bridge)
	}
	if o.Bridge == 0 {
		o.Bridge = max(o.Step, time.Duration(gapSteps*float64(s.step))*time.Millisecond)
	}
	if n := s.length() / o.Step; n > evenMost {
		return Evened{}, fmt.Errorf("step must be long enough for at most %d values, got %s for %d", evenMost, o.Step, n)
	}
	out := Evened{Options: o}
	for lo := 0; lo < len(s.t); {
		hi := lo + 1
		for hi < len(s.t) && s.t[hi]-s.t[hi-1] <= o.Bridge.Milliseconds() {
			if s.isGap(hi) {
				out.Bridged = append(out.Bridged, Gap{r.Times[s.reading(hi-1)], r.Times[s.reading(hi)]})
			}
			hi++
		}
		if lo > 0 {
			out.Open = append(out.Open, Gap{r.Times[s.reading(lo-1)], r.Times[s.reading(lo)]})
		}
		r.segment(&out, &s, lo, hi)
		lo = hi
	}
	return out, nil
}

// evenMost is how many values a record may become: 100 years at one minute.
const evenMost = 52_600_000

// segment adds the readings lo up to, without, hi at even steps.
func (r *Record) segment(out *Evened, s *series, lo, hi int) {
	g := grid{step: out.Options.Step.Milliseconds(), bridge: out.Options.Bridge.Milliseconds(), how: out.Options.How, half: s.step / 2}
	g.first = -floorDiv(-s.t[lo]+g.half, g.step) // first multiple at or after the curve's begin
	last := floorDiv(s.t[hi-1]+g.half, g.step)
	first, n := g.first, int(last-g.first+1)
	var rh []float64
	if n > 0 {
		rh = g.means(s.t[lo:hi], s.v[lo:hi], n)
	}
	a, b := 0, len(rh)
	for a < b && math.IsNaN(rh[a]) {
		a++
	}
	for b > a && math.IsNaN(rh[b-1]) {
		b--
	}
	if a == b {
		out.Dropped = append(out.Dropped, Gap{r.Times[s.reading(lo)], r.Times[s.reading(hi-1)]})
		return
	}
	seg := Segment{Start: time.UnixMilli((first + int64(a)) * g.step).In(r.zone()), Step: out.Options.Step, RH: rh[a:b]}
	if r.T != nil {
		part := r.Between(r.Times[s.reading(lo)], r.Times[s.reading(hi-1)].Add(1))
		temp := part.series(Temperature)
		g.first = first + int64(a)
		seg.T = g.means(temp.t, temp.v, b-a)
	}
	out.Segments = append(out.Segments, seg)
}

// grid is where values stand: at (first + k) steps, ms since 1970.
type grid struct {
	first, step, bridge, half int64
	how                       Between
}

// means returns n values of the curve through readings; NaN where it covers less than half a step.
func (g *grid) means(t []int64, v []float64, n int) []float64 {
	sum, length := make([]float64, n), make([]float64, n)
	for i := range t {
		if i == 0 || t[i]-t[i-1] > g.bridge {
			g.piece(sum, length, t[i]-g.half, t[i], v[i], v[i])
		}
		if i == len(t)-1 || t[i+1]-t[i] > g.bridge {
			g.piece(sum, length, t[i], t[i]+g.half, v[i], v[i])
			continue
		}
		switch middle := (t[i] + t[i+1]) / 2; g.how {
		case Linear:
			g.piece(sum, length, t[i], t[i+1], v[i], v[i+1])
		case Hold:
			g.piece(sum, length, t[i], t[i+1], v[i], v[i])
		default:
			g.piece(sum, length, t[i], middle, v[i], v[i])
			g.piece(sum, length, middle, t[i+1], v[i+1], v[i+1])
		}
	}
	for k := range sum {
		if length[k] > 0 && 2*length[k] >= float64(g.step) {
			sum[k] /= length[k]
		} else {
			sum[k] = math.NaN()
		}
	}
	return sum
}

// piece adds a straight line from (a, va) to (b, vb) to the cells it crosses.
func (g *grid) piece(sum, length []float64, a, b int64, va, vb float64) {
	if b <= a {
		return
	}
	slope := (vb - va) / float64(b-a)
	edge := func(k int64) int64 { return (g.first+k)*g.step - g.step/2 }
	for k := max(0, floorDiv(a+g.step/2, g.step)-g.first); k < int64(len(sum)) && edge(k) < b; k++ {
		from, to := max(a, edge(k)), min(b, edge(k+1))
		if to > from {
			l := float64(to - from)
			sum[k] += l * (va + slope*(float64(from-a)+l/2))
			length[k] += l
		}
	}
}
