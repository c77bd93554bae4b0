package section

import "math"

// PassingPeak is the largest of the bending that [OneSided] runs through, reached at Fo = 0.0846,
// when a third of the change has gone in. Computed from the series; a test holds it against it.
const PassingPeak = 0.960

// OneSided returns what a panel with a tight painted face has done after its bare back was brought
// to a new state at once: mean is the share of the whole change that has gone in, bend the curvature
// times thickness over the free strain of the whole change. fo = D t/h^2 is the Fourier number, 0 or
// more; NaN below.
//
//	mean = 1 - Sum 2/l^2 exp(-l^2 fo),   bend = 12 Sum [2(-1)^n/l^3 - 1/l^2] exp(-l^2 fo),  l = (2n+1) pi/2
//	short times: mean = 2 sqrt(fo/pi),   bend = 12 sqrt(fo/pi) - 12 fo
//
// Plane sheet, constant diffusion, no film of air at the face (package moisture has it with films on
// both faces). Crank, plane sheet from one side; the moment derived here.
func OneSided(fo float64) (mean, bend float64) {
	if fo < 0 {
		return math.NaN(), math.NaN()
	}
	if fo < 0.03 { // the terms left out are below 1e-7 here
		s := math.Sqrt(fo / math.Pi)
		return 2 * s, 12*s - 12*fo
	}
	mean = 1
	sign := 1.0
	for n := range 12 {
		l := float64(2*n+1) * math.Pi / 2
		x := math.Exp(-l * l * fo)
		mean -= 2 / (l * l) * x
		bend += 12 * (2*sign/(l*l*l) - 1/(l*l)) * x
		sign = -sign
	}
	return mean, bend
}

// Passing returns the largest curvature (1/mm) that a panel of thickness h (mm) runs through after
// the air at its bare back has changed at once, while the painted face stays tight; e is the free
// strain for the whole change. Swelling (e above 0) hollows the painted face for a while.
//
//	kappa = -0.960 e/h
//
// A film of air, slow air and a leaking front make it smaller (to 0.66 to 0.77 with the front like
// 2 m of air); [OneSided] gives the course.
func Passing(e, h float64) float64 { return -PassingPeak * e / h }
