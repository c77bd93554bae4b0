// Package assessment asks one question of a panel: over this range of humidity, or this record,
// what moves, what is near its limit, and how far may the humidity go. It knows modes and shares
// of limit, not how they are computed.
//
// # Doubt by single inputs
//
// Every input that was not measured is moved by one standard deviation each way, one at a time;
// the changes of a share are added as squares (first-order second moment): those of its logarithm
// where an input multiplies the share, those of the share itself where an input shifts it. The
// unfavourable end lies 1.645 standard deviations above the nominal share: about 5 in 100
// plausible cases lie beyond it. This is quick, and blind to inputs that act together. It says which
// inputs matter, stands alone at setting Quick, and carries the chart of waiting times.
//
// # Doubt by realisations
//
// With [Samples], panels of the same description are drawn, all unknown inputs at once by
// low-discrepancy points with the inputs that matter first, and each is worked out: held at every
// humidity by closed forms, or followed through a record at setting Coarse. What the finer model
// says of the panel as described corrects each share in proportion; through a record a part is not
// counted where that correction is more than a fifth of the spread. Counts of 100 carry their
// standard error. A realisation counts by how well it agrees with what was measured (instrument,
// calculation and an unknown warp at rest as normal errors), and, inside the climate that the panel
// has lived through unchanged, by whether it would have passed it (see [Evidence]); it never counts
// so for a drier or damper one. Where one unknown with few answers parts the result, each answer is
// worked out by itself and they are never averaged. What to find out comes from a sparse polynomial
// fitted to the same runs, with its unexplained part and a bootstrap of its order.
//
// The same question, seed and number of realisations give the same bits on any number of cores. When
// the context ends, what is done is kept and marked as partial.
package assessment
