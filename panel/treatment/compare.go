package treatment

import (
	"math"

	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Way says how something stands beside doing nothing.
type Way string

// The ways. Better and Worse are said where less or more of it is the worse for every panel; More and Less leave
// that open. New and Gone are of parts that the panel as it is, or the option, does not have.
const (
	Same   Way = "same"
	Better Way = "better"
	Worse  Way = "worse"
	More   Way = "more"
	Less   Way = "less"
	New    Way = "new"
	Gone   Way = "gone"
)

// Changes smaller than these are told as none: a share of limit by itself, and anything as a part of what it was
// (working choices; the shares themselves are doubtful by far more).
const (
	smallShare = 0.05
	smallPart  = 0.05
)

// Mode is one way for one part to give way.
type Mode struct {
	Mode  response.Mode
	Part  string
	At    *assessment.Worst // at its worst; nil where the option does not have the part
	Of100 *[2]float64       // of 100 such panels, the least and the greatest of the ways it may turn out; nil: not counted
	Way   Way
}

// Change is one quantity beside doing nothing.
type Change struct {
	What    string // width_season width_day warp_season warp_day held_width held_warp fixing carried room_width room_depth
	Was, Is float64
	Way     Way
}

// compare fills in modes and changes of every option beside the first.
func (r *Result) compare() {
	type key struct {
		mode response.Mode
		part string
	}
	var keys []key
	seen := map[key]bool{}
	for _, o := range r.Options {
		if o.Answer == nil {
			continue
		}
		for _, w := range o.Answer.Worst {
			if k := (key{w.Mode, w.Part}); !seen[k] {
				seen[k] = true
				keys = append(keys, k)
			}
		}
	}
	for i := range r.Options {
		o := &r.Options[i]
		if o.Answer == nil {
			continue
		}
		for j, k := range keys {
			m := Mode{Mode: k.mode, Part: k.part, Of100: o.of100(k.mode, k.part)}
			for n := range o.Answer.Worst {
				if w := &o.Answer.Worst[n]; w.Mode == k.mode && w.Part == k.part {
					m.At = w
				}
			}
			if m.Way = Same; i > 0 {
				m.Way = beside(r.Options[0].Modes[j].At, m.At)
			}
			o.Modes = append(o.Modes, m)
		}
		if i > 0 {
			o.change(&r.Options[0])
		}
	}
}

// of100 is how many of 100 such panels reach the limit of the part.
func (o *Option) of100(mode response.Mode, part string) *[2]float64 {
	d := o.Answer.Doubt
	if d == nil {
		return nil
	}
	var out *[2]float64
	for _, w := range d.Ways {
		for _, p := range w.Parts {
			switch {
			case p.Mode != mode || p.Part != part:
			case out == nil:
				out = &[2]float64{p.Of100, p.Of100}
			default:
				*out = [2]float64{min(out[0], p.Of100), max(out[1], p.Of100)}
			}
		}
	}
	return out
}

// beside compares two shares of limit.
func beside(was, is *assessment.Worst) Way {
	switch {
	case was == nil && is == nil:
		return Same
	case was == nil:
		return New
	case is == nil:
		return Gone
	}
	a, b := was.Share(), is.Share()
	if was.Unlimited() || is.Unlimited() { // then there is no share
		a, b = 0, 0
	}
	switch by := b - a; {
	case math.Abs(by) <= max(smallShare, smallPart*a):
		return Same
	case by > 0:
		return Worse
	}
	return Better
}

// change compares what the option does with doing nothing.
func (o *Option) change(nothing *Option) {
	a, b := &nothing.Does, &o.Does
	far := func(v [2]float64) float64 { return max(math.Abs(v[0]), math.Abs(v[1])) }
	add := func(what string, was, is, small float64, more, less Way) {
		c := Change{what, was, is, Same}
		switch by := is - was; {
		case math.Abs(by) <= max(small, smallPart*math.Abs(was)):
		case by > 0:
			c.Way = more
		default:
			c.Way = less
		}
		o.Changes = append(o.Changes, c)
	}
	const mm = 0.05 // what can be seen of a length
	add("width_season", a.Width[1]-a.Width[0], b.Width[1]-b.Width[0], mm, More, Less)
	add("width_day", a.Day, b.Day, mm/2, More, Less)
	add("warp_season", far(a.Warp), far(b.Warp), mm, Worse, Better)
	add("warp_day", a.DayWarp, b.DayWarp, mm, Worse, Better)
	if !o.encloses() || o.Structural { // in a case alone the members are what they were; only less movement is left to hold
		add("held_width", a.HeldWidth, b.HeldWidth, 0.01, More, Less)
		add("held_warp", a.HeldWarp, b.HeldWarp, 0.02, More, Less)
	}
	add("fixing", a.Fixing, b.Fixing, 1, Worse, Better)
	add("carried", a.Carried, b.Carried, mm, Worse, Better)
	o.Changes = append(o.Changes, roomier("room_width", a.RoomWidth, b.RoomWidth), roomier("room_depth", a.RoomDepth, b.RoomDepth))
}

// roomier compares room in the frame by the millimetre, not by its share.
func roomier(what string, was, is float64) Change {
	c := Change{what, was, is, Same}
	switch {
	case is-was > 0.25:
		c.Way = Worse
	case was-is > 0.25:
		c.Way = Better
	}
	return c
}
