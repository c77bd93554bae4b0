package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"
)

// HoldYear asks when the panel is held hardest: over a year the humidity of the air and beneath it, for
// each member, the force on its hardest fixing, by days. NaN is a gap and stays open.
type HoldYear struct {
	Meta
	Start           time.Time    // civil time of day nought
	Days            []float64    // since Start, one a day, or one for every few days
	Every           int          // days that each point stands for; 0 stands for 1
	LowPct, HighPct []float64    // driest and dampest of the air each day
	UsedToPct       float64      // nought: not said
	Members         []HeldCourse // at most six are drawn, those with the greatest force
}

// HeldCourse is one member over the year.
type HeldCourse struct {
	Name        string
	LowN, HighN []float64 // least and greatest of the day on its hardest fixing
	Cases       CaseBand  // of the force, over other cases of the panel; may be empty
	Binds       []Interval
}

// Interval is a time with a name, such as "slots bind".
type Interval struct {
	FromDay, ToDay float64
	Label          string
}

const (
	mostHeld                            = 6
	holdAirHeight, holdHeight vg.Length = 78, 52
	bindFoot                  vg.Length = 3.4
)

// Draw lays the figure out.
func (y HoldYear) Draw() Figure {
	m := y.or("hold-year", "When is it held hardest?")
	lo, hi, ok := extent(y.Days)
	if !ok || !(hi > lo) {
		lo, hi = 0, 1
	}
	greatest := y.greatest()
	words := y.words(len(greatest) - mostHeld)
	shown := greatest[:min(len(greatest), mostHeld)]
	if slices.ContainsFunc(shown, func(c HeldCourse) bool { return c.Cases.any() }) {
		words += " " + caseWords
	}
	charts, heights := []chart{y.air(lo, hi)}, []vg.Length{holdAirHeight}
	for _, c := range y.courses(shown, lo, hi) {
		charts, heights = append(charts, c), append(heights, holdHeight)
	}
	head := headHeight(m, words)
	h := head + bottomAxisHeight + margin + vg.Length(len(heights)-1)*rowGap
	for i := range heights {
		h += axisNameRow + heights[i]
	}
	return m.figure(h, y.sentence(greatest), y.desc(shown), func(p pen) {
		p.head(m, h, words)
		fields := drawStack(p, h-head, charts, heights)
		for i, c := range shown {
			c.foot(p, fields[i+1])
		}
	})
}

func (y HoldYear) words(more int) string {
	days := "of each day"
	if y.Every > 1 {
		days = "of every " + count(y.Every, "day")
	}
	s := "Bands: lowest to highest " + days + "; the force is that on the hardest fixing."
	if more > 0 {
		s += fmt.Sprintf(" The %d greatest; %d more carry less.", mostHeld, more)
	}
	return s
}

func (y HoldYear) air(lo, hi float64) chart {
	return YearCourse{Start: y.Start, Days: y.Days, LowPct: y.LowPct, HighPct: y.HighPct, UsedToPct: y.UsedToPct}.air(lo, hi)
}

// greatest are the members, the one with the greatest force first.
func (y HoldYear) greatest() []HeldCourse {
	out := slices.Clone(y.Members)
	slices.SortStableFunc(out, func(a, b HeldCourse) int { return cmp.Compare(b.size(), a.size()) })
	return out
}

// most is where the force of a member is greatest, of either sign, and its value; -1 for none.
func (c HeldCourse) most() (i int, n float64) {
	i = -1
	for _, v := range [][]float64{c.HighN, c.LowN} {
		for k, x := range v {
			if usable(x) && (i < 0 || math.Abs(x) > math.Abs(n)) {
				i, n = k, x
			}
		}
	}
	return i, n
}

func (c HeldCourse) size() float64 {
	i, n := c.most()
	if i < 0 {
		return -1
	}
	return math.Abs(n)
}

