package logger

import (
	"slices"
)

// layout is how the cells of one grid are to be read.
type layout struct {
	decimal byte
	first   int // first row of data
	head    []string
	headRow int   // -1 for none
	date    []int // columns whose cells together are the moment, joined in this order
	parts   map[quantity]int
	rooms   []room
	place   int // column that names the channel of a row, -1 for none
	kind    int // column that names the quantity of a row, in a long table
	value   int
}

// room is one channel: a humidity and, if there is one, a temperature.
type room struct {
	name         string
	rh, t, dew   int // columns, -1 for none
	unit, rhUnit string
	dewUnit      string
	guessed      string // how the columns were told apart without names
}

// rowsLike is how many rows must look like readings for a table to count.
const rowsLike = 2

// detect finds the delimiter, the decimal sign, the head and the columns of a grid. nil without a
// fault when the grid holds no readings.
func detect(g *grid, o Options) (*layout, error) {
	best, bestScore, delim := &layout{}, 0.0, byte(0)
	delims := []byte{';', '\t', ',', '|', ' '}
	if g.rows != nil {
		delims = []byte{0}
	}
	for _, d := range delims {
		for _, dec := range [...]byte{'.', ','} {
			if o.Decimal != "" && o.Decimal[0] != dec || g.rows != nil && dec == ',' && !commaCells(g) || d == ',' && dec == ',' && !quoted(g) {
				continue
			}
			if d == ' ' && bestScore > 0 && delim != ' ' {
				continue // any text has blanks
			}
			g.delim = d
			l, score := g.probe(dec)
			if score > bestScore*1.02 {
				best, bestScore, delim = l, score, d
			}
		}
	}
	if bestScore == 0 {
		if best, delim = g.inParts(delims); best == nil {
			return nil, nil
		}
	}
	if delim == ' ' { // names of several words are parted by several blanks
		g.delim = blanks
		if l, score := g.probe(best.decimal); score > 0 {
			l.place, l.kind, l.value = -1, -1, -1
			if l.columns(g) == nil && len(l.rooms) > 0 && l.rooms[0].guessed == "" && len(l.head) == l.width(g) {
				return l, nil
			}
		}
	}
	g.delim = delim
	best.place, best.kind, best.value = -1, -1, -1
	if err := best.columns(g); err != nil {
		return best, err
	}
	return best, best.bareCommas(g)
}

// columns gives every column its meaning.
func (l *layout) columns(g *grid) error {
	width := l.width(g)
	l.findHead(g, width)
	l.parts = map[quantity]int{}
	mean := make([]quantity, len(l.head))
	units := make([]string, len(l.head))
	for c, h := range l.head {
		mean[c], _, units[c] = meaning(h)
	}
	l.demote(mean)
	if err := l.findMoment(g, mean, width); err != nil {
		return err
	}
	l.events(g)
	for c, q := range mean {
		if q == place && l.place < 0 && !slices.Contains(l.date, c) && l.names(g, c) {
			l.place = c
		}
		if q == kind && l.kind < 0 {
			l.kind = c
		}
		if q == value && l.value < 0 {
			l.value = c
		}
	}
	if l.value >= 0 && l.kind < 0 && l.place >= 0 && l.quantities(g, l.place) {
		l.kind, l.place = l.place, -1
	}
	if l.kind >= 0 && l.value >= 0 && !slices.Contains(mean, humidity) {
		return nil // a long table
	}
	l.kind, l.value = -1, -1
	if slices.Contains(mean, humidity) {
		l.named(mean, units)
		return nil
	}
	return l.unnamed(g, mean, width)
}

// width is the usual number of cells of a row of data.
func (l *layout) width(g *grid) int {
	count := map[int]int{}
	best := 0
	var cells [][]byte
	for _, i := range g.sample() {
		if i < l.first {
			continue
		}
		cells = g.split(i, cells)
		n := len(cells)
		count[n]++
		if count[n] > count[best] || count[n] == count[best] && n > best {
			best = n
		}
	}
	return best
}
