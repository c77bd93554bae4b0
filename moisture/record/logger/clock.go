package logger

import (
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/tables/problem"
)

const (
	hourMs = int64(time.Hour / time.Millisecond)
	dayMs  = 24 * hourMs
)

// Years that a logger may have seen.
const firstYear, lastYear = 1950, 2100

// stamped is what became of the dates of a table.
type stamped struct {
	order   dateOrder
	exact   bool // the rows state their offset
	zone    *time.Location
	guesses []string
}

// date turns the stamps of a table into times: as the clock showed them, or instants where the cells
// state their offset. Rows without a possible date are set aside.
func (t *table) date(o Options, a *aside) (stamped, error) {
	var s stamped
	e := newEvidence()
	for i := range t.stamps {
		e.add(&t.stamps[i], int(t.list[i].line))
	}
	order, guess, err := e.decide(t.grid.name, o.Dates)
	if err != nil {
		return s, err
	}
	s.order = order
	if guess != "" {
		s.guesses = append(s.guesses, guess)
	}
	stated, offsets := 0, map[int16]bool{}
	for i := range t.stamps {
		if st := &t.stamps[i]; st.hasZone || st.parts == 1 && st.serial >= 3e8 {
			stated++
			offsets[st.zone] = true
		}
	}
	s.exact = stated*2 > len(t.stamps)
	if s.exact && len(offsets) == 1 {
		for z := range offsets {
			s.zone = fixed(int(z))
		}
	}
	t.place(order, s.exact, a)
	t.stamps = nil
	t.resets(a)
	return s, nil
}

// place gives every reading its time.
func (t *table) place(order dateOrder, exact bool, a *aside) {
	kept := t.list[:0]
	early, late := civilDay(firstYear, 1, 1)*dayMs, civilDay(lastYear+1, 1, 1)*dayMs
	for i, r := range t.list {
		st := &t.stamps[i]
		ms, ok := st.civil(order)
		switch {
		case !ok:
			a.add(t.grid.name, "a date that does not exist or stands in another order", int(r.line))
			continue
		case ms < early || ms >= late:
			a.add(t.grid.name, fmt.Sprintf("a year outside %d to %d: a clock that was not set", firstYear, lastYear), int(r.line))
			continue
		case exact && !st.hasZone && st.parts == 3:
			a.add(t.grid.name, "no offset from UTC, unlike the other rows", int(r.line))
			continue
		}
		if exact {
			ms -= int64(st.zone) * 60000
		}
		r.at = ms
		kept = append(kept, r)
	}
	t.list = kept
}

// civil is the time of a stamp in ms since 1970 on its own clock.
func (st *stamp) civil(o dateOrder) (int64, bool) {
	if st.parts == 1 {
		if st.serial >= 3e8 {
			return int64(math.Round(st.serial * 1000)), true
		}
		return (int64(math.Round(st.serial*86400)) - 25569*86400) * 1000, true // days since 1899-12-30
	}
	d, ok := st.day(o)
	return d*dayMs + st.ms(), ok
}

// resets sets the readings of a clock aside that had gone back to its first day: a lesser part of the
// rows, before the others, that begins on a 1 January, or before 1990.
func (t *table) resets(a *aside) {
	if len(t.list) < 2 {
		return
	}
	times := make([]int64, len(t.list))
	for i := range t.list {
		times[i] = t.list[i].at
	}
	slices.Sort(times)
	const apart = 200 * dayMs
	begin, size, from := 0, 0, 0
	for i := 1; i <= len(times); i++ {
		if i == len(times) || times[i]-times[i-1] > apart {
			if i-begin >= size {
				size, from = i-begin, begin
			}
			begin = i
		}
	}
	main := times[from]
	bad := func(first int64) bool {
		at := time.UnixMilli(first).UTC()
		return at.Year() < 1990 || at.YearDay() == 1 || at.Month() == 1 && at.Day() == 6 && at.Year() == 1980
	}
	limit := int64(math.MinInt64) // readings before it go
	for i := 0; i < from; {
		j := i + 1
		for j < from && times[j]-times[j-1] <= apart {
			j++
		}
		if bad(times[i]) && times[j]-times[j-1] > apart {
			limit = times[j-1] + 1
		}
		i = j
	}
	if limit == math.MinInt64 || limit > main {
		return
	}
	t.list = slices.DeleteFunc(t.list, func(r reading) bool {
		if r.at >= limit {
			return false
		}
		a.add(t.grid.name, fmt.Sprintf("the clock was reset: dates of %d in a record of %d", time.UnixMilli(r.at).UTC().Year(), time.UnixMilli(main).UTC().Year()), int(r.line))
		return true
	})
}

// forward puts the readings in the order of time if most of them run backwards.
func (t *table) forward() {
	back := 0
	for i := 1; i < len(t.list); i++ {
		if t.list[i].at < t.list[i-1].at {
			back++
		}
	}
	if back*2 > len(t.list) {
		slices.Reverse(t.list)
	}
}

// usual is the middle of the steps, ms.
func (t *table) usual() int64 {
	if len(t.list) < 2 {
		return 0
	}
	steps := make([]int64, 0, len(t.list)-1)
	for i := 1; i < len(t.list); i++ {
		steps = append(steps, t.list[i].at-t.list[i-1].at)
	}
	slices.Sort(steps)
	return steps[len(steps)/2]
}

