package intake

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

var (
	isoDate    = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}( \d{2}:\d{2}:\d{2})?$`)
	slashDate  = regexp.MustCompile(`^\d{1,2}[./]\d{1,2}[./](\d{2}|\d{4})$`)
	monthDate  = regexp.MustCompile(`(?i)^(\d{1,4}[-. /]+)?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|mär|mai|okt|dez|janv|févr|mars|avr|juin|juil|août|sept|déc|gen|mag|giu|lug|ago|set|ott|dic|ene|abr|mrt|mei)[a-zé]*\.?([-. /]+\d{1,4})?$`)
	exponent   = regexp.MustCompile(`(?i)^\d([.,]\d+)?e[+-]?\d+$`)
	daySerial  = regexp.MustCompile(`^[2-6]\d{4}$`)
	lastNumber = regexp.MustCompile(`^(.*[^0-9])([0-9]+)$`)
	digitsOnly = regexp.MustCompile(`^[0-9]+$`)
)

// numberKey brings numbers that differ only in dashes, blanks and capitals to one form.
func numberKey(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, dashes.Replace(s))
}

// numbers is what is known of all numbers of a list together.
type numbers struct {
	count     map[string]int             // by numberKey
	endings   map[string]map[string]bool // last numbers, by what stands before them
	padded    map[int]int                // how many numbers of digits alone begin with 0, by length
	all       int
	dates     [3]int // how many look like a date, a power of ten, a day's serial number
	longDash  int
	shortDash int
}

func newNumbers(all []string) *numbers {
	n := &numbers{count: map[string]int{}, endings: map[string]map[string]bool{}, padded: map[int]int{}}
	for _, s := range all {
		if s == "" {
			continue
		}
		n.all++
		n.count[numberKey(s)]++
		if k := spoilt(s); k >= 0 {
			n.dates[k]++
		}
		if m := lastNumber.FindStringSubmatch(s); m != nil {
			if n.endings[m[1]] == nil {
				n.endings[m[1]] = map[string]bool{}
			}
			n.endings[m[1]][m[2]] = true
		}
		if digitsOnly.MatchString(s) && s[0] == '0' {
			n.padded[len(s)]++
		}
		if strings.ContainsAny(s, "–—") {
			n.longDash++
		} else if strings.Contains(s, "-") {
			n.shortDash++
		}
	}
	return n
}

// spoilt says what a spreadsheet seems to have made of a number: 0 a date, 1 a power of ten, 2 the serial
// number of a day, -1 nothing.
func spoilt(s string) int {
	switch {
	case isoDate.MatchString(s), slashDate.MatchString(s), monthDate.MatchString(s):
		return 0
	case exponent.MatchString(s):
		return 1
	case daySerial.MatchString(s):
		return 2
	}
	return -1
}

// doubt returns the question that a number raises beside its neighbours, or "". Forms that half of the
// list has are the house's own.
func (n *numbers) doubt(s string) (id, detail string) {
	if k := spoilt(s); k >= 0 && 2*n.dates[k] <= n.all && !(k == 2 && n.all < 3) {
		return [...]string{NumberDate, NumberExponent, NumberDate}[k], ""
	}
	if longer := n.lostZero(s); longer != "" {
		return NumberZeros, longer
	}
	if strings.ContainsAny(s, "–—") && n.longDash <= n.shortDash {
		return NumberDash, ""
	}
	return "", ""
}

// lostZero returns the number that this one may have been: 1923.10 that became 1923.1, 00123 that
// became 123; "" when its neighbours do not suggest it.
func (n *numbers) lostZero(s string) string {
	if digitsOnly.MatchString(s) && s[0] != '0' {
		for l, k := range n.padded {
			if k >= 2 && len(s) < l && len(n.padded) == 1 {
				return strings.Repeat("0", l-len(s)) + s
			}
		}
		return ""
	}
	m := lastNumber.FindStringSubmatch(s)
	if m == nil || !strings.HasSuffix(m[1], ".") && !strings.HasSuffix(m[1], ",") || len(m[2]) > 6 {
		return ""
	}
	ends := n.endings[m[1]]
	if ends[m[2]+"0"] {
		return ""
	}
	v, err := strconv.Atoi(m[2])
	between := err == nil && v > 0 && ends[strconv.Itoa(10*v-1)] && ends[strconv.Itoa(10*v+1)]
	if n.count[numberKey(s)] > 1 || between || shorter(ends, m[2]) {
		return s + "0"
	}
	return ""
}

// shorter says whether an ending is shorter by one digit than all others, of which there are two or more.
func shorter(ends map[string]bool, own string) bool {
	others := 0
	for e := range ends {
		switch {
		case e == own:
		case len(e) == len(own)+1:
			others++
		default:
			return false
		}
	}
	return others >= 2
}
