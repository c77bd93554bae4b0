package restraint

import (
	"fmt"
	"math"
	"slices"
)

// Touch is where a member meets the panel: a place along the member and the rows of the body there.
type Touch struct {
	X    float64 // along the member, mm
	Slip int     // row of slip along the member; -1 = none
	Lift int     // row of movement off the member; -1 = none
	Turn int     // row of rotation, dw/dx of the movement off; -1 = none
	Step float64 // how much farther from the member's centroid than its face they meet, mm: over a board that is thinner than others
}

// WithBar returns the body with a straight member of its own stretching and bending added, and with
// three more motions: the member slides along, moves towards the panel, and rocks about its first
// touch. face is the distance from the member's centroid to the face that touches, mm, positive
// towards the panel (half its depth; 0 leaves the lever out); the step of a touch is added to it. The movement there is
//
//	u = u0 - (face + step) dw/dx,   w towards the panel
//
// and the flexibility that of a beam clamped at its first touch, which the motions free, giving in shear too
// (without it a batten of 40 x 20 mm on fixings 100 mm apart bends a fifth too little). The
// member's own free movement belongs into Incoming.Free, negative. Bar.HoldsFlat makes it rigid in
// bending; Bar.Offset is not used. Beam theory; errors name what is out of range.
func (b Body) WithBar(bar Bar, face float64, touches []Touch) (Body, error) {
	if err := bar.valid(); err != nil {
		return Body{}, err
	}
	if math.IsNaN(face) || math.IsInf(face, 0) {
		return Body{}, fmt.Errorf("distance of the face from the centroid must be finite, got %g mm", face)
	}
	origin := math.Inf(1)
	for _, t := range touches {
		if max(t.Slip, t.Lift, t.Turn) >= b.N || math.IsNaN(t.X) || math.IsInf(t.X, 0) {
			return Body{}, fmt.Errorf("touch at %g mm must have rows below %d, got %d, %d, %d", t.X, b.N, t.Slip, t.Lift, t.Turn)
		}
		origin = min(origin, t.X)
	}
	out := Body{N: b.N, C: slices.Clone(b.C), Motions: b.Motions + 3, R: make([]float64, b.N*(b.Motions+3))}
	for i := range b.N {
		copy(out.R[i*out.Motions:], b.R[i*b.Motions:][:b.Motions])
	}
	ea, ei := bar.soft(), 1/bar.bending()
	if bar.HoldsFlat {
		ei = 0
	}
	for _, p := range touches {
		x := p.X - origin
		if p.Slip >= 0 {
			r := out.R[p.Slip*out.Motions+b.Motions:]
			r[0], r[2] = -1, face+p.Step
		}
		if p.Lift >= 0 {
			r := out.R[p.Lift*out.Motions+b.Motions:]
			r[1], r[2] = -1, -x
		}
		if p.Turn >= 0 {
			out.R[p.Turn*out.Motions+b.Motions+2] = -1
		}
		for _, q := range touches {
			out.bend(p, q, x, q.X-origin, ea, ei, bar.shear(), face)
		}
	}
	return out, nil
}

// bend adds what unit forces at touch q move at touch p; x and y are their distances from the clamp.
func (b *Body) bend(p, q Touch, x, y, ea, ei, ga, face float64) {
	add := func(i, j int, v float64) {
		if i >= 0 && j >= 0 {
			b.C[i*b.N+j] += v
		}
	}
	fp, fq := face+p.Step, face+q.Step
	add(p.Slip, q.Slip, min(x, y)*(ea+fp*fq*ei))
	add(p.Lift, q.Lift, ei*sway(x, y)+ga*min(x, y))
	add(p.Lift, q.Slip, -fq*ei*lean(x, y))
	add(p.Slip, q.Lift, -fp*ei*lean(y, x))
	add(p.Turn, q.Turn, ei*min(x, y))
	add(p.Turn, q.Lift, ei*lean(y, x))
	add(p.Lift, q.Turn, ei*lean(x, y))
	add(p.Turn, q.Slip, -fq*ei*min(x, y))
	add(p.Slip, q.Turn, -fp*ei*min(x, y))
}

// sway is EI times the deflection at x of a cantilever under a unit force at y.
func sway(x, y float64) float64 {
	a, l := min(x, y), max(x, y)
	return a * a * (3*l - a) / 6
}

// lean is EI times the deflection at x of a cantilever under a unit moment at y.
func lean(x, y float64) float64 {
	if x <= y {
		return x * x / 2
	}
	return y * (x - y/2)
}
