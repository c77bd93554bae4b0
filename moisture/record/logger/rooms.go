package logger

import (
	"fmt"
	"slices"
	"strings"
)

// names says whether the cells of a column name channels: few names, each on many rows.
func (l *layout) names(g *grid, c int) bool {
	seen, n := map[string]bool{}, 0
	var cells [][]byte
	for _, i := range g.sample() {
		if cells = g.split(i, cells); i >= l.first && c < len(cells) && len(cells[c]) > 0 {
			seen[string(cells[c])] = true
			n++
		}
	}
	return n > 0 && len(seen)*2 <= n
}

// demote leaves limits, lowest and highest values out where the reading itself has a column.
func (l *layout) demote(mean []quantity) {
	for _, q := range [...]quantity{humidity, warmth} {
		plain := slices.ContainsFunc(l.head, func(h string) bool { k, _, _ := meaning(h); return k == q && !derived(h) })
		for c, h := range l.head {
			if plain && mean[c] == q && derived(h) {
				mean[c] = other
			}
		}
	}
}

// quantities says whether the cells of a column name humidity and nothing but quantities.
func (l *layout) quantities(g *grid, c int) bool {
	found := false
	var cells [][]byte
	for _, i := range g.sample() {
		if cells = g.split(i, cells); i < l.first || c >= len(cells) {
			continue
		}
		switch q, _, _ := meaning(string(cells[c])); q {
		case humidity:
			found = true
		case other:
			return false
		}
	}
	return found
}

// named pairs the columns of humidity with those of temperature and dew point by their names.
func (l *layout) named(mean []quantity, units []string) {
	rooms := map[string]*room{}
	var order []string
	get := func(name string) *room {
		if r := rooms[name]; r != nil {
			return r
		}
		rooms[name] = &room{name: name, rh: -1, t: -1, dew: -1}
		order = append(order, name)
		return rooms[name]
	}
	count := 0
	for c, q := range mean {
		if q == humidity && !slices.Contains(l.date, c) {
			count++
			name := channelOf(l.head[c])
			for rooms[name] != nil && rooms[name].rh >= 0 {
				name = fmt.Sprintf("%s %d", strings.TrimSpace(name), count)
				name = strings.TrimSpace(name)
			}
			r := get(name)
			r.rh, r.rhUnit = c, units[c]
		}
	}
	for c, q := range mean {
		if q != warmth && q != dewPoint || slices.Contains(l.date, c) {
			continue
		}
		r := rooms[channelOf(l.head[c])]
		if r == nil || q == warmth && r.t >= 0 || q == dewPoint && r.dew >= 0 {
			r = l.nearest(rooms, order, c, q)
		}
		if r == nil {
			continue
		}
		if q == warmth {
			r.t, r.unit = c, units[c]
		} else {
			r.dew, r.dewUnit = c, units[c]
		}
	}
	for i, name := range order {
		r := *rooms[name]
		if r.name == "" && len(order) > 1 {
			r.name = fmt.Sprint(i + 1)
		}
		l.rooms = append(l.rooms, r)
	}
}

// nearest is the room whose humidity stands nearest to a column and that still lacks the quantity.
func (l *layout) nearest(rooms map[string]*room, order []string, c int, q quantity) *room {
	var best *room
	for _, name := range order {
		r := rooms[name]
		if q == warmth && r.t >= 0 || q == dewPoint && r.dew >= 0 || len(order) > 1 && max(r.rh-c, c-r.rh) > 2 {
			continue
		}
		if best == nil || max(r.rh-c, c-r.rh) < max(best.rh-c, c-best.rh) {
			best = r
		}
	}
	return best
}

// channelOf takes the words of quantity and unit out of a head; what is left names the room.
func channelOf(head string) string {
	name, _ := unitOf(head)
	var out []string
	for _, w := range strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune(" _-,;:/()[]|.\"\r\n", r) }) {
		f := fold(w)
		q, _, _ := meaning(w)
		switch {
		case f == "" || q == humidity || q == warmth || q == dewPoint || q == moment:
		case f == "relative" || f == "rel" || f == "air" || f == "luft" || f == "relativ" || f == "relativa" || f == "point" || f == "pt" || f == "punkt" || f == "c" || f == "f" || f == "%" ||
			f == "de" || f == "del" || f == "der" || f == "la" || f == "l" || f == "the" || f == "of" || f == "in" || f == "wzgledna" || f == "relatieve" || f == "avg" || f == "mean" || f == "deg" || f == "h" || f == "r":
		default:
			out = append(out, w)
		}
	}
	if len(out) > 6 || strings.Contains(strings.ToLower(head), "s/n") {
		return ""
	}
	return strings.Join(out, " ")
}
