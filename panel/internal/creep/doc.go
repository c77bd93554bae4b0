// Package creep holds what is left of a stress across the grain when time passes or moisture moves:
// relaxation of a Kelvin chain, creep driven by changing moisture, and compression set. A [Strip] is
// a board in layers that does all three, hour by hour, with what holds it and what is glued to it.
//
// # Units and signs
//
// s, mm, N, MPa; strain and moisture content as fractions. Strain is positive when longer. A factor
// "left" is the stress over the stress of an elastic piece with the short modulus.
//
// # What is exact
//
// The answer of a chain under constant strain is a sum of as many exponentials as the chain has
// elements; [Chain.Modes] finds them. Relaxation, ramp and sine follow without time steps.
//
// # What is not told by a chain
//
// The tests behind the chains of [Spruce] ran about 30 days, so the slowest element (2000 h) is an
// extrapolation, and the scatter of single coefficients is as large as their means. A chain ends at
// about a third of the elastic stress; what goes beyond that is creep driven by moisture
// ([MoistureDriven]) or crushing (Limit of [Spec]). What measured wood contradicts stands in [Misses].
package creep
