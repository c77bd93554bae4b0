package restraint

import (
	"fmt"
	"math"
)

// Plate is a rectangle of wood that carries in both directions.
type Plate struct {
	Across, Along float64 // sides across and along the grain, mm, above 0
	T             float64 // thickness, mm, above 0
	EAcross       float64 // MPa, above 0
	EAlong        float64 // MPa, above 0; it does not creep
	G             float64 // shear modulus in the plane of the panel, MPa, above 0
	Nu            float64 // strain across for a stress along, 0 to 1 (about 0.3 to 0.5)
}

// rigidity returns the four bending stiffnesses for each mm, N mm:
//
//	Dx = Ex t^3/[12 (1 - nu^2 Ex/Ey)],  Dy = Dx Ey/Ex,  D1 = nu Dx,  D3 = D1 + G t^3/6
//
// Timoshenko and Woinowsky-Krieger 1959, section 85 (x across, y along).
func (p Plate) rigidity() (dx, dy, d1, d3 float64) {
	t3 := cube(p.T) / 12
	dx = p.EAcross * t3 / (1 - p.Nu*p.Nu*p.EAcross/p.EAlong)
	d1 = p.Nu * dx
	return dx, dx * p.EAlong / p.EAcross, d1, d1 + 2*p.G*t3
}

func (p Plate) valid() error {
	for _, q := range []struct {
		name, unit string
		v          float64
	}{{"side across the grain", "mm", p.Across}, {"side along the grain", "mm", p.Along}, {"thickness", "mm", p.T},
		{"modulus across the grain", "MPa", p.EAcross}, {"modulus along the grain", "MPa", p.EAlong}, {"shear modulus", "MPa", p.G}} {
		if !(q.v > 0) || math.IsInf(q.v, 1) {
			return fmt.Errorf("%s must be above 0 %s and finite, got %g", q.name, q.unit, q.v)
		}
	}
	if !(p.Nu >= 0 && p.Nu*p.Nu*p.EAcross < p.EAlong) {
		return fmt.Errorf("strain across for a stress along must be 0 or more and below %.2f for these moduli, got %g", math.Sqrt(p.EAlong/p.EAcross), p.Nu)
	}
	return nil
}

// OnFourEdges is what the weight does to a panel borne on all its edges.
type OnFourEdges struct {
	Deflection   float64 // at the middle, mm
	StressAcross float64 // at the faces, MPa
	StressAlong  float64 // at the faces, MPa
	Reach        Reach
}

// Lying returns the sag of a panel that lies level on all four edges, free to lift and turn there,
// such as face down in a padded frame. density in kg/m3, above 0. At the middle, over odd m and n:
//
//	w = (16 q/pi^6) Sum s/(m n K),  K = Dx (m/a)^4 + 2 D3 (m n/(a b))^2 + Dy (n/b)^4
//	Mx = (16 q/pi^4) Sum s [Dx (m/a)^2 + D1 (n/b)^2]/(m n K),  My alike,  s = +1, -1, ...
//
// Navier's series: Timoshenko and Woinowsky-Krieger 1959, sections 30 and 86 (form: memory), 100 terms
// each way. Errors name what is out of range.
func (p Plate) Lying(density float64) (OnFourEdges, error) {
	if err := p.valid(); err != nil {
		return OnFourEdges{}, err
	}
	if !(density > 0) {
		return OnFourEdges{}, fmt.Errorf("density must be above 0 kg/m3, got %g", density)
	}
	w, mx, my := p.navier(Weight{Density: density, T: p.T}.load())
	s := 6 / (p.T * p.T)
	return OnFourEdges{w, mx * s, my * s, ReachOf(w, p.T)}, nil
}

// navier returns deflection and moments at the middle under an even load q, N/mm2.
func (p Plate) navier(q float64) (w, mx, my float64) {
	dx, dy, d1, d3 := p.rigidity()
	const terms = 199
	for m := 1; m <= terms; m += 2 {
		for n := 1; n <= terms; n += 2 {
			a, b := float64(m)/p.Across, float64(n)/p.Along
			k := dx*a*a*a*a + 2*d3*a*a*b*b + dy*b*b*b*b
			s := 1 / (float64(m*n) * k)
			if (m+n)%4 == 0 { // sin(m pi/2) sin(n pi/2)
				s = -s
			}
			w += s
			mx += s * (dx*a*a + d1*b*b)
			my += s * (d1*a*a + dy*b*b)
		}
	}
	f := 16 * q / math.Pow(math.Pi, 4)
	return f / (math.Pi * math.Pi) * w, f * mx, f * my
}
