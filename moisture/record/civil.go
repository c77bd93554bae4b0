package record

import (
	"slices"
	"time"
)

// Occurrence says how often a civil time occurs where summer time begins or ends.
type Occurrence int

// How often a civil time occurs.
const (
	Once  Occurrence = iota
	Twice            // the clock was put back: the same reading of the clock came again
	Never            // the clock was put forward over it
)

func (o Occurrence) String() string {
	return [...]string{"once", "twice", "not at all"}[o]
}

// Instant returns the instant at which clocks in loc showed the date and time of civil (whose own
// zone is not regarded), and how often they showed it. Twice gives the first of the two instants,
// [LaterInstant] the other; Never gives the instant at which a clock that was not put forward would
// have shown it. [time.Date] answers in all three cases without saying which it is.
func Instant(civil time.Time, loc *time.Location) (time.Time, Occurrence) {
	found, before := instants(civil, loc)
	switch len(found) {
	case 0:
		return before, Never
	case 1:
		return found[0], Once
	}
	return found[0], Twice
}

// LaterInstant is [Instant] with the last of the instants of a civil time that occurs twice.
func LaterInstant(civil time.Time, loc *time.Location) (time.Time, Occurrence) {
	if found, _ := instants(civil, loc); len(found) > 1 {
		return found[len(found)-1], Twice
	}
	return Instant(civil, loc)
}

// instants tries every offset that loc has within 26 h of the civil time, and keeps those that give
// the civil time back.
func instants(civil time.Time, loc *time.Location) (found []time.Time, before time.Time) {
	wall := time.Date(civil.Year(), civil.Month(), civil.Day(), civil.Hour(), civil.Minute(), civil.Second(),
		civil.Nanosecond(), time.UTC)
	const reach = 26 * time.Hour // no offset is as large
	var offsets []int
	for t := wall.Add(-reach).In(loc); ; {
		_, o := t.Zone()
		offsets = append(offsets, o)
		_, end := t.ZoneBounds()
		if end.IsZero() || end.After(wall.Add(reach)) {
			break
		}
		t = end
	}
	before = wall.Add(-time.Duration(offsets[0]) * time.Second).In(loc)
	slices.Sort(offsets)
	for _, o := range slices.Compact(offsets) {
		t := wall.Add(-time.Duration(o) * time.Second).In(loc)
		if _, got := t.Zone(); got == o {
			found = append(found, t)
		}
	}
	slices.SortFunc(found, time.Time.Compare)
	return found, before
}

// Civil returns the time of reading i as clocks at the place show it: in Zone, or as it stands.
func (r *Record) Civil(i int) time.Time {
	if r.Zone == nil {
		return r.Times[i]
	}
	return r.Times[i].In(r.Zone)
}

// zone returns where calendar days and months are counted.
func (r *Record) zone() *time.Location {
	switch {
	case r.Zone != nil:
		return r.Zone
	case len(r.Times) > 0:
		return r.Times[0].Location()
	}
	return time.UTC
}

// local returns civil time as ms since 1970 on the clock of the place, for instants in ms. It asks
// the zone only where its offset changes.
func (r *Record) local() func(ms int64) int64 {
	zone := r.zone()
	var from, to, offset int64
	known := false
	return func(ms int64) int64 {
		if !known || ms < from || ms >= to {
			t := time.UnixMilli(ms).In(zone)
			_, o := t.Zone()
			start, end := t.ZoneBounds()
			from, to, offset, known = -1<<62, 1<<62, int64(o)*1000, true
			if !start.IsZero() {
				from = start.UnixMilli()
			}
			if !end.IsZero() {
				to = end.UnixMilli()
			}
		}
		return ms + offset
	}
}
