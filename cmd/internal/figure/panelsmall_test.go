package figure

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

// TestSmallSides: what is at the left of the front is at the right of the back, with either way of the grain, and the front has no battens.
func TestSmallSides(t *testing.T) {
	for _, level := range []bool{false, true} {
		pl := Panel{AcrossMM: 400, AlongMM: 600, GrainLevel: level, Boards: []PanelBoard{{Name: "a", WidthMM: 150}, {Name: "b", WidthMM: 250}},
			Cracks: []PanelCrack{{Name: "top", AcrossMM: 60, Stretch: Stretch{FromMM: 500, ToMM: 600}, Through: true}}, Members: []Member{{Name: "upper", AcrossTo: 400, AlongFrom: 450, AlongTo: 500}}}
		front, back := sheet{Panel: pl, per: 0.1, front: true, r: box(0, 0, 40, 60)}, sheet{Panel: pl, per: 0.1, r: box(0, 0, 40, 60)}
		if level {
			front.r, back.r = box(0, 0, 60, 40), box(0, 0, 60, 40)
		}
		f, b := front.at(60, 550), back.at(60, 550)
		assert.InDelta(t, float64(front.r.Max.X), float64(f.X+b.X), 1e-9)
		assert.InDelta(t, float64(f.Y), float64(b.Y), 1e-9)
		want := vg.Length(6)
		if level {
			want = 55
		}
		assert.InDelta(t, float64(want), float64(f.X), 1e-9, "from the left edge (grain level: along from the left)")
		assert.Contains(t, pl.Small(false).Desc, "upper")
		assert.NotContains(t, pl.Small(true).Desc, "upper")
		assert.Contains(t, pl.Small(true).Desc, "top")
	}
	var a bytes.Buffer
	require.NoError(t, Panel{}.Small(true).Bare(&a), "a panel without a size")
}
