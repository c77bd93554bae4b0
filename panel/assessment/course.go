package assessment

import (
	"fmt"
	"math"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/panel/response"
)

// bridge is the longest stretch without readings that is bridged by a straight line (assumption: a
// board of 10 mm or more hardly moves in it); longer ones part the course.
const bridge = 6 * time.Hour

// course hands a record over in even steps.
type course struct{ *record.Record }

// Even returns the means of the humidity over even steps from the first reading on, straight lines
// between readings; see bridge for gaps. Temperatures that are missing take the last one known.
func (c course) Even(step time.Duration) ([]response.Stretch, error) {
	n := len(c.Times)
	if n < 2 {
		return nil, fmt.Errorf("record must hold at least 2 readings to be followed, got %d", n)
	}
	limit := max(bridge, 2*c.Step())
	var out []response.Stretch
	for i := 0; i < n; {
		j := i + 1
		for j < n && c.Times[j].Sub(c.Times[j-1]) <= limit {
			j++
		}
		if s := c.stretch(i, j, step); len(s.RH) > 0 {
			out = append(out, s)
		}
		i = j
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("record must hold a stretch of at least %s without a gap to be followed", step)
	}
	return out, nil
}

// stretch averages the readings i to j-1 over even steps.
func (c course) stretch(i, j int, step time.Duration) response.Stretch {
	start := c.Times[i]
	hours := make([]float64, j-i)
	for k := range hours {
		hours[k] = c.Times[i+k].Sub(start).Hours()
	}
	s := response.Stretch{Start: c.Civil(i)}
	n := int(hours[len(hours)-1] / step.Hours())
	s.RH = means(hours, c.RH[i:j], step.Hours(), n)
	if c.T != nil {
		s.T = means(hours, filled(c.T[i:j]), step.Hours(), n)
	}
	return s
}

// means integrates the straight lines between the points over n even steps.
func means(x, y []float64, step float64, n int) []float64 {
	out := make([]float64, n)
	k := 1
	at := func(v float64) float64 {
		for k < len(x)-1 && x[k] < v {
			k++
		}
		return y[k-1] + (y[k]-y[k-1])*(v-x[k-1])/(x[k]-x[k-1])
	}
	from, was := x[0], y[0]
	for i := range out {
		end := step * float64(i+1)
		var area float64
		for k < len(x)-1 && x[k] < end {
			area += (x[k] - from) * (was + y[k]) / 2
			from, was = x[k], y[k]
			k++
		}
		v := at(end)
		area += (end - from) * (was + v) / 2
		from, was = end, v
		out[i] = area / step
	}
	return out
}

// filled carries the last value known over those that are missing.
func filled(v []float64) []float64 {
	out := make([]float64, len(v))
	last := math.NaN()
	for _, x := range v {
		if !math.IsNaN(x) {
			last = x
			break
		}
	}
	for i, x := range v {
		if !math.IsNaN(x) {
			last = x
		}
		out[i] = last
	}
	return out
}
