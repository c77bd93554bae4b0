package response

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel/fracture"
	"crossgrain/species"
)

// Closing says how an open line closes by itself.
type Closing string

// The ways.
const (
	ClosesAt     Closing = "at"         // at the humidity told
	NeverCloses  Closing = "never"      // not up to the dampest humidity worked out
	ClosesFilled Closing = "filled"     // something is in it
	ClosesFree   Closing = "free"       // nothing holds the wood on both sides: damp alone does not close it
	GapUnknown   Closing = "unmeasured" // no gap was measured
)

// HandForce is what two hands are taken to press a panel together with, N (assumption: about 15 kg). Of a
// force no more is told than whether it is greater.
const HandForce = 150.0

// Reglue is what can be told of closing and regluing one open join, split or check.
type Reglue struct {
	Part, Kind string
	Gap        float64 // as measured, mm
	GapRH      moisture.RH
	Filled     string  // yes, no, not recorded
	Span       float64 // between what holds the wood on either side, mm; 0: nothing does
	Closes     Closing
	ClosesRH   moisture.RH // with Closes "at"
	At, Used   GlueAt      // at the humidity that asks least, and at the one it is used to
	Low, High  moisture.RH // that humidity as steps of five points; both 0 when it does not matter
	Indoors    bool        // that humidity lies within the range; false: at its end
	MoreThan   bool        // closing it there would take more than hands press
	Next       Demand      // what is nearest to giving way by dryness once it holds; no Part: nothing is
	NextRH     moisture.RH
	Half, Most time.Duration // boards beside it: half of a change, and nearly all of it, the slower of them
}

// GlueAt is what it asks to glue at a humidity.
type GlueAt struct {
	RH     moisture.RH
	Pull   float64 // at the driest, over what wood and join bear for a season
	Press  float64 // at the dampest, over the strain at which wood is slowly crushed
	Opens  float64 // gap still there then, mm; 0: closed. NaN: not known
	Strain float64 // held there before it is glued, pull positive
}

// Worst returns the greater share.
func (g GlueAt) Worst() float64 { return math.Max(g.Pull, g.Press) }

// reglueStep is the step in which the humidity is sought.
const reglueStep = 0.005

// lineStrains is how the wood at one line is held, at rising humidities and at places along it.
type lineStrains struct {
	rh   []moisture.RH
	held [][]float64 // by humidity and place
	span float64
	mean []float64
}

// No humidity outside these is told for gluing: above, glue softens and mould grows; below, paint suffers (common practice, as
// for the caps of ranges).
const glueFrom, glueTo = moisture.RH(0.30), moisture.RH(0.70)

// places along a line where what is held there is read.
const reglueStations = 5

// Reglue works out for every open join, split and check at which humidity it closes by itself and at which
// it should be glued so that what follows asks least of wood and join between low and high, wood in balance.
// What is held at the line counts from the humidity of gluing. sweep is states in balance over the range at
// any humidities; what it does not reach is worked out. The limits are those of slow tests, with relaxation
// inside: [species.SlowBreak] and [species.CompressionSlow]. A reglued join is taken as strong as its
// recorded strength relative to sound wood; that is an assumption for every aged join.
func (c *Case) Reglue(low, high moisture.RH, sweep []State) ([]Reglue, error) {
	if !(low >= 0 && low <= high && high <= 1) {
		return nil, fmt.Errorf("response: range of humidity must lie between 0 and 100 %% RH, low before high, got %g to %g", low.Percent(), high.Percent())
	}
	if len(c.lines) == 0 {
		return nil, nil
	}
	c, sweep, err := c.closedUp(sweep)
	if err != nil {
		return nil, err
	}
	states, err := c.covering(low, high, sweep)
	if err != nil {
		return nil, err
	}
	boards, err := c.Boards()
	if err != nil {
		return nil, err
	}
	out := make([]Reglue, len(c.lines))
	for i := range c.lines {
		r := &out[i]
		c.recordedGap(r, &c.lines[i])
		s := c.strainsAt(i, states)
		r.Span = s.span
		c.closing(r, i, &s)
		c.gluing(r, i, &s, low, high)
		c.next(r, states, low, high)
		for _, k := range c.beside(r.Part, i) {
			r.Half, r.Most = max(r.Half, boards[k].Half), max(r.Most, boards[k].Window)
		}
	}
	return out, nil
}

