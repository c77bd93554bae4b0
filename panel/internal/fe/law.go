package fe

import (
	"fmt"
	"math"
)

// Ortho is wood in its own axes, R radial, T tangential, L along the grain; MPa. NuIJ is the
// shortening in J for a stress in I over the stretch in I, and NuIJ/EI = NuJI/EJ.
type Ortho struct {
	ER, ET, EL, GRT  float64
	NuRT, NuLR, NuLT float64
}

// Isotropic returns one modulus E and one Poisson number nu in all directions.
func Isotropic(e, nu float64) Ortho {
	return Ortho{ER: e, ET: e, EL: e, GRT: e / (2 * (1 + nu)), NuRT: nu, NuLR: nu, NuLT: nu}
}

// Stiffness is stress from strain at a point, rows and columns in the order xx, zz, xz, yy (or RR,
// TT, RT, LL in the wood's own axes), MPa.
type Stiffness [4][4]float64

// Stiffness inverts the compliance of the wood. Moduli that are not above 0, or Poisson numbers for
// which some state of strain would have no energy, are refused.
func (o Ortho) Stiffness() (Stiffness, error) {
	for _, v := range [...]struct {
		what string
		v    float64
	}{{"radial modulus", o.ER}, {"tangential modulus", o.ET}, {"modulus along the grain", o.EL}, {"rolling shear modulus", o.GRT}} {
		if !(v.v > 0) || math.IsInf(v.v, 1) {
			return Stiffness{}, fmt.Errorf("%s must be above 0 MPa, got %g", v.what, v.v)
		}
	}
	a, b, c := 1/o.ER, 1/o.ET, 1/o.EL
	f, g, h := -o.NuRT/o.ER, -o.NuLR/o.EL, -o.NuLT/o.EL // RT, RL, TL
	det := a*b*c + 2*f*g*h - a*h*h - b*g*g - c*f*f
	if !(det > 0) || !(a*b-f*f > 0) || !(a*c-g*g > 0) || !(b*c-h*h > 0) {
		return Stiffness{}, fmt.Errorf("poisson numbers %g (RT), %g (LR), %g (LT) are too large for the moduli: "+
			"some strain would take no work", o.NuRT, o.NuLR, o.NuLT)
	}
	var s Stiffness
	s[0][0], s[1][1], s[3][3] = (b*c-h*h)/det, (a*c-g*g)/det, (a*b-f*f)/det
	s[0][1], s[0][3], s[1][3] = (g*h-f*c)/det, (f*h-g*b)/det, (f*g-h*a)/det
	s[1][0], s[3][0], s[3][1] = s[0][1], s[0][3], s[1][3]
	s[2][2] = o.GRT
	return s, nil
}

// PlaneStress returns the stiffness when the stress along the grain is nil.
func (l Stiffness) PlaneStress() Stiffness {
	p := l
	for i := range 4 {
		for j := range 4 {
			p[i][j] -= l[i][3] * l[3][j] / l[3][3]
		}
	}
	return p
}

// Turned puts into d the stiffness of wood whose radial direction is (c, s) in x, z.
func (l *Stiffness) Turned(c, s float64, d *Stiffness) {
	c2, s2, cs := c*c, s*s, c*s
	q11, q22, q12, q66 := l[0][0], l[1][1], l[0][1], l[2][2]
	h := q12 + 2*q66
	d[0][0] = q11*c2*c2 + 2*h*c2*s2 + q22*s2*s2
	d[1][1] = q11*s2*s2 + 2*h*c2*s2 + q22*c2*c2
	d[0][1] = (q11+q22-4*q66)*c2*s2 + q12*(c2*c2+s2*s2)
	d[2][2] = (q11+q22-2*q12)*c2*s2 + q66*(c2-s2)*(c2-s2)
	d[0][2] = cs * (q11*c2 - q22*s2 - h*(c2-s2))
	d[1][2] = cs * (q11*s2 - q22*c2 + h*(c2-s2))
	d[0][3] = l[0][3]*c2 + l[1][3]*s2
	d[1][3] = l[0][3]*s2 + l[1][3]*c2
	d[2][3] = (l[0][3] - l[1][3]) * cs
	d[3][3] = l[3][3]
	d[1][0], d[2][0], d[3][0] = d[0][1], d[0][2], d[0][3]
	d[2][1], d[3][1], d[3][2] = d[1][2], d[1][3], d[2][3]
}

// Stress returns d times the strain e.
func (l *Stiffness) Stress(e [4]float64) [4]float64 {
	var s [4]float64
	for i := range 4 {
		s[i] = l[i][0]*e[0] + l[i][1]*e[1] + l[i][2]*e[2] + l[i][3]*e[3]
	}
	return s
}

// ToSection turns a stress in the wood's axes (R, T, RT, L) into x, z.
func ToSection(t [4]float64, c, s float64) [4]float64 {
	return [4]float64{
		c*c*t[0] + s*s*t[1] - 2*c*s*t[2],
		s*s*t[0] + c*c*t[1] + 2*c*s*t[2],
		c*s*(t[0]-t[1]) + (c*c-s*s)*t[2],
		t[3],
	}
}

// ToWood turns a stress in x, z into the wood's axes.
func ToWood(t [4]float64, c, s float64) [4]float64 { return ToSection(t, c, -s) }
