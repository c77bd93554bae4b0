package logger

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"crossgrain/tables/problem"
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

// bareCommas refuses rows in which the comma parts the cells and the decimals alike.
func (l *layout) bareCommas(g *grid) error {
	if g.delim != ',' || l.headRow < 0 || l.decimal == ',' {
		return nil
	}
	beyond, points := 0, 0
	var cells [][]byte
	for _, i := range g.sample() {
		if cells = g.split(i, cells); i < l.first || len(cells) <= len(l.head) {
			continue
		}
		all := true
		for _, c := range cells[1:] {
			all = all && digitsOnly(bytes.TrimLeft(c, "-"))
			if bytes.IndexByte(c, '.') >= 0 {
				points++
			}
		}
		if all {
			beyond++
		}
	}
	if beyond < rowsLike || points > 0 {
		return nil
	}
	return problem.List{{File: g.name, Line: g.number(l.first), Part: "humidity", Msg: fmt.Sprintf("the rows have more cells than the head has names (%d): commas part the cells and the decimals alike", len(l.head)),
		Hint: "export the record again with semicolons between the cells, or with decimal points"}}.Err()
}

// inParts looks for a head that names year and day, for rows without a date in one cell.
func (g *grid) inParts(delims []byte) (*layout, byte) {
	for _, d := range delims {
		g.delim = d
		for i := range min(g.len(), 200) {
			found := map[quantity]bool{}
			names := g.names(i)
			for _, h := range names {
				q, _, _ := meaning(h)
				found[q] = true
			}
			if !found[humidity] || !found[yearPart] || !found[dayPart] && !found[dayOfYear] {
				continue
			}
			for k := i + 1; k < g.len(); k++ {
				cells := g.split(k, nil)
				for _, dec := range [...]byte{'.', ','} {
					if _, n, odd := look(cells, dec); n == len(names) && odd == 0 {
						return &layout{decimal: dec, first: k}, d
					}
				}
			}
		}
	}
	return nil, 0
}

// quoted says whether decimal commas may stand in quotation marks between commas.
func quoted(g *grid) bool {
	return bytes.Contains(g.text[:min(len(g.text), 1<<16)], []byte(`,"`)) || bytes.HasPrefix(g.text, []byte(`"`))
}

func commaCells(g *grid) bool {
	for _, r := range g.rows[:min(len(g.rows), 200)] {
		for _, c := range r.cells {
			if i := strings.IndexByte(c, ','); i > 0 && i < len(c)-1 && c[i-1] >= '0' && c[i-1] <= '9' && c[i+1] >= '0' && c[i+1] <= '9' {
				return true
			}
		}
	}
	return false
}

// sample returns rows spread over the grid.
func (g *grid) sample() []int {
	n := g.len()
	if n <= 600 {
		out := make([]int, n)
		for i := range out {
			out[i] = i
		}
		return out
	}
	out := make([]int, 0, 600)
	for i := range 300 {
		out = append(out, i)
	}
	for i := range 200 {
		out = append(out, 300+(n-400)*i/200)
	}
	for i := n - 100; i < n; i++ {
		out = append(out, i)
	}
	return out
}

// probe scores one way of parting the cells: the number of sampled rows that look like readings, more
// for more numbers in each.
func (g *grid) probe(decimal byte) (*layout, float64) {
	l := &layout{decimal: decimal, first: -1}
	var cells [][]byte
	var score float64
	good := 0
	var rows, where []int
	for _, i := range g.sample() {
		if g.rows == nil {
			if _, was := uncommented(g.line(i)); was && g.delim != ';' {
				continue
			}
		}
		cells = g.split(i, cells)
		if stamps, numbers, odd := look(cells, decimal); stamps > 0 && numbers > 0 {
			rows, where = append(rows, i), append(where, firstStamp(cells, decimal))
			good++
			score += 1 + 0.1*float64(min(numbers, 8)) - 0.2*float64(odd)
		}
	}
	if good < rowsLike && good < g.len() && (good == 0 || !g.headAbove(rows[0])) {
		return l, 0
	}
	if good > 0 {
		usual := slices.Clone(where)
		slices.Sort(usual)
		l.first = rows[slices.Index(where, usual[len(usual)/2])]
	}
	return l, max(score, 0)
}

// firstStamp is the first cell that holds a date or a time.
func firstStamp(cells [][]byte, decimal byte) int {
	var st stamp
	for c := range cells {
		if st.read(cells[c], decimal) && (st.parts != 1 || c < 3) {
			return c
		}
	}
	return -1
}

// headAbove says whether one of the three lines above names humidity and a time.
func (g *grid) headAbove(row int) bool {
	for i := row - 1; i >= max(0, row-3); i-- {
		if headScore(g.names(i)) >= 5 {
			return true
		}
	}
	return false
}