// closedUp returns the panel as it would be with its joins, splits and checks glued, and what of the states given holds for it. Those
// open from end to end stay so: they are told from what holds each piece.
func (c *Case) closedUp(sweep []State) (*Case, []State, error) {
	if c.planned == nil || !slices.ContainsFunc(c.planned.seams, func(q seam) bool { return !q.parted }) {
		return c, sweep, nil
	}
	glued := *c
	glued.glued = true
	var err error
	glued.planned, err = glued.newWhole(nil)
	return &glued, nil, err
}

// covering returns states by rising humidity that reach over every humidity that is asked for.
func (c *Case) covering(low, high moisture.RH, sweep []State) ([]State, error) {
	states := slices.Clone(sweep)
	least, most := min(low, c.o.UsedTo), max(high, c.o.UsedTo)
	for i := range c.lines {
		if rh := c.gapRH(&c.lines[i]); rh > 0 {
			least, most = min(least, rh), max(most, rh)
		}
	}
	have := func(rh moisture.RH) bool {
		return slices.ContainsFunc(states, func(s State) bool { return math.Abs(float64(s.RH-rh)) < 1e-6 })
	}
	var more []moisture.RH
	for _, rh := range []moisture.RH{least, low, c.o.UsedTo, high, most} {
		if !have(rh) && !slices.Contains(more, rh) {
			more = append(more, rh)
		}
	}
	if len(sweep) < 3 {
		for rh := moisture.RH(0.05); rh < 0.96; rh += 0.1 {
			if !have(rh) && !slices.Contains(more, rh) {
				more = append(more, rh)
			}
		}
	}
	extra, err := c.Settle(more)
	if err != nil {
		return nil, err
	}
	states = append(states, extra...)
	slices.SortStableFunc(states, func(a, b State) int { return cmp.Compare(a.RH, b.RH) })
	return slices.CompactFunc(states, func(a, b State) bool { return math.Abs(float64(a.RH-b.RH)) < 1e-6 }), nil
}

// gapRH returns the humidity at which the gap of a line was measured, 0 when it was not.
func (c *Case) gapRH(l *line) moisture.RH {
	var r Reglue
	c.recordedGap(&r, l)
	return r.GapRH
}

// recordedGap fills in what the file says of a line.
func (c *Case) recordedGap(r *Reglue, l *line) {
	r.Part, r.Kind, r.Gap = l.part, l.kind, l.gap
	for _, j := range c.o.Joins {
		if l.part == "join."+j.Name {
			r.GapRH, r.Filled = j.GapRH, j.Filled
		}
	}
	for _, s := range c.o.Splits {
		if l.part == "split."+s.Name {
			r.GapRH, r.Filled = s.GapRH, s.Filled
		}
	}
}

// strainsAt reads what is held along line i in every state.
func (c *Case) strainsAt(i int, states []State) lineStrains {
	l := &c.lines[i]
	var out lineStrains
	for k := range states {
		s := &states[k]
		span, strain, _ := c.around(s, l)
		if c.planned != nil && span > 0 && s.stood != nil && !c.planned.stands(l.part) {
			strain, _ = c.alongLine(i, s.stood)
		}
		held, sum := make([]float64, reglueStations), 0.0
		for p := range held {
			if span > 0 {
				held[p] = strain(l.start + (l.end-l.start)*(float64(p)+0.5)/reglueStations)
			}
			sum += held[p]
		}
		out.rh, out.held, out.mean = append(out.rh, s.RH), append(out.held, held), append(out.mean, sum/reglueStations)
		out.span = math.Max(out.span, span)
	}
	return out
}

