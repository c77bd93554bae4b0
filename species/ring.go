package species

import "math"

// RingAngle is the angle between growth rings and face seen on the end grain, in degrees, -90 to
// 90: 90 (or -90) is quarter-sawn, 0 flat-sawn. Its sign is the lean: positive when the rings lean
// to the right going up from the back face to the painted face, seen from the lower or left end.
type RingAngle float64

// Theta returns the angle in radians from the width axis to the local radial direction, as
// handbooks of wood mechanics use it: 0 is quarter-sawn, pi/2 flat-sawn.
func (a RingAngle) Theta() float64 { return (90 - float64(a)) * math.Pi / 180 }
