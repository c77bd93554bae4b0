package record

import (
	"fmt"
	"math"
	"time"
)

// coverage is the share of a window that must hold readings for its mean to count (assumption).
const coverage = 0.8

// ShortError says that a record is shorter than the window of a running mean.
type ShortError struct{ Window, Length time.Duration }

func (e *ShortError) Error() string {
	return fmt.Sprintf("the record must be longer than the window of %s, it covers %s", words(e.Window), words(e.Length))
}

// RunningMean returns the lowest running mean of humidity, the mean of all running means, and the
// highest (fractions, 0 to 1). The mean is centred: all readings up to half the window before and
// after a reading, both ends included, weighted by time. It is formed only where the whole window
// lies inside the record and readings cover at least 80 % of it.
//
// A record shorter than the window gives a *[ShortError]; one whose gaps leave no window, another
// error. The window must be above zero.
func (r *Record) RunningMean(window time.Duration) (low, mid, high float64, err error) {
	if window <= 0 {
		return 0, 0, 0, fmt.Errorf("window must be above 0, got %s", window)
	}
	n := len(r.Times)
	if n < 2 || r.Times[n-1].Sub(r.Times[0]) < window {
		length := time.Duration(0)
		if n > 1 {
			length = r.Times[n-1].Sub(r.Times[0])
		}
		return 0, 0, 0, &ShortError{Window: window, Length: length}
	}
	low, high = math.Inf(1), math.Inf(-1)
	total := 0.0
	r.running(window, func(i int, mean, weight float64) {
		low, high = min(low, mean), max(high, mean)
		mid += weight * mean
		total += weight
	})
	if total == 0 {
		return 0, 0, 0, fmt.Errorf("gaps leave no window of %s with readings for %.0f %% of it", words(window), 100*coverage)
	}
	return low, mid / total, high, nil
}

// running calls f with every reading that has a full window, its running mean, and its weight.
func (r *Record) running(window time.Duration, f func(i int, mean, weight float64)) {
	w, n := r.weights(), len(r.Times)
	sumW, sum := make([]float64, n+1), make([]float64, n+1)
	for i := range n {
		sumW[i+1], sum[i+1] = sumW[i]+w[i], sum[i]+w[i]*r.RH[i]
	}
	half := window / 2
	lo, hi := 0, 0
	for i, t := range r.Times {
		from, to := t.Add(-half), t.Add(half)
		for r.Times[lo].Before(from) {
			lo++
		}
		for hi < n && !r.Times[hi].After(to) {
			hi++
		}
		if from.Before(r.Times[0]) || to.After(r.Times[n-1]) {
			continue
		}
		if covered := sumW[hi] - sumW[lo]; covered >= coverage*window.Seconds() {
			f(i, (sum[hi]-sum[lo])/covered, w[i])
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
