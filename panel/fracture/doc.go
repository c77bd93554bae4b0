// Package fracture answers when joins open, sound wood splits, and splits and checks grow along the
// grain: by closed forms, the strip held on both long edges with a table for cracks that are short
// against it ([Release]), and by elements on the plan of the panel with all that holds it ([FollowPlan]).
//
// # Units and signs
//
// mm, N, MPa; energy release in N/mm (times 1000 is J/m2); stress intensity in MPa m^0.5. Strain is
// positive when the wood is pulled, so a drying panel that is held has positive held strain.
// Places along the grain count from the lower or left end.
//
// # Two energies
//
// A crack that grows slowly feeds on the stiffness that is left after relaxation, one that runs at
// once only on what unloads at once; see [Energy]. The slow one decides, both are told.
//
// # Two books
//
// Strain held for long is compared with limits from slow tests, stress with strengths from fast
// ones; the criterion that decides is named ([Criterion]).
//
// # What it leaves out
//
// Growth through the thickness, knots and sloping grain, friction between crack faces. The closed forms also
// leave out the far end of the panel (the last ligament is weaker than an endless strip) and sliding.
package fracture
