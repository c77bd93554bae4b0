package report

import (
	"math"
	"strings"
	"time"
)

// civilForm is a time without a zone, as it stands in the file.
const civilForm = "2006-01-02T15:04:05"

// momentOf reads a time of the document.
func momentOf(s string) (time.Time, bool) {
	for _, form := range [...]string{time.RFC3339, civilForm} {
		if t, err := time.Parse(form, s); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// dateWords writes a time of the document as a day: 4 Mar 2025.
func dateWords(s string) string {
	if t, ok := momentOf(s); ok {
		return t.Format("2 Jan 2006")
	}
	return s
}

// timeWords writes a time of the document with the hour: 4 Mar 2025, 14:00.
func timeWords(s string) string {
	if t, ok := momentOf(s); ok {
		return t.Format("2 Jan 2006, 15:04")
	}
	return s
}

// monthWords writes 2011-02 as February 2011.
func monthWords(s string) string {
	if t, err := time.Parse("2006-01", s); err == nil {
		return t.Format("January 2006")
	}
	return s
}

// lengthWords writes a time in hours below two days, else in days.
func lengthWords(hours float64) string {
	switch {
	case math.IsNaN(hours):
		return "–"
	case hours < 1.5:
		return say("length.minutes", "n", whole(60*hours))
	case hours < 48:
		return say("length.hours", "n", whole(hours))
	}
	return say("length.days", "n", whole(hours/24))
}

// ofHundred writes a share in per cent as a whole number of 100 that never hides a rest.
func ofHundred(pct float64) string {
	switch {
	case math.IsNaN(pct):
		return "–"
	case pct > 0 && pct < 0.5:
		return say("of100.under")
	case pct > 99.5 && pct < 100-1e-9:
		return say("of100.over")
	}
	return say("of100.n", "n", whole(pct))
}

// pointsWords writes a number of points of RH, or of K, with one decimal.
func pointsWords(v *float64) string {
	if v == nil {
		return "–"
	}
	return fixedOne(*v)
}

// fixedOne gives a number with one decimal.
func fixedOne(v float64) string {
	s := oneDecimal(v)
	if s != "–" && !strings.Contains(s, ".") {
		s += ".0"
	}
	return s
}

// fileWords is the name of a file without its folders.
func fileWords(path string) string {
	if i := strings.LastIndexAny(path, `/\`); i >= 0 {
		path = path[i+1:]
	}
	return plainLine(path)
}

// title is the name of the first file, or how many there are.
func (r RoomRecord) title() string {
	name := ""
	if len(r.Files) > 0 {
		name = fileWords(r.Files[0].Name)
	}
	if n := len(r.Files); n > 1 {
		name = say("record.doc.files", "file", name, "n", whole(float64(n-1)))
	}
	if r.Channel != "" {
		return say("record.doc.channel", "name", name, "channel", plainLine(r.Channel))
	}
	return name
}

// about says in one line how long the record is.
func (r RoomRecord) about() string {
	s := say("record.doc.about", "rows", whole(float64(r.Rows)), "first", timeWords(r.First), "last", timeWords(r.Last),
		"step", stepWords(r.IntervalS))
	if r.Zone == "" {
		return s + " " + say("record.doc.nozone")
	}
	return s + " " + say("record.doc.zone", "zone", r.Zone)
}

// coverWords says for how much of the time readings stand.
func (r RoomRecord) coverWords() string {
	if r.CoveredPct >= 100-1e-9 {
		return say("record.doc.covered.all")
	}
	return say("record.doc.covered", "n", ofHundred(r.CoveredPct))
}

// stepWords writes the usual step.
func stepWords(seconds float64) string {
	switch {
	case seconds < 120:
		return say("step.seconds", "n", whole(seconds))
	case seconds < 7200 && seconds != 3600:
		return say("step.minutes", "n", oneDecimal(seconds/60))
	case seconds == 3600:
		return say("step.hour")
	}
	return say("step.hours", "n", oneDecimal(seconds/3600))
}

// basis says how it was read, in one line.
func (r RoomRecord) basis() string {
	n := 0
	for _, s := range r.SetAside {
		n += s.Count
	}
	return r.coverWords() + " " + plural("record.doc.aside", n) + " " +
		plural("record.doc.guess", len(r.Guesses))
}
