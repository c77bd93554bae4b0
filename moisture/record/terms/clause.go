package terms

import (
	"math"
	"strconv"
	"time"

	"crossgrain/moisture/record"
)

// Clause is one thing that is asked: a range, or with Window above 0 a largest change.
type Clause struct {
	Of        record.Quantity
	Low, High float64       // ends of the range, both allowed, fraction or °C; an open side is infinite
	Most      float64       // largest change, fraction or K
	Window    time.Duration // time of the change; 0 for a range
	Signed    bool          // the change was written with plus and minus
	Known     Known         // how the figures are known
}

// Known says how figures are known.
type Known int

// How figures are known.
const (
	Typed    Known = iota // the user typed them in
	Seen                  // seen in the source itself
	Reported              // seen in another publication that reports them
	Memory                // remembered, not seen: to be confirmed by the user
)

func (k Known) String() string {
	return [...]string{"as typed", "seen in the source", "seen in another publication that reports them", "from memory"}[k]
}

// Unit returns the unit of the clause's figures as printed: "% RH", "points", "°C" or "K".
func (c Clause) Unit() string {
	switch {
	case c.Of == record.Humidity && c.Window == 0:
		return "% RH"
	case c.Of == record.Humidity:
		return "points"
	case c.Window == 0:
		return "°C"
	}
	return "K"
}

// Printed turns a value of the clause's quantity (fraction, °C or K) into its printed unit.
func (c Clause) Printed(v float64) float64 {
	if c.Of == record.Humidity {
		return 100 * v
	}
	return v
}

// String returns the clause in words: "45 to 55 % RH", "not over 5 points in 24 hours".
func (c Clause) String() string {
	unit := " " + c.Unit()
	switch {
	case c.Window > 0:
		sign := ""
		if c.Signed {
			sign = "±"
		}
		return "not over " + sign + c.number(c.Most) + unit + " in " + timeWords(c.Window)
	case math.IsInf(c.Low, -1):
		return "at most " + c.number(c.High) + unit
	case math.IsInf(c.High, 1):
		return "at least " + c.number(c.Low) + unit
	}
	return c.number(c.Low) + " to " + c.number(c.High) + unit
}

// number prints a figure to a tenth of its printed unit.
func (c Clause) number(v float64) string {
	return strconv.FormatFloat(math.Round(10*c.Printed(v))/10, 'f', -1, 64)
}

// Text returns the clause as [Parse] reads it, to a tenth of its unit: "45..55", "4C/24h".
func (c Clause) Text() string {
	unit := ""
	if c.Of == record.Temperature {
		unit = "C"
	}
	switch {
	case c.Window > 0:
		sign := ""
		if c.Signed {
			sign = "+-"
		}
		return sign + c.number(c.Most) + unit + "/" + shortTime(c.Window)
	case math.IsInf(c.Low, -1):
		return ".." + c.number(c.High) + unit
	case math.IsInf(c.High, 1):
		return c.number(c.Low) + unit + ".."
	}
	return c.number(c.Low) + ".." + c.number(c.High) + unit
}

// timeWords prints a window in whole days, hours or minutes.
func timeWords(d time.Duration) string {
	n, unit := d.Minutes(), "minute"
	switch {
	case d > 24*time.Hour && d%(24*time.Hour) == 0:
		n, unit = d.Hours()/24, "day"
	case d%time.Hour == 0:
		n, unit = d.Hours(), "hour"
	}
	if n != 1 {
		unit += "s"
	}
	return strconv.FormatFloat(n, 'f', -1, 64) + " " + unit
}

func shortTime(d time.Duration) string {
	switch {
	case d > 24*time.Hour && d%(24*time.Hour) == 0:
		return strconv.Itoa(int(d/(24*time.Hour))) + "d"
	case d%time.Hour == 0:
		return strconv.Itoa(int(d/time.Hour)) + "h"
	}
	return strconv.Itoa(int(d/time.Minute)) + "min"
}
