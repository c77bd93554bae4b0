package restraint

import (
	"fmt"
	"math"
)

// Room is what a frame must give a panel so that it binds nowhere in a range of humidity.
type Room struct {
	Width float64 // clear width of the rebate across the grain, mm
	Depth float64 // clear depth between lip and clips, mm
	Cover float64 // by how much each lip must overlap the panel so that no edge shows when dry, mm
}

// Frame returns the room that a panel of a width across the grain and a thickness t, mm, needs when its warp
// over the width runs from one end of warp to the other, mm, painted face rounded positive:
//
//	clear width = w (1 + damp + doubt) + 2 play
//	clear depth = t + max |warp| + play
//	cover       = clear width - w (1 + dry - doubt)
//
// play, 0 or more, is the margin on each side, mm. Cover holds when the panel has slid to one side.
// Geometry; of the sides along the grain only, the length along the grain hardly changes.
func (m Swing) Frame(width, t float64, warp [2]float64, play float64) (Room, error) {
	if err := m.valid(); err != nil {
		return Room{}, err
	}
	w := math.Max(math.Abs(warp[0]), math.Abs(warp[1]))
	if !(width > 0 && t > 0 && play >= 0) || math.IsNaN(w) || math.IsInf(w, 1) {
		return Room{}, fmt.Errorf("width and thickness must be above 0 mm, play 0 mm or more, warp finite, got %g, %g, %g, %g", width, t, play, warp)
	}
	r := Room{Width: width*(1+m.Damp+m.Doubt) + 2*play, Depth: DepthNeeded(t, w) + play}
	r.Cover = r.Width - width*(1+m.Dry-m.Doubt)
	return r, nil
}
