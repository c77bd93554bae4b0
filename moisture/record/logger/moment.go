package logger

import (
	"slices"

	"crossgrain/tables/problem"
)

// findMoment finds the columns of date and time, by what their cells hold and by their names.
func (l *layout) findMoment(g *grid, mean []quantity, width int) error {
	type tally struct{ whole, clock, serial, all int }
	cols := make([]tally, width)
	var cells [][]byte
	var st stamp
	for _, i := range g.sample() {
		if i < l.first {
			continue
		}
		cells = g.split(i, cells)
		if s, n, _ := look(cells, l.decimal); s == 0 || n == 0 && len(cells) != width {
			continue
		}
		for c := range min(width, len(cells)) {
			cols[c].all++
			if !st.read(cells[c], l.decimal) {
				continue
			}
			switch {
			case st.parts == 3:
				cols[c].whole++
			case st.parts == 1:
				cols[c].serial++
			default:
				cols[c].clock++
			}
		}
	}
	pick := func(count func(tally) int, like ...quantity) int {
		best := -1
		for c := range cols {
			if cols[c].all == 0 || count(cols[c])*10 < cols[c].all*6 {
				continue
			}
			named := c < len(mean) && slices.Contains(like, mean[c])
			if best < 0 || named && !(best < len(mean) && slices.Contains(like, mean[best])) {
				best = c
			}
		}
		return best
	}
	date := pick(func(t tally) int { return t.whole }, moment, dateOnly)
	clock := pick(func(t tally) int { return t.clock }, clockOnly, moment)
	if date >= 0 {
		l.date = []int{date}
		for i := date + 1; i <= date+1 && i < width; i++ { // am or pm in a cell of its own
			if clock < 0 && l.halfDay(g, i) {
				l.date = append(l.date, i)
			}
		}
		if clock >= 0 && !l.hasClock(g, date) {
			l.date = append(l.date, clock)
			if clock+1 < width && l.halfDay(g, clock+1) {
				l.date = append(l.date, clock+1)
			}
		} else if clock < 0 && !l.hasClock(g, date) {
			l.packedClock(g, mean, date, width)
		}
		return nil
	}
	if c := pick(func(t tally) int { return t.serial }, moment, dateOnly); c >= 0 {
		l.date = []int{c}
		return nil
	}
	for c, q := range mean {
		switch q {
		case yearPart, monthPart, dayPart, hourPart, minutePart, dayOfYear:
			if _, had := l.parts[q]; !had {
				l.parts[q] = c
			}
		}
	}
	_, y := l.parts[yearPart]
	_, d := l.parts[dayPart]
	_, j := l.parts[dayOfYear]
	if y && (d || j) {
		return nil
	}
	return problem.List{{File: g.name, Line: g.number(l.first), Part: "time",
		Msg: "no column holds dates that can be read", Hint: "dates such as 2024-03-31 14:00 or 31.03.2024 14:00 are read in any common form"}}.Err()
}

// hasClock says whether the cells of a column hold a time of day.
func (l *layout) hasClock(g *grid, c int) bool {
	var st stamp
	cells := g.split(l.first, nil)
	return c < len(cells) && st.read(cells[c], l.decimal) && st.clock
}

func (l *layout) halfDay(g *grid, c int) bool {
	cells := g.split(l.first, nil)
	if c >= len(cells) {
		return false
	}
	s := fold(string(cells[c]))
	return s == "am" || s == "pm" || s == "a m" || s == "p m"
}

// packedClock takes a column of hours such as 0015 or 1430 beside a date.
func (l *layout) packedClock(g *grid, mean []quantity, date, width int) {
	c := date + 1
	if c >= width {
		return
	}
	for k, q := range mean {
		if q == clockOnly || q == hourPart {
			c = k
		}
	}
	cells := g.split(l.first, nil)
	named := c < len(mean) && (mean[c] == clockOnly || mean[c] == hourPart)
	if c < len(cells) && digitsOnly(cells[c]) && (named || len(cells[c]) == 4 || len(cells[c]) == 6) {
		l.date = append(l.date, c)
	}
}

func digitsOnly(b []byte) bool {
	for _, c := range b {
		if c < '0' || c > '9' {
			return false
		}
	}
	return len(b) > 0
}

// events moves the first row of data up to those below the head that have a time but no values.
func (l *layout) events(g *grid) {
	if l.headRow < 0 {
		return
	}
	var st stamp
	var cells [][]byte
	var buf []byte
	for i := l.headRow + 1; i < l.first; i++ {
		cells = g.split(i, cells)
		if buf = l.moment(cells, buf, &st); st.parts != 0 {
			l.first = i
			return
		}
	}
}
