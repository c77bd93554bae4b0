package report

import (
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// columns is the width of a terminal page.
const columns = 80

// displayWidth is the number of terminal columns that s takes: two for wide letters of East
// Asia, none for marks that sit on another letter.
func displayWidth(s string) int {
	n := 0
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}

func runeWidth(r rune) int {
	if unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) || unicode.IsControl(r) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}

// plainLine makes typed text fit for one line of a terminal: line breaks and runs of space become
// one space, control characters and marks that reorder text are dropped.
func plainLine(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r) && r != '\u200d':
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

// wrap breaks s into lines of at most n columns, between words; a longer word is cut. A number
// stays on the line of its unit.
func wrap(s string, n int) []string {
	s = plainLine(s)
	var lines []string
	line := ""
	for _, word := range tokens(s) {
		for displayWidth(word) > n {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			var head string
			head, word = cut(word, n)
			lines = append(lines, head)
		}
		switch {
		case line == "":
			line = word
		case displayWidth(line)+1+displayWidth(word) <= n:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// tokens splits a line at spaces but keeps "52 % RH", "1.2 mm" and "20 °C" together.
func tokens(s string) []string {
	var out []string
	for _, w := range strings.Fields(s) {
		if k := len(out) - 1; k >= 0 && sticks(out[k], w) {
			out[k] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func sticks(before, unit string) bool {
	switch strings.TrimRight(unit, ".,;:)") {
	case "%", "mm", "N", "kg", "°C", "J/m2", "MPa":
		c := before[len(before)-1]
		return '0' <= c && c <= '9' && !strings.Contains(before, " ")
	case "RH":
		return strings.HasSuffix(before, "%")
	}
	return false
}

// cut parts a word after at most n columns, at least one letter.
func cut(word string, n int) (head, tail string) {
	used := 0
	for i, r := range word {
		if used+runeWidth(r) > n && i > 0 {
			return word[:i], word[i:]
		}
		used += runeWidth(r)
	}
	return word, ""
}

// pad fills s with spaces to n columns, on the left when right is set.
func pad(s string, n int, right bool) string {
	fill := strings.Repeat(" ", max(0, n-displayWidth(s)))
	if right {
		return fill + s
	}
	return s + fill
}
