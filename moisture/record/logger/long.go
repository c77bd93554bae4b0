package logger

import (
	"math"
	"strings"
)

// place and moment of a reading in a table with one value a row.
type spot struct {
	channel string
	at      stamp
	nth     int // of rows with the same quantity at the same time
}

// long reads a table with one value a row: the quantity stands in a column, perhaps with the name of the
// room, and the rows of one moment make one reading.
func (t *table) long(a *aside) {
	l, g := t.layout, t.grid
	at := map[spot]int{}
	ids := map[string]int32{}
	rooms := map[string]*room{}
	kinds := map[string]struct {
		q    quantity
		unit string
		name string
	}{}
	t.each(a, func(line int, cells [][]byte, st *stamp) {
		t.lines++
		if l.kind >= len(cells) || l.value >= len(cells) {
			a.add(g.name, shortRow, line)
			return
		}
		k, ok := kinds[string(cells[l.kind])]
		if !ok {
			text := string(cells[l.kind])
			k.q, _, k.unit = meaning(text)
			k.name = channelOf(text)
			kinds[text] = k
		}
		if k.q != humidity && k.q != warmth && k.q != dewPoint {
			return // another quantity
		}
		v, w := l.cell(cells, l.value)
		if w == isNoise {
			a.add(g.name, notNumber, line)
			return
		}
		if w == isMissing {
			a.add(g.name, map[quantity]string{humidity: noHumidity, warmth: noWarmth, dewPoint: "no value for dew point"}[k.q], line)
			return
		}
		name := k.name
		if l.place >= 0 && l.place < len(cells) {
			name = strings.TrimSpace(string(cells[l.place]) + " " + name)
		}
		i := t.spot(at, ids, name, st, k.q, line)
		r := &t.list[i]
		*r.of(k.q) = v
		if rooms[name] == nil {
			rooms[name] = &room{name: name}
			l.rooms = append(l.rooms, *rooms[name])
		}
		if l.rooms[r.channel].lacks(k.q) {
			l.rooms[r.channel].take(k.q, unitBeside(cells, l.value, k.unit))
		}
	})
	kept, stamps := t.list[:0], t.stamps[:0]
	for i, r := range t.list {
		if math.IsNaN(r.rh) {
			a.add(g.name, "a temperature without a humidity at the same time", int(r.line))
			continue
		}
		kept, stamps = append(kept, r), append(stamps, t.stamps[i])
	}
	t.list, t.stamps = kept, stamps
}

// of is where a quantity of a reading stands.
func (r *reading) of(q quantity) *float64 {
	switch q {
	case humidity:
		return &r.rh
	case warmth:
		return &r.t
	}
	return &r.dew
}

// spot finds the reading of a moment, or begins it.
func (t *table) spot(at map[spot]int, ids map[string]int32, name string, st *stamp, q quantity, line int) int {
	key := spot{channel: name, at: *st}
	for {
		i, ok := at[key]
		if !ok {
			break
		}
		if math.IsNaN(*t.list[i].of(q)) {
			return i
		}
		key.nth++
	}
	id, ok := ids[name]
	if !ok {
		id = int32(len(t.channels))
		ids[name] = id
		t.channels = append(t.channels, name)
	}
	nan := math.NaN()
	at[key] = len(t.list)
	t.list = append(t.list, reading{line: int32(line), channel: id, rh: nan, t: nan, dew: nan})
	t.stamps = append(t.stamps, *st)
	return len(t.list) - 1
}

// lacks says whether no row has stated the unit of a quantity.
func (r *room) lacks(q quantity) bool {
	switch q {
	case humidity:
		return r.rhUnit == ""
	case warmth:
		return r.unit == ""
	}
	return r.dewUnit == ""
}

// take notes the unit of a quantity.
func (r *room) take(q quantity, unit string) {
	switch q {
	case humidity:
		r.rhUnit = unit
	case warmth:
		r.unit = unit
	default:
		r.dewUnit = unit
	}
}

// unitBeside is the unit that the name of the quantity states, or that stands in the cell of the value
// or in another cell of the row.
func unitBeside(cells [][]byte, at int, stated string) string {
	if stated != "" {
		return stated
	}
	if u := cellUnit(cells[at]); u != 0 {
		return string(u)
	}
	for _, c := range cells {
		if u := string(c); len(u) > 0 && len(u) < 8 && (warmUnit(u) != 0 || humidUnit(strings.ToLower(u))) {
			return u
		}
	}
	return "?"
}
