package restraint

import "math"

// SlipNailDriven returns the slip modulus of a nail driven without predrilling, N/mm for each
// shear plane:
//
//	K_ser = rho_m^1.5 d^0.8 / 30
//
// rho is the mean density, kg/m3 (two woods: see [MeanDensity]), d the diameter, mm. EN 1995-1-1
// Table 7.1 (memory). For modern nails in sound softwood: hand-forged nails in wormed poplar are
// better taken as 200 to 1500 N/mm (assumption).
func SlipNailDriven(rho, d float64) float64 { return math.Pow(rho, 1.5) * math.Pow(d, 0.8) / 30 }

// SlipScrew returns the slip modulus of a screw, a dowel or a nail in a drilled hole, N/mm:
//
//	K_ser = rho_m^1.5 d / 23
//
// EN 1995-1-1 Table 7.1 (memory); it gives the 3469 N/mm printed by Dlubal (knowledge base 000873)
// for a 6 mm screw between C24 and D50.
func SlipScrew(rho, d float64) float64 { return math.Pow(rho, 1.5) * d / 23 }

// SlipNailDIN returns the slip modulus of a driven nail by the older rule, N/mm:
//
//	K = rho_k^1.5 d^0.8 / 25
//
// rhoK is the characteristic density (lower 5 in 100), kg/m3. DIN 1052 (memory); it gives the
// 793.981 N/mm printed by Dlubal (FAQ 002099) for a 4 mm nail in C24.
func SlipNailDIN(rhoK, d float64) float64 { return math.Pow(rhoK, 1.5) * math.Pow(d, 0.8) / 25 }

// MeanDensity returns the density that stands for a fixing between two woods: sqrt(rho_1 rho_2).
// EN 1995-1-1, 7.1 (memory).
func MeanDensity(rho1, rho2 float64) float64 { return math.Sqrt(rho1 * rho2) }

// SlipUltimate returns the slip modulus near failure: two thirds of K_ser. EN 1995-1-1 (memory).
func SlipUltimate(kser float64) float64 { return kser * 2 / 3 }
