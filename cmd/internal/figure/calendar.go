package figure

import "time"

// dayAt is the moment at a number of days after start.
func dayAt(start time.Time, days float64) time.Time {
	return start.Add(time.Duration(days * 24 * float64(time.Hour)))
}

// date writes a day as it stands in text: 4 Mar 2025.
func date(t time.Time) string { return t.Format("2 Jan 2006") }

// calendar is an axis of days since start: by months, or by days or hours where it is short.
func calendar(start time.Time, lo, hi float64) axis {
	if hi-lo > 75 {
		return months(start, lo, hi)
	}
	a := axis{name: date(dayAt(start, lo)), lo: lo, hi: hi}
	if last := date(dayAt(start, hi)); last != a.name {
		a.name += " to " + last
	}
	midnight := time.Date(start.Year(), start.Month(), start.Day(), 0, 0, 0, 0, start.Location())
	first := midnight.Sub(start).Hours() / 24
	if hi-lo < 3 {
		for _, d := range ticks(lo-first, hi-first, hourStep(hi-lo)) {
			a.ticks = append(a.ticks, first+d)
		}
		a.write = func(v float64) string { return dayAt(start, v+1e-6).Format("15:04") }
		return a
	}
	every := 1.0
	for (hi-lo)/every > 12 {
		every++
	}
	for _, d := range ticks(lo-first, hi-first, every) {
		a.ticks = append(a.ticks, first+d)
	}
	a.write = func(v float64) string { return dayAt(start, v+1e-6).Format("2 Jan") }
	return a
}

// hourStep is a round part of a day, so that at most eight fit.
func hourStep(days float64) float64 {
	for _, h := range [...]float64{0.25, 0.5, 1, 2, 3, 6, 12} {
		if 24*days/h <= 8 {
			return h / 24
		}
	}
	return 1
}
