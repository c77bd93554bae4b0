package record

import (
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/tables/problem"
)

// Suspicion is a kind of reading that may not be the room's climate.
type Suspicion int

// The suspicions. None is a proof; none removes anything by itself.
const (
	Spike     Suspicion = iota // one reading far from both neighbours
	Stuck                      // a long run of equal readings
	Saturated                  // a run at the end of the scale, 100 or 0 %
	Carried                    // the instrument being carried to its place, at the start
)

func (k Suspicion) String() string {
	return [...]string{"spike", "stuck", "at the end of the scale", "carried to its place"}[k]
}

// Flag marks readings First to Last (indices, both included) of a record.
type Flag struct {
	Kind           Suspicion
	First, Last    int
	From, To       time.Time
	Line, LastLine int // in the file; 0 when not known
	Why            string
}

// What is suspected (assumptions, tried on the open records under testdata/records).
const (
	spikeRH      = 0.10           // fraction from both neighbours
	spikeT       = 4.0            // K
	spikeUsual   = 8.0            // times the 99th percentile of the same departure in the record
	spikeFew     = 5.0            // departures that do not count for that percentile in a short record
	stuckTime    = 24 * time.Hour // of equal T and RH
	stuckRH      = 72 * time.Hour // of equal RH in a record without T
	stuckRun     = 12             // readings at least
	scaleEnd     = 0.9995         // RH at or above, or at or below 1 less this
	scaleTime    = 24 * time.Hour // at the upper end: fog and rain keep outdoor air there for hours
	carriedTime  = 3 * time.Hour  // from the first reading
	carriedRH    = 0.05           // fraction from one reading to the next
	carriedT     = 2.0            // K
	carriedUsual = 2.0            // times the 99th percentile of the same difference later on
)

// Flags returns what is suspicious in a record, in order of time. Nothing is changed; see
// [Record.Without].
func (r *Record) Flags() []Flag {
	if len(r.Times) == 0 {
		return nil
	}
	out := r.carried()
	out = append(out, r.spikes(Humidity)...)
	out = append(out, r.spikes(Temperature)...)
	out = append(out, r.runs()...)
	slices.SortStableFunc(out, func(a, b Flag) int { return a.First - b.First })
	return out
}

func (r *Record) flag(kind Suspicion, first, last int, why string) Flag {
	return Flag{kind, first, last, r.Times[first], r.Times[last], r.line(first), r.line(last), why}
}

// spikes finds single readings that depart from both neighbours to the same side, while the
// neighbours agree to within half of that and no gap lies between.
func (r *Record) spikes(q Quantity) []Flag {
	s := r.series(q)
	n := len(s.t)
	if n < 3 {
		return nil
	}
	depart := make([]float64, n)
	for i := 1; i < n-1; i++ {
		a, b := s.v[i]-s.v[i-1], s.v[i]-s.v[i+1]
		if a*b > 0 && !s.isGap(i) && !s.isGap(i+1) && math.Abs(s.v[i+1]-s.v[i-1]) <= min(math.Abs(a), math.Abs(b))/2 {
			depart[i] = min(math.Abs(a), math.Abs(b))
		}
	}
	floor, what := spikeRH, func(x float64) string { return fmt.Sprintf("%.1f points", 100*x) }
	if q == Temperature {
		floor, what = spikeT, func(x float64) string { return fmt.Sprintf("%.1f K", x) }
	}
	usual := max(50, min(99, 100*(1-spikeFew/float64(n-1)))) // so that spikes of a short record are not its usual departures
	limit := max(floor, spikeUsual*percentiles(depart, nil, true, usual)[0])
	var out []Flag
	for i, d := range depart {
		if d > limit {
			k := s.reading(i)
			out = append(out, r.flag(Spike, k, k, fmt.Sprintf("one reading of %s %s or more from both neighbours", q, what(d))))
		}
	}
	return out
}

