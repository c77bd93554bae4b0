// Package response takes one realised panel through a climate: it wires moisture, section,
// restraint and fracture into the movement, the warp, the forces and the demand on every part.
//
// # Settings
//
// Quick uses the closed forms: every humidity is held long enough for the wood to follow it (a
// season), restrained stiffness is that left after the same time. Coarse and Fine stand for the
// finer models; a setting that is not built is refused in words, never replaced by another.
//
// # References
//
// The climate a panel is used to fixes the state of about no stress. A restraint fixed at another
// humidity keeps a part of the strain built in then (StoredShare); the rest has crept away.
package response
