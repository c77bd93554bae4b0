package figure

import "fmt"

// Setting is the humidity that curves over RH are seen against, in per cent. Nought or NaN: not known,
// not drawn.
type Setting struct {
	UsedToPct       float64 // what the panel is used to
	LowPct, HighPct float64 // the range asked about
}

func given(v float64) bool { return usable(v) && v > 0 }

// asked reports whether there is a range.
func (s Setting) asked() bool {
	return given(s.LowPct) && usable(s.HighPct) && s.HighPct > s.LowPct
}

// rules is the upright line of what the panel is used to.
func (s Setting) rules() []rule {
	if !given(s.UsedToPct) {
		return nil
	}
	return []rule{{at: s.UsedToPct, upright: true, name: "used to " + rh(s.UsedToPct) + " %", sign: stroke{limit, quiet, nil}}}
}

// zones is the tinted range that was asked about.
func (s Setting) zones() []zone {
	if !s.asked() {
		return nil
	}
	return []zone{{s.LowPct, s.HighPct, "asked: " + rh(s.LowPct) + " to " + rh(s.HighPct) + " %"}}
}

// ends are the humidities that numbers are given at: of the range asked, else of the series.
func (s Setting) ends(rhPct []float64) (lo, hi float64) {
	if s.asked() {
		return s.LowPct, s.HighPct
	}
	lo, hi, _ = extent(rhPct)
	return lo, hi
}

// axis is the axis of humidity that holds the series and the setting.
func (s Setting) axis(rhPct []float64) axis {
	extra := []float64{}
	if given(s.UsedToPct) {
		extra = append(extra, s.UsedToPct)
	}
	if s.asked() {
		extra = append(extra, s.LowPct, s.HighPct)
	}
	lo, hi := rhRange(inRange(rhPct), inRange(extra))
	return humidity(lo, hi)
}

// inRange keeps what can be a humidity.
func inRange(v []float64) []float64 {
	var out []float64
	for _, x := range v {
		if x >= 0 && x <= 100 {
			out = append(out, x)
		}
	}
	return out
}

// noCurve stands in a chart without anything to draw.
const noCurve = "No numbers to draw."

// listed writes a series for readers who do not see it: at most seven values, evenly taken.
func listed(name string, x, y []float64, unit string, write func(float64) string) string {
	n := min(len(x), len(y))
	out := name + ":"
	any := false
	for k := range min(n, 7) {
		i := k
		if n > 7 {
			i = k * (n - 1) / 6
		}
		if usable(x[i]) && usable(y[i]) {
			out += fmt.Sprintf(" %s at %s %% RH,", write(y[i]), rh(x[i]))
			any = true
		}
	}
	if !any {
		return name + ": no numbers. "
	}
	return out[:len(out)-1] + unit + ". "
}
