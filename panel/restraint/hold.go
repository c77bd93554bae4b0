package restraint

import "math"

// Rigid returns the stress in a panel held without any give, MPa, tension positive:
//
//	sigma = -E e
//
// e is the modulus across the grain, MPa (times a relaxation factor for long holding); strain the
// free strain, shrinkage negative. Hooke's law.
func Rigid(e, strain float64) float64 { return -e * strain }

// Support returns the force in a strip of stiffness ea, N, and length l, mm, whose end is held by a
// spring k, N/mm (+Inf = rigid, 0 = none), N, tension positive:
//
//	F = -e L / (1/k + L/(E t b))
//
// Springs in series.
func Support(strain, l, k, ea float64) float64 {
	if k == 0 {
		return 0
	}
	return -strain * l / (1/k + l/ea)
}

// SupportShare returns the share of the free strain that the strip has to carry, 0 to 1:
//
//	(1/k_p) / (1/k + 1/k_p),  k_p = E t b/L
func SupportShare(l, k, ea float64) float64 {
	if k == 0 {
		return 0
	}
	return (l / ea) / (1/k + l/ea)
}

// FrictionLimit returns the largest strain that friction can hold in a strip of stiffness ea, N:
//
//	|e| <= mu Sum N / (E t b)
//
// normal is the sum of the forces pressing outside the section, N. Coulomb friction.
func FrictionLimit(mu, normal, ea float64) float64 { return mu * normal / ea }

// Flatten returns the force at mid-span, N, that presses a strip of bending stiffness d = E b t^3/12,
// N mm2, and curvature kappa, 1/mm, flat between two supports span apart, mm (half of it at each):
//
//	P = 6 D kappa / l
//
// from kappa l^2/8 = P l^3/(48 D). Beam theory.
func Flatten(d, kappa, span float64) float64 { return 6 * d * kappa / span }

// FlatBetween returns the largest held strain at the faces when a strip of thickness t, mm, with
// the curvature kappa, 1/mm, is pressed wholly flat: kappa t/2.
func FlatBetween(kappa, t float64) float64 { return math.Abs(kappa) * t / 2 }

// GluedFlat returns the force in a panel strip glued over its whole length to a bar and held flat,
// N, tension positive:
//
//	F = -A_p A_b e / (A_p + A_b),   A = E x area of panel and bar, N
//
// strain is the free strain of the panel less that of the bar. The stress is F over the area.
func GluedFlat(strain, ap, ab float64) float64 { return -strain * ap * ab / (ap + ab) }

// TwoFasteners returns the force on each of two fixings at a distance l, mm, held flat, N, tension
// in the panel positive:
//
//	F = -e L / (2/K + L/A_p + L/A_b)
//
// k is the slip modulus, N/mm. Springs in series.
func TwoFasteners(strain, l, k, ap, ab float64) float64 {
	if k == 0 {
		return 0
	}
	return -strain * l / (2/k + l/ap + l/ab)
}
