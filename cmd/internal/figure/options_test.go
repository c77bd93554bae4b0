package figure

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The sample is invented; its numbers follow no wood and no model.
func sampleOptions() Options {
	nan := math.NaN()
	group := func(name string, shares ...float64) OptionGroup {
		g := OptionGroup{Name: name}
		for i, s := range shares {
			g.Options = append(g.Options, Bar{Name: []string{"doing nothing", "ease", "remove"}[i], Share: s, Low: s / 2, High: 2 * s})
		}
		return g
	}
	return Options{Meta: Meta{Invented: true}, Groups: []OptionGroup{
		group("Batten upper: a fixing is overloaded", 2.1, 0.4, nan), group("Join middle: the join opens", 0.5, 0.2, 0.01), group("Frame: bound in its frame", 0.4, 0.4, 0.6),
	}}
}

func TestOptionsSayWhatTheyDraw(t *testing.T) {
	f := sampleOptions().Draw()
	assert.Equal(t, "What does each option change?", f.Title)
	assert.Contains(t, f.Sentence, "doing nothing 21 tenths of its limit")
	assert.Contains(t, f.Desc, "remove has no such part")
	assert.Contains(t, f.Desc, "Invented example.")
	var b strings.Builder
	require.NoError(t, f.File(&b))
	svg := b.String()
	for _, words := range []string{"doing nothing", "ease", "remove", "no such part", "INVENTED EXAMPLE", "limit"} {
		assert.Contains(t, svg, words)
	}
	assert.Less(t, strings.Index(svg, "doing nothing"), strings.Index(svg, ">ease<"), "doing nothing comes first")
}

// A drawing of more options than its sheet takes leaves ways out and says so; never an option of a way.
func TestOptionsStayOnTheirSheet(t *testing.T) {
	o := sampleOptions()
	for range 9 {
		o.Groups = append(o.Groups, o.Groups[1])
	}
	assert.Len(t, o.shown(), mostOptionRows/3)
	assert.Contains(t, o.Draw().Desc, "6 more ways to give way stand in the table.")
}
