package fault

import (
	"cmp"
	"slices"
)

// Worst returns the grid of a store: in every row the panel that must be seen first. It is nil when no
// panel has hours.
func Worst(grids []*Grid) *Grid {
	var out *Grid
	for _, g := range grids {
		out = out.worse(g)
	}
	return out
}

// Order lists the panels that are to be called for within the last column at a row of readings, by
// their place in grids: fewest hours to call first, then to act, then as they stand. A panel without
// hours (nil) is to be called for at once and left out here.
func Order(grids []*Grid, row int) []int {
	var out []int
	last := Hours()[len(Hours())-1]
	for i, g := range grids {
		if g != nil && g.Until[row].At(last) != Wait {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		u, v := grids[a].Until[row], grids[b].Until[row]
		return cmp.Or(cmp.Compare(u.Call, v.Call), cmp.Compare(u.Act, v.Act))
	})
	return out
}
