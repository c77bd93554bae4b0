package logger

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"crossgrain/moisture"
	"crossgrain/tables/problem"
)

// column is what the sampled cells of one column hold.
type column struct {
	at             int
	n, all         int
	low, high, sum float64
	values         []float64
	unit           byte // '%' or a unit of temperature, written in the cells
	counts         bool // every number is one more than that before
	last           float64
}

func (c *column) mean() float64 { return c.sum / float64(c.n) }

// asHumidity and asWarmth say whether a column could be relative humidity in per cent, or the
// temperature of a room or of the air outside, °C (working limits: assumption).
func (c *column) asHumidity() bool {
	return c.unit == '%' || c.unit == 0 && c.low >= 0 && c.high <= 105 && c.mean() >= 8
}

func (c *column) asWarmth() bool {
	return c.unit != 0 && c.unit != '%' || c.unit == 0 && c.low >= -50 && c.high <= 50 && c.mean() <= 32
}

// unnamed tells humidity and temperature apart where the head does not: by units in the cells, by the
// dew point if it stands beside them, else by their ranges. What remains open is refused.
func (l *layout) unnamed(g *grid, mean []quantity, width int) error {
	if slices.Contains(mean, warmth) {
		return l.refuse(g, "no column is named humidity", "name it RH in the head line")
	}
	cols := l.numbers(g, mean, width)
	r, ok := apart(cols)
	if !ok {
		if len(cols) == 0 {
			return l.refuse(g, "no column holds humidity", "columns of humidity are named RH, humidity or in another language, or hold % in their cells")
		}
		return l.refuse(g, "the columns of humidity and temperature have no names and cannot be told apart by their values", "add a head line such as time,RH,T")
	}
	l.rooms = []room{r}
	return nil
}

func (l *layout) refuse(g *grid, msg, hint string) error {
	return problem.List{{File: g.name, Line: g.number(l.first), Part: "humidity", Msg: msg, Hint: hint}}.Err()
}

// numbers returns the columns that mostly hold numbers, without those of the time and row numbers.
func (l *layout) numbers(g *grid, mean []quantity, width int) []*column {
	cols := make([]*column, width)
	var cells [][]byte
	for _, i := range g.sample() {
		if cells = g.split(i, cells); i < l.first {
			continue
		}
		for c := range min(width, len(cells)) {
			if cols[c] == nil {
				cols[c] = &column{at: c, low: math.Inf(1), high: math.Inf(-1), counts: true}
			}
			cols[c].add(cells[c], l.decimal)
		}
	}
	var out []*column
	for c, col := range cols {
		known := c < len(mean) && mean[c] != other && mean[c] != value
		if col == nil || col.n*2 < col.all || col.n == 0 || slices.Contains(l.date, c) || col.counts && col.n > 2 || known {
			continue
		}
		if col.low == col.high && col.n > 5 {
			continue // a serial number, an alarm
		}
		out = append(out, col)
	}
	return out
}

func (c *column) add(cell []byte, decimal byte) {
	if len(cell) == 0 {
		return
	}
	c.all++
	v, w := number(cell, decimal)
	if w != isNumber {
		return
	}
	if c.n > 0 && v-c.last != 1 && c.counts && c.n < 300 {
		c.counts = false
	}
	c.n, c.last, c.sum = c.n+1, v, c.sum+v
	c.low, c.high = min(c.low, v), max(c.high, v)
	c.values = append(c.values, v)
	if c.unit == 0 {
		c.unit = cellUnit(cell)
	}
}

// cellUnit returns '%' or a unit of temperature that follows a number, else 0.
func cellUnit(cell []byte) byte {
	_, rest := numeric(cell)
	switch u := string(rest); {
	case len(u) == 0:
		return 0
	case warmUnit(u) != 0:
		return warmUnit(u)
	case humidUnit(strings.ToLower(u)):
		return '%'
	}
	return 0
}

// apart finds the pair of columns that can only be humidity and temperature.
func apart(cols []*column) (room, bool) {
	var found []room
	for _, h := range cols {
		for _, t := range cols {
			if h == t || !h.asHumidity() || !t.asWarmth() {
				continue
			}
			r := room{rh: h.at, t: t.at, dew: -1, guessed: fmt.Sprintf("no names: column %d read as humidity, column %d as temperature, by their values", h.at+1, t.at+1)}
			if t.unit != 0 {
				r.unit = string(t.unit)
			}
			if len(cols) == 3 {
				for _, d := range cols {
					if d != h && d != t && fitsDew(h, t, d) {
						r.dew = d.at
						return r, true
					}
				}
			}
			if len(cols) == 2 || h.unit == '%' && t.unit != 0 {
				found = append(found, r)
			}
		}
	}
	if len(found) == 0 && len(cols) == 1 && cols[0].unit == '%' {
		return room{rh: cols[0].at, t: -1, dew: -1, guessed: fmt.Sprintf("no names: column %d read as humidity because its cells say %%", cols[0].at+1)}, true
	}
	if len(found) != 1 {
		return room{}, false
	}
	return found[0], true
}

// fitsDew says whether a third column is the dew point of the first two.
func fitsDew(h, t, d *column) bool {
	n := min(len(h.values), len(t.values), len(d.values))
	if len(h.values) != len(t.values) || len(t.values) != len(d.values) || n < 3 {
		return false
	}
	sum := 0.0
	for i := range n {
		sum += math.Abs(dewOf(t.values[i], h.values[i]/100) - d.values[i])
	}
	return sum/float64(n) < dewTrust
}

// dewOf is the dew point of air, °C; T in °C, RH as a fraction. NaN where the formula does not hold.
func dewOf(t, rh float64) float64 {
	formula := moisture.MagnusWMO
	if _, most := formula.Range(); t > float64(most) {
		formula = moisture.Sonntag1994
	}
	d, err := formula.DewPoint(moisture.RH(min(rh, 1)), moisture.Celsius(t))
	if err != nil {
		return math.NaN()
	}
	return float64(d)
}
