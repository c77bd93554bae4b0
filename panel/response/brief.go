package response

import (
	"context"
	"math"

	"crossgrain/panel/restraint"
)

// FollowBriefly is [Case.Follow] for one of many realisations of a panel, in a fraction of the time: forces with little creep by
// moisture, crushing before creep, moisture along the mean curve alone, the record run through once more at most where it is the
// home climate; k takes the states of those days alone on which width, warp or the pull of a member goes beyond all days before.
// The year has the days and what the members do, and leaves out what is open of the warp, profiles, letting go and paint.
func (c *Case) FollowBriefly(ctx context.Context, s Course, k Sink) (*Year, error) {
	return c.goThrough(ctx, s, k, true)
}

// Lent is what one realisation lends to others of the same panel: the energies at its joins and splits, and how its wood yields
// under what holds it.
type Lent struct {
	lines []*lineElements
	like  *restraint.Assembly
}

// Lend works out the energies at all joins and splits of a refined case; nothing where closed forms stand alone.
func (c *Case) Lend() Lent {
	if c.planned == nil {
		return Lent{}
	}
	l := Lent{make([]*lineElements, len(c.lines)), c.planned.a}
	for i := range c.lines {
		l.lines[i] = c.byElements(i)
	}
	return l
}

// RefineLike is [Case.Refine], where the energies at joins and splits are not worked out anew but go in the proportion of the strip
// formula from those of another realisation, and so does the way its wood yields. What was not lent is worked out.
func (c *Case) RefineLike(l Lent) (why string) {
	why = c.refineAs(l.like)
	if c.planned != nil && len(c.lines) == len(l.lines) {
		c.planned.elements = l.lines
	}
	return why
}

// beyond is by how much of its size so far an extreme must be passed to stand out.
const beyond = 0.01

// standsOut says that on the day that ends width, warp or the pull of some member went beyond all days before.
func (f *follower) standsOut() bool {
	d, out := &f.day, false
	if f.most == nil {
		f.most = make([]float64, 4+len(d.Hold))
		out = true
	}
	for i, v := range [...]float64{d.Width[1], -d.Width[0], d.Warp[1], -d.Warp[0]} {
		out = f.passes(i, v) || out
	}
	for i := range d.Hold {
		out = f.passes(4+i, d.Hold[i][1]) || out
	}
	return out
}

// passes takes a value that goes beyond all before.
func (f *follower) passes(i int, v float64) bool {
	if !(v > f.most[i]+beyond*math.Abs(f.most[i])) {
		return false
	}
	f.most[i] = v
	return true
}
