package panel_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

func TestGates(t *testing.T) {
	const base = "[panel]\naccession=\"INVENTED\"\nheight_mm=400\nwidth_mm=300\nwood=\"oak\"\n"
	for _, c := range []struct{ src, id, part string }{
		{"[face.front]\npaint=\"flaking\"", "flaking", "face.front"},
		{"[face.back]\npaint=\"blind cleavage\"", "blind_cleavage", "face.back"},
		{"[face.front]\nground_state=\"lifting\"", "lifting_ground", "face.front"},
		{"[split.a]\nstep_mm=0.5", "split_with_step", "split.a"},
		{"[cradle]\nmoves=\"seized\"", "seized_cradle", "cradle"},
		{"[batten.a]\nfixing=\"nothing\"", "loose_batten", "batten.a"},
		{"[board.a]\ninsects=\"friable\"", "friable_wood", "board.a"},
		{"[board.a]\ninsects_active=true", "active_insects", "board.a"},
		{"[board.a]\nimpregnated=true", "impregnated", "board.a"},
		{"[board.a]\ngrain=\"across\"", "crossing_grain", "board.a"},
		{"[support]\nkind=\"balsa\"", "second_support", "support"},
		{"thickness_mm=3.9", "thin", "panel"},
		{"[board.a]\nthickness_right_mm=3", "thin", "board.a"},
		{"transferred=true", "transferred", "panel"},
		{"outline=\"arched\"", "outline", "panel"},
		{"[frame.top]\nkind=\"engaged\"", "engaged_frame", "frame"},
		{"[frame.left]\nkind=\"groove\"\nfit=\"stuck\"", "stuck_in_frame", "frame"},
	} {
		p, problems := panel.Read("x", []byte(base+c.src+"\n"))
		require.NoError(t, problems.Err(), c.src)
		g := p.Gates()
		require.Len(t, g, 1, c.src)
		assert.Equal(t, c.id, g[0].ID)
		assert.Equal(t, c.part, g[0].Part)
		assert.True(t, g[0].NoFigures)
		assert.Regexp(t, `\.$`, g[0].Text)
		_, err := p.Realise(nil)
		assert.NoError(t, err, c.src)
	}
}

func TestNoGate(t *testing.T) {
	const base = "[panel]\naccession=\"INVENTED\"\nheight_mm=400\nwidth_mm=300\nwood=\"oak\"\n"
	for _, src := range []string{
		"thickness_mm=4", "[split.a]\nstep_mm=0.5\ndepth_mm=3", "[split.a]\nstep_mm=0", "[cradle]", "[cradle]\nmoves=\"?\"",
		"[batten.a]\nfixing=\"nothing\"\nempty=true", "[face.front]\npaint=\"?\"", "[frame.left]\nkind=\"rebate\"",
	} {
		p, problems := panel.Read("x", []byte(base+src+"\n"))
		require.NoError(t, problems.Err(), src)
		assert.Empty(t, p.Gates(), src)
	}
	for _, f := range goodFiles(t) {
		assert.Empty(t, readFile(t, f).Gates(), f)
	}
}