// between returns the place of a humidity among those known, and its share on the way to the next.
func (s *lineStrains) between(rh moisture.RH) (k int, f float64) {
	k = min(max(0, len(s.rh)-2), max(0, sortedBefore(s.rh, rh)))
	if k+1 >= len(s.rh) {
		return k, 0
	}
	return k, min(1, max(0, float64((rh-s.rh[k])/(s.rh[k+1]-s.rh[k]))))
}

func sortedBefore(v []moisture.RH, rh moisture.RH) int {
	n, found := slices.BinarySearch(v, rh)
	if found {
		return n
	}
	return n - 1
}

// at returns what is held at place p, between the states.
func (s *lineStrains) at(rh moisture.RH, p int) float64 {
	k, f := s.between(rh)
	if f == 0 {
		return s.held[k][p]
	}
	return s.held[k][p]*(1-f) + s.held[k+1][p]*f
}

// over is the mean over the line.
func (s *lineStrains) over(rh moisture.RH) float64 {
	k, f := s.between(rh)
	if f == 0 {
		return s.mean[k]
	}
	return s.mean[k]*(1-f) + s.mean[k+1]*f
}

// opening returns the gap of line i at a humidity, mm: that measured and what the wood between what holds
// it has moved since; not held back at 0.
func (c *Case) opening(i int, s *lineStrains, r *Reglue, rh moisture.RH) float64 {
	l := &c.lines[i]
	if l.end-l.start >= c.o.Along { // nothing of it holds any more: each side moves freely from what holds it
		from, to := c.holds(l)
		return r.Gap - (c.freely(from, to, rh) - c.freely(from, to, r.GapRH))
	}
	return r.Gap + openingBy(c, i, s, s.over(rh)-s.over(r.GapRH))
}

// holds returns the places across the panel from which the wood on either side of a line moves: the middle of the fixings
// of a member there, which give alike, or the line itself where the member is glued on; the mean over the members.
func (c *Case) holds(l *line) (from, to float64) {
	var n float64
	for _, h := range c.holders() {
		left, right, nl, nr := 0.0, 0.0, 0.0, 0.0
		for _, f := range h.fix {
			if f.X < l.x {
				left, nl = left+f.X, nl+1
			} else {
				right, nr = right+f.X, nr+1
			}
		}
		if nl == 0 || nr == 0 {
			continue
		}
		if left, right = left/nl, right/nr; h.glued {
			left, right = l.x, l.x
		}
		from, to, n = from+left, to+right, n+1
	}
	if n == 0 {
		return l.x, l.x
	}
	return from / n, to / n
}

// freely returns the free movement, mm, of the wood between two places across the panel, from the used-to humidity.
func (c *Case) freely(from, to float64, rh moisture.RH) (move float64) {
	for i := range c.boards {
		b := &c.boards[i]
		wide := math.Min(to, b.Left+b.Width) - math.Max(from, b.Left)
		move += math.Max(0, wide) * b.across(b.mc(rh, c.o.Temperature)-b.used)
	}
	return move
}

// closing finds the humidity at which a line closes by itself.
func (c *Case) closing(r *Reglue, i int, s *lineStrains) {
	switch {
	case r.Filled == "yes":
		r.Closes = ClosesFilled
	case r.GapRH == 0 || r.Gap <= 0:
		r.Closes = GapUnknown
	case s.span == 0:
		r.Closes = ClosesFree
	default:
		r.Closes = NeverCloses
		last := s.rh[len(s.rh)-1]
		for rh := r.GapRH; ; rh += reglueStep {
			rh = min(rh, last)
			if c.opening(i, s, r, rh) <= 0 {
				r.Closes, r.ClosesRH = ClosesAt, rh
				return
			}
			if rh >= last {
				return
			}
		}
	}
}

