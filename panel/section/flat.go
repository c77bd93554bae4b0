package section

import "math"

// FlatSawn returns, for a face of width w (mm) whose middle lies straight over the pith at the
// distance d (mm, above 0), the warp f between middle and edges, and the change of its chord, to
// first order:
//
//	f  = (eT-eR) a atan(a/d),   a = w/2
//	dw = 2 [ eR a + (eT-eR) d atan(a/d) ]
//
// Positive f: the face is rounded when it looks away from the pith (heart side at the back). The
// exact form is [Board.Free], about half a per cent off at the movements of wood. Derived here.
func FlatSawn(eR, eT, d, w float64) (f, dw float64) {
	a := w / 2
	phi := math.Atan(a / d)
	return (eT - eR) * a * phi, 2 * (eR*a + (eT-eR)*d*phi)
}

// FlatSawnWide is the limit of [FlatSawn] for d much above w, f = (eT-eR) w^2/(4 d): the curvature is
// twice (eT-eR)/d. It overestimates by 27 % at a = d.
func FlatSawnWide(eR, eT, d, w float64) float64 { return (eT - eR) * w * w / (4 * d) }
