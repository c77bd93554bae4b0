package terms

import (
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/moisture/record"
)

// Verdict is a record beside terms.
type Verdict struct {
	Terms   Terms
	Reading record.Reading // what was understood by a change within a time
	Clauses []Result       // one a clause
	Hours   float64        // for which readings stand
	Inside  float64        // share of them at which no clause was left, 0 to 1; NaN without readings
}

// Result is a record beside one clause. A reading whose temperature is missing, or that has no full
// window behind it, is not judged.
type Result struct {
	Clause
	Inside, Above, Below float64      // h judged, weighted by time; above: also changing too fast
	Longest              record.Spell // the longest time outside without a gap; zero when there is none
	Worst                float64      // reading or change farthest outside or, where the clause was kept, nearest to leaving; NaN when nothing was judged
	WorstAt              time.Time
	Side                 []int8 // of each reading of the record: 1 above, -1 below, 0 inside, [NotJudged]
	WhyNot               string // why nothing was judged; empty otherwise
}

// NotJudged marks a reading in [Result.Side].
const NotJudged int8 = 2

// Remarks say what was not judged, and what another reading of a change would allow.
func (v Verdict) Remarks() []string {
	out := slices.Clone(v.Terms.Remarks)
	for _, c := range v.Terms.Clauses {
		if c.Window > 0 && c.Signed && v.Reading != record.PlusMinus {
			out = append(out, fmt.Sprintf("%q is written with plus and minus and was compared with the %s; read as plus and minus it would allow twice as much",
				c.Text(), v.Reading.Words(c.Window)))
		}
	}
	return out
}

// Judged returns the hours judged.
func (r Result) Judged() float64 { return r.Inside + r.Above + r.Below }

// Share returns the share of the judged time at which the clause was kept, 0 to 1; NaN when nothing
// was judged.
func (r Result) Share() float64 { return r.Inside / r.Judged() }

// Judge sets a record against the terms. how says what a change within a time means.
func (t Terms) Judge(r *record.Record, how record.Reading) Verdict {
	v := Verdict{Terms: t, Reading: how, Inside: math.NaN()}
	w := r.Weights(record.Humidity)
	left := make([]bool, len(w))
	for _, c := range t.Clauses {
		res := c.judge(r, how)
		for i, s := range res.Side {
			left[i] = left[i] || s == 1 || s == -1
		}
		v.Clauses = append(v.Clauses, res)
	}
	inside := 0.0
	for i, s := range w {
		v.Hours += s / 3600
		if !left[i] {
			inside += s / 3600
		}
	}
	if v.Hours > 0 {
		v.Inside = inside / v.Hours
	}
	return v
}

// judge sets a record against one clause.
func (c Clause) judge(r *record.Record, how record.Reading) Result {
	out := Result{Clause: c, Worst: math.NaN(), Side: make([]int8, len(r.Times))}
	v := c.values(r, how)
	w, far := r.Weights(c.Of), math.Inf(-1)
	for i := range r.Times {
		if v == nil || math.IsNaN(v[i]) {
			out.Side[i] = NotJudged
			continue
		}
		h := w[i] / 3600
		switch {
		case record.Over(v[i], c.top()):
			out.Side[i], out.Above = 1, out.Above+h
		case record.Over(c.bottom(), v[i]):
			out.Side[i], out.Below = -1, out.Below+h
		default:
			out.Inside += h
		}
		if d := max(v[i]-c.top(), c.bottom()-v[i]); d > far {
			far, out.Worst, out.WorstAt = d, v[i], r.Times[i]
		}
	}
	out.Longest = r.Longest(c.Of, func(i int) bool { return out.Side[i] == 1 || out.Side[i] == -1 })
	if math.IsNaN(out.Worst) {
		out.WhyNot = c.whyNot(r, how)
	}
	return out
}

// values returns what the clause is compared with at each reading; nil when there is nothing.
func (c Clause) values(r *record.Record, how record.Reading) []float64 {
	switch {
	case c.Window > 0:
		return r.ChangeSeries(c.Of, c.Window, how)
	case c.Of == record.Temperature:
		return r.T
	}
	return r.RH
}

// top and bottom are the largest and smallest value that is kept.
func (c Clause) top() float64 {
	if c.Window > 0 {
		return c.Most
	}
	return c.High
}

func (c Clause) bottom() float64 {
	if c.Window > 0 {
		return math.Inf(-1)
	}
	return c.Low
}

// whyNot says why nothing was judged.
func (c Clause) whyNot(r *record.Record, how record.Reading) string {
	if c.Window > 0 {
		return r.Change(c.Of, c.Window, how).WhyNot
	}
	return "the record has no " + c.Of.String()
}
