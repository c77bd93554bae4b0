package record

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Reading is what is understood by a change of "+-x in 24 h": agreements rarely say (a conservator
// asked in public in 2001 and got no definition,
// https://cool.culturalheritage.org/byform/mailing-lists/cdl/2001/1379.html). In each reading the
// agreement is kept while the change is at most x.
type Reading int

// The four readings.
const (
	// WithinWindow: largest less smallest of any 24 h. The strictest that is common, the default.
	WithinWindow Reading = iota
	// PlusMinus: half of largest less smallest of any 24 h, so that +-5 allows 10 in all.
	PlusMinus
	// Apart: difference of two readings 24 h apart, whatever was between them.
	Apart
	// FromMean: departure from the mean of the calendar day (clock hour, week from Monday).
	FromMean
)

// Readings returns all four, the default first.
func Readings() []Reading { return []Reading{WithinWindow, PlusMinus, Apart, FromMean} }

// ParseReading returns the reading of a short name: range, plus-minus, apart or from-mean.
func ParseReading(name string) (Reading, error) {
	var names []string
	for _, h := range Readings() {
		if strings.EqualFold(strings.TrimSpace(name), h.String()) {
			return h, nil
		}
		names = append(names, h.String())
	}
	return 0, fmt.Errorf("a change must be read as %s, got %q", strings.Join(names, ", "), name)
}

// String returns the short name.
func (h Reading) String() string {
	switch h {
	case PlusMinus:
		return "plus-minus"
	case Apart:
		return "apart"
	case FromMean:
		return "from-mean"
	}
	return "range"
}

// Words says what is compared, for a window such as 24 h.
func (h Reading) Words(window time.Duration) string {
	w := words(window)
	switch h {
	case PlusMinus:
		return "half of the largest less the smallest reading within any " + w
	case Apart:
		return "difference of readings " + w + " apart"
	case FromMean:
		return "departure from the mean of the " + w + " of the clock"
	}
	return "largest less smallest reading within any " + w
}

// Change is the largest change of a quantity in a window of time, and how changes are spread.
type Change struct {
	Of       Quantity
	Window   time.Duration
	How      Reading
	Largest  float64   // fraction or K; NaN when no window could be judged
	From, To time.Time // the two readings that differ so, in order of time (FromMean: the reading)
	Rise     bool      // the later one is higher (FromMean: the reading lies above the mean)
	// AcrossGap says that a gap lies between From and To: what happened in it is not known.
	AcrossGap bool
	P50, P95  float64 // of all windows, fraction or K
	OverTen   float64 // share of the windows above 10 points or 10 K
	Windows   int     // judged, one ending at each reading (FromMean: one a reading)
	LeftOut   int     // readings at whose window was left out: before a full window, or covered to less than 80 %
	WhyNot    string  // why none was judged; empty otherwise
}

// Changes are the changes of humidity in any 1 h, 24 h and 7 d.
type Changes struct{ Hour, Day, Week Change }

// Changes returns the changes of humidity in windows of 1 h, 24 h and 7 d, see [Record.Change].
func (r *Record) Changes(how Reading) Changes {
	s := r.series(Humidity)
	return Changes{
		Hour: r.change(&s, Humidity, time.Hour, how),
		Day:  r.change(&s, Humidity, 24*time.Hour, how),
		Week: r.change(&s, Humidity, 7*24*time.Hour, how),
	}
}

// Change returns the largest change of a quantity in a window, by one of the four readings.
//
// A window ends at each reading and reaches back over the time given, both ends included, and a
// tenth of the usual step more, for clocks that run late. It is judged when it lies inside the
// record and gaps take at most 20 % of it. Apart takes the reading nearest to one window earlier,
// where there is one within half a usual step, whatever lies between; FromMean takes the blocks of
// the clock that readings cover to 80 %. Runs once through the record.
func (r *Record) Change(q Quantity, window time.Duration, how Reading) Change {
	s := r.series(q)
	return r.change(&s, q, window, how)
}

func (r *Record) change(s *series, q Quantity, window time.Duration, how Reading) Change {
	c := Change{Of: q, Window: window, How: how, Largest: nan(), P50: nan(), P95: nan(), OverTen: nan()}
	if c.WhyNot = s.tooSparse(q, window); c.WhyNot != "" {
		c.LeftOut = len(s.t)
		return c
	}
	ten := 0.10
	if q == Temperature {
		ten = 10
	}
	all, w := make([]float64, 0, len(s.t)), make([]float64, 0, len(s.t))
	from, to, over, total := 0, 0, 0.0, 0.0
	r.eachChange(s, window, how, func(i int, x float64, a, b int) {
		if len(all) == 0 || x > c.Largest {
			c.Largest, from, to = x, a, b
		}
		all, w = append(all, x), append(w, s.w[i])
		total += s.w[i]
		if Over(x, ten) {
			over += s.w[i]
		}
	})
	c.Windows, c.LeftOut = len(all), len(s.t)-len(all)
	if len(all) == 0 {
		c.WhyNot = fmt.Sprintf("no window of %s lies inside the record with readings for %.0f %% of it", words(window), 100*coverage)
		return c
	}
	p := percentiles(all, w, s.even, 50, 95)
	c.P50, c.P95, c.OverTen = p[0], p[1], over/total
	r.when(&c, s, from, to)
	return c
}

// when fills in the readings between which the largest change lies.
func (r *Record) when(c *Change, s *series, a, b int) {
	c.From, c.To = r.Times[s.reading(a)], r.Times[s.reading(b)]
	c.Rise = s.v[b] > s.v[a]
	if c.How == FromMean {
		block := r.blocks(c.Window)
		mean, total := 0.0, 0.0
		for i, t := range s.t {
			if block(t) == block(s.t[a]) {
				mean, total = mean+s.w[i]*s.v[i], total+s.w[i]
			}
		}
		c.Rise = s.v[a] > mean/total
	}
	for i := a + 1; i <= b; i++ {
		c.AcrossGap = c.AcrossGap || s.isGap(i)
	}
}

// tooSparse says why windows of this length cannot be judged at all; "" when they can.
func (s *series) tooSparse(q Quantity, window time.Duration) string {
	switch {
	case len(s.t) < 2:
		return fmt.Sprintf("the record has no two readings of %s", q)
	case window <= 0:
		return fmt.Sprintf("window must be above 0, got %s", window)
	case s.step > window.Milliseconds()+s.late():
		return fmt.Sprintf("readings are %s apart, further than the window of %s",
			words(time.Duration(s.step)*time.Millisecond), words(window))
	}
	return ""
}

// late is what a clock may run late over a window, ms: a tenth of the usual step (assumption).
func (s *series) late() int64 { return s.step / 10 }

// ChangeSeries returns the change at each reading (fraction or K, never negative) by the rules of
// [Record.Change]; NaN where it is not judged. The agreement is kept where it is at most x.
func (r *Record) ChangeSeries(q Quantity, window time.Duration, how Reading) []float64 {
	out := make([]float64, len(r.Times))
	for i := range out {
		out[i] = math.NaN()
	}
	s := r.series(q)
	if s.tooSparse(q, window) != "" {
		return out
	}
	r.eachChange(&s, window, how, func(i int, x float64, _, _ int) { out[s.reading(i)] = x })
	return out
}

// eachChange calls f with each reading that can be judged, its change, and the two readings, in
// order of time, that make it.
func (r *Record) eachChange(s *series, window time.Duration, how Reading, f func(i int, x float64, a, b int)) {
	switch how {
	case Apart:
		s.apart(window, f)
	case FromMean:
		s.fromMean(window, r.blocks(window), f)
	case PlusMinus:
		s.ranges(window, func(i int, x float64, a, b int) { f(i, x/2, a, b) })
	default:
		s.ranges(window, f)
	}
}
