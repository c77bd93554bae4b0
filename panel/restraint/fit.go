package restraint

import (
	"fmt"
	"math"
)

// Fit is a panel between the two sides of its frame that lie along the grain.
type Fit struct {
	Clear     float64 // clear width of the rebate, mm
	Width     float64 // of the panel, mm, at the same humidity
	E, T      float64 // of the panel across the grain, MPa and mm
	FrameSide float64 // stiffness of the frame against spreading, N/mm for each mm of length; +Inf = rigid
}

// Bound is what a frame does at one change of width.
type Bound struct {
	Clearance float64 // left on both sides together, mm; 0 when bound
	Force     float64 // on the panel's edge, N per mm of length, pressing
	Held      float64 // strain held back in the panel (negative: compression)
	Share     float64 // of the clearance used up, 0 to 1, 1 when bound; 1 when there was none
}

// At returns the fit after a free strain of the panel across the grain:
//
//	left = clear - width (1 + e);   if below 0:  F = -left/(L/(E t) + 1/k)
//
// Springs in series. Clear and width must be above 0 mm, clear not below width.
func (f Fit) At(strain float64) (Bound, error) {
	if !(f.Width > 0 && f.Clear >= f.Width && f.E > 0 && f.T > 0 && f.FrameSide > 0) {
		return Bound{}, fmt.Errorf("clear width must be at least the panel's width, modulus, thickness and frame stiffness above 0, got %g and %g mm, %g MPa, %g mm, %g",
			f.Clear, f.Width, f.E, f.T, f.FrameSide)
	}
	grow := f.Width * strain
	play := f.Clear - f.Width
	left := play - grow
	b := Bound{Clearance: max(left, 0), Share: 1}
	if play > 0 {
		b.Share = min(1, max(0, grow/play))
	} else if grow <= 0 {
		b.Share = 0
	}
	if left < 0 {
		b.Force = -left / (f.Width/(f.E*f.T) + 1/f.FrameSide)
		b.Held = -b.Force / (f.E * f.T)
	}
	return b, nil
}

// GrooveLeft returns how deep a panel still stands in each groove after its width changed by a
// free strain, mm, when it sits in the middle: depth + width e/2. At 0 and below it falls out.
func GrooveLeft(depth, width, strain float64) float64 { return depth + width*strain/2 }

// DepthNeeded returns the depth of rebate that a panel of thickness t with a cup needs so as not
// to be pressed, mm: t + |cup|.
func DepthNeeded(t, cup float64) float64 { return t + math.Abs(cup) }

// NotchPlay returns what is left of a slider's play in its notch, mm, and the share used up, 0 to 1:
//
//	left = play - width swell dMC
//
// play is the whole play measured, mm; width the slider's size in that direction, mm; swell its
// strain across the grain per unit of moisture content; dMC the change since the play was measured,
// kg/kg. The notch is cut in a member along the panel's grain, which does not move in that
// direction. Below 0 the slider is wedged: the returned play is then negative by the interference.
func NotchPlay(play, width, swell, dMC float64) (left, share float64) {
	use := width * swell * dMC
	left = play - use
	switch {
	case use <= 0:
		return left, 0
	case left <= 0:
		return left, 1
	}
	return left, use / play
}
