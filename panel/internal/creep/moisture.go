package creep

import "math"

// MoistureDriven is a Kelvin element that creeps with the way the moisture content has gone, not
// with time:
//
//	d eps/dU = (M sigma/E - eps)/U*,   U = Int |dw|
//
// M is the strain over the elastic strain that it ends at, Path the U* in kg/kg, above 0. Form: as
// in Toratti, Hanhijaervi, Fortino and others, memory. Measured for spruce slices: M about 1.4 to
// 3.3 in R and 6 to 10 in T, Path 1.0 (Ferrara & Wittel 2025, open data,
// https://github.com/alessiafe/Mesoscale-Creep-Evaluation-Routines); one humidity cycle of blocks
// gave 5 times the elastic strain (Toratti & Svensson 2000), which Path 1.0 does not reach.
type MoistureDriven struct{ M, Path float64 }

// Strain returns the creep strain under constant stress, in units of the elastic strain, once the
// moisture content has gone u (kg/kg) in all.
func (e MoistureDriven) Strain(u float64) float64 { return -e.M * math.Expm1(-u/e.Path) }

// Step returns the creep strain after a change dw of moisture content (kg/kg, either sign) under a
// stress that would give the elastic strain, starting from the strain before. Exact for constant
// stress.
func (e MoistureDriven) Step(before, elastic, dw float64) float64 {
	return before - (e.M*elastic-before)*math.Expm1(-math.Abs(dw)/e.Path)
}
