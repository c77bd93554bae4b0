package logger

import (
	"math"
	"strings"
)

// stamp is a date and a time as they stand in a cell, their order not yet decided.
type stamp struct {
	n       [3]int32 // date numbers in the order written
	digits  [3]int8
	parts   int8 // of the date: 0 or 3; 1 for a day number or seconds
	name    int8 // place of the month written as a name, -1 for none
	h, m    int8
	s       float64
	ampm    int8 // 0 none, 1 before noon, 2 after
	clock   bool // a time of day stands there
	zone    int16
	hasZone bool
	serial  float64 // a day number or seconds since 1970
}

// read takes a cell apart; false when it is no date, time or day number. decimal is the sign of
// decimals in the file.
func (st *stamp) read(b []byte, decimal byte) bool {
	*st = stamp{name: -1}
	if len(b) == 0 || len(b) > 48 {
		return false
	}
	if b[0] >= '0' && b[0] <= '9' || b[0] >= 'A' && b[0] <= 'z' {
		if v, ok := plain(b, decimal); ok {
			return st.packed(b, v)
		}
		return st.written(b)
	}
	return false
}

// packed reads what has no signs in it: yyyymmdd, yyyymmddhhmm, hhmm is not one; seconds since 1970;
// day numbers.
func (st *stamp) packed(b []byte, v float64) bool {
	whole := v == math.Trunc(v) && !strings.ContainsAny(string(b), ".,")
	if whole && b[0] != '-' && b[0] != '+' {
		switch n := len(b); n {
		case 8, 10, 12, 14:
			if y := int(v / pow10[n-4]); y >= 1980 && y <= 2100 {
				if st.run(b) {
					return true
				}
			}
		}
		switch {
		case v >= 3e8 && v < 5e9:
			st.parts, st.serial = 1, v
			return true
		case v >= 3e11 && v < 5e12:
			st.parts, st.serial = 1, v/1000
			return true
		}
	}
	if v >= 3e8 && v < 5e9 && !whole {
		st.parts, st.serial = 1, v
		return true
	}
	if v >= 20000 && v < 80000 && b[0] != '0' {
		st.parts, st.serial = 1, v
		return true
	}
	return false
}

// run reads digits in a row, the year first.
func (st *stamp) run(b []byte) bool {
	d := func(i, n int) int32 {
		var v int32
		for _, c := range b[i : i+n] {
			v = 10*v + int32(c-'0')
		}
		return v
	}
	st.n, st.digits, st.parts = [3]int32{d(0, 4), d(4, 2), d(6, 2)}, [3]int8{4, 2, 2}, 3
	if st.n[1] < 1 || st.n[1] > 12 || st.n[2] < 1 || st.n[2] > 31 {
		return false
	}
	if len(b) >= 10 {
		st.clock = true
		st.h = int8(d(8, 2))
	}
	if len(b) >= 12 {
		st.m = int8(d(10, 2))
	}
	if len(b) == 14 {
		st.s = float64(d(12, 2))
	}
	return st.h <= 24 && st.m < 60 && st.s < 61
}

