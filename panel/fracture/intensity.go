package fracture

import (
	"math"

	"crossgrain/species"
)

// The geometry factors F of K = F sigma sqrt(pi a) under constant stress, for isotropic plates; good
// within a few per cent for cracks along the grain in long strips. A crack between held edges
// unloads as it grows: use [Release] for it. x is a/W unless said otherwise, above 0 and below 1.

// EdgeTension is for a crack from one edge, x = a/W to 0.6 (polynomial, as given at
// http://www.cricelli.com/FFAT/8b.php).
func EdgeTension(x float64) float64 {
	return 1.12 + x*(-0.231+x*(10.55+x*(-21.72+x*30.39)))
}

// EdgeTensionTada is the same, better than 0.5 % for any x (Tada, Paris & Irwin, memory).
func EdgeTensionTada(x float64) float64 {
	s := 1 - math.Sin(math.Pi*x/2)
	return tangent(x) * (0.752 + 2.02*x + 0.37*s*s*s) / math.Cos(math.Pi*x/2)
}

// CentreTension is for a crack of length 2a in the middle of the width W, x = 2a/W (Feddersen, memory).
func CentreTension(x float64) float64 { return math.Sqrt(1 / math.Cos(math.Pi*x/2)) }

// DoubleEdgeTension is for cracks from both edges, x = 2a/W (Tada, memory).
func DoubleEdgeTension(x float64) float64 {
	return (1.122 + x*(-0.561+x*(-0.205+x*(0.471-0.190*x)))) / math.Sqrt(1-x)
}

// EdgeBending is for a crack from one edge in pure bending, x = a/W (Tada, memory).
func EdgeBending(x float64) float64 {
	s := 1 - math.Sin(math.Pi*x/2)
	return tangent(x) * (0.923 + 0.199*s*s*s*s) / math.Cos(math.Pi*x/2)
}

func tangent(x float64) float64 { return math.Sqrt(2 / (math.Pi * x) * math.Tan(math.Pi*x/2)) }

// Intensity returns K in MPa m^0.5 for the factor F, the stress sigma in MPa and the length a in mm.
func Intensity(F, sigma, a float64) float64 { return F * sigma * math.Sqrt(math.Pi*a/1000) }

// ModeOneModulus returns E* of G = K^2/E* for a crack that opens, MPa: e1 along its growth, e2 along its
// opening, nu12 the strain along 2 over that along 1 under a stress along 1. As species.Ortho.ModeI.
func ModeOneModulus(e1, e2, nu12, g12 float64) float64 {
	return species.Ortho{E1: e1, E2: e2, Nu12: nu12, G12: g12}.ModeI()
}

// Hole returns the stress concentration at the edge of a round hole, such as a worm's, in a sheet
// loaded along direction 1:
//
//	Kt = 1 + sqrt{ 2 [ sqrt(E1/E2) - nu12 ] + E1/G12 }
//
// Source: Lekhnitskii. 3 in isotropic sheets, 1.9 across the grain of spruce, 4.7 at a gallery.
func Hole(o species.Ortho) float64 {
	return 1 + math.Sqrt(2*(math.Sqrt(o.E1/o.E2)-o.Nu12)+o.E1/o.G12)
}

// Cantilevers returns the energy release of two arms of height h (mm) and width b (mm), pulled apart by
// P (N) at the distance a (mm) from the tip, N/mm: 12 P^2 a^2/(E b^2 h^3). Slender arms.
func Cantilevers(p, a, e, b, h float64) float64 { return 12 * p * p * a * a / (e * b * b * h * h * h) }
