package section

import (
	"fmt"
	"math"

	"crossgrain/species"
	"crossgrain/tables"
)

// Board is the end grain of one board, seen from the lower or left end of the panel: left is left,
// the painted face is up.
type Board struct {
	Width, Thickness float64           // mm, above 0
	Ring             species.RingAngle // at mid-width, signed by the lean; not read when PithKnown
	RingRadius       float64           // ring radius at mid-width and mid-thickness, mm; +Inf = straight rings
	HeartFront       bool              // heart side is the painted side
	PithKnown        bool              // PithX, PithZ hold
	PithX, PithZ     float64           // pith from the board's left edge and, upwards, from its back face, mm
}

// straightBeyond is the ring radius above which the rings count as straight, mm: at this size the
// warp of a board of 1 m is under 1e-3 mm for any strain of wood, and rounding begins to show.
const straightBeyond = 1e8

// PithInsideError says that the pith lies inside a board: it cannot move without stress.
type PithInsideError struct{ X, Z, Width, Thickness float64 } // mm; X from the left edge, Z from the back

func (e *PithInsideError) Error() string {
	return fmt.Sprintf("the pith lies inside the board (%.4g mm from its left edge of %.4g mm, %.4g mm from its back of %.4g mm): "+
		"closed rings cannot shrink or swell without stress, so there is no free shape; such boards crack from the pith outwards",
		e.X, e.Width, e.Z, e.Thickness)
}

// Pith returns the place of the pith from the board's left edge and back face. ok is false when the
// rings are straight. Where it is not known it lies at the ring radius from the board's middle,
// square to the rings, on the heart side; at a ring angle of 90 degrees the heart side means the
// left (front) or right (back), which changes nothing but the sense of a small rest.
func (b Board) Pith() (x, z float64, ok bool) {
	if b.PithKnown {
		return b.PithX, b.PithZ, true
	}
	if b.RingRadius >= straightBeyond {
		return 0, 0, false
	}
	sin, cos := math.Sincos(float64(b.Ring) * math.Pi / 180)
	r := b.RingRadius
	if !b.HeartFront {
		r = -r
	}
	return b.Width/2 - r*sin, b.Thickness/2 + r*cos, true
}

// Validate says what is wrong with the board: a *tables.RangeError, or a *PithInsideError.
func (b Board) Validate() error {
	for _, v := range [...]struct {
		what string
		v    float64
	}{{"board width", b.Width}, {"board thickness", b.Thickness}} {
		if !(v.v > 0) || math.IsInf(v.v, 1) {
			return &tables.RangeError{Quantity: v.what, Value: v.v, Min: math.SmallestNonzeroFloat64, Max: math.MaxFloat64, Unit: "mm"}
		}
	}
	if !b.PithKnown {
		if err := tables.InRange("ring angle", float64(b.Ring), -90, 90, "degrees", ""); err != nil {
			return err
		}
		if !(b.RingRadius > 0) {
			return &tables.RangeError{Quantity: "ring radius", Value: b.RingRadius, Min: 0, Max: math.Inf(1), Unit: "mm, not 0"}
		}
	}
	x, z, ok := b.Pith()
	if !ok {
		return nil
	}
	if math.IsNaN(x+z) || math.IsInf(x+z, 0) {
		return fmt.Errorf("place of the pith must be finite, got %g and %g mm", x, z)
	}
	if x >= 0 && x <= b.Width && z >= 0 && z <= b.Thickness {
		return &PithInsideError{X: x, Z: z, Width: b.Width, Thickness: b.Thickness}
	}
	return nil
}

// Local returns the unheld free strain across the board and the unheld free curvature (1/mm) at the
// place x from its left edge, at mid-thickness, to first order in the strains eR (radial) and eT
// (tangential). This, not the glued shape, is what drives a panel on its battens.
//
//	eps = eR + (eT-eR) Z^2/r^2,   kappa = 2 (eT-eR) Z^3/r^4     X, Z from the pith, r^2 = X^2 + Z^2
//
// Straight rings have no curvature and eps = eR sin^2 a + eT cos^2 a, a the ring angle. Derived
// here from the stress-free map of [Board.Free]. The board must be valid. kappa is the curvature of
// the board's own mid-line; glued boards need the ridges at their joins beside it, see Free.Bend.
func (b Board) Local(eR, eT, x float64) (strain, curvature float64) {
	px, pz, ok := b.Pith()
	if !ok {
		strain, _, _ = straight(b.Ring, eR, eT)
		return strain, 0
	}
	X, Z := x-px, b.Thickness/2-pz
	r2 := X*X + Z*Z
	return eR + (eT-eR)*Z*Z/r2, 2 * (eT - eR) * Z * Z * Z / (r2 * r2)
}

// straight returns the strain across, the strain through the thickness and the shear xz (angle) of
// straight rings. The tangent of the rings is (cos a, sin a) in x, z, a the ring angle: positive
// leans to the right going up.
//
//	ex = eR sin^2 a + eT cos^2 a,  ez = eR cos^2 a + eT sin^2 a,  gxz = (eT-eR) sin 2a
func straight(ring species.RingAngle, eR, eT float64) (ex, ez, gxz float64) {
	s, c := math.Sincos(float64(ring) * math.Pi / 180)
	return eR*s*s + eT*c*c, eR*c*c + eT*s*s, 2 * (eT - eR) * s * c
}
