package creep

// Threshold is the change of moisture content, kg/kg, below which a turn of the moisture is taken
// for noise and not counted as way gone (assumption: a logger's error of 0.5 points of relative
// humidity is some 0.1 % of moisture content in the outermost wood).
const Threshold = 0.002

// turning adds up the way the moisture content of one layer goes, between turning points only. A
// turn is a turn once the moisture has come back by more than the threshold; then the whole way
// back is counted, at that step. With threshold 0 every change counts.
type turning struct {
	low, high float64 // until the first turn: the range seen
	last      float64 // after that: the farthest point of the present run
	sense     int     // +1 getting damper, -1 drier, 0 not known yet
}

func (t *turning) start(w float64) { *t = turning{low: w, high: w, last: w} }

// move takes the moisture to w and returns the way to be counted, 0 or more.
func (t *turning) move(w, threshold float64) float64 {
	if t.sense == 0 {
		return t.first(w, threshold)
	}
	ahead := (w - t.last) * float64(t.sense)
	switch {
	case ahead > 0:
		t.last = w
		return ahead
	case -ahead > threshold:
		t.last = w
		t.sense = -t.sense
		return -ahead
	}
	return 0
}

func (t *turning) first(w, threshold float64) float64 {
	t.low, t.high = min(t.low, w), max(t.high, w)
	way := t.high - t.low
	if way <= threshold {
		return 0
	}
	t.last, t.sense = w, 1
	if w == t.low {
		t.sense = -1
	}
	return way
}

// counters is how many thresholds are counted side by side, from 1 to 1.8 times the one given.
const counters = 5

// counter is the way counted as the mean over thresholds from the one given upwards: a ripple that
// stands just at one threshold would else count wholly or not at all, as noise decides.
type counter [counters]turning

func (c *counter) start(w float64) {
	for k := range c {
		c[k].start(w)
	}
}

// move takes the moisture to w and returns the way to be counted, 0 or more.
func (c *counter) move(w, threshold float64) (way float64) {
	for k := range c {
		way += c[k].move(w, threshold*(1+0.2*float64(k)))
	}
	return way / counters
}

// Way counts how far the moisture of a layer goes, between turning points that are more than [Threshold]
// apart. The zero Way has not begun.
type Way struct {
	c     counter
	begun bool
}

// Move takes the moisture content to w, kg/kg, and returns the way to be counted, kg/kg, 0 or more.
func (y *Way) Move(w float64) float64 {
	if !y.begun {
		y.c.start(w)
		y.begun = true
		return 0
	}
	return y.c.move(w, Threshold)
}
