package logger

import (
	"slices"
	"strconv"
	"strings"

	"crossgrain/tables/sheet"
)

// jtable is one series or table of readings found in a JSON text.
type jtable struct {
	place []string // names on the way to it
	head  []string
	rows  []sheet.Row
	clock int // column of the time stamp, -1 when there is none
}

// jwalk finds the tables.
type jwalk struct {
	tables []jtable
	zone   string // as the text states it outside the readings
}

// walk looks at one value below the names of place.
func (w *jwalk) walk(n *jnode, place []string) {
	switch n.kind {
	case '[':
		w.walkArray(n, place)
	case '{':
		w.walkObject(n, place)
	}
}

func (w *jwalk) walkArray(n *jnode, place []string) {
	objects, arrays := 0, 0
	for i := range n.kids {
		switch n.kids[i].kind {
		case '{':
			objects++
		case '[':
			arrays++
		}
	}
	switch {
	case objects > 0 && objects >= arrays && areRecords(n.kids):
		w.add(recordTable(n.kids, place))
	case arrays > 0 && objects == 0 && areTuples(n.kids):
		w.add(tupleTable(n.kids, nil, place))
	default:
		for i := range n.kids {
			k := &n.kids[i]
			w.walk(k, append(slices.Clone(place), labels(k)...))
		}
	}
}

func (w *jwalk) walkObject(n *jnode, place []string) {
	w.noteZone(n)
	switch {
	case keyedByStamp(n):
		w.add(stampTable(n, place))
	case numberedColumns(n):
		w.add(columnTable(n, columnsByNumber(n), place))
	case numberedRecords(n):
		w.add(recordTable(n.kids, place))
	case len(evenColumns(n)) > 1:
		cols := evenColumns(n)
		w.add(columnTable(n, cols, place))
		w.walkMembers(n, place, cols)
	case namedTuples(n) >= 0:
		k := &n.kids[namedTuples(n)]
		w.add(tupleTable(k.kids, n, append(slices.Clone(place), keyLabel(k.key)...)))
	case isReading(n):
		w.add(recordTable([]jnode{*n}, place))
	default:
		w.walkMembers(n, place, nil)
	}
}

// walkMembers goes on into the members that are no columns of n.
func (w *jwalk) walkMembers(n *jnode, place []string, cols []*jnode) {
	for i := range n.kids {
		k := &n.kids[i]
		if k.scalar() || slices.Contains(cols, k) {
			continue
		}
		at := append(slices.Clone(place), keyLabel(k.key)...)
		w.walk(k, append(at, labels(k)...))
	}
}

func (w *jwalk) add(t jtable) {
	if len(t.rows) > 0 {
		w.tables = append(w.tables, t)
	}
}

// noteZone keeps the zone that an object around the readings states.
func (w *jwalk) noteZone(n *jnode) {
	for _, k := range n.kids {
		if w.zone != "" || !k.scalar() || k.text == "" {
			continue
		}
		switch foldKey(k.key) {
		case "timezone", "tz", "zone", "timezonename", "zeitzone":
			w.zone = k.text
		case "utcoffset", "utcoffsetseconds", "tzoffset", "timezoneoffset":
			w.zone = offsetText(k.text)
		}
	}
}

// offsetText writes an offset given in seconds as UTC+hh:mm; other text stays.
func offsetText(s string) string {
	v, err := strconv.Atoi(s)
	if err != nil {
		return s
	}
	if v > -15 && v < 15 {
		v *= 3600
	}
	sign := '+'
	if v < 0 {
		sign, v = '-', -v
	}
	return "UTC" + string(sign) + sheet.ClockText(float64(v) / 86400)[:5]
}

func foldKey(s string) string { return humidSigns.Replace(strings.ToLower(s)) }

// wrapping lists keys that say how data are packed, not what they are.
func wrapping(key string) bool {
	switch foldKey(key) {
	case "", "data", "value", "values", "series", "reading", "readings", "result", "results", "response",
		"record", "records", "item", "items", "row", "rows", "feature", "features", "properties", "payload",
		"body", "content", "measurement", "measurements", "observation", "observations", "point", "points",
		"datapoints", "history", "log", "logs", "export", "report", "location", "locations", "room", "rooms",
		"station", "stations", "site", "sites", "sensor", "sensors", "device", "devices", "logger", "loggers",
		"variable", "variables", "parameter", "parameters", "channel", "channels", "quantities", "timeseries",
		"entries", "list", "dataset", "datasets", "hourly", "minutely", "samples", "state", "states", "fields",
		"attributes", "main", "columns", "index", "doc", "docs", "root", "page", "pages", "places":
		return true
	}
	return false
}

