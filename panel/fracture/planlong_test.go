//go:build long

package fracture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
)

func TestPlanCaseELong(t *testing.T) {
	testPlanCaseE(t, "E1", 321, []float64{50, 100, 200, 400}, plan.U)
	testPlanCaseE(t, "E2", 321, []float64{50, 100, 200, 400}, plan.U, plan.V)
}

// The strip of the closed form's tables, clamped: its own finite elements, at their tolerances.
func TestPlanStripTableLong(t *testing.T) {
	w := plan.Plate{Width: 200, Thickness: 10, EX: 693, EL: 14070, GXL: 1531, GXZ: 60, GLZ: 700, NuLX: 0.547}
	h := planEdges(200, 1200, 241, plan.U, plan.V)
	for _, c := range []struct {
		o        PlanStretch
		g, tol   float64
		printing string
	}{
		{PlanStretch{To: 25}, 0.3598, 0.05, "STRIP-FE-EDGE-0.125"},
		{PlanStretch{To: 50}, 0.6555, 0.02, "STRIP-FE-EDGE-0.25"},
		{PlanStretch{To: 200}, 0.9901, 0.02, "STRIP-FE-EDGE-1.0"},
		{PlanStretch{From: 550, To: 650}, 0.626, 0.02, "STRIP-FE-CENTRE-0.25"},
		{PlanStretch{From: 500, To: 700}, 0.9351, 0.02, "STRIP-FE-CENTRE-0.5"},
	} {
		lay := plan.Layout{Plates: []plan.Plate{w}, Length: 1200}
		for _, r := range planOne(t, lay, c.o, h, nil, planLoad(h, 1, plan.StrainX, -0.01)) {
			p := planAt(t, r, c.o.To-c.o.From)
			got := p.Slow.Total() / 7.0337 // N/mm, e^2 E' H/2 of the same source
			t.Logf("%s up %v: %.4f, table %.4f", c.printing, r.Up, got, c.g)
			assert.InDelta(t, c.g, got, c.tol, c.printing)
		}
	}
}

// Fixings that are small against the cells: their flexibility given from a mesh that follows them, against the
// line followed on such a mesh.
func TestPlanWholeLong(t *testing.T) {
	lay, whole, states, lines := planExample(t)
	own := planFasteners()
	fine := lay
	for _, r := range own.Rows {
		fine.Follow([]plan.Patch{r.Patch}, 2)
	}
	for _, l := range lines {
		a, err := FollowPlan(fine, l, own, []float64{2.5}, states[1:2], PlanFine)
		require.NoError(t, err)
		b, err := FollowPlan(lay, l, whole, []float64{2.5}, states[1:2], PlanFine)
		require.NoError(t, err)
		c, err := FollowPlan(lay, l, own, []float64{2.5}, states[1:2], PlanFine)
		require.NoError(t, err)
		p, q, r := a[0].Points[0], b[0].Points[0], c[0].Points[0]
		t.Logf("x %g: followed %.5f, given %.5f, neither %.5f; sudden %.5f, %.5f", l.X, p.Slow.Total(), q.Slow.Total(), r.Slow.Total(), p.Sudden.Total(), q.Sudden.Total())
		assert.InEpsilon(t, p.Slow.Total(), q.Slow.Total(), 0.01)
		assert.InEpsilon(t, p.Sudden.Total(), q.Sudden.Total(), 0.02)
		assert.Greater(t, r.Slow.Total(), 1.1*p.Slow.Total(), "held too stiffly")
	}
}
