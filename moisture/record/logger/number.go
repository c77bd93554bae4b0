package logger

import (
	"bytes"
	"math"
	"strconv"
)

// worth says what a cell that should hold a number holds.
type worth int8

const (
	isNumber worth = iota
	isMissing
	isNoise // something else
)

// pow10 are the powers that a fast parse divides by.
var pow10 = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// number reads a cell with the given decimal sign ('.' or ','); a unit after it, or a per cent sign, is
// allowed.
func number(b []byte, decimal byte) (float64, worth) {
	if v, ok := plain(b, decimal); ok {
		return v, sentinel(v)
	}
	if missing(b) {
		return 0, isMissing
	}
	digits, rest := numeric(b)
	if len(digits) == 0 || !unitText(rest) {
		return 0, isNoise
	}
	if v, ok := plain(digits, decimal); ok {
		return v, sentinel(v)
	}
	return slow(digits, decimal)
}

// plain reads digits with one sign and one decimal sign.
func plain(b []byte, decimal byte) (float64, bool) {
	if len(b) == 0 || len(b) > 24 {
		return 0, false
	}
	i, neg := 0, false
	if b[0] == '-' || b[0] == '+' {
		neg, i = b[0] == '-', 1
	}
	var n int64
	places, seen := -1, 0
	for ; i < len(b); i++ {
		switch c := b[i]; {
		case c >= '0' && c <= '9':
			if places >= 0 && seen == 15 {
				continue // beyond what a reading can mean
			}
			n = 10*n + int64(c-'0')
			seen++
			if places >= 0 {
				places++
			}
		case c == decimal && places < 0:
			places = 0
		default:
			return 0, false
		}
	}
	if seen == 0 || seen > 15 {
		return 0, false
	}
	v := float64(n)
	if places > 0 {
		v /= pow10[places]
	}
	if neg {
		v = -v
	}
	return v, true
}

// numeric parts a cell into what looks like a number and what follows.
func numeric(b []byte) (digits, rest []byte) {
	if m, ok := bytes.CutPrefix(b, []byte("−")); ok { // a true minus sign
		b = append([]byte("-"), m...)
	}
	i, seen := 0, false
	for ; i < len(b); i++ {
		c := b[i]
		switch {
		case c >= '0' && c <= '9':
			seen = true
		case c == '.' || c == ',':
		case (c == '-' || c == '+') && (i == 0 || b[i-1] == 'e' || b[i-1] == 'E'):
		case (c == 'e' || c == 'E') && seen && i+1 < len(b) && (b[i+1] == '+' || b[i+1] == '-' || b[i+1] >= '0' && b[i+1] <= '9'):
		default:
			return b[:i], b[i:]
		}
	}
	return b, nil
}

// slow reads what plain does not: thousands, exponents, the other decimal sign left alone.
func slow(b []byte, decimal byte) (float64, worth) {
	thousands := byte(',')
	if decimal == ',' {
		thousands = '.'
	}
	s := bytes.ReplaceAll(b, []byte{thousands}, nil)
	if len(s) != len(b) && !grouped(b, thousands, decimal) {
		return 0, isNoise
	}
	s = bytes.ReplaceAll(s, []byte{decimal}, []byte("."))
	v, err := strconv.ParseFloat(string(s), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, isNoise
	}
	return v, sentinel(v)
}

// grouped says whether the sign of thousands stands every three digits before the decimal sign.
func grouped(b []byte, thousands, decimal byte) bool {
	whole, _, _ := bytes.Cut(b, []byte{decimal})
	parts := bytes.Split(bytes.TrimLeft(whole, "+-"), []byte{thousands})
	for i, p := range parts {
		if i > 0 && len(p) != 3 || i == 0 && (len(p) == 0 || len(p) > 3) {
			return false
		}
	}
	return bytes.IndexByte(b[len(whole):], thousands) < 0
}

// sentinel recognises the numbers that loggers write where they have none.
func sentinel(v float64) worth {
	switch a := math.Abs(v); {
	case v <= -99 && (v == -99 || v == -99.9 || v == -99.99 || v == -100 || v == -127 || v == -200 || v == -273.15 || v == -300 || v == -327.68),
		a == 999 || a == 999.9 || a == 999.99 || a == 9999 || a == 9999.9 || a == 99999 || a == 999999,
		a == 32767 || a == 32768 || a == 65535, a >= 1e9:
		return isMissing
	case v == -999.0 || v == -888 || v == -8888 || v == -7777 || v == -6999 || v == -7999:
		return isMissing
	}
	return isNumber
}

// missing recognises the words and signs for no value.
func missing(b []byte) bool {
	if len(b) == 0 {
		return true
	}
	if len(b) > 24 {
		return false
	}
	blank := true
	for _, c := range b {
		if c != '-' && c != '.' && c != '*' && c != '?' && c != ' ' && c != '_' && c != '/' && c != '#' && c != ',' && c != '+' {
			blank = false
			break
		}
	}
	if blank {
		return true
	}
	switch string(bytes.ToLower(b)) {
	case "–", "—", "nan", "-nan", "na", "n/a", "#n/a", "n.a.", "n.v.", "k.a.", "null", "nul", "none", "nil", "missing", "invalid", "err", "error",
		"err.", "#error", "#value!", "#wert!", "#div/0!", "#ref!", "#num!", "#name?", "ofl", "ufl", "ovf", "overflow", "over", "under", "ovr", "undr",
		"inf", "+inf", "-inf", "fault", "fail", "failed", "bad", "open", "short", "no data", "nodata", "no value", "out of range", "sensor fault",
		"sensor error", "sensor fehler", "fehler", "fehlt", "keine daten", "erreur", "errore", "fout", "fel", "virhe", "brak", "disconnected", "lost",
		"offline", "no sensor", "not connected", "void", "undefined", "lo", "hi", "low", "high", "ol", "o.l", "u.l":
		return true
	}
	return false
}

// unitText says whether what follows a number is a unit.
func unitText(b []byte) bool {
	b = bytes.TrimSpace(b)
	if len(b) == 0 {
		return true
	}
	if len(b) > 12 {
		return false
	}
	for _, c := range b {
		if c >= '0' && c <= '9' || c == ':' || c == '/' && len(b) > 6 {
			return false
		}
	}
	u := string(bytes.ToLower(b))
	return humidUnit(u) || warmUnit(u) != 0 || u == "°" || u == "%"
}
