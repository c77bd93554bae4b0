package fracture

import "math"

// UnderChannel returns how many times as far the wood under a channel across the grain is stretched by the member in it as it would be
// without the channel, 1 to 1/left. The channel runs along the pull, so the wood beside it is stretched with it: it takes over the more
// of what the member hands over, the narrower the channel is.
//
//	f = (1 - 1/(cosh x + left sinh x)) / (left (1 - exp(-x))),  x = half/decay
//
// left is the share of the thickness under the channel, over 0 to 1; half is half its width, mm; decay is the distance, mm, in which
// what the member holds falls to 1/e along the grain. Derived here: a sheet that is stretched across the grain and sheared along it,
// in the middle of a member's half wave of force, E t u”/decay^2 balanced by G t u'; far from the panel's ends. NaN outside these.
func UnderChannel(left, half, decay float64) float64 {
	if !(left > 0 && left <= 1 && half >= 0 && decay > 0) {
		return math.NaN()
	}
	x := half / decay
	if x < 1e-6 {
		return 1
	}
	fall := math.Exp(-x)
	return (1 - 2*fall/(1+left+(1-left)*fall*fall)) / (left * -math.Expm1(-x))
}
