package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
)

// A ground bears far less of an opening than a line opens: P/k of shear lag times its limit, hundredths of a millimetre.
func TestGroundAtLines(t *testing.T) {
	o := splitPanel(t, 150)
	o.Front = primed(t, "continuous").Front
	c := planned(t, o, Coarse)
	states, err := c.Settle([]moisture.RH{0.35, 0.50, 0.65})
	require.NoError(t, err)
	g := c.GroundAtLines(states)
	require.Len(t, g, 1)
	assert.Equal(t, "split.top", g[0].Part)
	assert.Greater(t, g[0].Opens, g[0].Bears)
	assert.True(t, g[0].Cracks)
	assert.Less(t, g[0].Bears, 0.05)
	assert.False(t, math.IsNaN(g[0].Edge.Shear))
}

// By hand, of a ground pressed by e on wood: P e^2/2 with 1/P = 1/(E t) + 1/(Ew tw); the islands of a stretched one by their share
// of the stretch; nothing at the humidity it is used to, nothing of loose paint.
func TestGroundAtItsEdges(t *testing.T) {
	o := primed(t, "craquelured")
	o.Front.GroundE = 0.15 * o.Front.GroundEIntact // what its cracks leave
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	over := func(rh ...moisture.RH) PaintYear {
		states, err := c.Settle(rh)
		require.NoError(t, err)
		y, err := c.PaintOver(states)
		require.NoError(t, err)
		require.Len(t, y, 1)
		return y[0]
	}
	b, f := &c.boards[0], &o.Front
	energy := func(strain float64) float64 {
		return strain * strain / 2 / (1/(f.GroundEIntact*f.GroundMM) + 1/(b.stiff*b.left*b.Thickness))
	}
	dry, damp := over(0.40, 0.50), over(0.50, 0.60)
	assert.InEpsilon(t, energy(dry.Press.Strain), dry.Edge.Energy, 1e-9)
	assert.True(t, dry.Edge.Lifts)
	assert.InEpsilon(t, energy(0.15*damp.Stretch.Strain), damp.Edge.Energy, 1e-9)
	assert.False(t, damp.Edge.Lifts)
	assert.Less(t, damp.Edge.Energy, dry.Edge.Energy, "cracks let go of a pull")
	assert.Zero(t, over(0.50).Edge.Energy)
	for _, rh := range [...]moisture.RH{0, 1} {
		assert.False(t, math.IsNaN(over(rh).Edge.Energy))
	}
	o.Front.Paint = "flaking"
	assert.Zero(t, over(0.40).Edge)
}
