// Package chance holds statistics for results that are sampled: points to compute at ([Normals]), what
// the results say ([Share], [Quantile], [Weights]), and which input the spread comes from ([Fit], [Bootstrap]).
// It knows nothing of wood.
//
// Everything works by index with its own generator: the same input gives the same bits on any number of
// cores. Slices of the wrong length are a fault of the caller and panic; numbers that cannot be used are
// told by an error that says where.
package chance