func keyLabel(key string) []string {
	if wrapping(key) {
		return nil
	}
	return []string{key}
}

// labels gives the names that an object states about itself, its unit last.
func labels(n *jnode) []string {
	var names, units []string
	for _, k := range n.kids {
		if n.kind != '{' || k.kind != 's' || k.text == "" || len(k.text) > 60 {
			continue
		}
		switch foldKey(k.key) {
		case "name", "label", "title", "location", "place", "room", "station", "site", "sensor", "device",
			"variable", "parameter", "quantity", "channel", "target", "metric", "measurement", "displayname",
			"sensorname", "devicename", "roomname", "locationname", "ort", "raum":
			names = append(names, k.text)
		case "unit", "units", "uom", "unitofmeasurement", "unitofmeasure", "einheit":
			units = append(units, k.text)
		}
	}
	return append(names, units...)
}

// isStamp says whether a text can only be a time: a date in figures, perhaps with a clock, or seconds
// or milliseconds since 1970 between 1980 and 2100.
func isStamp(s string) bool {
	s = strings.TrimSpace(s)
	if len(s) < 6 || len(s) > 40 || s[0] < '0' || s[0] > '9' {
		return false
	}
	if v, err := strconv.ParseFloat(s, 64); err == nil {
		for v > 5e9 {
			v /= 1000
		}
		whole, _, _ := strings.Cut(s, ".")
		return len(whole) >= 9 && v > 3.1e8 && v < 4.1e9
	}
	runs, digits := 0, 0
	for i := 0; i < len(s) && runs < 3; i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9':
			digits++
		case c == '-' || c == '/' || c == '.':
			runs, digits = runs+1, 0
		case runs == 0 && digits == 8 && (c == 'T' || c == ' '): // 20241001T0315
			return true
		case runs == 2 && digits > 0 && (c == 'T' || c == ' ' || c == ','):
			return true
		case digits > 0 && digits < 3 && c == ' ' && runs == 0:
			return monthFollows(s[i+1:])
		default:
			return false
		}
	}
	return runs == 2 && digits > 0
}

// monthFollows accepts "Aug 2024 ..." behind a day.
func monthFollows(s string) bool {
	f := strings.Fields(s)
	if len(f) < 2 || len(f[0]) < 3 || len(f[1]) < 2 {
		return false
	}
	_, err := strconv.Atoi(strings.Trim(f[1], ","))
	return err == nil && (f[0][0] < '0' || f[0][0] > '9')
}

// isClock accepts a time of the day.
func isClock(s string) bool {
	return len(s) >= 4 && len(s) <= 8 && (s[1] == ':' || s[2] == ':') && s[0] >= '0' && s[0] <= '9'
}

// keyedByStamp says whether the keys of an object are time stamps.
func keyedByStamp(n *jnode) bool {
	stamps := 0
	for i := range n.kids {
		if isStamp(n.kids[i].key) {
			stamps++
		}
	}
	return stamps > 0 && stamps*10 >= len(n.kids)*9
}

func wholeKeys(n *jnode) bool {
	for i := range n.kids {
		if _, err := strconv.Atoi(n.kids[i].key); err != nil {
			return false
		}
	}
	return len(n.kids) > 0
}

// numberedColumns accepts {"time": {"0": ..., "1": ...}, "t": {"0": ...}}.
func numberedColumns(n *jnode) bool {
	if len(n.kids) < 2 {
		return false
	}
	for i := range n.kids {
		k := &n.kids[i]
		if k.kind != '{' || !wholeKeys(k) || keyedByStamp(k) || !k.kids[0].scalar() {
			return false
		}
	}
	return true
}

// numberedRecords accepts {"0": {"time": ..., "t": ...}, "1": {...}}.
func numberedRecords(n *jnode) bool { return wholeKeys(n) && areRecords(n.kids) }

