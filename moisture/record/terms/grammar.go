package terms

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"crossgrain/moisture/record"
)

// What can be asked (assumption: beyond it, a unit or a sign was mistyped).
const (
	coldest, hottest = -60.0, 80.0             // °C, as records are read
	longestWindow    = 366 * 24 * time.Hour    // of a change
	shortestWindow   = time.Minute             // of a change
	barestHumidity   = 30.0                    // % RH; a range without a unit that ends below is refused
	farthest         = 100.0                   // points or K of a change
	numeral          = `(\d+(?:\.\d+)?|\.\d+)` // a number without a sign
)

// The forms of a clause, after [plain].
var (
	formRange  = regexp.MustCompile(`^(-?` + numeral + `)?([^\d.+-]*?)(?:\.\.|-|to)(-?` + numeral + `)?(\S*)$`)
	formSide   = regexp.MustCompile(`^(<=?|>=?|max|min|under|over|below|above)(-?` + numeral + `)(\S*)$`)
	formAround = regexp.MustCompile(`^(-?` + numeral + `)([^\d.+-]*?)\+-` + numeral + `(\S*)$`)
	formChange = regexp.MustCompile(`^(\+-)?` + numeral + `(\S*?)(?:/|per|in)(\d+(?:\.\d+)?)?(min|minutes?|h|hours?|d|days?|w|weeks?)$`)
	formLabel  = regexp.MustCompile(`^(rh|humidity|temperature|temp|t):?`)
)

// plain writes a clause in small letters without blanks, and its signs in one way.
func plain(s string) string {
	s = strings.NewReplacer("±", "+-", "+/-", "+-", "–", "-", "—", "-", "−", "-", "…", "..", "...", "..",
		"≤", "<=", "≥", ">=", "°", "", "º", "", "\u00a0", "").Replace(s)
	return strings.ToLower(strings.Join(strings.Fields(s), ""))
}

// clauseOf reads one clause.
func clauseOf(text string) (Clause, error) {
	s, label := plain(text), ""
	if m := formLabel.FindStringSubmatch(s); m != nil {
		label, s = m[1][:1], s[len(m[0]):]
	}
	if m := formChange.FindStringSubmatch(s); m != nil {
		return change(m, label)
	}
	if m := formAround.FindStringSubmatch(s); m != nil {
		middle, far := number(m[1]), number(m[4])
		q, scale, err := quantity(label, m[3], m[5])
		if err != nil {
			return Clause{}, err
		}
		return span(q, scale, middle-far, middle+far, m[3]+m[5]+label != "")
	}
	if m := formSide.FindStringSubmatch(s); m != nil {
		q, scale, err := quantity(label, m[4], "")
		if err != nil {
			return Clause{}, err
		}
		switch named := m[4]+label != ""; m[1] {
		case "<", "<=", "max", "under", "below":
			return span(q, scale, math.Inf(-1), number(m[2]), named)
		default:
			return span(q, scale, number(m[2]), math.Inf(1), named)
		}
	}
	if m := formRange.FindStringSubmatch(s); m != nil && m[1]+m[4] != "" {
		return between(m, label)
	}
	return Clause{}, fault{"is no clause", notUnderstood(s)}
}

// notUnderstood guesses what was meant.
func notUnderstood(s string) string {
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		return "a number alone is no clause; write decimals with a point, a range as 45..55, a change as 5/24h"
	}
	if strings.HasPrefix(s, "+-") {
		return "a tolerance needs its middle, as 50+-5, or its time, as 5/24h"
	}
	return hintForm
}

// between reads a range, of which one end may be missing.
func between(m []string, label string) (Clause, error) {
	q, scale, err := quantity(label, m[3], m[6])
	if err != nil {
		return Clause{}, err
	}
	lo, hi := math.Inf(-1), math.Inf(1)
	if m[1] != "" {
		lo = number(m[1])
	}
	if m[4] != "" {
		hi = number(m[4])
	}
	return span(q, scale, min(lo, hi), max(lo, hi), m[3]+m[6]+label != "")
}

