package tables

import (
	"fmt"
	"math"
)

// Grade says how well a value is known. Reports print its words, never a letter.
type Grade int

// The grades, best first.
const (
	MeasuredHere Grade = iota // measured on the panel in hand
	Several                   // several published sources (A)
	One                       // one published source (B)
	General                   // general knowledge, not checked against a source (C)
	Estimate                  // borrowed from a relative, a fit, or an assumption (D)
)

var gradeWords = [...]string{
	"measured on this panel", "several published", "one published",
	"general knowledge, unchecked", "estimate",
}

// String returns the grade in the words used on a reader's sheet.
func (g Grade) String() string {
	if g < 0 || int(g) >= len(gradeWords) {
		return fmt.Sprintf("Grade(%d)", int(g))
	}
	return gradeWords[g]
}

// ParseGrade reads the letter used in the data files: A, B, C or D.
func ParseGrade(letter string) (Grade, error) {
	switch letter {
	case "A":
		return Several, nil
	case "B":
		return One, nil
	case "C":
		return General, nil
	case "D":
		return Estimate, nil
	}
	return 0, fmt.Errorf("grade must be A, B, C or D, got %q", letter)
}

// Worse returns the weaker of two grades.
func Worse(a, b Grade) Grade { return max(a, b) }

// Datum is one value with its spread, unit, source and evidence. Low and High are the ends of the
// stated spread (about 5 and 95 in 100 cases); they equal Value where no spread is known.
type Datum struct {
	Value, Low, High float64
	Unit             string
	Source           string // key of data/sources.csv
	Locator          string // table, page or equation
	Status           string // printed, derived, memory, common practice, ...
	Note             string
	Grade            Grade
}

// RangeError reports a value outside the range for which a table or formula is stated.
type RangeError struct {
	Quantity        string
	Value, Min, Max float64
	Unit            string
	Source          string
}

func (e *RangeError) Error() string {
	s := fmt.Sprintf("%s must lie between %g and %g %s, got %g", e.Quantity, e.Min, e.Max, e.Unit, e.Value)
	if e.Source != "" {
		s += " (" + e.Source + ")"
	}
	return s
}

// InRange returns nil when min <= v <= max and a *RangeError otherwise; NaN is never in range.
func InRange(quantity string, v, min, max float64, unit, source string) error {
	if v >= min && v <= max && !math.IsNaN(v) {
		return nil
	}
	return &RangeError{Quantity: quantity, Value: v, Min: min, Max: max, Unit: unit, Source: source}
}
