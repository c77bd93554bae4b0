package species

import "math"

// RingAngle is the angle between growth rings and face seen on the end grain, in degrees, -90 to
// 90: 90 (or -90) is quarter-sawn, 0 flat-sawn. Its sign is the lean: positive when the rings lean
// to the right going up from the back face to the painted face, seen from the lower or left end.
type RingAngle float64

// Theta returns the angle in radians from the width axis to the local radial direction, as
// handbooks of wood mechanics use it: 0 is quarter-sawn, pi/2 flat-sawn.
func (a RingAngle) Theta() float64 { return (90 - float64(a)) * math.Pi / 180 }

// Strain returns the strains of a free board along its width x and its thickness z and the shear
// strain between them (engineering shear, the sum of both angles) for free radial and tangential
// strains eR and eT: plain rotation, straight rings.
//
//	ex = eR cos² + eT sin², ez = eR sin² + eT cos², gxz = (eR - eT) sin 2 theta
func (a RingAngle) Strain(eR, eT float64) (ex, ez, gxz float64) {
	s, c := math.Sincos(a.Theta())
	return eR*c*c + eT*s*s, eR*s*s + eT*c*c, (eR - eT) * 2 * s * c
}

// Modulus returns the modulus across the board, MPa, when it is free to shear:
//
//	1/E = cos⁴/E_R + sin⁴/E_T + (1/G_RT - 2 nu_RT/E_R) sin² cos²
//
// Rings at 45 degrees make wood soft, 3 to 5 times softer than either direction in spruce.
// Source: rotation of the compliance (Lekhnitskii); valid for straight rings.
func (a RingAngle) Modulus(n Numbers) float64 {
	s, c := math.Sincos(a.Theta())
	s2, c2 := s*s, c*c
	return 1 / (c2*c2/n.ER + s2*s2/n.ET + (1/n.GRT-2*n.NuRT/n.ER)*s2*c2)
}

// ModulusHeld returns the modulus across the board, MPa, when it is held from shearing (wide, held
// flat) but free through its thickness: from the rotated plane stiffness Q', Q'11 - Q'12²/Q'22. It is
// never below [RingAngle.Modulus] and equals it at 0 and 90 degrees.
func (a RingAngle) ModulusHeld(n Numbers) float64 {
	nuTR := n.NuRT * n.ET / n.ER // reciprocity
	d := 1 - n.NuRT*nuTR
	q11, q22, q12, q66 := n.ER/d, n.ET/d, n.NuRT*n.ET/d, n.GRT
	s, c := math.Sincos(a.Theta())
	s2, c2 := s*s, c*c
	x := q11*c2*c2 + 2*(q12+2*q66)*s2*c2 + q22*s2*s2
	z := q11*s2*s2 + 2*(q12+2*q66)*s2*c2 + q22*c2*c2
	xz := (q11+q22-4*q66)*s2*c2 + q12*(s2*s2+c2*c2)
	return x - xz*xz/z
}

// Tension returns the strength in tension across the board, MPa, between T (flat-sawn) and R
// (quarter-sawn) by cos² and sin². No test between the two was found: an assumption.
func (a RingAngle) Tension(n Numbers) float64 {
	s, c := math.Sincos(a.Theta())
	return n.TensionR*c*c + n.TensionT*s*s
}

// Compression returns the stress at the proportional limit across the board, MPa; as [RingAngle.Tension].
func (a RingAngle) Compression(n Numbers) float64 {
	s, c := math.Sincos(a.Theta())
	return n.CompressionR*c*c + n.CompressionT*s*s
}

// Swell returns the movement across the board per unit of MC (kg/kg).
func (a RingAngle) Swell(n Numbers) float64 {
	ex, _, _ := a.Strain(n.SwellR, n.SwellT)
	return ex
}

// Words returns "quarter-sawn" from 60 degrees on, "flat-sawn" up to 30, else "in between". The
// limits are common practice.
func (a RingAngle) Words() string {
	switch b := math.Abs(float64(a)); {
	case b >= 60:
		return "quarter-sawn"
	case b <= 30:
		return "flat-sawn"
	}
	return "in between"
}
