// Package fe holds the finite elements of a cross-section: a banded symmetric store with its
// factorisation, a solver for many columns at once, the eight-node element, wood turned into the
// axes of the section, and a body made of such elements.
//
// # Axes, units
//
// x across, z up, y along the grain, square to the section; N, mm, MPa. Forces and stiffness are per
// mm along the grain. Strains and stresses stand in the order xx, zz, xz, yy; xz is the change of
// angle (twice the tensor's shear).
//
// # Along the grain
//
// A long body keeps its cross-sections plane: the strain along the grain is q0 + q1 x + q2 z
// (generalised plane strain). The three q stand outside the band as a border; they are eliminated
// by a 3 x 3 complement. q = 0 is plane strain.
//
// # Element
//
// The eight-node quadrilateral is integrated with 3 x 3 points; stresses are best read at its 2 x 2
// points (Barlow 1976), where they are one order more accurate than elsewhere.
package fe