// columnsByNumber lines the columns up by the numbers of their members.
func columnsByNumber(n *jnode) []*jnode {
	at := map[string]int{}
	for i := range n.kids {
		for _, k := range n.kids[i].kids {
			if _, ok := at[k.key]; !ok {
				at[k.key] = len(at)
			}
		}
	}
	cols := make([]*jnode, len(n.kids))
	for i := range n.kids {
		c := &jnode{key: n.kids[i].key, kind: '[', line: n.kids[i].line, kids: make([]jnode, len(at))}
		for _, k := range n.kids[i].kids {
			c.kids[at[k.key]] = k
		}
		for j := range c.kids {
			if c.kids[j].kind == 0 {
				c.kids[j].kind = '0'
			}
		}
		cols[i] = c
	}
	return cols
}

// evenColumns gives the members that are arrays of single values of one length, that of the time
// stamps if there are such.
func evenColumns(n *jnode) []*jnode {
	long := 0
	for i := range n.kids {
		if k := &n.kids[i]; isColumn(k) && len(k.kids) > 0 && isStamp(k.kids[0].text) {
			long = len(k.kids)
			break
		}
	}
	if long == 0 {
		return nil
	}
	var cols []*jnode
	for i := range n.kids {
		if k := &n.kids[i]; isColumn(k) && len(k.kids) <= long && 2*len(k.kids) > long {
			cols = append(cols, k)
		}
	}
	return cols
}

func isColumn(n *jnode) bool {
	if n.kind != '[' {
		return false
	}
	for i := range n.kids {
		if !n.kids[i].scalar() {
			return false
		}
	}
	return true
}

// areTuples says whether all elements are short arrays of single values.
func areTuples(kids []jnode) bool {
	for i := range kids {
		if k := &kids[i]; !isColumn(k) || len(k.kids) < 2 && len(kids) < 2 {
			return false
		}
	}
	return len(kids) > 1 || len(kids) == 1 && isStamp(kids[0].kids[0].text)
}

// namedTuples finds rows given as arrays beside an array of the column names; -1 when there are none.
func namedTuples(n *jnode) int {
	for i := range n.kids {
		k := &n.kids[i]
		if k.kind == '[' && len(k.kids) > 0 && areTuples(k.kids) && tupleHead(n, len(k.kids[0].kids)) != nil {
			return i
		}
	}
	return -1
}

// tupleHead finds the names of width columns among the members of n.
func tupleHead(n *jnode, width int) []string {
	for i := range n.kids {
		k := &n.kids[i]
		if k.kind != '[' || len(k.kids) != width {
			continue
		}
		var head []string
		for j := range k.kids {
			switch c := &k.kids[j]; {
			case c.kind == 's' && !isStamp(c.text):
				head = append(head, c.text)
			case c.kind == '{' && len(labels(c)) > 0:
				head = append(head, strings.Join(labels(c), " "))
			}
		}
		if len(head) == width {
			return head
		}
	}
	return nil
}

// isReading says whether an object is one row: a time stamp and no table inside.
func isReading(n *jnode) bool { return hasStamp(n) && !holdsTable(n) }

func hasStamp(n *jnode) bool {
	for i := range n.kids {
		if k := &n.kids[i]; (k.kind == 's' || k.kind == 'n') && isStamp(k.text) {
			return true
		}
		if k := &n.kids[i]; k.kind == '{' && hasStamp(k) {
			return true
		}
	}
	return false
}

// areRecords says whether the elements are rows rather than containers of rows. Twenty are looked at.
func areRecords(kids []jnode) bool {
	seen := 0
	for i := range kids {
		if kids[i].kind != '{' {
			continue
		}
		if holdsTable(&kids[i]) {
			return false
		}
		if seen++; seen == 20 {
			break
		}
	}
	return seen > 0
}

// holdsTable says whether rows stand somewhere below n. A list of named values beside a time stamp is
// part of a row.
func holdsTable(n *jnode) bool {
	if n.kind == '{' && (keyedByStamp(n) || len(evenColumns(n)) > 1) {
		return true
	}
	for i := range n.kids {
		k := &n.kids[i]
		if k.kind == '[' && len(k.kids) > 0 && rowsInside(k) {
			return true
		}
		if !k.scalar() && holdsTable(k) {
			return true
		}
	}
	return false
}

func rowsInside(k *jnode) bool {
	first := &k.kids[0]
	switch first.kind {
	case '{':
		return hasStamp(first)
	case '[':
		return areTuples(k.kids) && slices.ContainsFunc(first.kids, func(c jnode) bool { return isStamp(c.text) })
	}
	return false
}
