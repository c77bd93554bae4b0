package panel_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

func options(t *testing.T) (*panel.Panel, map[string]panel.Option) {
	p := readFile(t, "options_battens.toml")
	out := map[string]panel.Option{}
	for _, o := range p.Options() {
		out[o.Name] = o
	}
	return p, out
}

func TestOptionsStandInTheOrderOfReach(t *testing.T) {
	p, _ := options(t)
	var names, reach []string
	for _, o := range p.Options() {
		names, reach = append(names, o.Name), append(reach, o.Reach)
	}
	assert.Equal(t, []string{"sealed frame", "slots", "off", "join closed"}, names)
	assert.Equal(t, []string{"enclose", "ease", "remove", "support"}, reach)
}

// What an option says changes, and nothing else.
func TestOptionChangesWhatItNames(t *testing.T) {
	p, by := options(t)
	was, err := p.Realise(nil)
	require.NoError(t, err)

	is, err := by["slots"].Panel.Realise(nil)
	require.NoError(t, err)
	assert.Equal(t, was.Boards, is.Boards)
	assert.Equal(t, was.Joins, is.Joins)
	require.Len(t, is.Battens, 2)
	for i, b := range is.Battens {
		assert.Equal(t, 18.0, was.Battens[i].Depth)
		assert.Equal(t, 9.0, b.Depth)
		assert.Equal(t, was.Battens[i].Width, b.Width)
		assert.InDelta(t, 0.50, float64(b.Fixed), 1e-9, "fixed anew at the humidity of the option")
	}

	is, err = by["off"].Panel.Realise(nil)
	require.NoError(t, err)
	assert.Empty(t, is.Battens)
	assert.Len(t, was.Battens, 2, "the panel itself stays")

	is, err = by["join closed"].Panel.Realise(nil)
	require.NoError(t, err)
	assert.Zero(t, is.Joins[0].Open())
	assert.Greater(t, was.Joins[0].Open(), 0.0)
	assert.True(t, is.Joins[0].OpenedBefore, "a mended join stays a mended join")
	assert.InDelta(t, 0.55, float64(is.Joins[0].Fixed), 1e-9)
	assert.Len(t, is.Battens, 2)
	assert.Equal(t, 7.0, is.Battens[0].Depth)
}

// What the panel bore before is no evidence of one that was changed; surroundings leave it what it is.
func TestEvidenceEndsWithAChange(t *testing.T) {
	p, by := options(t)
	assert.Empty(t, p.Lived().Why)
	assert.Empty(t, by["sealed frame"].Panel.Lived().Why)
	for _, name := range []string{"slots", "off", "join closed"} {
		assert.NotEmpty(t, by[name].Panel.Lived().Why, name)
	}
}

func TestOptionsAreWrittenBack(t *testing.T) {
	p, by := options(t)
	text := write(t, p)
	q, problems := panel.Read("written", []byte(text))
	require.NoError(t, problems.Err(), text)
	assert.Equal(t, text, write(t, q))
	require.Len(t, q.Options(), len(by))
	for _, o := range q.Options() {
		assert.Equal(t, by[o.Name].Panel.Digest(), o.Panel.Digest(), o.Name)
		assert.Equal(t, by[o.Name].Reach, o.Reach)
		assert.NotEqual(t, p.Digest(), o.Panel.Digest())
	}
}

// An option that takes a key away, and one that trades a part for another of the same name.
func TestOptionTakesKeysAndTradesParts(t *testing.T) {
	src := strings.Replace(write(t, readFile(t, "options_battens.toml")), "\n[option.off]\n", `
[option.spaced]
remove = ["batten.upper.at_mm"]
[option.spaced.batten.upper]
spacing_mm = 100
[option.traded]
remove = ["batten.upper"]
add = ["batten.upper"]
[option.traded.batten.upper]
fixing = "on springs"
[option.frame]
[option.frame.frame]
clear_width_mm = 640
[option.off]
`, 1)
	p, problems := panel.Read("x", []byte(src))
	require.NoError(t, problems.Err())
	for _, o := range p.Options() {
		switch o.Name {
		case "spaced":
			assert.Nil(t, o.Panel.List("batten.upper.at_mm"))
			assert.Equal(t, "nailed", o.Panel.Text("batten.upper.fixing"))
			assert.Equal(t, "ease", o.Reach)
		case "traded":
			assert.Equal(t, "on springs", o.Panel.Text("batten.upper.fixing"))
			assert.Equal(t, panel.Assumed, o.Panel.Known("batten.upper.depth_mm"))
			assert.Equal(t, "support", o.Reach)
		case "frame":
			assert.Equal(t, "fit", o.Reach)
			assert.False(t, o.Structural)
		}
	}
}
