package panel

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"crossgrain/species"
	"crossgrain/tables/problem"
)

// cannotTell is what is written for "looked at, and could not tell".
const cannotTell = "?"

// convert turns what the file holds into the value of a key, or says what is wrong with it.
func convert(k key, raw any) (v value, msg, hint string) {
	v = value{kind: k.kind}
	if s, ok := raw.(string); ok && s == cannotTell && k.kind != textKind {
		v.cannotTell, v.toml = true, quote(cannotTell)
		return v, "", ""
	}
	switch k.kind {
	case textKind:
		return convertText(v, raw)
	case wordKind, yesNoKind:
		return convertWord(v, k, raw)
	case woodKind:
		return convertWood(v, raw)
	case whenKind:
		return convertWhen(v, raw)
	case namesKind:
		return convertNames(v, raw)
	case listKind:
		return convertList(v, k, raw)
	case partsKind:
		return convertParts(v, k, raw)
	}
	return convertNumber(v, k, raw)
}

func convertText(v value, raw any) (value, string, string) {
	s, ok := raw.(string)
	if !ok {
		if _, long := raw.(map[string]any); long {
			return v, "must be words in quotes, got a table", ""
		}
		return v, "must be words in quotes, got " + showRaw(raw), "write " + quote(showRaw(raw))
	}
	v.text, v.toml = s, quote(s)
	return v, "", ""
}

func convertWord(v value, k key, raw any) (value, string, string) {
	words := k.words
	if k.kind == yesNoKind {
		words = []string{"yes", "no"}
	}
	s, ok := raw.(string)
	if b, isBool := raw.(bool); isBool && slices.Contains(words, "yes") {
		s, ok = "no", true
		if b {
			s = "yes"
		}
	}
	want := "must be one of " + strings.Join(quoted(words), ", ") + ` or "?" (could not tell)`
	if k.kind == yesNoKind {
		want = `must be true, false or "?" (could not tell)`
	}
	if !ok {
		return v, want + ", got " + showRaw(raw), ""
	}
	s = strings.ToLower(strings.TrimSpace(s))
	if !slices.Contains(words, s) {
		hint := ""
		if n := nearest(s, words); n != "" {
			hint = "did you mean " + quote(n) + "?"
		} else if s == "unknown" || s == "not recorded" || s == "" {
			hint = "leave the key out when it is not recorded"
		}
		return v, want + ", got " + shown(s), hint
	}
	v.text, v.toml = s, quote(s)
	if k.kind == yesNoKind {
		v.toml = map[string]string{"yes": "true", "no": "false"}[s]
	}
	return v, "", ""
}

func convertWood(v value, raw any) (value, string, string) {
	s, ok := raw.(string)
	if !ok {
		return v, "must be the name of a wood in quotes, got " + showRaw(raw), `as in "oak"`
	}
	if len(s) > longest {
		return v, "unknown wood " + shown(s), "`crossgrain wood` lists the woods it knows"
	}
	if _, err := species.Lookup(s); err != nil {
		var unknown *species.UnknownError
		if errors.As(err, &unknown) && len(unknown.Near) > 0 {
			return v, "unknown wood " + shown(s), "did you mean " + strings.Join(unknown.Near, ", ") + "?"
		}
		return v, "unknown wood " + shown(s), "`crossgrain wood` lists the woods it knows"
	}
	v.text, v.toml = s, quote(s)
	return v, "", ""
}

func convertWhen(v value, raw any) (value, string, string) {
	switch t := raw.(type) {
	case int64:
		if t >= 1 && t <= 2200 {
			v.text, v.toml = fmt.Sprint(t), fmt.Sprint(t)
			return v, "", ""
		}
	case time.Time:
		s := t.Format(time.DateOnly)
		v.text, v.toml = s, quote(s)
		return v, "", ""
	case string:
		if s := strings.TrimSpace(t); s != "" {
			v.text, v.toml = s, quote(s)
			return v, "", ""
		}
	}
	return v, "must be a year between 1 and 2200 or a date, got " + showRaw(raw), `as in 1988 or "2024-05-14"`
}

func convertNames(v value, raw any) (value, string, string) {
	a, ok := raw.([]any)
	for _, x := range a {
		s, isString := x.(string)
		ok = ok && isString
		v.names = append(v.names, s)
	}
	if !ok || len(v.names) != 2 {
		return v, "must be the names of two boards in brackets, got " + showRaw(raw), `as in ["left", "right"]`
	}
	v.toml = "[" + quote(v.names[0]) + ", " + quote(v.names[1]) + "]"
	return v, "", ""
}

// mostPaths is how many parts one list may name.
const mostPaths = 100

func convertParts(v value, k key, raw any) (value, string, string) {
	a, ok := raw.([]any)
	written := make([]string, len(a))
	for i, x := range a {
		s, isString := x.(string)
		ok = ok && isString && len(s) <= longest
		v.names, written[i] = append(v.names, s), quote(s)
	}
	if !ok || len(a) == 0 || len(a) > mostPaths {
		return v, "must be a list of parts in brackets, got " + showRaw(raw), "as in " + k.example
	}
	v.toml = "[" + strings.Join(written, ", ") + "]"
	return v, "", ""
}

