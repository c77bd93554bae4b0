// Package panel describes a painted panel: what was measured, what lies between two numbers, what
// is not known (Panel), and one realisation of it as plain numbers (Object).
//
// # Units and axes
//
// N, mm, MPa, s, degC; strain, relative humidity and moisture content are fractions. x runs across
// the grain from the left edge (grain upright) or the lower edge (grain level), y along the grain
// from the lower or left end, z from the back face to the painted face. Strain is positive when
// longer, stress when pulling, cup when the painted face is rounded (convex).
package panel
