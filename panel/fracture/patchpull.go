package fracture

import (
	"math"
	"math/cmplx"
)

// PatchPull is a force in the plane of a plate and across its grain that a fixing hands over through a patch.
type PatchPull struct {
	Force            float64 // N; its sign does not matter
	Across, Along    float64 // size of the patch across and along the grain, mm
	Thickness        float64 // of the plate, mm
	EX, EL, GXL, NuL float64 // across and along the grain, in shear, MPa; Poisson's number of pull along the grain
}

// Stress returns the pull across the grain that the force adds right beside the patch, MPa, in the mean over the [ProcessZone] (or
// over the patch, where that is longer) along the grain, and through no more of the thickness than that zone.
//
//	sigma = F/(2 L d) sum c_j 2/pi atan(L/(2 s_j x)),  x = half the patch
//	a22 s^4 - (2 a12 + a66) s^2 + a11 = 0,  c1 + c2 = 1,  c1 s1^2 + c2 s2^2 = a12/a22
//
// with a11 = 1/EX, a22 = 1/EL, a12 = -NuL/EL, a66 = 1/GXL. Beside a line of force half of it is pull on one side and half pressure
// on the other, F/(2 L d), by antisymmetry; away from it the pull spreads along the grain. Derived here for an infinite orthotropic
// plate (Airy's function, transformed along the grain). A crack shorter than the zone does not see its peak; bending by a force that acts
// on a face is left out, its depth being within the zone (assumption). 0 without a force.
func (p PatchPull) Stress() float64 {
	l, d := max(p.Along, ProcessZone), min(p.Thickness, ProcessZone)
	return math.Abs(p.Force) / (2 * l * d) * p.passes(l, p.Across/2)
}

// passes is the share of half the force that passes a length l along the grain, x beside it.
func (p PatchPull) passes(l, x float64) float64 {
	if !(x > 0) {
		return 1
	}
	a11, a22, a12 := 1/p.EX, 1/p.EL, -p.NuL/p.EL
	half := (2*a12 + 1/p.GXL) / (2 * a22)
	root := cmplx.Sqrt(complex(half*half-a11/a22, 0))
	if cmplx.Abs(root) < 1e-3*half { // isotropic: two roots alike, taken a hair apart
		root = complex(1e-3*half, 0)
	}
	q1, q2 := complex(half, 0)+root, complex(half, 0)-root
	c1 := (complex(a12/a22, 0) - q2) / (q1 - q2)
	at := func(q complex128) complex128 { return cmplx.Atan(complex(l/2/x, 0) / cmplx.Sqrt(q)) }
	return 2 / math.Pi * real(c1*at(q1)+(1-c1)*at(q2))
}