// instants turns civil times into instants in a zone, the readings in file order, oldest first.
func (t *table) instants(zone *time.Location, a *aside) []string {
	var said []string
	civil := make([]int64, len(t.list))
	for i := range t.list {
		civil[i] = t.list[i].at
	}
	step := t.usual()
	c := zoneClock{zone: zone}
	gone := map[int]bool{}
	for i := 0; i < len(civil); {
		at, how := c.at(civil[i])
		if how == record.Once {
			t.list[i].at = at
			i++
			continue
		}
		if how == record.Never {
			gone[i] = true
			a.add(t.grid.name, fmt.Sprintf("a time that no clock in %s showed: it was put forward over it", zone), int(t.list[i].line))
			if len(gone) == 1 {
				said = append(said, fmt.Sprintf("line %d has %s, which did not exist in %s; if the logger kept winter time all the year, give --zone with that offset, such as UTC+01:00",
					t.list[i].line, time.UnixMilli(civil[i]).UTC().Format("2006-01-02 15:04"), zone))
			}
			i++
			continue
		}
		end := i + 1
		for end < len(civil) {
			if _, how := c.at(civil[end]); how != record.Twice || civil[end]-civil[end-1] > 6*hourMs {
				break
			}
			end++
		}
		if s := t.twice(civil, i, end, zone, step); s != "" {
			said = append(said, s)
		}
		i = end
	}
	if len(gone) > 0 {
		kept := t.list[:0]
		for i, r := range t.list {
			if !gone[i] {
				kept = append(kept, r)
			}
		}
		t.list = kept
	}
	return said
}

// twice places readings from the hour that occurs twice: the second pass begins where the clock goes
// back. With one pass only, the more even of the two is taken and said.
func (t *table) twice(civil []int64, from, to int, zone *time.Location, step int64) string {
	second := -1
	for k := from + 1; k < to; k++ {
		if civil[k] <= civil[k-1] {
			second = k
			break
		}
	}
	first := func(ms int64) int64 {
		at, _ := record.Instant(time.UnixMilli(ms).UTC(), zone)
		return at.UnixMilli()
	}
	later := func(ms int64) int64 {
		at, _ := record.LaterInstant(time.UnixMilli(ms).UTC(), zone)
		return at.UnixMilli()
	}
	put := func(a, b int, f func(int64) int64) {
		for k := a; k < b; k++ {
			t.list[k].at = f(civil[k])
		}
	}
	if second >= 0 {
		put(from, second, first)
		put(second, to, later)
		return ""
	}
	uneven := func(f func(int64) int64) (off int64) {
		if from > 0 {
			off += distance(f(civil[from])-t.list[from-1].at, step)
		}
		if to < len(civil) {
			next, _ := record.Instant(time.UnixMilli(civil[to]).UTC(), zone)
			off += distance(next.UnixMilli()-f(civil[to-1]), step)
		}
		return off
	}
	one, two := uneven(first), uneven(later)
	put(from, to, first)
	if two < one {
		put(from, to, later)
	}
	if one != two {
		return ""
	}
	return fmt.Sprintf("the hour that occurs twice in %s stands once, from line %d on: taken as the first of the two", zone, t.list[from].line)
}

func distance(a, b int64) int64 { return max(a-b, b-a) }

// zoneClock turns civil times into instants fast where no change of the clock is near.
type zoneClock struct {
	zone             *time.Location
	from, to, offset int64 // civil ms between which the offset holds
}

func (c *zoneClock) at(civil int64) (int64, record.Occurrence) {
	if civil >= c.from && civil < c.to {
		return civil - c.offset, record.Once
	}
	t, how := record.Instant(time.UnixMilli(civil).UTC(), c.zone)
	if how == record.Once {
		_, o := t.Zone()
		start, end := t.ZoneBounds()
		c.offset, c.from, c.to = int64(o)*1000, math.MinInt64, math.MaxInt64
		if !start.IsZero() {
			c.from = start.UnixMilli() + c.offset + 3*hourMs
		}
		if !end.IsZero() {
			c.to = end.UnixMilli() + c.offset - 3*hourMs
		}
	}
	return t.UnixMilli(), how
}

// zoned gives a table its zone: stated in the file, told by the user, or guessed from the hour that is
// missing or repeated in a civil clock.
func (t *table) zoned(s *stamped, o Options, a *aside) {
	t.forward()
	if s.exact {
		return
	}
	zone := t.layout.zone(t.grid)
	if zone == nil {
		zone = o.Zone
	}
	if zone == nil {
		var why string
		if zone, why = t.summer(); zone != nil {
			s.guesses = append(s.guesses, why)
		}
	}
	if zone == nil {
		return
	}
	s.zone, s.exact = zone, true
	s.guesses = append(s.guesses, t.instants(zone, a)...)
}

// mixedZones refuses files of which some state their zone and others do not.
func mixedZones(known, unknown string) error {
	return problem.List{{File: unknown, Part: "time", Msg: fmt.Sprintf("its clock states no zone, that of %s does", known),
		Hint: "say with --zone where the clocks without one stood, such as --zone Europe/Berlin or --zone UTC+01:00"}}.Err()
}