// span makes a range of its ends as typed; named says that a unit or a quantity was.
func span(q record.Quantity, s scale, lo, hi float64, named bool) (Clause, error) {
	top := hi
	if math.IsInf(hi, 1) {
		top = lo
	}
	if !named && top < barestHumidity {
		return Clause{}, fault{fmt.Sprintf("without a unit it is not clear whether %g is a humidity or a temperature", top),
			"write 18..22C for a temperature, 18..22 % for a humidity"}
	}
	c := Clause{Of: q, Low: s.value(lo), High: s.value(hi)}
	least, most, unit := 0.0, 1.0, "%"
	if q == record.Temperature {
		least, most, unit = coldest, hottest, "°C"
	}
	for _, v := range [...]float64{c.Low, c.High} {
		if !math.IsInf(v, 0) && (v < least || v > most) {
			return Clause{}, fault{fmt.Sprintf("%s must lie between %g and %g %s, got %g", q, c.Printed(least), c.Printed(most), unit, c.Printed(v)), ""}
		}
	}
	if c.Low == c.High {
		return Clause{}, fault{"lower and upper end must differ", "for a middle and a tolerance write 50+-5"}
	}
	return c, nil
}

// change reads a largest change.
func change(m []string, label string) (Clause, error) {
	if strings.HasPrefix(m[3], "+-") {
		return Clause{}, fault{"a tolerance and a change are two clauses", "write as 50+-5, 5/24h"}
	}
	q, s, err := quantity(label, strings.Replace(m[3], "k", "c", 1), "")
	if err != nil {
		return Clause{}, err
	}
	n := 1.0
	if m[4] != "" {
		n = number(m[4])
	}
	unit := map[byte]time.Duration{'m': time.Minute, 'h': time.Hour, 'd': 24 * time.Hour, 'w': 7 * 24 * time.Hour}[m[5][0]]
	if n*float64(unit) > float64(longestWindow) || n*float64(unit) < float64(shortestWindow) {
		return Clause{}, fault{"the time of a change must lie between 1 min and 366 d", ""}
	}
	c := Clause{Of: q, Most: number(m[2]) / s.unit, Window: time.Duration(n * float64(unit)).Round(time.Second), Signed: m[1] != ""}
	if p := c.Printed(c.Most); p <= 0 || p > farthest {
		return Clause{}, fault{fmt.Sprintf("a change must be above 0 and at most %g %s, got %g", farthest, c.Unit(), p), ""}
	}
	return c, nil
}

// scale turns typed figures into fractions, °C and K.
type scale struct{ zero, unit float64 }

func (s scale) value(v float64) float64 { return (v - s.zero) / s.unit }

// quantity reads the units that stand with the two ends, and the letter before them.
func quantity(label, first, second string) (record.Quantity, scale, error) {
	q, s, known := record.Humidity, scale{0, 100}, ""
	if label == "t" {
		q, s = record.Temperature, scale{0, 1}
	}
	for _, u := range [...]string{first, second} {
		if u == "" {
			continue
		}
		of, sc, ok := unitOf(u)
		switch {
		case !ok:
			return 0, s, fault{fmt.Sprintf("the unit %q is not known", u), "none or % for humidity, C or F for temperature"}
		case known != "" && sc != s, label == "t" && of != record.Temperature, label != "" && label != "t" && of != record.Humidity:
			return 0, s, fault{"two units contradict each other", "none or % for humidity, C or F for temperature"}
		}
		q, s, known = of, sc, u
	}
	return q, s, nil
}

// unitOf returns what a unit says.
func unitOf(u string) (record.Quantity, scale, bool) {
	switch u {
	case "%", "%rh", "rh", "percent", "points", "pp":
		return record.Humidity, scale{0, 100}, true
	case "c", "degc":
		return record.Temperature, scale{0, 1}, true
	case "f", "degf":
		return record.Temperature, scale{32, 1.8}, true
	}
	return 0, scale{}, false
}

// number reads what the forms let through.
func number(s string) float64 {
	v, _ := strconv.ParseFloat(s, 64)
	return v
}
