package restraint

import "fmt"

// Swing is what a panel does at the ends of a range of humidity, from the humidity at which its
// fixings are placed.
type Swing struct {
	Dry, Damp float64 // free strain across the grain at either end, at most 0 and at least 0
	Doubt     float64 // free strain for not knowing that humidity, 0 or more: strain for each point x points
}

func (m Swing) valid() error {
	if !(m.Dry <= 0 && m.Dry > -1) || !(m.Damp >= 0 && m.Damp < 1) || !(m.Doubt >= 0 && m.Doubt < 1) {
		return fmt.Errorf("free strain must be at most 0 at the dry end, at least 0 at the damp end, its doubt 0 or more, got %g, %g, %g", m.Dry, m.Damp, m.Doubt)
	}
	return nil
}

// Cut is a slot in a batten for one fixing that moves with the panel.
type Cut struct {
	Inward, Outward float64 // room from the middle of the shank, less half the shank, mm: towards the fixed point and away
	Length          float64 // of the slot, mm, shank and both rooms
}

// Slot returns the slot that a fixing needs at a distance from the point where panel and batten are
// fixed to each other, mm:
//
//	inward = |dry| s + doubt s + play,  outward = damp s + doubt s + play,  length = d + both
//
// distance s, 0 or more; shank d above 0; play, 0 or more, is the workshop's margin at each end (1 mm is
// common practice). The slot runs along the batten, whose own length hardly changes. Geometry.
func (m Swing) Slot(distance, shank, play float64) (Cut, error) {
	if err := m.valid(); err != nil {
		return Cut{}, err
	}
	if !(distance >= 0 && shank > 0 && play >= 0) {
		return Cut{}, fmt.Errorf("distance and play must be 0 mm or more, shank above 0 mm, got %g, %g, %g", distance, play, shank)
	}
	margin := m.Doubt*distance + play
	c := Cut{Inward: -m.Dry*distance + margin, Outward: m.Damp*distance + margin}
	c.Length = shank + c.Inward + c.Outward
	return c, nil
}
