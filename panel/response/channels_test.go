package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

// Two rigid fixings in the line of a channel hold a strip of less wood: so soft that the panel hardly answers, the pull at the
// channel is the same and the strain in it greater as it is thinner; far from it nothing has changed.
func TestChannelHoldsMoreStrain(t *testing.T) {
	make := func(depth float64) *panel.Object {
		o := onBattens(t, 1, nails(5, 40, 560, 50, math.Inf(1)))
		o.Battens[0].Side, o.Battens[0].ChannelDepth, o.Battens[0].Depth = "let in", depth, 20
		return o
	}
	plain, cut := planned(t, make(1e-3), Coarse), planned(t, make(6), Coarse)
	require.Len(t, cut.planned.layout.Channels, 1)
	a, b := one(t, plain, 0.40), one(t, cut, 0.40)
	assert.InEpsilon(t, a.Restraints[0].Force, b.Restraints[0].Force, 0.1)
	assert.Greater(t, size(b.Restraints[0].Held), 1.1*size(a.Restraints[0].Held))
	assert.Less(t, size(b.Restraints[0].Held), 2*size(a.Restraints[0].Held), "grain shares it with the wood beside the channel")
}

// A batten gets less hold of a panel with an empty channel beside it, the less the deeper it is; none of no depth; none in front.
func TestEmptyChannel(t *testing.T) {
	held := func(depth float64, side string) float64 {
		o := onBattens(t, 1, nails(5, 40, 560, 600, 400))
		o.Battens = append(o.Battens, panel.Batten{Name: "gone", Empty: true, Y: 150, To: 600, Width: 120, ChannelDepth: depth, Side: side})
		c := planned(t, o, Coarse)
		require.Len(t, c.planned.members, 1)
		return one(t, c, 0.40).Restraints[0].Force
	}
	none := held(0, "")
	assert.InEpsilon(t, none, held(1e-3, ""), 1e-3)
	assert.Less(t, held(4, ""), 0.999*none)
	assert.Less(t, held(9, ""), held(4, ""))
	assert.InEpsilon(t, none, held(9, "front"), 1e-12)
	assert.Less(t, held(50, ""), none, "cut through by mistake it is taken as nearly so")
}
