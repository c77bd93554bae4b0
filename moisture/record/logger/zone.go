package logger

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// zoneWords finds an offset such as UTC+02:00, GMT-5 or UTC alone.
var zoneWords = regexp.MustCompile(`(?i)\b(?:utc|gmt)\s*(?:([+\-−])\s*(\d{1,2})(?::?(\d{2}))?)?`)

// bareOffset finds +02:00 beside a word for zone.
var bareOffset = regexp.MustCompile(`([+\-−])(\d{1,2}):?(\d{2})?\b`)

// zoneNames finds a name such as Europe/Berlin.
var zoneNames = regexp.MustCompile(`\b(Africa|America|Antarctica|Asia|Atlantic|Australia|Europe|Indian|Pacific)/[A-Za-z_]+(?:/[A-Za-z_]+)?\b`)

// shortZone finds a short name that stands for one offset only, in brackets or after a comma.
var shortZone = regexp.MustCompile(`\b(CET|MEZ|CEST|MESZ|EET|EEST|BST|EST|EDT|CST|CDT|MST|MDT|PST|PDT)\b`)

// zone finds the zone that a table states in its head or above it.
func (l *layout) zone(g *grid) *time.Location {
	for _, c := range l.date {
		if c < len(l.head) {
			if z := zoneIn(l.head[c], true); z != nil {
				return z
			}
		}
	}
	for i := range min(l.first, 200) {
		text := strings.Join(g.names(i), " ")
		low := fold(text)
		about := false
		for _, w := range [...]string{"zone", "zeitzone", "tijdzone", "fuseau", "fuso", "zona", "tidszon", "tidszone", "aikavyohyke", "utc", "gmt", "offset"} {
			about = about || strings.Contains(low, w)
		}
		if about {
			if z := zoneIn(text, strings.Contains(low, "zon") || strings.Contains(low, "fus") || strings.Contains(low, "offset")); z != nil {
				return z
			}
		}
	}
	return nil
}

// zoneIn reads a zone out of words; about says that they speak of a zone for certain.
func zoneIn(s string, about bool) *time.Location {
	if name := zoneNames.FindString(s); name != "" {
		if z, err := time.LoadLocation(name); err == nil {
			return z
		}
	}
	s = strings.ReplaceAll(s, "_", " ")
	m, bare := zoneWords.FindStringSubmatch(s), bareOffset.FindStringSubmatch(s)
	if m != nil && (m[1] != "" || !about || bare == nil) {
		return offsetZone(m)
	}
	if !about {
		return nil
	}
	if name := shortZone.FindString(s); name != "" {
		minutes, _ := zoneName(name)
		return fixed(minutes)
	}
	if low := fold(s); bare != nil && (strings.Contains(low, "zon") || strings.Contains(low, "offset") || m != nil) {
		return offsetZone(bare)
	}
	return nil
}

func offsetZone(m []string) *time.Location {
	if m[1] == "" {
		return time.UTC
	}
	h, _ := strconv.Atoi(m[2])
	n, _ := strconv.Atoi(m[3])
	if h > 14 || n > 59 {
		return nil
	}
	if m[1] != "+" {
		h, n = -h, -n
	}
	return fixed(60*h + n)
}

// fixed is the zone so many minutes east of UTC.
func fixed(minutes int) *time.Location {
	if minutes == 0 {
		return time.UTC
	}
	sign, m := '+', minutes
	if minutes < 0 {
		sign, m = '-', -minutes
	}
	return time.FixedZone(fmt.Sprintf("UTC%c%02d:%02d", sign, m/60, m%60), 60*minutes)
}
