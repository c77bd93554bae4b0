package panel

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The present warp is read nearest to the used-to humidity, carried from its chord to the whole width; too far off, or not
// measured, the panel is taken as flat, and that is listed where something touches it.
func TestPresentWarp(t *testing.T) {
	file := func(observed string) string {
		return fmt.Sprintf("format = 1\n[panel]\naccession = \"invented\"\nheight_mm = 800\nwidth_mm = 600\nwood = \"oak\"\n"+
			"[used_to]\nrh_pct = 52\n[batten.a]\nfixing = \"held by keepers\"\n%s", observed)
	}
	of := func(observed string) (*Object, bool) {
		p, probs := Read("panel.toml", []byte(file(observed)))
		require.Empty(t, probs)
		o, err := p.Realise(nil)
		require.NoError(t, err)
		flat := false
		for _, a := range p.Assumptions() {
			flat = flat || a.What == "present warp"
		}
		return o, flat
	}
	feb := "[observed.feb]\nrh_pct = 50\ncup_mm = 4\nover_mm = 300\n"
	o, flat := of(feb)
	assert.InDelta(t, 16, o.Warp, 1e-12)
	assert.True(t, o.WarpKnown)
	assert.False(t, flat)
	o, _ = of(feb + "[observed.may]\nrh_pct = 52.5\ncup_mm = -2\n")
	assert.InDelta(t, -2, o.Warp, 1e-12, "nearer, over the whole width")
	o, _ = of(feb + "[observed.may]\nrh_pct = 54\ncup_mm = -2\n")
	assert.InDelta(t, 16, o.Warp, 1e-12, "as near: the first")
	for _, s := range []string{"", "[observed.feb]\nrh_pct = 48.9\ncup_mm = 4\n", "[observed.feb]\nrh_pct = 52\nwidth_mm = 600\n"} {
		o, flat = of(s)
		assert.Zero(t, o.Warp)
		assert.False(t, o.WarpKnown)
		assert.True(t, flat, s)
	}
}