// written reads a date, a time or both with signs and names between the numbers.
func (st *stamp) written(b []byte) bool {
	i, k := 0, 0
	for i < len(b) {
		c := b[i]
		switch {
		case c >= '0' && c <= '9':
			j, v := i, int32(0)
			for j < len(b) && b[j] >= '0' && b[j] <= '9' && j-i < 9 {
				v = 10*v + int32(b[j]-'0')
				j++
			}
			n := int8(j - i)
			switch {
			case j < len(b) && (b[j] == ':' || (b[j] == 'h' || b[j] == 'H') && k >= 3 || b[j] == '.' && k >= 3 && !st.clock):
				e := st.time(b, i)
				if e < 0 {
					return false
				}
				i = e
				continue
			case k < 3 && n <= 4:
				st.n[k], st.digits[k] = v, n
				k++
			case k == 0 && n == 8:
				if !st.run(b[i:j]) {
					return false
				}
				k = 3
			case k == 3 && !st.clock && (n == 4 || n == 6 || n == 3): // a packed time
				h, m := int8(v/100), int8(v%100)
				if n == 6 {
					h, m, st.s = int8(v/10000), int8(v/100%100), float64(v%100)
				}
				if h > 24 || m > 59 {
					return false
				}
				st.h, st.m, st.clock = h, m, true
			case k == 3 && !st.clock && n <= 2 && v <= 24: // an hour alone, as in "3 PM"
				st.h, st.clock = int8(v), true
			default:
				return false
			}
			i = j
		case c == 'T' || c == 't':
			if i > 0 && b[i-1] >= '0' && b[i-1] <= '9' && i+1 < len(b) && b[i+1] >= '0' && b[i+1] <= '9' {
				i++
				continue
			}
			e := st.word(b, i, &k)
			if e < 0 {
				return false
			}
			i = e
		case st.clock && (c == 'Z' || c == 'z') && (i+1 == len(b) || b[i+1] == ' '):
			st.zone, st.hasZone = 0, true
			i++
		case st.clock && (c == '+' || c == '-') && i+1 < len(b) && b[i+1] >= '0' && b[i+1] <= '9':
			e := st.offset(b, i)
			if e < 0 {
				return false
			}
			i = e
		case c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= 0x80:
			e := st.word(b, i, &k)
			if e < 0 {
				return false
			}
			i = e
		case c == '/' || c == '-' || c == '.' || c == ' ' || c == ',' || c == '\t' || c == '_' || c == '(' || c == ')' || c == '\'' || c == ';':
			i++
		default:
			return false
		}
	}
	if k != 0 && k != 3 {
		return false
	}
	st.parts = int8(k)
	return k == 3 || st.clock
}

// time reads h:m[:s[.f]] from i on and returns where it ends; -1 for none.
func (st *stamp) time(b []byte, i int) int {
	if st.clock {
		return -1
	}
	part := func() (v, n int) {
		for i < len(b) && b[i] >= '0' && b[i] <= '9' {
			v = 10*v + int(b[i]-'0')
			i++
			n++
		}
		return v, n
	}
	h, n := part()
	if n == 0 || n > 2 || h > 24 {
		return -1
	}
	i++ // the sign
	m, n := part()
	if n == 0 || n > 2 || m > 59 {
		return -1
	}
	st.h, st.m, st.clock = int8(h), int8(m), true
	if i < len(b) && (b[i] == ':' || b[i] == '.' || b[i] == 'm') && i+1 < len(b) && b[i+1] >= '0' && b[i+1] <= '9' {
		i++
		s, n := part()
		if n == 0 || n > 2 || s > 60 {
			return -1
		}
		st.s = float64(s)
		if i < len(b) && (b[i] == '.' || b[i] == ',' || b[i] == ':') {
			i++
			f, n := part()
			if n > 0 && n < 10 {
				st.s += float64(f) / pow10[n]
			}
		}
	}
	return i
}

// offset reads +hh[:mm] or +hhmm.
func (st *stamp) offset(b []byte, i int) int {
	sign := int16(1)
	if b[i] == '-' {
		sign = -1
	}
	i++
	v, n := 0, 0
	for i < len(b) && n < 4 && b[i] >= '0' && b[i] <= '9' {
		v = 10*v + int(b[i]-'0')
		i++
		n++
	}
	if n <= 2 {
		v *= 100
		if i+2 < len(b) && b[i] == ':' {
			v += int(b[i+1]-'0')*10 + int(b[i+2]-'0')
			i += 3
		}
	}
	if v/100 > 14 || v%100 > 59 {
		return -1
	}
	st.zone, st.hasZone = sign*int16(v/100*60+v%100), true
	return i
}