func convertList(v value, k key, raw any) (value, string, string) {
	a, ok := raw.([]any)
	if !ok || len(a) == 0 {
		return v, "must be a list of lengths in brackets, got " + showRaw(raw), "as in " + k.example
	}
	if len(a) > 1000 {
		return v, fmt.Sprintf("must hold at most 1000 lengths, got %d", len(a)), ""
	}
	written := make([]string, len(a))
	for i, x := range a {
		f, toml, msg, hint := oneNumber(k, x)
		if msg != "" {
			return v, fmt.Sprintf("number %d %s", i+1, msg), hint
		}
		v.list = append(v.list, f)
		written[i] = toml
	}
	if !slices.IsSorted(v.list) {
		return v, "must run from left to right, got " + showRaw(raw), "put the smallest first"
	}
	v.toml = "[" + strings.Join(written, ", ") + "]"
	return v, "", ""
}

// convertNumber reads one number, or two between which the value lies.
func convertNumber(v value, k key, raw any) (value, string, string) {
	a, pair := raw.([]any)
	if !pair {
		if k.kind == spanKind {
			return v, "must be the lowest and the highest, got " + showRaw(raw), "as in " + k.example
		}
		f, toml, msg, hint := oneNumber(k, raw)
		v.low, v.high, v.toml = f, f, toml
		return v, msg, hint
	}
	if len(a) != 2 || k.kind == countKind {
		what := "must be a number or [low, high]"
		if k.kind == countKind {
			what = "must be one whole number"
		}
		return v, what + ", got " + showRaw(raw), "as in " + k.example
	}
	low, tl, msg, hint := oneNumber(k, a[0])
	if msg != "" {
		return v, "the lower number " + msg, hint
	}
	high, th, msg, hint := oneNumber(k, a[1])
	if msg != "" {
		return v, "the higher number " + msg, hint
	}
	if low > high {
		return v, "must have the lower number first, got " + showRaw(raw), fmt.Sprintf("write [%s, %s]", th, tl)
	}
	v.low, v.high, v.toml = low, high, "["+tl+", "+th+"]"
	return v, "", ""
}

// oneNumber reads one number in the unit and range of the key and returns how it is written back.
func oneNumber(k key, raw any) (f float64, toml, msg, hint string) {
	switch t := raw.(type) {
	case int64:
		f, toml = float64(t), num(float64(t))
	case float64:
		f, toml = t, num(t)
	case string:
		if k.kind != lengthKind && k.kind != listKind {
			return 0, "", "must be a number" + inUnit(k) + ", got " + showRaw(raw), bareNumber(t)
		}
		v, err := ParseLength(t)
		if err != nil {
			return 0, "", err.Error(), bareNumber(t)
		}
		f, toml = v, quote(strings.TrimSpace(t))
	default:
		return 0, "", "must be a number" + inUnit(k) + ", got " + showRaw(raw), ""
	}
	if k.kind == countKind && f != math.Trunc(f) {
		return 0, "", "must be a whole number, got " + showNumber(f), ""
	}
	if !(f >= k.low && f <= k.high) {
		msg = fmt.Sprintf("must lie between %s and %s%s, got %s", showNumber(k.low), showNumber(k.high), unitAfter(k), showNumber(f))
		return 0, "", msg, rangeHint(k, f)
	}
	return f, toml, "", ""
}

func unitAfter(k key) string {
	if k.unit == "" {
		return ""
	}
	return " " + k.unit
}

func inUnit(k key) string {
	if k.unit == "" {
		return ""
	}
	return " (" + k.unit + ")"
}

// bareNumber helps when a number was put in quotes.
func bareNumber(s string) string {
	if v, err := plainNumber(strings.TrimSpace(s)); err == nil {
		return "write " + num(v) + " without quotes"
	}
	return ""
}

func rangeHint(k key, f float64) string {
	rh := k.kind == rhKind || k.kind == spanKind
	switch {
	case (math.IsNaN(f) || math.IsInf(f, 0)) && !k.required:
		return "leave the key out when it is not known"
	case rh && f > 0 && f < 1:
		return "relative humidity is written in per cent: " + showNumber(f*100)
	case k.kind == lengthKind && f > k.high:
		return "lengths are in mm unless a unit is written, as in \"62 cm\""
	case f == 0 && !k.required:
		return "leave the key out when it is not known"
	}
	return ""
}

// longest is the length up to which a word is compared with known ones.
const longest = 80

// nearest returns the candidate nearest to a word, or "" for none and for words of absurd length.
func nearest(word string, candidates []string) string {
	if len(word) > longest {
		return ""
	}
	return problem.Nearest(word, candidates)
}

// showRaw describes what a file holds in words.
func showRaw(raw any) string {
	switch t := raw.(type) {
	case string:
		return shown(t)
	case int64:
		return fmt.Sprint(t)
	case float64:
		return showNumber(t)
	case bool:
		return fmt.Sprint(t)
	case time.Time:
		return "the date " + t.Format(time.DateOnly)
	case []map[string]any:
		return "a list of tables"
	case []any:
		if len(t) > 4 {
			return fmt.Sprintf("a list of %d", len(t))
		}
		s := make([]string, len(t))
		for i, x := range t {
			s[i] = showRaw(x)
		}
		return "[" + strings.Join(s, ", ") + "]"
	}
	return "a table"
}

func quoted(words []string) []string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = quote(w)
	}
	return q
}
