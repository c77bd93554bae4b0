package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A force at a point of an infinite plate (Michell 1900, as in Timoshenko & Goodier, Theory of Elasticity):
// sigma_r = -(3+nu) P cos/(4 pi r), sigma_theta = (1-nu) P cos/(4 pi r), tau = (1-nu) P sin/(4 pi r). Added up along a line of the
// length of the zone, 10 mm beside the force, it gives what the closed form gives of an isotropic plate.
func TestPatchPullIsotropic(t *testing.T) {
	const nu, force, x, thick = 0.3, 1000.0, 10.0, 1.0
	var sum float64
	const n = 20000
	for i := range n {
		y := ProcessZone * ((float64(i)+0.5)/n - 0.5)
		r, th := math.Hypot(x, y), math.Atan2(y, x)
		s, c := math.Sincos(th)
		k := force / (4 * math.Pi * r)
		sum += (-(3+nu)*k*c*c*c + (1-nu)*k*c*s*s - 2*(1-nu)*k*s*s*c) / n
	}
	e := 1000.0
	p := PatchPull{Force: force, Across: 2 * x, Along: 1, Thickness: thick, EX: e, EL: e, GXL: e / (2 * (1 + nu)), NuL: nu}
	assert.InEpsilon(t, -sum, p.Stress(), 1e-3)
}

// By hand: a line of force passes half to each side, F/(2 L d), over a longer patch by its length, in a thick board through the
// zone only. A patch spreads it, the more the wider it is.
func TestPatchPullByHand(t *testing.T) {
	p := PatchPull{Force: -420, Along: 10, Thickness: 12, EX: 1200, EL: 12000, GXL: 800, NuL: 0.4}
	assert.InDelta(t, 420/(2*25*12.0), p.Stress(), 1e-9)
	p.Along = 60
	assert.InDelta(t, 420/(2*60*12.0), p.Stress(), 1e-9)
	p.Along, p.Thickness = 10, 40
	assert.InDelta(t, 420/(2*25*25.0), p.Stress(), 1e-9)
	p.Thickness = 12
	narrow, wide := p, p
	narrow.Across, wide.Across = 10, 40
	assert.Greater(t, p.Stress(), narrow.Stress())
	assert.Greater(t, narrow.Stress(), wide.Stress())
	assert.Positive(t, wide.Stress())
	p.Force = 0
	assert.Zero(t, p.Stress())
}
