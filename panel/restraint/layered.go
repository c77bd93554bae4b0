package restraint

import "math"

// Layered is a beam of two parts, one on the other, joined by fixings with slip.
type Layered struct {
	E1, B1, H1 float64 // upper part: modulus MPa, width and height mm
	E2, B2, H2 float64 // lower part
	Slip       float64 // slip modulus of one fixing, N/mm
	Spacing    float64 // of the fixings, mm
	Span       float64 // mm
}

func (l Layered) axial() (a1, a2 float64) { return l.E1 * l.B1 * l.H1, l.E2 * l.B2 * l.H2 }

// Gamma returns the efficiency of the joint, 0 to 1:
//
//	gamma_1 = 1 / (1 + pi^2 E1 A1 s/(K l^2))
//
// EN 1995-1-1 Annex B (form: memory).
func (l Layered) Gamma() float64 {
	a1, _ := l.axial()
	return 1 / (1 + math.Pi*math.Pi*a1*l.Spacing/(l.Slip*l.Span*l.Span))
}

// None returns the bending stiffness without any joint, N mm2.
func (l Layered) None() float64 {
	return l.E1*l.B1*cube(l.H1)/12 + l.E2*l.B2*cube(l.H2)/12
}

// WithGamma returns the bending stiffness for a given efficiency, N mm2; 1 is rigid:
//
//	a2 = gamma E1 A1 (h1+h2) / [2 (gamma E1 A1 + E2 A2)],  a1 = (h1+h2)/2 - a2
//	EI = Sum (E I + gamma E A a^2)
func (l Layered) WithGamma(gamma float64) float64 {
	e1, e2 := l.axial()
	r := (l.H1 + l.H2) / 2
	a2 := gamma * e1 * r / (gamma*e1 + e2)
	a1 := r - a2
	return l.None() + gamma*e1*a1*a1 + e2*a2*a2
}

// Exact returns the bending stiffness under a half-sine load with partial interaction, N mm2:
//
//	EI_inf / [1 + (EI_inf/EI_0 - 1)/(1 + alpha^2 (l/pi)^2)],  alpha^2 = (K/s)(1/EA* + r^2/EI_0)
//
// Derived apart from the gamma method; both give the same number.
func (l Layered) Exact() float64 {
	e1, e2 := l.axial()
	r := (l.H1 + l.H2) / 2
	alpha2 := l.Slip / l.Spacing * (1/e1 + 1/e2 + r*r/l.None())
	rigid := l.WithGamma(1)
	q := l.Span / math.Pi
	return rigid / (1 + (rigid/l.None()-1)/(1+alpha2*q*q))
}

func cube(x float64) float64 { return x * x * x }
