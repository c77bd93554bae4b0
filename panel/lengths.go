package panel

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// mmPer holds the units a length may be written in.
var mmPer = map[string]float64{
	"mm": 1, "cm": 10, "m": 1000,
	"in": 25.4, "in.": 25.4, "inch": 25.4, "inches": 25.4, `"`: 25.4, "″": 25.4, "”": 25.4,
}

// vulgar are the fractions that have a character of their own.
var vulgar = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅓", " 1/3", "⅔", " 2/3", "−", "-", "\u00a0", " ", "\u202f", " ", "\u2009", " ")

// ParseLength reads a length with its unit and returns it in mm: "62 cm", "12,5 mm", "24 1/2 in",
// "3/4 in". A comma is read as the decimal sign. The error says which forms are understood.
//
// An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
func ParseLength(s string) (float64, error) {
	t := strings.TrimSpace(vulgar.Replace(strings.TrimSpace(s)))
	cut := len(t)
	for cut > 0 && !strings.ContainsRune("0123456789", rune(t[cut-1])) {
		cut--
	}
	unit := strings.ToLower(strings.TrimSpace(t[cut:]))
	per, ok := mmPer[unit]
	if !ok {
		return 0, fmt.Errorf(`must be a length in mm, cm, m or in, such as "62 cm" or "24 1/2 in", got %s`, shown(s))
	}
	v, err := mixedNumber(t[:cut])
	if err != nil {
		return 0, fmt.Errorf(`must be a number with its unit, such as "62 cm" or "24 1/2 in", got %s`, shown(s))
	}
	return v * per, nil
}

// mixedNumber reads 24, 24.5, 24,5, 3/4 or 24 1/2 (also 24-1/2).
func mixedNumber(s string) (float64, error) {
	s = strings.TrimSpace(s)
	sign := 1.0
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		sign, s = -1, rest
	}
	if strings.HasPrefix(s, "-") {
		return 0, strconv.ErrSyntax
	}
	fields := strings.Fields(strings.ReplaceAll(s, "-", " "))
	switch len(fields) {
	case 1:
		v, err := fraction(fields[0])
		return sign * v, err
	case 2:
		whole, err := plainNumber(fields[0])
		if err != nil || !strings.Contains(fields[1], "/") {
			return 0, strconv.ErrSyntax
		}
		part, err := fraction(fields[1])
		return sign * (whole + part), err
	}
	return 0, strconv.ErrSyntax
}

func fraction(s string) (float64, error) {
	above, below, ok := strings.Cut(s, "/")
	if !ok {
		return plainNumber(s)
	}
	a, err := plainNumber(above)
	if err != nil {
		return 0, err
	}
	b, err := plainNumber(below)
	if err != nil || b == 0 {
		return 0, strconv.ErrSyntax
	}
	return a / b, nil
}

// plainNumber reads digits with a point or a comma; no exponent, no words such as inf.
func plainNumber(s string) (float64, error) {
	if s == "" || strings.Trim(s, "0123456789.,") != "" || strings.Count(s, ".")+strings.Count(s, ",") > 1 {
		return 0, strconv.ErrSyntax
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, strconv.ErrSyntax
	}
	return v, nil
}

// shown returns what a person typed, quoted and cut to a readable length.
func shown(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return strconv.Quote(s)
}
