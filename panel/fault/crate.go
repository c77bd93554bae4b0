package fault

import (
	"slices"
	"time"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
)

// Crate is one case with several panels in it, whose wood together answers the air in it.
type Crate struct {
	assessment.Enclosure
	woodKg  float64
	follows time.Duration
}

// NewCrate puts panels into a case. The wood of all of them counts, at the pace of the slowest: what answers late steadies the air least.
// A panel that cannot be realised adds no wood.
func NewCrate(in assessment.Enclosure, panels []*panel.Panel) *Crate {
	c := &Crate{Enclosure: in}
	for _, p := range panels {
		at, err := assessment.Question{}.Panel(p)
		if err != nil {
			continue
		}
		c.woodKg += at.WoodKg
		c.follows = max(c.follows, at.Follows)
	}
	return c
}

// with is the air of the crate as one of its panels feels it.
func (c *Crate) with(in assessment.Enclosed) assessment.Enclosed {
	in.WoodKg, in.Follows = max(in.WoodKg, c.woodKg), max(in.Follows, c.follows)
	return in
}

// After returns the humidity in the crate, see [assessment.Enclosure].
func (c *Crate) After(in assessment.Enclosed, room moisture.RH, closed time.Duration) (moisture.RH, error) {
	return c.Enclosure.After(c.with(in), room, closed)
}

// Opening returns how long it takes to open it, see [assessment.Enclosure].
func (c *Crate) Opening(in assessment.Enclosed, room moisture.RH, perDay float64) (time.Duration, error) {
	return c.Enclosure.Opening(c.with(in), room, perDay)
}

// CrateCards makes the cards of a crate from those of its panels, one by the reading inside and one by that of the room: in every row
// the panel that must be seen first. soonest is that panel of each card, by its place in the list; -1: nothing is reached. A panel
// without hours leaves the crate without hours.
func CrateCards(of [][]Card) (cards [2]Card, soonest [2]int) {
	for side := range cards {
		c := Card{InCase: true, ByCase: side == 0}
		var grids []*Grid
		for _, list := range of {
			at := slices.IndexFunc(list, func(x Card) bool { return x.InCase && x.ByCase == c.ByCase })
			if at < 0 || list[at].Grid == nil {
				grids = append(grids, nil)
				continue
			}
			x := &list[at]
			grids = append(grids, x.Grid)
			c.Season, c.Passed = c.Season || x.Season, c.Passed || x.Passed
			if c.SeasonWhy == "" {
				c.SeasonWhy = x.SeasonWhy
			}
		}
		if soonest[side] = first(grids); soonest[side] >= 0 && !slices.Contains(grids, nil) {
			at := of[soonest[side]]
			c.First = at[slices.IndexFunc(at, func(x Card) bool { return x.ByCase == c.ByCase })].First
		}
		if !slices.Contains(grids, nil) {
			c.Grid = Worst(grids)
		}
		cards[side] = c
	}
	return cards, soonest
}

// first is the grid whose soonest row calls soonest, and acts soonest among those alike; -1: none does.
func first(grids []*Grid) int {
	best, at := never(), -1
	for i, g := range grids {
		if g == nil {
			continue
		}
		for _, u := range g.Until {
			if u.Call < best.Call || u.Call == best.Call && u.Act < best.Act {
				best, at = u, i
			}
		}
	}
	return at
}