// word reads a name of a month or a day, am or pm, or a zone.
func (st *stamp) word(b []byte, i int, k *int) int {
	j := i
	for j < len(b) && (b[j] >= 'A' && b[j] <= 'Z' || b[j] >= 'a' && b[j] <= 'z' || b[j] >= 0x80 || b[j] == '.' && j+1 < len(b) && b[j+1] >= 'a' && b[j+1] <= 'z') {
		j++
	}
	w := strings.TrimSuffix(fold(string(b[i:j])), ".")
	if j-i > len(w) && w == "a" || w == "m" && st.ampm != 0 { // à; the end of a. m.
		return j
	}
	switch w {
	case "am", "a m", "a":
		st.ampm = 1
		return j
	case "pm", "p m", "p":
		st.ampm = 2
		return j
	case "t", "um", "at", "uhr", "h", "de", "of", "o clock", "kl", "klo", "ore", "th", "st", "nd", "rd", "":
		return j
	case "utc", "gmt":
		if st.clock {
			st.hasZone = true
		}
		return j
	}
	if z, ok := zoneName(w); ok && st.clock {
		st.zone, st.hasZone = int16(z), true
		return j
	}
	if m := monthName(w); m > 0 && st.name < 0 && *k < 3 {
		st.name, st.n[*k], st.digits[*k] = int8(*k), int32(m), 2
		*k++
		return j
	}
	if dayName(w) {
		return j
	}
	return -1
}

// monthName returns 1 to 12 for the name of a month in one of many languages, whole or cut to three
// letters or more; 0 for another word.
func monthName(w string) int {
	if len(w) < 3 {
		return 0
	}
	w = strings.TrimSuffix(w, "ta") // as in tammikuuta
	for m, names := range [...]string{
		"january januar janvier gennaio enero januari janeiro tammikuu styczen stycznia leden ledna janv gen ene tammi sty led",
		"february februar fevrier febbraio febrero februari fevereiro helmikuu luty lutego unor unora fev helmi lut uno",
		"march marz mars marts marzo maart marco maaliskuu marzec marca brezen brezna mrt maa mrz bre",
		"april avril aprile abril huhtikuu kwiecien kwietnia duben dubna avr abr huhti kwi dub",
		"may mai maggio mayo mei maj maja maio toukokuu kveten kvetna mag touko kve",
		"june juni juin giugno junio junho kesakuu czerwiec czerwca cerven cervna giu kesa cze",
		"july juli juillet luglio julio julho heinakuu lipiec lipca cervenec cervence juil lug heina lip",
		"august aout agosto augustus augusti elokuu sierpien sierpnia srpen srpna aou ago elo sie srp",
		"september septembre settembre septiembre setembro syyskuu wrzesien wrzesnia zari set syys wrz zar",
		"october oktober octobre ottobre octubre outubro lokakuu pazdziernik pazdziernika rijen rijna okt ott out loka paz rij",
		"november novembre noviembre novembro marraskuu listopad listopada marras lis",
		"december dezember decembre dicembre diciembre dezembro joulukuu grudzien grudnia prosinec prosince dez dic joulu gru pro",
	} {
		for name := range strings.SplitSeq(names, " ") {
			if name == w || len(name) > 3 && strings.HasPrefix(name, w) && !(w == "mar" && m != 2) && !(w == "lis" && m != 10) {
				return m + 1
			}
		}
	}
	return 0
}

// dayName recognises the name of a day, which says nothing new.
func dayName(w string) bool {
	switch w {
	case "mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri", "sat", "sun", "mo", "di", "mi", "do", "fr", "sa", "so", "lun", "mar", "mer", "jeu", "ven", "sam", "dim",
		"gio", "sab", "dom", "mie", "jue", "vie", "ma", "wo", "vr", "za", "zo", "ons", "tor", "tors", "fre", "lor", "son", "man", "tir":
		return true
	}
	return len(w) > 5 && (strings.HasSuffix(w, "day") || strings.HasSuffix(w, "tag") || strings.HasSuffix(w, "di") || w == "mittwoch" || w == "dimanche" || w == "domenica" || w == "sabato")
}

// zoneName returns the minutes east of UTC of a zone by its usual short name.
func zoneName(w string) (int, bool) {
	switch strings.ToLower(w) {
	case "utc", "gmt", "z", "wet":
		return 0, true
	case "cet", "mez", "bst", "west":
		return 60, true
	case "cest", "mesz", "eet", "oez":
		return 120, true
	case "eest", "msk":
		return 180, true
	case "est":
		return -300, true
	case "edt":
		return -240, true
	case "cst":
		return -360, true
	case "cdt":
		return -300, true
	case "mst":
		return -420, true
	case "mdt":
		return -360, true
	case "pst":
		return -480, true
	case "pdt":
		return -420, true
	}
	return 0, false
}
