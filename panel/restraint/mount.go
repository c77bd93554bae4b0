package restraint

import (
	"fmt"
	"math"
)

// Hold is what a fixing does in one direction. Movement is that of the panel against its member;
// the resisting force is positive when it pushes the panel back towards smaller movement.
//
//	force = stop(move) + Spring move + Pull
//
// The stop bears after the play with its stiffness up to the yield load. For a turn read N mm, rad
// and N mm/rad.
type Hold struct {
	Row    int     // of the flexibility
	Stiff  float64 // of the stop, N/mm; 0 = no stop; +Inf = gives nothing
	Play   float64 // free movement each way from Centre before the stop bears, mm
	Centre float64 // movement at the middle of the play, mm
	Yield  float64 // of the stop, N, above 0; +Inf = none. What has yielded stays
	// Presses says that the stop bears only against negative movement, as one face lies on another.
	Presses bool
	Spring  float64 // beside the stop, N/mm, 0 or more
	Pull    float64 // of the spring at no movement, N; in Lift positive presses panel and member together
}

// Mount is one fixing of a panel to a member in up to three directions; nil = free in it.
type Mount struct {
	Name string
	X, Y float64 // place across and along the grain, mm; sets the order in which ties are decided
	Slip *Hold   // along the member
	Lift *Hold   // out of plane; positive = the panel moves off the member
	Turn *Hold
	// Friction is the coefficient, 0..5, against slip under the force of the stop in Lift that
	// presses, and the preload.
	Friction float64
	Preload  float64 // force pressing the faces besides, N: a clamp closed in itself
	Keeper   bool    // a pull in Lift rubs as well as a press, as a slider does in its keeper
}

func (m Mount) valid(rows int) error {
	if !(m.Friction >= 0 && m.Friction <= 5 && m.Preload >= 0) || math.IsInf(m.Preload, 0) {
		return fmt.Errorf("friction of %s must be 0 to 5 and its preload 0 N or more, got %g and %g N", m.name(), m.Friction, m.Preload)
	}
	if m.Slip == nil && m.Friction > 0 {
		return fmt.Errorf("%s has friction but no direction of slip", m.name())
	}
	for _, h := range []*Hold{m.Slip, m.Lift, m.Turn} {
		if h == nil {
			continue
		}
		if err := h.valid(rows); err != nil {
			return fmt.Errorf("%s: %w", m.name(), err)
		}
	}
	return nil
}

func (m Mount) name() string {
	if m.Name != "" {
		return m.Name
	}
	return fmt.Sprintf("fixing at %g, %g mm", m.X, m.Y)
}

func (h Hold) valid(rows int) error {
	if h.Row < 0 || h.Row >= rows {
		return fmt.Errorf("row must be 0 to %d, got %d", rows-1, h.Row)
	}
	if !(h.Stiff >= 0 && h.Play >= 0 && h.Spring >= 0) || math.IsInf(h.Play+h.Spring, 0) {
		return fmt.Errorf("stiffness, play and spring must be 0 or more, play and spring finite, got %g N/mm, %g mm, %g N/mm", h.Stiff, h.Play, h.Spring)
	}
	if !(h.Yield > 0) {
		return fmt.Errorf("yield load must be above 0 N, got %g (infinite when it never yields)", h.Yield)
	}
	if v := h.Centre + h.Pull; math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Errorf("centre of the play and pull of the spring must be finite, got %g mm, %g N", h.Centre, h.Pull)
	}
	return nil
}

// stop returns the force of the stop at movement s when the middle of its play is at c. One that
// gives nothing is answered with 0: its force is not told by the movement.
func (h *Hold) stop(c, s float64) float64 {
	over := math.Abs(s-c) - h.Play
	if over <= 0 || h.Stiff == 0 || math.IsInf(h.Stiff, 1) || h.Presses && s > c {
		return 0
	}
	return math.Copysign(min(over*h.Stiff, h.Yield), s-c)
}

// reach is how far from the middle of the play the yield load is met, mm.
func (h *Hold) reach() float64 { return h.Play + h.Yield/h.Stiff }

// yielded moves the middle of the play after the stop has given.
func (h *Hold) yielded(c, s float64) float64 {
	if h.Stiff == 0 || math.IsInf(h.Yield, 1) {
		return c
	}
	if r := h.reach(); h.Presses {
		return min(c, s+r)
	} else {
		return min(max(c, s-r), s+r)
	}
}
