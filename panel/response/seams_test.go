package response

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

// parted is two boards on two nailed battens whose join is open from end to end.
func parted(t *testing.T, open bool, gap float64) *panel.Object {
	t.Helper()
	o := object(oakBoard(t, "a", 300, 12, 45), oakBoard(t, "b", 300, 12, 45))
	for i, y := range []float64{200, 600} {
		o.Battens = append(o.Battens, panel.Batten{
			Name: string(rune('a' + i)), Wood: o.Boards[0].Wood, Y: y, To: 600, Width: 40, Depth: 20, Side: "back", Fixing: "nailed",
			Fixings: nails(6, 40, 560, 600, math.Inf(1)),
		})
	}
	if open {
		o.Joins[0].OpenEnd, o.Joins[0].Gap = o.Along, gap
	}
	return o
}

// Dry, a seam opens by what each board draws back towards its own nails, and the battens hold less than of a glued panel;
// damp, its faces meet and press as if they were glued.
func TestSeam(t *testing.T) {
	seam, glued := planned(t, parted(t, true, 0), Coarse), planned(t, parted(t, false, 0), Coarse)
	dry, whole := one(t, seam, 0.35), one(t, glued, 0.35)
	assert.Less(t, dry.Restraints[0].Force, 0.8*whole.Restraints[0].Force)
	assert.Positive(t, dry.Lines[0].Opening)
	// each board is free to move about the middle of its nails, at 144 and 456 mm: what lies between them shrinks away, less what
	// its nails hold back
	free := -(dry.BoardChange[0]/300*(300-144) + dry.BoardChange[1]/300*(456-300))
	assert.Less(t, dry.Lines[0].Opening, free)
	assert.Greater(t, dry.Lines[0].Opening, 0.6*free)

	damp, swollen := one(t, seam, 0.65), one(t, glued, 0.65)
	assert.InDelta(t, 0, damp.Lines[0].Opening, 1e-3, "they meet")
	assert.InEpsilon(t, swollen.Restraints[0].Force, damp.Restraints[0].Force, 0.1, "and press")
	gap := one(t, planned(t, parted(t, true, 5), Coarse), 0.65)
	assert.Greater(t, damp.Restraints[0].Force*gap.Restraints[0].Force, 0.0)
	assert.Less(t, math.Abs(gap.Restraints[0].Force), math.Abs(damp.Restraints[0].Force), "with a gap to close they hold less")
	assert.Less(t, gap.Lines[0].Opening, 5.0, "it has narrowed")
}

// A panel in pieces goes through a year, with pieces that nothing holds as well.
func TestSeamThroughAYear(t *testing.T) {
	for _, battens := range []bool{true, false} {
		o := parted(t, true, 0.5)
		if !battens {
			o.Battens = nil
			o.Frame = &panel.Frame{ClearWidth: 604, Sides: map[string]panel.FrameSide{}}
		}
		y, err := planned(t, o, Coarse).Follow(context.Background(), made{hours: 24 * 60, rh: swing(0.5, 0.2, 24*30)}, drop{})
		require.NoError(t, err)
		assert.Less(t, y.Misfit.Move, 1e-6)
	}
}