// look counts what the cells of a row hold: moments, numbers and numbers with the wrong decimal sign.
func look(cells [][]byte, decimal byte) (stamps, numbers, odd int) {
	var st stamp
	for k, c := range cells {
		if k > 60 {
			break
		}
		if st.read(c, decimal) && (st.parts != 1 || k < 3) {
			stamps++
			continue
		}
		if len(c) == 0 {
			continue
		}
		switch _, w := number(c, decimal); w {
		case isNumber:
			numbers++
			if i := bytes.IndexByte(c, 44+46-decimal); i >= 0 { // the other sign, read as thousands
				odd++
			}
		case isMissing:
		default:
			if d, rest := numeric(c); len(d) > 0 && unitText(rest) {
				odd++
			}
		}
	}
	return stamps, numbers, odd
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

// findHead looks for the names of the columns above the first row of data: one line or two, in a
// comment or not.
func (l *layout) findHead(g *grid, width int) {
	var lines [][]string
	var at []int
	l.headRow = -1
	for i := l.first - 1; i >= 0 && len(lines) < 4; i-- {
		names := g.names(i)
		if len(names) < 2 {
			if len(names) == 0 && len(lines) == 0 {
				continue
			}
			if len(lines) > 0 {
				break
			}
			continue
		}
		lines, at = append(lines, names), append(at, i)
	}
	best, score := -1, 0
	for k, names := range lines {
		if s := headScore(names); s > score {
			best, score = k, s
		}
	}
	if best < 0 {
		return
	}
	l.head, l.headRow = lines[best], at[best]
	switch {
	case best > 0 && headLike(lines[best-1]): // units or rooms below
		l.head = joined(l.head, lines[best-1])
	case best+1 < len(lines) && repeats(l.head) && len(lines[best+1]) <= len(l.head)+1 && len(lines[best+1]) >= 2:
		l.head = joined(carried(lines[best+1], len(l.head)), l.head) // rooms above
	}
	if len(l.head) == width+1 && g.delim == ' ' {
		l.head = l.head[1:] // "columns: date time ..."
	}
	if len(l.head) == width-1 {
		l.head = l.shifted(g)
	}
}

// shifted puts an empty name before the head when the rows begin with a number that it does not name.
func (l *layout) shifted(g *grid) []string {
	var st stamp
	cells := g.split(l.first, nil)
	q, _, _ := meaning(l.head[0])
	if len(cells) > 1 && !st.read(cells[0], l.decimal) && st.read(cells[1], l.decimal) && (q == moment || q == dateOnly || q == clockOnly) {
		return append([]string{""}, l.head...)
	}
	return l.head
}

// names returns the cells of a head line, out of a comment if it stands in one.
func (g *grid) names(i int) []string {
	var cells [][]byte
	if g.rows == nil {
		line, was := uncommented(g.line(i))
		if was && g.delim == ';' && bytes.HasPrefix(g.line(i), []byte(";")) {
			line, was = g.line(i), false
		}
		if was && g.delim == ' ' {
			if k := bytes.IndexByte(line, ':'); k > 0 && k < 24 {
				line = line[k+1:]
			}
		}
		if bytes.IndexByte(line, g.delim) < 0 && was && g.delim != blanks {
			for _, d := range []byte{',', ';', '\t', ' '} {
				if bytes.IndexByte(line, d) >= 0 {
					cells = splitLine(line, d, nil)
					break
				}
			}
		} else {
			cells = splitLine(line, g.delim, nil)
		}
	} else {
		cells = g.split(i, nil)
	}
	out := make([]string, len(cells))
	any := false
	for k, c := range cells {
		out[k] = string(c)
		any = any || len(c) > 0
	}
	if !any {
		return nil
	}
	return out
}

// headScore counts the cells that name something known.
func headScore(names []string) int {
	n := 0
	for _, h := range names {
		switch q, _, _ := meaning(h); q {
		case humidity:
			n += 3
		case moment, dateOnly, clockOnly, warmth:
			n += 2
		case other:
		default:
			n++
		}
		if len(h) > 60 && !strings.ContainsAny(h, "(,") {
			n--
		}
	}
	if n < 3 {
		return 0
	}
	return n
}

// headLike says whether a line below the names holds units or names and no values.
func headLike(names []string) bool {
	n := 0
	for _, h := range names {
		if h == "" {
			continue
		}
		if humidUnit(strings.ToLower(strings.Trim(h, "[]() "))) || warmUnit(strings.Trim(h, "[]() ")) != 0 {
			n++
		} else if q, _, _ := meaning(h); q == humidity || q == warmth {
			n++
		}
	}
	return n > 0
}

// repeats says whether two columns carry the same name of a quantity.
func repeats(names []string) bool {
	seen := map[string]bool{}
	for _, h := range names {
		if q, _, _ := meaning(h); q != humidity && q != warmth {
			continue
		}
		if seen[fold(h)] {
			return true
		}
		seen[fold(h)] = true
	}
	return false
}

// joined sets two lines of names together, column by column.
func joined(upper, lower []string) []string {
	out := make([]string, max(len(upper), len(lower)))
	for i := range out {
		if i < len(upper) {
			out[i] = upper[i]
		}
		if i < len(lower) && lower[i] != "" {
			if u := strings.Trim(lower[i], "[]() "); humidUnit(strings.ToLower(u)) || warmUnit(u) != 0 {
				out[i] += " [" + u + "]"
			} else {
				out[i] = strings.TrimSpace(out[i] + " " + lower[i])
			}
		}
	}
	return out
}

// carried repeats the name of a room over the columns that stand under it.
func carried(names []string, n int) []string {
	out := make([]string, n)
	last := ""
	for i := range out {
		if i < len(names) && names[i] != "" {
			last = names[i]
		}
		out[i] = last
	}
	return out
}

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