// beside lists the boards on either side of line i.
func (c *Case) beside(part string, i int) []int {
	for _, j := range c.o.Joins {
		if part == "join."+j.Name {
			return []int{j.Left, j.Right}
		}
	}
	return []int{c.lines[i].board}
}

// bears returns the strain that wood and join at line i bear for a season.
func (c *Case) bears(r *Reglue, i int) float64 {
	least := math.Inf(1)
	for _, k := range c.beside(r.Part, i) {
		least = math.Min(least, c.boards[k].breaks)
	}
	return least * math.Max(c.lines[i].relative, 1e-3)
}

// gluedAt says what gluing line i at a humidity asks between low and high.
func (c *Case) gluedAt(r *Reglue, i int, s *lineStrains, rh, low, high moisture.RH) GlueAt {
	g := GlueAt{RH: rh, Opens: math.NaN(), Strain: s.over(rh)}
	bears, crush := c.bears(r, i), species.CompressionSlow().Value
	for p := range reglueStations {
		now := s.at(rh, p)
		g.Pull = math.Max(g.Pull, (s.at(low, p)-now)/bears)
		g.Press = math.Max(g.Press, (now-s.at(high, p))/crush)
	}
	if r.GapRH > 0 {
		g.Opens = math.Max(0, c.opening(i, s, r, rh))
	}
	return g
}

// gluing seeks the humidity at which the greater of later pull and press is least.
func (c *Case) gluing(r *Reglue, i int, s *lineStrains, low, high moisture.RH) {
	r.Used = c.gluedAt(r, i, s, c.o.UsedTo, low, high)
	r.At = r.Used
	from, to := max(low, glueFrom), min(high, glueTo)
	if s.span == 0 || !(to > from) {
		return
	}
	n := int(math.Ceil(float64(to-from)/reglueStep - 1e-9))
	at := 0
	for k := range n + 1 {
		g := c.gluedAt(r, i, s, from+(to-from)*moisture.RH(float64(k)/float64(n)), low, high)
		if k == 0 || g.Worst() < r.At.Worst() {
			r.At, at = g, k
		}
	}
	r.Indoors = at > 0 && at < n
	r.Low, r.High = fiveSteps(r.At.RH)
	b := &c.boards[c.lines[i].board]
	if r.At.Opens > 0 { // E left t length gap/span, the force that draws the wood together over the span
		length := c.lines[i].end - c.lines[i].start
		r.MoreThan = b.stiff*b.left*b.Thickness*length*r.At.Opens/s.span > HandForce
	}
}

// fiveSteps returns the step of five points that holds a humidity as near its middle as can be.
func fiveSteps(rh moisture.RH) (low, high moisture.RH) {
	k := math.Round((rh.Percent() - 2.5) / 5)
	k = math.Min(float64(glueTo)*20-1, math.Max(float64(glueFrom)*20, math.Round(k))) // within what is told
	return moisture.RH(5 * k / 100), moisture.RH(5 * (k + 1) / 100)
}

// next finds what is nearest to giving way by dryness once the line holds.
func (c *Case) next(r *Reglue, states []State, low, high moisture.RH) {
	top := 0.0
	for k := range states {
		s := &states[k]
		if s.RH < low-1e-9 || s.RH > high+1e-9 {
			continue
		}
		for _, d := range s.Demands {
			if d.Part == r.Part || d.Mode != JoinTension && d.Mode != WoodSplit && d.Mode != CheckGrowth {
				continue
			}
			if v := d.Share(); v > top {
				top, r.Next, r.NextRH = v, d, s.RH
			}
		}
	}
}

// openingBy is the opening of line i, mm, by a strain held over its span.
func openingBy(c *Case, i int, s *lineStrains, strain float64) float64 {
	length := c.lines[i].end - c.lines[i].start
	return fracture.Opening(strain, s.span, length)
}
