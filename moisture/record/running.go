package record

import (
	"fmt"
	"math"
	"time"
)

// RunningMean returns the lowest running mean of humidity, the mean of all running means, and the
// highest (fractions, 0 to 1). The mean is centred: all readings up to half the window before and
// after a reading, both ends included, weighted by time. It is formed only where the whole window
// lies inside the record and readings cover at least 80 % of it.
//
// A record shorter than the window, and one whose gaps leave no window, give an error. The window
// must be above zero.
func (r *Record) RunningMean(window time.Duration) (low, mid, high float64, err error) {
	if window <= 0 {
		return 0, 0, 0, fmt.Errorf("window must be above 0, got %s", window)
	}
	s := r.series(Humidity)
	if length := s.length(); len(s.t) < 2 || length < window {
		return 0, 0, 0, fmt.Errorf("the record must be longer than the window of %s, it covers %s", words(window), words(length))
	}
	low, high = math.Inf(1), math.Inf(-1)
	total := 0.0
	s.running(window, func(i int, mean float64) {
		low, high = min(low, mean), max(high, mean)
		mid += s.w[i] * mean
		total += s.w[i]
	})
	if total == 0 {
		return 0, 0, 0, fmt.Errorf("gaps leave no window of %s with readings for %.0f %% of it", words(window), 100*coverage)
	}
	return low, mid / total, high, nil
}

// MovingMean returns the centred running mean of humidity (fraction) at each reading, by the rules
// of [Record.RunningMean]; NaN where it is not formed.
func (r *Record) MovingMean(window time.Duration) []float64 {
	s := r.series(Humidity)
	return s.moving(window)
}

func (s *series) moving(window time.Duration) []float64 {
	out := make([]float64, len(s.t))
	for i := range out {
		out[i] = math.NaN()
	}
	s.running(window, func(i int, mean float64) { out[i] = mean })
	return out
}

// length returns the time from the first to the last reading.
func (s *series) length() time.Duration {
	if len(s.t) == 0 {
		return 0
	}
	return time.Duration(s.t[len(s.t)-1]-s.t[0]) * time.Millisecond
}

// running calls f with every reading that has a full window, and its running mean. Sums are carried
// from reading to reading: one pass.
func (s *series) running(window time.Duration, f func(i int, mean float64)) {
	n := len(s.t)
	sumW, sum := make([]float64, n+1), make([]float64, n+1)
	for i, x := range s.v {
		sumW[i+1], sum[i+1] = sumW[i]+s.w[i], sum[i]+s.w[i]*x
	}
	half := window.Milliseconds() / 2
	lo, hi := 0, 0
	for i, t := range s.t {
		for s.t[lo] < t-half {
			lo++
		}
		for hi < n && s.t[hi] <= t+half {
			hi++
		}
		if t-half < s.t[0] || t+half > s.t[n-1] {
			continue
		}
		if covered := sumW[hi] - sumW[lo]; covered > 0 && covered >= coverage*window.Seconds() {
			f(i, (sum[hi]-sum[lo])/covered)
		}
	}
}

// words prints a duration in days or hours.
func words(d time.Duration) string {
	if d >= 48*time.Hour {
		return fmt.Sprintf("%.4g days", d.Hours()/24)
	}
	return fmt.Sprintf("%.4g hours", d.Hours())
}
