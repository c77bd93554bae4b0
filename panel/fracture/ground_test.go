package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// 1 mm of ground, E 3000, G 1250 MPa, on wood that does not give: P = 3000 N/mm, k = 2500 N/mm3,
// lam = sqrt(2500/3000) = 0.91287 /mm. At a strain of 0.002 the force P eps = 6 N/mm has to go over:
// its shear falls as exp(-lam x) from tau, so tau = 6 lam = 5.477 MPa; and P eps^2/2 = 0.006 N/mm.
func TestGroundEdgeByHand(t *testing.T) {
	g := GroundEdge{E: 3000, G: 1250, Thickness: 1, WoodE: 1e12, Wood: 15, Free: math.Inf(1)}
	a := g.At(-0.002)
	assert.InDelta(t, 1.0954, a.Reach, 1e-4)
	assert.InDelta(t, 5.4772, a.Shear, 1e-4)
	assert.InDelta(t, 0.006, a.Energy, 1e-9)
	assert.True(t, a.Lifts)
	assert.False(t, g.At(0.002).Lifts)
	assert.InDelta(t, 2*0.0025*1.0954, g.Bridges(0.0025), 1e-6, "mm; stretched over the reach on both sides")

	// The force by adding up the shear over the edge.
	var force float64
	const dx = 1e-3
	for x := dx / 2; x < 20; x += dx {
		force += a.Shear * math.Exp(-x/a.Reach) * dx
	}
	assert.InEpsilon(t, 3000*0.002, force, 1e-4)

	g.Free = 0.001 // an island far smaller than the reach: k eps l
	assert.InEpsilon(t, 2500*0.002*0.001, g.At(0.002).Shear, 1e-3)
	g.Free = math.Inf(1)
	g.WoodE, g.Wood = 200, 15 // as stiff as the ground together: P is half, the energy too
	assert.InDelta(t, 0.003, g.At(0.002).Energy, 1e-9)
	assert.InDelta(t, 1.0954/math.Sqrt2, g.At(0.002).Reach, 1e-4)
}

func TestGroundEdgeWithoutGround(t *testing.T) {
	assert.Zero(t, GroundEdge{}.At(0.002))
	assert.Zero(t, GroundEdge{}.Bridges(0.0025))
	g := GroundEdge{E: 3000, G: 1250, Thickness: 0.5, WoodE: 700, Wood: 10, Free: math.Inf(1)}
	assert.Zero(t, g.At(0).Shear)
	assert.Zero(t, g.Bridges(math.NaN()))
}
