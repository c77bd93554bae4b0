package restraint

// MidLoad returns the deflection at mid-span of a batten on two supports under a central load, mm:
//
//	W L^3/(48 E I),  I = b d^3/12
//
// load in N, span, width and depth in mm, e in MPa. Halving the depth gives eight times the
// deflection (Marchant 1998, in The Structural Conservation of Panel Paintings). A batten of the
// same middle tapered in width towards its ends deflects about half as much again and bends nearly
// to a circle (same source).
func MidLoad(load, span, e, width, depth float64) float64 {
	return load * cube(span) / (48 * e * width * cube(depth) / 12)
}

// EndLoad returns the deflection at the end of a batten held at the other end, mm: W L^3/(3 E I).
func EndLoad(load, length, e, width, depth float64) float64 {
	return load * cube(length) / (3 * e * width * cube(depth) / 12)
}

// RestrainingEffect returns 1 - (deflection with support)/(deflection without), 0 none, 1 total; 0
// when nothing would deflect. Definition as in Cocchi et al. 2017, who report about 0.07 for
// elastic crossbars on a 16th-century panel.
func RestrainingEffect(with, without float64) float64 {
	if without == 0 {
		return 0
	}
	return 1 - with/without
}
