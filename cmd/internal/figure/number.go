package figure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Gravity turns newtons into kilograms hung up, in m/s2 (standard value, 3rd CGPM 1901).
const Gravity = 9.80665

// absurd is beyond every length, force and energy of a panel.
const absurd = 1e9

// usable reports whether a value is a number that can be drawn and written.
func usable(v float64) bool { return math.Abs(v) < absurd } // false for NaN

// minus writes a number with a true minus sign and no negative nought.
func minus(s string) string {
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return strings.Replace(s, "-", "−", 1)
}

// fixed writes a number with n digits behind the point.
func fixed(v float64, n int) string {
	if !usable(v) {
		return "not known"
	}
	return minus(strconv.FormatFloat(v, 'f', n, 64))
}

// mm writes a length: tenths below 10 mm, whole ones above.
func mm(v float64) string {
	if math.Abs(v) < 9.95 {
		return fixed(v, 1)
	}
	return fixed(v, 0)
}

// rh writes a humidity in whole per cent, without the sign.
func rh(v float64) string { return fixed(v, 0) }

// tenths writes a share of a limit in tenths. Close to the limit it shows a digit more, so that what
// is short of it never reads as reached, nor the reverse.
func tenths(share float64) string {
	t := 10 * share
	switch {
	case !usable(share):
		return "not known"
	case t < 0.5:
		return "under 1"
	case t > 100:
		return "over 100"
	case t > 9.95 && t < 10:
		return "just under 10"
	case t > 10 && t < 10.05:
		return "just over 10"
	case t > 9.5 && t < 10.5 && t != 10:
		return fixed(t, 1)
	}
	return fixed(t, 0)
}

// ofLimit writes a share of a limit in words.
func ofLimit(share float64) string {
	switch t := tenths(share); {
	case t == "1" || share < 0.05:
		return t + " tenth of its limit"
	case !usable(share):
		return "share of its limit not known"
	default:
		return t + " tenths of its limit"
	}
}

// capital writes the first letter of a sentence large.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// round2 rounds to two digits.
func round2(v float64) float64 {
	if v == 0 || !usable(v) {
		return v
	}
	p := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-1)
	return math.Round(v/p) * p
}

// force writes newtons to two digits.
func force(n float64) string {
	if !usable(n) {
		return "not known"
	}
	if math.Abs(n) < 10 {
		return fixed(n, 0) + " N"
	}
	return fixed(round2(n), 0) + " N"
}

// weight writes a force as what hangs there.
func weight(n float64) string {
	kg := math.Abs(n) / Gravity
	switch {
	case !usable(n):
		return "not known"
	case kg < 1:
		return "under 1 kg"
	case kg < 10:
		return "about " + fixed(kg, 0) + " kg"
	}
	return "about " + fixed(round2(kg), 0) + " kg"
}

// span writes two numbers in order as a range, or one where they read alike.
func span(a, b float64, write func(float64) string) string {
	if !usable(a) {
		return write(b)
	}
	if !usable(b) {
		return write(a)
	}
	lo, hi := write(min(a, b)), write(max(a, b))
	if lo == hi {
		return lo
	}
	return lo + " to " + hi
}

// count writes "1 board", "3 boards".
func count(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
