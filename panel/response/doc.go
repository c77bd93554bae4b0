// Package response takes one realised panel through a climate: it wires moisture, section,
// restraint and fracture into the movement, the warp, the forces and the demand on every part.
//
// # Settings
//
// Quick uses the closed forms: every humidity is held long enough for the wood to follow it (a
// season), restrained stiffness is that left after the same time. Coarse and Fine follow a course
// step by step ([Case.Follow]): moisture through the thickness of each board, along the mean curve and
// with the memory of turning points, creep and crushing in its layers; Coarse in steps of 3 hours with
// 16 levels and 8 layers, Fine hourly with 40 levels and 12 layers. What holds the panel, joins, splits
// and ground are computed by the same closed forms from the moisture and the gradient of the moment.
// [Case.Refine] makes the cross-section by finite elements, which then gives warp, width and inner stress of
// every state and of every step of a course; the closed forms are kept beside it.
// [Case.Excursion] gives the state at some times after a sudden change.
//
// # References
//
// The climate a panel is used to fixes the state of about no stress. A restraint fixed at another
// humidity keeps a part of the strain built in then (StoredShare); the rest has crept away.
package response