// courses are the charts of the members, all with one scale of force.
func (y HoldYear) courses(shown []HeldCourse, lo, hi float64) []chart {
	all := [][]float64{{0}}
	for _, c := range shown {
		all = append(all, c.LowN, c.HighN, c.Cases.Low, c.Cases.High)
	}
	a, b, _ := extent(all...)
	scale := around("", a, b+(b-a)/6)
	scale.ticks = ticks(scale.lo, scale.hi, step(scale.hi-scale.lo, 4))
	out := make([]chart, 0, len(shown))
	for _, c := range shown {
		ch := YearCourse{Days: y.Days}.between(c.LowN, c.HighN, stroke{hair, vermilion, nil})
		ch.x, ch.y = calendar(y.Start, lo, hi), scale
		ch.y.name = "Force / N"
		if name := plainText.fit(c.Name, 300); name != "" {
			ch.y.name = name + " / N"
		}
		ch.zones = append(ch.zones, c.zones()...)
		c.Cases.under(&ch, y.Days, vermilion)
		ch.points = y.peak(c)
		out = append(out, ch)
	}
	return out
}

// zones are the times that are marked; of those with one name the longest is named.
func (c HeldCourse) zones() []zone {
	longest := map[string]int{}
	for i, b := range c.Binds {
		if k, ok := longest[b.Label]; b.sound() && (!ok || b.ToDay-b.FromDay > c.Binds[k].ToDay-c.Binds[k].FromDay) {
			longest[b.Label] = i
		}
	}
	var out []zone
	for i, b := range c.Binds {
		if !b.sound() {
			continue
		}
		z := zone{lo: b.FromDay, hi: b.ToDay}
		if longest[b.Label] == i {
			z.name = clean(b.Label)
		}
		out = append(out, z)
	}
	return out
}

func (b Interval) sound() bool { return usable(b.FromDay) && usable(b.ToDay) && b.ToDay > b.FromDay }

// foot puts a bar under each marked time, so that it is told from white without its tint.
func (c HeldCourse) foot(p pen, f *field) {
	for _, z := range c.zones() {
		if lo, hi := f.sx.clamp(z.lo), f.sx.clamp(z.hi); hi > lo {
			p.rect(ink, stroke{}, box(lo, f.r.Min.Y-bindFoot, max(hi, lo+1), f.r.Min.Y))
		}
	}
}

func (y HoldYear) peak(c HeldCourse) []point {
	i, n := c.most()
	if i < 0 || i >= len(y.Days) || !usable(y.Days[i]) || math.Abs(n) < noForce {
		return nil
	}
	return []point{{x: y.Days[i], y: n, name: force(math.Abs(n)) + ", " + weight(n) + ", " + date(dayAt(y.Start, y.Days[i]))}}
}

func (y HoldYear) sentence(greatest []HeldCourse) string {
	if len(greatest) == 0 {
		return "Nothing holds this panel."
	}
	c := greatest[0]
	i, n := c.most()
	switch {
	case i < 0 || i >= len(y.Days) || !usable(y.Days[i]):
		return "The forces could not be calculated."
	case math.Abs(n) < noForce:
		return "No fixing carries a force of a newton in this time."
	}
	s := "It is held hardest on " + date(dayAt(y.Start, y.Days[i])) + ": " + force(math.Abs(n)) + " (" + weight(n) + ")"
	if name := clean(c.Name); name != "" {
		s += " on a fixing of " + name
	}
	return s + c.Cases.told(force) + "."
}

func (y HoldYear) desc(shown []HeldCourse) string {
	out := listedDays("Air", y.Start, y.Days, pairwise(y.LowPct, y.HighPct, mean2), " % RH", rh)
	for _, c := range shown {
		out += listedDays(clean(c.Name), y.Start, y.Days, pairwise(c.LowN, c.HighN, mean2), " N", func(v float64) string { return fixed(round2(v), 0) })
		for _, b := range c.Binds {
			if b.sound() {
				out += strings.TrimSpace(capital(clean(b.Label))+" from ") + " " + date(dayAt(y.Start, b.FromDay)) + " to " + date(dayAt(y.Start, b.ToDay)) + ". "
			}
		}
	}
	return out
}
