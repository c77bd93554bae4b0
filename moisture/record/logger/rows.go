package logger

import (
	"bytes"
	"math"
	"slices"
)

// reading is one row of a table as numbers.
type reading struct {
	at         int64 // ms since 1970: as the clock showed it, then as an instant
	line       int32
	file       int32
	channel    int32
	rh, t, dew float64 // as written; NaN for none
}

// table is what one grid holds.
type table struct {
	grid     *grid
	layout   *layout
	channels []string
	stamps   []stamp // of list, until the order of the dates is known
	list     []reading
	heads    []int // lines on which the head stands again
	lines    int   // rows of data
}

// Reasons for setting rows aside.
const (
	noMoment   = "no date and time that can be read"
	noValues   = "no value for humidity and temperature"
	noHumidity = "no value for humidity"
	noWarmth   = "no value for temperature"
	notNumber  = "text where humidity or temperature should stand"
	zeroBytes  = "zero bytes in the line, as after a flat battery"
	shortRow   = "fewer cells than the head"
)

// aside counts rows that are not taken.
type aside struct{ list []SetAside }

func (a *aside) add(file, reason string, line int) {
	k := slices.IndexFunc(a.list, func(s SetAside) bool { return s.File == file && s.Reason == reason })
	if k < 0 {
		k = len(a.list)
		a.list = append(a.list, SetAside{File: file, Reason: reason})
	}
	s := &a.list[k]
	s.Count++
	if len(s.Lines) < 3 {
		s.Lines = append(s.Lines, line)
	}
}

// read takes the rows of a grid apart. Rooms of a wide table become channels, and so do the names in a
// column of places.
func (l *layout) read(g *grid, a *aside) *table {
	t := &table{grid: g, layout: l}
	if l.kind >= 0 {
		t.long(a)
		return t
	}
	for _, r := range l.rooms {
		t.channels = append(t.channels, r.name)
	}
	return t
}

// take reads the rows of one room of a wide table, or of all places of a table with a column of them.
func (t *table) take(room int, a *aside) {
	l, g, r := t.layout, t.grid, t.layout.rooms[room]
	places := map[string]int32{}
	if l.place >= 0 {
		t.channels = nil
	}
	t.list = make([]reading, 0, g.len()-l.first)
	t.stamps = make([]stamp, 0, g.len()-l.first)
	t.each(a, func(line int, cells [][]byte, st *stamp) {
		t.lines++
		v := reading{line: int32(line), dew: math.NaN()}
		var wh, wt worth
		v.rh, wh = l.cell(cells, r.rh)
		v.t, wt = l.cell(cells, r.t)
		if r.dew >= 0 {
			v.dew, _ = l.cell(cells, r.dew)
		}
		if math.IsNaN(v.rh) {
			a.add(g.name, reason(wh, wt, r), line)
			return
		}
		if wt == isNoise && r.t >= 0 {
			a.add(g.name, notNumber, line)
			return
		}
		if l.place >= 0 && l.place < len(cells) {
			v.channel = t.channel(places, cells[l.place])
		}
		t.list, t.stamps = append(t.list, v), append(t.stamps, *st)
	})
}

// reason names what a row without humidity lacks.
func reason(wh, wt worth, r room) string {
	switch {
	case wh == isNoise:
		return notNumber
	case wt == isMissing && r.t >= 0:
		return noValues
	}
	return noHumidity
}

func (t *table) channel(places map[string]int32, name []byte) int32 {
	id, ok := places[string(name)]
	if !ok {
		id = int32(len(t.channels))
		places[string(name)] = id
		t.channels = append(t.channels, string(name))
	}
	return id
}

// cell returns the number of a cell, NaN for none.
func (l *layout) cell(cells [][]byte, c int) (float64, worth) {
	if c < 0 || c >= len(cells) {
		return math.NaN(), isMissing
	}
	v, w := number(cells[c], l.decimal)
	if w != isNumber {
		return math.NaN(), w
	}
	return v, w
}

// each calls f for every row of data whose moment can be read.
func (t *table) each(a *aside, f func(line int, cells [][]byte, st *stamp)) {
	l, g := t.layout, t.grid
	var cells [][]byte
	var buf []byte
	var st stamp
	for i := l.first; i < g.len(); i++ {
		line := g.number(i)
		if g.rows == nil {
			text := g.line(i)
			if len(bytes.TrimSpace(text)) == 0 {
				continue
			}
			if bytes.IndexByte(text, 0) >= 0 {
				t.lines++
				a.add(g.name, zeroBytes, line)
				continue
			}
		}
		cells = g.split(i, cells)
		buf = l.moment(cells, buf, &st)
		if st.parts != 0 {
			f(line, cells, &st)
			continue
		}
		switch {
		case blank(cells):
		case l.again(cells):
			t.heads = append(t.heads, line)
		case g.commented(i):
		default:
			a.add(g.name, noMoment, line)
		}
	}
}

func blank(cells [][]byte) bool {
	for _, c := range cells {
		if len(c) > 0 {
			return false
		}
	}
	return true
}

func (g *grid) commented(i int) bool {
	if g.rows != nil {
		return false
	}
	_, was := uncommented(g.line(i))
	return was && g.line(i)[0] != ';' && g.line(i)[0] != '\''
}

// again says whether a row is the head once more.
func (l *layout) again(cells [][]byte) bool {
	names := make([]string, len(cells))
	for i, c := range cells {
		names[i] = string(c)
	}
	return headScore(names) >= 5 || len(l.head) > 1 && slices.Equal(names, l.head)
}

// moment puts the cells of date and time together; st.parts is 0 when they cannot be read.
func (l *layout) moment(cells [][]byte, buf []byte, st *stamp) []byte {
	st.parts = 0
	if len(l.date) == 0 {
		l.fromParts(cells, st)
		return buf
	}
	buf = buf[:0]
	for k, c := range l.date {
		if c >= len(cells) {
			return buf
		}
		if len(l.date) == 1 {
			if !st.read(cells[c], l.decimal) {
				st.parts = 0
			}
			return buf
		}
		if k > 0 {
			buf = append(buf, ' ')
		}
		buf = append(buf, cells[c]...)
	}
	if !st.read(buf, l.decimal) {
		st.parts = 0
	}
	return buf
}

// fromParts reads year, month, day, hour and minute from columns of their own.
func (l *layout) fromParts(cells [][]byte, st *stamp) {
	part := func(q quantity, lo, hi int) (int, bool) {
		c, ok := l.parts[q]
		if !ok {
			return lo, true
		}
		v, w := l.cell(cells, c)
		return int(v), w == isNumber && v == math.Trunc(v) && int(v) >= lo && int(v) <= hi
	}
	y, ok1 := part(yearPart, 1, 9999)
	m, ok2 := part(monthPart, 1, 12)
	d, ok3 := part(dayPart, 1, 31)
	h, ok4 := part(hourPart, 0, 24)
	n, ok5 := part(minutePart, 0, 59)
	j, ok6 := part(dayOfYear, 1, 366)
	if !ok1 || !ok2 || !ok3 || !ok4 || !ok5 || !ok6 {
		return
	}
	if _, of := l.parts[dayOfYear]; of {
		for m = 1; m < 12 && j > monthDays(y, m); m++ {
			j -= monthDays(y, m)
		}
		d = j
	}
	*st = stamp{name: -1, n: [3]int32{int32(y), int32(m), int32(d)}, digits: [3]int8{4, 2, 2}, parts: 3, h: int8(h), m: int8(n), clock: true}
	if y < 100 {
		st.digits[0] = 2
	}
}