// runs finds stretches of equal readings.
func (r *Record) runs() []Flag {
	s := r.series(Humidity)
	var out []Flag
	for lo := 0; lo < len(s.t); {
		hi := lo + 1
		for hi < len(s.t) && !s.isGap(hi) && r.same(s.reading(lo), s.reading(hi)) {
			hi++
		}
		first, last := s.reading(lo), s.reading(hi-1)
		long := r.Times[last].Sub(r.Times[first])
		if kind, why := r.run(s.v[lo], hi-lo, long); why != "" {
			out = append(out, r.flag(kind, first, last, why))
		}
		lo = hi
	}
	return out
}

// same says whether two readings are equal; at the end of the scale humidity alone is compared.
func (r *Record) same(i, j int) bool {
	if r.RH[i] != r.RH[j] {
		return false
	}
	return atEnd(r.RH[i]) || r.T == nil || r.T[i] == r.T[j] || math.IsNaN(r.T[i]) && math.IsNaN(r.T[j])
}

func atEnd(rh float64) bool { return rh >= scaleEnd || rh <= 1-scaleEnd }

// run says what is suspicious in n equal readings; "" when nothing is.
func (r *Record) run(rh float64, n int, long time.Duration) (Suspicion, string) {
	switch {
	case rh <= 1-scaleEnd && n >= 3:
		return Saturated, fmt.Sprintf("%d readings of 0 %% in a row: no room is so dry, a dead sensor", n)
	case rh >= scaleEnd && long >= scaleTime:
		return Saturated, fmt.Sprintf("%d readings of 100 %% in a row over %s: wet sensor, dead sensor, or fog and dew outdoors", n, words(long))
	case atEnd(rh) || n < stuckRun:
		return 0, ""
	case r.T != nil && long >= stuckTime:
		return Stuck, fmt.Sprintf("%d equal readings of temperature and humidity in a row over %s", n, words(long))
	case r.T == nil && long >= stuckRH:
		return Stuck, fmt.Sprintf("%d equal readings of humidity in a row over %s", n, words(long))
	}
	return 0, ""
}

// carried finds a start whose readings leap as they never do later: up to the last leap within 3 h.
// A hint only: a room where a window was opened looks the same.
func (r *Record) carried() []Flag {
	last := max(r.lastLeap(Humidity, carriedRH), r.lastLeap(Temperature, carriedT))
	if last <= 0 {
		return nil
	}
	return []Flag{r.flag(Carried, 0, last-1,
		"the first readings change faster than those that follow, as when an instrument is carried to its place (a hint only)")}
}

// lastLeap returns the reading that ends the last leap of the first 3 h; 0 when there is none.
func (r *Record) lastLeap(q Quantity, floor float64) int {
	s := r.series(q)
	var start, rest []float64
	for i := 1; i < len(s.t); i++ {
		d := math.Abs(s.v[i] - s.v[i-1])
		switch {
		case s.t[i]-s.t[0] <= carriedTime.Milliseconds():
			start = append(start, d)
		case !s.isGap(i):
			rest = append(rest, d)
		}
	}
	if len(rest) < 10*len(start) {
		return 0 // too little to compare with
	}
	limit := max(floor, carriedUsual*percentiles(rest, nil, true, 99)[0])
	for i := len(start); i > 0; i-- {
		if start[i-1] > limit {
			return s.reading(i)
		}
	}
	return 0
}

// Without returns a copy of the record without the flagged readings (temperature and humidity
// both); the holes are gaps, nothing is filled. What was removed stands in Notes.
func (r *Record) Without(flags []Flag) *Record {
	drop := make([]bool, len(r.Times))
	out := &Record{Name: r.Name, Zone: r.Zone, Notes: slices.Clone(r.Notes)}
	for _, f := range flags {
		for i := max(0, f.First); i <= f.Last && i < len(drop); i++ {
			drop[i] = true
		}
		out.Notes.Add(problem.Problem{File: r.Name, Line: f.Line, Part: f.Kind.String(),
			Msg: fmt.Sprintf("%d readings removed on request: %s", f.Last-f.First+1, f.Why)})
	}
	for i := range r.Times {
		if drop[i] {
			continue
		}
		out.Times, out.RH = append(out.Times, r.Times[i]), append(out.RH, r.RH[i])
		if r.T != nil {
			out.T = append(out.T, r.T[i])
		}
		if len(r.Lines) == len(r.Times) {
			out.Lines = append(out.Lines, r.Lines[i])
		}
	}
	return out
}
