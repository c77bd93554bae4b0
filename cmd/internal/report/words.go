package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// whole gives a number without decimals; NaN gives a dash.
func whole(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	return strconv.FormatFloat(math.Abs(math.Round(v))*sign(v), 'f', 0, 64)
}

// sign is -1 for a number that rounds below zero, else 1, so that -0 is never printed.
func sign(v float64) float64 {
	if math.Round(v) < 0 {
		return -1
	}
	return 1
}

// millimetres gives a size without sign: one decimal below 10 mm.
func millimetres(v float64) string {
	v = math.Abs(v)
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return "–"
	case v > 0 && v < 0.05:
		return say("small.mm")
	case v < 9.95:
		return strconv.FormatFloat(v, 'f', 1, 64)
	}
	return whole(v)
}

// plain gives a number to three significant digits, without an exponent but for the very small.
func plain(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	if v == 0 {
		return "0"
	}
	if math.Abs(v) < 1e-6 {
		e := int(math.Floor(math.Log10(math.Abs(v)) + 1e-9))
		return plain(v/math.Pow(10, float64(e))) + " × 10" + raised(e)
	}
	digits := max(0, 2-int(math.Floor(math.Log10(math.Abs(v)))))
	s := strconv.FormatFloat(v, 'f', min(digits, 8), 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// raised writes an exponent.
func raised(e int) string {
	return strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹").Replace(strconv.Itoa(e))
}

// moved says how much wider or narrower, between the mean curve and the scanning loop.
func moved(mean, loop float64) string {
	if math.Abs(mean) < 0.005 {
		return say("move.none")
	}
	key := "move.wider"
	if mean < 0 {
		key = "move.narrower"
	}
	if math.Abs(loop) > math.Abs(mean) {
		loop, mean = mean, loop
	}
	return say(key, "mm", span(millimetres(loop), millimetres(mean)))
}

// span joins two printed numbers, or gives one when they look the same.
func span(low, high string) string {
	if low == high || low == "–" {
		return high
	}
	return say("range.cell", "low", low, "high", high)
}

// warped says a warp in mm: rounded or hollow.
func warped(mm float64) string {
	switch {
	case math.Abs(mm) < 0.05:
		return say("warp.flat")
	case mm < 0:
		return say("warp.hollow", "mm", millimetres(mm))
	}
	return say("warp.rounded", "mm", millimetres(mm))
}

// short leaves out " mm" where the unit stands at the head of the column.
func short(s string) string { return strings.ReplaceAll(s, " mm", "") }

// held says a share of the movement in tenths; pct is in per cent.
func held(pct float64) string {
	switch n := math.Round(pct / 10); {
	case math.IsNaN(pct) || pct <= 0:
		return say("held.none")
	case n < 1:
		return say("held.under")
	case n == 1:
		return say("held.one")
	default:
		return say("held.tenths", "n", whole(n))
	}
}

// force gives the size of a load to two digits in N, with kg in brackets.
func force(n float64) string {
	n = math.Abs(n)
	if math.IsNaN(n) || n < 0.5 {
		return say("force.none")
	}
	return say("force.kg", "n", twoDigits(n), "kg", twoDigits(n/9.81))
}

func twoDigits(v float64) string {
	if v < 0.1 {
		return "0.1"
	}
	step := math.Pow(10, math.Floor(math.Log10(v))-1)
	return plain(math.Round(v/step) * step)
}

// shareWords says a share of limit in tenths, as part of a sentence.
func shareWords(share *float64) string {
	if share == nil {
		return say("share.none")
	}
	switch s := *share; {
	case s < 0.05:
		return say("share.under")
	case s < 0.15:
		return say("share.one")
	case s < 0.95:
		return say("share.many", "n", whole(10*s))
	case s < 1:
		return say("share.near")
	case s < 1.05:
		return say("share.at")
	case s < 10:
		return say("share.beyond", "n", whole(10*s))
	}
	return say("share.far")
}

// tenths gives a share as a number of tenths for a table.
func tenths(share *float64) string {
	if share == nil || math.IsNaN(*share) {
		return say("share.cell.none")
	}
	switch s := *share; {
	case s < 0.05:
		return say("share.cell.under")
	case s < 10:
		return say("share.cell.many", "n", whole(10*s))
	}
	return say("share.cell.far")
}

// tenthsDoubt gives the tenths with their doubt in brackets.
func tenthsDoubt(m Mode) string {
	n := tenths(m.Share)
	if m.Share == nil || m.ShareLow == nil || m.ShareHigh == nil {
		return n
	}
	low, high := tenths(m.ShareLow), tenths(m.ShareHigh)
	if low == high {
		return n
	}
	return say("share.cell.doubt", "n", n, "low", low, "high", high)
}

// PartWords turns a path of the panel file into words: join.a becomes "join a". A path that is
// not known is given with its dots taken out.
func PartWords(path string) string {
	kind, name, named := strings.Cut(path, ".")
	if !named && known("part."+kind+".alone") {
		return say("part." + kind + ".alone")
	}
	if named && known("part."+kind) {
		return say("part."+kind, "name", strings.ReplaceAll(name, ".", " "))
	}
	return strings.ReplaceAll(path, ".", " ")
}

// ModeWords says what could give way, from the closed name of a mode.
func ModeWords(mode string) string {
	if known("mode." + mode) {
		return say("mode." + mode)
	}
	return strings.ReplaceAll(mode, "_", " ")
}

// CauseWords says what stands at the end of a calculated range: "mode:part", or a cap.
func CauseWords(cause string) string {
	mode, part, ok := strings.Cut(cause, ":")
	if mode == "cap" || !ok {
		return say("range.cap")
	}
	return say("range.by", "part", PartWords(part), "mode", ModeWords(mode))
}

// between gives two humidities as a range.
func between(low, high float64) string {
	return fmt.Sprintf("%s to %s", whole(low), whole(high))
}

// oneDecimal gives a number with one decimal, or without it when it is whole.
func oneDecimal(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	s := strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0")
	if s == "-0" {
		return "0"
	}
	return s
}
