package restraint

import (
	"fmt"
	"math"
)

// Gravity is the standard acceleration of free fall, m/s2 (exact by definition, CGPM 1901).
const Gravity = 9.80665

// Lie says how a panel is borne while its weight bends it across the grain.
type Lie int

// The ways a panel is borne.
const (
	OnTwoEdges Lie = iota // carried flat on the two edges along the grain, or lying hollow side down
	OnMiddle              // on its middle line, both sides overhanging: lying rounded side down
	OneEdge               // held by one edge, the rest overhanging
)

// Weight is a panel that bends across the grain under its own weight.
type Weight struct {
	E       float64 // across the grain, MPa; short, or lowered for long lying
	T       float64 // thickness, mm
	Span    float64 // width across the grain, mm
	Density float64 // kg/m3
	G       float64 // multiple of gravity: 1 at rest, 0 stands for 1
	Lie     Lie
}

// Sag is what the weight does.
type Sag struct {
	Deflection float64 // mm, at the middle (or at the overhanging edge)
	Stress     float64 // at the faces, MPa, largest
	Strain     float64 // at the faces
	Moment     float64 // N mm per mm along the grain, largest
	At         float64 // where the moment is largest, mm from the left edge
}

// Bend returns the sag of the panel:
//
//	two edges   w = 5 q L^4/(384 D),   sigma = 0.75 rho g G L^2/t
//	middle      w = q (L/2)^4/(8 D),   same stress
//	one edge    w = q L^4/(8 D),       sigma = 3 rho g G L^2/t
//
// with D = E t^3/12 and q = rho g G t. Beam theory for a strip 1 mm wide: beyond a sag of about one
// thickness (panels held at their ends) the answer is on the high side. Modulus, thickness, span
// and density must be above 0.
func (w Weight) Bend() (Sag, error) {
	if !(w.E > 0 && w.T > 0 && w.Span > 0 && w.Density > 0 && w.G >= 0) {
		return Sag{}, fmt.Errorf("modulus, thickness, span and density must be above 0 MPa, mm, mm and kg/m3, got %g, %g, %g, %g", w.E, w.T, w.Span, w.Density)
	}
	q, d, l := w.load(), w.E*cube(w.T)/12, w.Span
	var s Sag
	switch w.Lie {
	case OnTwoEdges:
		s = Sag{Deflection: 5 * q * l * cube(l) / (384 * d), Moment: q * l * l / 8, At: l / 2}
	case OnMiddle:
		s = Sag{Deflection: q * l * cube(l) / (128 * d), Moment: q * l * l / 8, At: l / 2}
	case OneEdge:
		s = Sag{Deflection: q * l * cube(l) / (8 * d), Moment: q * l * l / 2}
	default:
		return Sag{}, fmt.Errorf("way of bearing must be 0, 1 or 2, got %d", int(w.Lie))
	}
	s.Stress = 6 * s.Moment / (w.T * w.T)
	s.Strain = s.Stress / w.E
	return s, nil
}

// load returns q, N/mm2.
func (w Weight) load() float64 {
	g := w.G
	if g == 0 {
		g = 1
	}
	return w.Density * 1e-12 * Gravity * 1e3 * g * w.T
}

// JoinStress returns the bending stress in a join, split or any line at x from the left edge, MPa,
// whose thickness that bears is t, mm (less than the panel's when it is open at one face):
//
//	sigma = 6 M(x)/t^2
//
// M = q x (L - x)/2 on two edges, q x^2/2 counted from the nearer free edge on the middle, and
// q (L - x)^2/2 when held by the left edge. It pulls at the lower face on two edges, at the upper
// face otherwise. +Inf when t is 0.
func (w Weight) JoinStress(x, t float64) float64 {
	x = min(max(x, 0), w.Span)
	q, m := w.load(), 0.0
	switch w.Lie {
	case OnTwoEdges:
		m = q * x * (w.Span - x) / 2
	case OnMiddle:
		a := min(x, w.Span-x)
		m = q * a * a / 2
	default:
		m = q * (w.Span - x) * (w.Span - x) / 2
	}
	if m == 0 {
		return 0
	}
	return 6 * m / (t * t)
}

// Standing returns the pressure of its weight on the lower edge of a panel that stands upright,
// MPa (compression, given as a positive number): rho g H. h is the height, mm, density kg/m3.
// Gravity does not turn with the grain: with the grain level this presses across the grain.
func Standing(density, h float64) float64 { return density * 1e-12 * Gravity * 1e3 * h }

// Topple returns the bending stress at the faces of a panel held on two long edges under an
// inertia load, MPa:
//
//	sigma = 0.75 rho g G L^2/t
//
// density kg/m3, g the multiple of gravity, span and t mm. Beam theory; load case of Richard,
// Mecklenburg and Tumosa 1998 (The Structural Conservation of Panel Paintings), whose text says
// the stress rises with the inverse square of the thickness: with its own mass it is the inverse.
func Topple(density, g, span, t float64) float64 {
	return 0.75 * density * 1e-12 * 9.81e3 * g * span * span / t
}

// Presses says how far its own weight flattens a panel that lies with its rounded face down on its
// middle: the share of its cup, 0 to 1, for a cup in mm over the width.
func (w Weight) Presses(cup float64) (float64, error) {
	w.Lie = OnMiddle
	s, err := w.Bend()
	if err != nil || cup == 0 {
		return 0, err
	}
	return min(1, s.Deflection/math.Abs(cup)), nil
}
