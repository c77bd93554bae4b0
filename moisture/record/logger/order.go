package logger

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/tables/problem"
)

// dateOrder says where year, month and day stand among the three numbers of a date.
type dateOrder struct{ y, m, d int8 }

func (o dateOrder) words() string {
	switch o {
	case orderYMD:
		return "year/month/day"
	case orderDMY:
		return "day/month/year"
	case orderMDY:
		return "month/day/year"
	}
	return "year/day/month"
}

var (
	orderYMD = dateOrder{0, 1, 2}
	orderDMY = dateOrder{2, 1, 0}
	orderMDY = dateOrder{2, 0, 1}
	orderYDM = dateOrder{0, 2, 1}
)

// civilDay counts days since 1970-01-01 in the Gregorian calendar. Source: the usual arithmetic of
// 400-year eras (common practice).
func civilDay(y, m, d int) int64 {
	if m <= 2 {
		y--
	}
	era := y / 400
	yoe := y - era*400
	mp := (m + 9) % 12
	doy := (153*mp+2)/5 + d - 1
	doe := yoe*365 + yoe/4 - yoe/100 + doy
	return int64(era)*146097 + int64(doe) - 719468
}

func monthDays(y, m int) int {
	switch m {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if y%4 == 0 && (y%100 != 0 || y%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// day returns the day of a stamp in an order; false when there is no such day.
func (st *stamp) day(o dateOrder) (int64, bool) {
	y, m, d := int(st.n[o.y]), int(st.n[o.m]), int(st.n[o.d])
	if st.digits[o.y] <= 2 {
		y += 2000
	}
	if m < 1 || m > 12 || y < 1 || d < 1 || d > monthDays(y, m) {
		return 0, false
	}
	return civilDay(y, m, d), true
}

// ms is the time of day in milliseconds; 24:00 is the end of the day.
func (st *stamp) ms() int64 {
	h := int64(st.h)
	switch {
	case st.ampm == 1 && h == 12:
		h = 0
	case st.ampm == 2 && h < 12:
		h += 12
	}
	return h*3600000 + int64(st.m)*60000 + int64(st.s*1000+0.5)
}

// evidence is what the dates of a whole file say of their order.
type evidence struct {
	rows      int
	orders    [4]dateOrder
	fit       [4]int // rows that can be read in each order
	possible  []dateOrder
	sample    []stamp
	lines     []int
	firstOver [2]int // first line whose first, second number is above 12
}

const dateSample = 20000

func newEvidence() *evidence {
	return &evidence{orders: [4]dateOrder{orderYMD, orderDMY, orderMDY, orderYDM}}
}

// add takes a date; line is where it stands.
func (e *evidence) add(st *stamp, line int) {
	if st.parts != 3 {
		return
	}
	e.rows++
	if len(e.sample) < dateSample {
		e.sample, e.lines = append(e.sample, *st), append(e.lines, line)
	}
	for k := range 2 {
		if e.firstOver[k] == 0 && st.n[k] > 12 && st.digits[k] <= 2 {
			e.firstOver[k] = line
		}
	}
	for k, o := range e.orders {
		if e.fits(st, o) {
			e.fit[k]++
		}
	}
}

// close finds the orders that fit most rows. A few damaged rows do not count: one in a hundred, or two.
func (e *evidence) close() {
	most := slices.Max(e.fit[:])
	if e.rows-most > max(2, e.rows/100) || most == 0 {
		return
	}
	for k, o := range e.orders {
		if e.fit[k] == most && !(o == orderYDM && e.fit[0] == most) { // the day second: where nothing else fits
			e.possible = append(e.possible, o)
		}
	}
}

// fits says whether a date can be read in an order.
func (e *evidence) fits(st *stamp, o dateOrder) bool {
	if st.name >= 0 && st.name != o.m {
		return false
	}
	if st.digits[o.y] == 1 || st.digits[o.y] == 3 || st.digits[o.m] > 2 || st.digits[o.d] > 2 {
		return false
	}
	if st.digits[o.y] == 2 && o == orderYDM {
		return false
	}
	_, ok := st.day(o)
	return ok
}

// decide returns the order of the dates of a file. asked is the order named by the user, or empty.
func (e *evidence) decide(file, asked string) (o dateOrder, guess string, err error) {
	if e.rows == 0 {
		return orderYMD, "", nil
	}
	e.close()
	if asked != "" {
		o := map[string]dateOrder{"ymd": orderYMD, "dmy": orderDMY, "mdy": orderMDY}[asked]
		if !slices.Contains(e.possible, o) {
			return o, "", e.fault(file, fmt.Sprintf("the dates cannot all be read as %s", o.words()), "leave the option out, or look for rows of another order")
		}
		return o, "", nil
	}
	switch len(e.possible) {
	case 0:
		return o, "", e.mixed(file)
	case 1:
		o = e.possible[0]
		if swapped := e.resaved(o); swapped != nil {
			return o, "", e.fault(file, fmt.Sprintf("the dates stand in two orders: lines %s only make an even record when day and month are exchanged; a spreadsheet has re-saved the file",
				listLines(swapped)), "go back to the logger's own file")
		}
		return o, e.because(o), nil
	}
	return e.byEvenness(file)
}

// because says what ruled the other orders out, where that was a number and not the form.
func (e *evidence) because(o dateOrder) string {
	k := 0
	if o == orderMDY {
		k = 1
	}
	if e.firstOver[k] == 0 || o == orderYMD || e.sample[0].name >= 0 {
		return ""
	}
	st := e.at(e.firstOver[k])
	if st == nil {
		return fmt.Sprintf("dates read as %s because line %d leaves no other order", o.words(), e.firstOver[k])
	}
	return fmt.Sprintf("dates read as %s because line %d has %d", o.words(), e.firstOver[k], st.n[k])
}

func (e *evidence) at(line int) *stamp {
	for i, l := range e.lines {
		if l == line {
			return &e.sample[i]
		}
	}
	return nil
}

// byEvenness chooses the order in which the steps of the record are most even.
func (e *evidence) byEvenness(file string) (o dateOrder, guess string, err error) {
	best, second := -1.0, -1.0
	same := true
	for _, c := range e.possible {
		v := e.evenness(c, false)
		if v > best {
			best, second, o = v, best, c
		} else if v > second {
			second = v
		}
		for i := range e.sample {
			a, _ := e.sample[i].day(c)
			b, _ := e.sample[i].day(e.possible[0])
			same = same && a == b
		}
	}
	if same {
		return e.possible[0], "", nil
	}
	if best-second < 0.004 && !(best > 0.999 && second < 0.999) {
		st := e.sample[0]
		if late := slices.DeleteFunc(slices.Clone(e.possible), func(c dateOrder) bool { return c == orderYMD }); len(late) == 1 && st.digits[0] == 2 {
			return late[0], fmt.Sprintf("dates read as %s: the first numbers would make years too (%02d in line %d), which few write so; --dates year-first says otherwise",
				late[0].words(), st.n[0], e.lines[0]), nil
		}
		sep := fmt.Sprintf("%02d/%02d/%02d", st.n[0], st.n[1], st.n[2])
		var forms []string
		for _, c := range e.possible {
			forms = append(forms, c.words())
		}
		return o, "", e.fault(file, fmt.Sprintf("the dates can be read in more than one order (%s): %s in line %d could be any", strings.Join(forms, ", "), sep, e.lines[0]),
			"say which with --dates day-first, --dates month-first or --dates year-first")
	}
	return o, fmt.Sprintf("dates read as %s because only so the steps are even", o.words()), nil
}

// evenness is the share of steps that equal the usual one, newest first or oldest first; with swap,
// dates that could also be read the other way round are.
func (e *evidence) evenness(o dateOrder, swap bool) float64 {
	n := len(e.sample)
	if n < 3 {
		return 1
	}
	steps := make([]int64, 0, n-1)
	var last int64
	for i := range e.sample {
		t := e.time(i, o, swap)
		if i > 0 {
			steps = append(steps, t-last)
		}
		last = t
	}
	sorted := slices.Clone(steps)
	slices.Sort(sorted)
	usual := sorted[len(sorted)/2]
	even := 0
	for _, s := range steps {
		if s == usual || s-usual < 2000 && usual-s < 2000 {
			even++
		}
	}
	return float64(even) / float64(len(steps))
}

// time is the moment of a sample in an order, ms.
func (e *evidence) time(i int, o dateOrder, swap bool) int64 {
	st := &e.sample[i]
	d, ok := st.day(o)
	if swap {
		other := dateOrder{o.y, o.d, o.m}
		if x, can := st.day(other); can && st.name < 0 {
			d, ok = x, can
		}
	}
	if !ok {
		return 0
	}
	return d*86400000 + st.ms()
}

// resaved finds the first lines that a spreadsheet has turned round; nil when there are none.
func (e *evidence) resaved(o dateOrder) []int {
	if o == orderYMD || o == orderYDM || len(e.sample) < 10 {
		return nil
	}
	plain, turned := e.evenness(o, false), e.evenness(o, true)
	if plain > 0.98 || turned < plain+0.02 {
		return nil
	}
	var out []int
	for i := range e.sample {
		if e.time(i, o, false) != e.time(i, o, true) && len(out) < 3 {
			out = append(out, e.lines[i])
		}
	}
	return out
}

// mixed says which lines contradict one another.
func (e *evidence) mixed(file string) error {
	if e.firstOver[0] > 0 && e.firstOver[1] > 0 {
		return e.fault(file, fmt.Sprintf("the dates stand in two orders: line %d has a first number above 12, line %d a second one", e.firstOver[0], e.firstOver[1]),
			"a spreadsheet may have re-saved the file: go back to the logger's own")
	}
	return e.fault(file, "the dates stand in no one order of year, month and day", "write them as 2024-03-31 14:00")
}

func (e *evidence) fault(file, msg, hint string) error {
	return problem.List{{File: file, Part: "time", Msg: msg, Hint: hint}}.Err()
}

func listLines(lines []int) string {
	var out []string
	for _, l := range lines {
		out = append(out, fmt.Sprint(l))
	}
	return strings.Join(out, ", ")
}
