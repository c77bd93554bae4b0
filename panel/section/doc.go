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
// # Finite elements
//
// [Build] makes a [Model] of boards of any cut, outline, stiffness and ground: eight-node elements, ring axes at
// every integration point, the strain along the grain straight over the section. It is linear: [Model.Fill] turns the
// free strains of an hour into loads, [Model.Eval] into all outputs by one small product. Boards are solved one by one
// and joined through the forces of their joins, so that a join may be soft, open over part of its height, or touch; what
// a board does by itself (to drive a restraint) comes with it. The closed forms stay beside it, and should agree where
// the rings are wide and the strain is even through the thickness.
//
// Stress at the ends of a join, at free corners and under the edge of a ground is singular: it grows with the mesh and
// must not be read. Stress is read at the 2 x 2 points of the elements.
//
// # What the closed forms leave out
//
// Bonding of boards whose edges do not match: [Assemble] turns each board until the edge faces fit
// on average; the short-range stress at the join is left out. Moisture that varies through the
// thickness of a flat-sawn board. Poisson's effect along the grain.
package section
