// Package plan condenses a panel, seen from the front, to the patches through which one batten
// acts on it: a small flexibility matrix, the pieces of the strip between, and the movement the
// panel would make unheld.
//
// # Axes, units, signs
//
// x across the grain from the left, y along the grain, z from the back face to the painted face;
// N, mm, MPa; strain positive = longer; curvature positive = painted face convex, so that the
// strain at height z above mid-thickness is e + kappa z.
//
// # Where a flexibility comes from
//
//   - [Strip]: a strip of stated effective width, stiffness piecewise along x. Exact for a bar of
//     that width; the same numbers as a chain of segment stiffnesses.
//   - [Sheet]: the strip plus the local yielding of the sheet round each patch, by a cosine series
//     in which every wave has its own effective width.
//   - a finite-element model may fill the same [Flex] later.
//
// # Effective width
//
// Stiff grain (E_L much above E_T) keeps a section along y from stretching, so the x movement u
// obeys, to first order,
//
//	E_T u_xx + G_LT u_yy = 0
//
// A movement that varies as cos(k x) dies away along the grain as cosh((d-s) m) / cosh(d m) with
// m = k sqrt(E_T/G_LT), d the distance to the next line of symmetry or the panel's end. For a span
// H, k = pi/H. Leaving out the stretch along the grain is the approximation; see [Spread.At] for
// its size. Derived here.
package plan
