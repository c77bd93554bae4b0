package logger

import (
	"fmt"
	"time"
)

// rule says when clocks change in a region. Sources: Directive 2000/84/EC, art. 2 and 3 (01:00 UTC on
// the last Sundays of March and October); Energy Policy Act of 2005, sec. 110 (02:00 local time on the
// second Sunday of March and the first of November).
type rule struct {
	zone             string
	springs, autumns time.Month
	second           bool // the second Sunday in spring and the first in autumn, not the last ones
	hour             int64
	back             int64 // hour that is shown again first in autumn
}

func rules() []rule {
	return []rule{
		{"Europe/Berlin", time.March, time.October, false, 2, 2},
		{"Europe/London", time.March, time.October, false, 1, 1},
		{"Europe/Helsinki", time.March, time.October, false, 3, 3},
		{"America/New_York", time.March, time.November, true, 2, 1},
	}
}

// sunday is the day since 1970 of the Sunday on which clocks change.
func (r rule) sunday(year int, m time.Month) int64 {
	day := time.Date(year, m+1, 0, 0, 0, 0, 0, time.UTC)
	for day.Weekday() != time.Sunday {
		day = day.AddDate(0, 0, -1)
	}
	if r.second {
		day = time.Date(year, m, 1, 0, 0, 0, 0, time.UTC)
		for day.Weekday() != time.Sunday {
			day = day.AddDate(0, 0, 1)
		}
		if m == r.springs {
			day = day.AddDate(0, 0, 7)
		}
	}
	return day.Unix() / 86400
}

// summer looks for the hour that is missing in spring, or repeated in autumn, in a clock whose steps
// are even otherwise. nil when there is none, or when another part of the record contradicts it.
func (t *table) summer() (*time.Location, string) {
	step := t.usual()
	if step <= 0 || step > 3*hourMs || !t.even(step) {
		return nil, ""
	}
	for _, r := range rules() {
		found, forward := -1, false
		for i := 1; i < len(t.list); i++ {
			d := t.list[i].at - t.list[i-1].at
			switch {
			case distance(d, step-hourMs) <= 2000 && r.isAutumn(t.list[i].at):
				found, forward = i, false
			case distance(d, step+hourMs) <= 2000 && r.isSpring(t.list[i-1].at, t.list[i].at):
				if found < 0 {
					found, forward = i, true
				}
			}
		}
		if found < 0 || t.contradicts(r, step) {
			continue
		}
		zone, err := time.LoadLocation(r.zone)
		if err != nil {
			return nil, ""
		}
		what := "back"
		if forward {
			what = "forward"
		}
		return zone, fmt.Sprintf("the clock is put %s by 1 h at line %d, as in %s: read as civil time there; --zone says otherwise", what, t.list[found].line, r.zone)
	}
	return nil, ""
}

// even says whether four in five steps are the usual one.
func (t *table) even(step int64) bool {
	n := 0
	for i := 1; i < len(t.list); i++ {
		if distance(t.list[i].at-t.list[i-1].at, step) <= 2000 {
			n++
		}
	}
	return n*5 >= 4*(len(t.list)-1)
}

// isAutumn says whether a civil time lies in the hour that is shown twice.
func (r rule) isAutumn(ms int64) bool {
	at := time.UnixMilli(ms).UTC()
	from := r.sunday(at.Year(), r.autumns)*dayMs + r.back*hourMs
	return ms >= from && ms < from+hourMs
}

// isSpring says whether the hour that is not shown lies between two civil times.
func (r rule) isSpring(before, after int64) bool {
	at := time.UnixMilli(after).UTC()
	from := r.sunday(at.Year(), r.springs)*dayMs + r.hour*hourMs
	return before < from && after >= from+hourMs && after-before < 6*hourMs
}

// contradicts says whether a reading stands in an hour that the rule leaves out, or whether the clock
// ran through an hour that the rule repeats.
func (t *table) contradicts(r rule, step int64) bool {
	for i := range t.list {
		ms := t.list[i].at
		at := time.UnixMilli(ms).UTC()
		if at.Month() == r.springs {
			if from := r.sunday(at.Year(), r.springs)*dayMs + r.hour*hourMs; ms >= from && ms < from+hourMs {
				return true
			}
		}
		if i > 0 && at.Month() == r.autumns {
			end := r.sunday(at.Year(), r.autumns)*dayMs + (r.back+1)*hourMs
			if last := t.list[i-1].at; last < end && ms >= end && last >= end-hourMs && ms-last <= step+2000 && !t.repeats(i, r) {
				return true
			}
		}
	}
	return false
}

// repeats says whether the clock went back within two hours of readings before i.
func (t *table) repeats(i int, r rule) bool {
	for k := i; k > 0 && t.list[k-1].at >= t.list[i].at-3*hourMs; k-- {
		if t.list[k].at <= t.list[k-1].at && r.isAutumn(t.list[k].at) {
			return true
		}
	}
	return false
}
