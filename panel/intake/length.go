package intake

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"crossgrain/panel"
)

// span is a length as typed: one number or two, each with its unit.
type span struct {
	low, high float64  // mm; equal for one number
	typed     []string // as a panel file takes them, one or two
	about     bool     // "c." stood before it, or "?" behind
}

// toml writes the length as the panel file holds it, in the words that were typed.
func (s span) toml() string {
	if len(s.typed) == 1 {
		return panel.Quote(s.typed[0])
	}
	return "[" + panel.Quote(s.typed[0]) + ", " + panel.Quote(s.typed[1]) + "]"
}

var (
	aboutWord = regexp.MustCompile(`(?i)^(?:c\.|ca\.?|c |circa|about|approx\.?|approximately|~|≈|env\.?|environ|etwa|aprox\.?|ongeveer)\s*`)
	rangeSign = regexp.MustCompile(`(?i)\s*(?:\.\.|…|\bto\b|\bbis\b|\btot\b|\bà\b|\ba\b)\s*`)
	rangeDash = regexp.MustCompile(`([0-9½¼¾⅛⅜⅝⅞⅓⅔a-z"″”])\s*-\s*([0-9][0-9.,]*\s*(?:[^0-9/.,\s].*)?)$`)
	numberEnd = regexp.MustCompile(`^(.*[0-9½¼¾⅛⅜⅝⅞⅓⅔])\s*([^0-9½¼¾⅛⅜⅝⅞⅓⅔]*)$`)
	dashes    = strings.NewReplacer("–", "-", "—", "-", "‐", "-", "‑", "-", "−", "-", "\u00a0", " ", "\u202f", " ", "\u2009", " ")
)

var errNoUnit = errors.New("no unit")

// parseLength reads a cell such as "62 cm", "12,5", "24 1/2 in", "10-15 mm" or "c. 12 mm". A number
// without a unit takes the given one; without either the error is errNoUnit.
func parseLength(cell, unit string) (span, error) {
	s := strings.TrimSpace(dashes.Replace(cell))
	var out span
	if cut := aboutWord.ReplaceAllString(s, ""); cut != s {
		s, out.about = cut, true
	}
	if cut := strings.TrimRight(s, "? "); cut != s {
		s, out.about = cut, true
	}
	ends := rangeSign.Split(s, -1)
	if m := rangeDash.FindStringSubmatchIndex(s); len(ends) == 1 && m != nil && m[2] >= 0 {
		ends = []string{s[:m[3]], s[m[4]:]}
	}
	if len(ends) > 2 || len(ends) == 0 {
		return out, fmt.Errorf("more than two numbers")
	}
	for i := len(ends) - 1; i >= 0; i-- { // the unit of the second stands for the first too
		number, own, err := parseUnit(ends[i])
		if err != nil {
			return out, err
		}
		if own == "" {
			own = unit
		}
		if own == "" {
			if _, err := panel.ParseLength(number + " mm"); err != nil {
				return out, err
			}
			return out, errNoUnit
		}
		unit = own
		ends[i] = number + " " + own
		v, err := panel.ParseLength(ends[i])
		if err != nil {
			return out, err
		}
		if i == len(ends)-1 {
			out.high = v
		}
		out.low = v
	}
	out.typed = ends
	if out.low > out.high {
		return out, fmt.Errorf("the higher number stands first")
	}
	if out.low == out.high {
		out.typed = ends[:1]
	}
	return out, nil
}

// parseUnit parts "62 cm" into number and unit; the unit may be missing.
func parseUnit(s string) (number, unit string, err error) {
	m := numberEnd.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return "", "", fmt.Errorf("no number")
	}
	u := strings.ToLower(strings.TrimRight(strings.TrimSpace(m[2]), ". "))
	if u == "" {
		return m[1], "", nil
	}
	if units[u] == "" {
		return "", "", fmt.Errorf("unknown unit %q", u)
	}
	return m[1], units[u], nil
}
