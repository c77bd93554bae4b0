package section

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// Bend is the answer of a free strip to a strain that varies through its thickness.
type Bend struct {
	Strain0   float64 // at mid-thickness
	Curvature float64 // 1/mm, painted face rounded positive
	Middle    float64 // height of mid-thickness on the scale of z, mm
}

// Stress returns the stress left at the height z where the free strain is e, for the modulus E, MPa:
//
//	sigma = E [ eps0 + kappa z - e(z) ]
func (b Bend) Stress(E, z, e float64) float64 {
	return E * (b.Strain0 + b.Curvature*(z-b.Middle) - e)
}

// Sagitta returns the warp over the chord w (mm) of an even curvature (1/mm): kappa w^2/8.
func Sagitta(curvature, w float64) float64 { return curvature * w * w / 8 }

// Gradient returns the bending of a free strip of one stiffness under the free strain e(z), z from
// the back face at 0 to the painted face at h (mm, above 0):
//
//	eps0 = (1/h) Int e dz,   kappa = (12/h^3) Int e (z - h/2) dz
//
// by 16 Gauss points: exact for polynomials to degree 30, not for steps; for those see
// [GradientAt]. A straight e gives no stress.
func Gradient(h float64, e func(z float64) float64) Bend {
	b := Bend{Middle: h / 2}
	b.Strain0 = quad.Fixed(e, 0, h, 16, quad.Legendre{}, 0) / h
	b.Curvature = quad.Fixed(func(z float64) float64 { return e(z) * (z - h/2) }, 0, h, 16, quad.Legendre{}, 0) * 12 / (h * h * h)
	return b
}

// GradientAt is [Gradient] for a strain given at heights z (mm, from the back upwards, two alike for
// a step) and straight between them; the first and last are the faces. Exact for such a strain.
func GradientAt(z, e []float64) (Bend, error) {
	n := len(z)
	if n < 2 || len(e) != n {
		return Bend{}, fmt.Errorf("strain through the thickness must be given at 2 heights or more, got %d heights and %d strains", n, len(e))
	}
	h := z[n-1] - z[0]
	if !(h > 0) || math.IsInf(h, 1) {
		return Bend{}, fmt.Errorf("heights must run from back to front, got %g to %g mm", z[0], z[n-1])
	}
	mid := (z[0] + z[n-1]) / 2
	var n0, m0 float64
	for i := 1; i < n; i++ {
		d := z[i] - z[i-1]
		if !(d >= 0) {
			return Bend{}, fmt.Errorf("heights must not fall, got %g mm after %g mm", z[i], z[i-1])
		}
		a, b, za, zb := e[i-1], e[i], z[i-1]-mid, z[i]-mid
		n0 += d * (a + b) / 2
		m0 += d * (a*(2*za+zb) + b*(za+2*zb)) / 6
	}
	if math.IsNaN(m0) || math.IsInf(m0, 0) {
		return Bend{}, fmt.Errorf("strain through the thickness must be finite")
	}
	return Bend{Strain0: n0 / h, Curvature: 12 * m0 / (h * h * h), Middle: mid}, nil
}
