package panel

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWhatNobodyHasTold(t *testing.T) {
	const whole = "[panel]\naccession = \"INVENTED\"\nheight_mm = 600\nwidth_mm = 450\n"
	for _, v := range []struct {
		reason, src string
		unlooked    []string
		gates       []string
		problem     string
	}{
		{"nothing is told", whole, []string{"panel.back", "panel.cracks"}, nil, ""},
		{"looked, and could not tell", whole + "back = \"?\"\ncracks = \"?\"\n", []string{"panel.back", "panel.cracks"}, nil, ""},
		{"looked, and there is none", whole + "back = \"nothing\"\ncracks = \"none\"\n", nil, nil, ""},
		{"described", whole + "[cradle]\n[split.top]\nfrom = \"top\"\n", nil, nil, ""},
		{"a butterfly is no member", whole + "[insert.a]\nkind = \"butterfly\"\n", []string{"panel.back", "panel.cracks"}, nil, ""},
		{"there, and not described", whole + "back = \"not described\"\ncracks = \"not described\"\n", nil, []string{"back_not_described", "cracks_not_described"}, ""},
		{"gainsaid at the back", whole + "back = \"nothing\"\n[cradle]\n", nil, nil, "panel.back"},
		{"gainsaid by a split", whole + "cracks = \"none\"\n[split.top]\nfrom = \"top\"\n", nil, nil, "panel.cracks"},
	} {
		p, problems := Read("x.toml", []byte(v.src))
		if v.problem != "" {
			require.Len(t, problems, 1, v.reason)
			assert.Equal(t, v.problem, problems[0].Part, v.reason)
			continue
		}
		require.Empty(t, problems, v.reason)
		assert.Equal(t, v.unlooked, p.Unlooked(), v.reason)
		var gates []string
		for _, g := range p.Gates() {
			gates = append(gates, g.ID)
		}
		assert.Equal(t, v.gates, gates, v.reason)
		_, err := p.Realise(nil)
		require.NoError(t, err)
		var assumed []string
		for _, a := range p.Assumptions() {
			if a.Path == "panel.back" || a.Path == "panel.cracks" {
				assumed = append(assumed, a.Path)
			}
		}
		assert.Equal(t, v.unlooked, assumed, v.reason)
	}
}
