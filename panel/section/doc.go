// Package section answers what the end grain of a panel does when nothing holds it: width, warp and
// inner stresses of boards, boards in a row, and layers on top of one another.
//
// # Axes, units, signs
//
// x across the grain from the left edge, z from the back face to the painted face; mm, N, MPa;
// strain positive when longer, stress when pulling, warp and curvature positive when the painted
// face is rounded (convex). Turns are in radians from x towards z.
//
// # What is exact
//
//   - A board with the pith outside moves without any stress: radii and ring lengths change in their
//     own measure and the angle gives way, r' = r (1+eR), th' = th (1+eT)/(1+eR). [Board.Free] moves
//     points so, to any size of strain. Taking the turn of the radii alone would halve the warp.
//   - Layers of one strain each: [Stack].
//   - A strain that varies through the thickness alone: [Gradient].
//   - A whole ring, pith inside: [Ring].
//
// # Warp of one board and of glued boards
//
// A flat-sawn board on wide rings warps by shear: its edge faces stay parallel. Glue joins edge
// faces, not mid-lines, so a panel of such boards is scalloped, each board hollow or rounded by
// itself, and does not make one arc with the curvature of its boards. [Assemble] keeps to the edge
// faces; mid-lines joined smoothly would give n^2 times the warp of a board for n boards alike.
//
// # What is not in it
//
// Bonding of boards whose edges do not match: [Assemble] turns each board until the edge faces fit
// on average; the short-range stress at the join is left out. Moisture that varies through the
// thickness of a flat-sawn board. Poisson's effect along the grain.
package section
