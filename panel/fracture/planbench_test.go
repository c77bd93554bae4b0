package fracture

import (
	"testing"

	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
)

// planFasteners are two battens of seven fixings each.
func planFasteners() (h PlanHold) {
	for _, y := range []float64{200, 600} {
		for i := range 7 {
			p := plan.Patch{X: 40 + 85*float64(i), Y: y, Length: 15, Along: 15}
			h.Rows = append(h.Rows, PlanRow{Patch: p, Way: plan.U, Height: -7.5}, PlanRow{Patch: p, Way: plan.W, Sign: -1})
		}
	}
	return h
}

// planFollowing puts in the flexibility of a mesh that follows the fixings.
func planFollowing(t testing.TB, lay plan.Layout, h PlanHold, yielded float64) PlanHold {
	t.Helper()
	lay.CellX, lay.CellY = 15, 20
	n := len(h.Rows)
	for _, r := range h.Rows {
		lay.Follow([]plan.Patch{r.Patch}, 3)
	}
	for k, s := range [2]float64{yielded, 1} {
		m, err := plan.NewModel(lay, s)
		require.NoError(t, err)
		var targets []plan.Target
		for _, r := range h.Rows {
			q, err := m.Mean(r.Patch, r.Way)
			if r.Way == plan.U {
				q, err = m.MeanAt(r.Patch, r.Height)
			}
			require.NoError(t, err)
			targets = append(targets, q)
		}
		c, err := m.Condense(targets)
		require.NoError(t, err)
		for i := range h.Rows {
			for j := range h.Rows {
				if h.Rows[i].Sign*h.Rows[j].Sign < 0 || h.Rows[i].Sign+h.Rows[j].Sign == -1 {
					c.F[i*n+j] *= -1
				}
			}
		}
		if k == 0 {
			h.H = c.F
		} else {
			h.Short = c.F
		}
	}
	h.Whole = true
	return h
}

// planExample is an invented panel of three boards on two battens, with a split and an open join, at three humidities.
func planExample(t testing.TB) (plan.Layout, PlanHold, []PlanState, []PlanLine) {
	lay := plan.Layout{Plates: []plan.Plate{planWood(167.5, 15), planWood(212.5, 15), planWood(210, 15)}, Length: 800}
	for i := range lay.Plates {
		lay.Plates[i].ShearYield = 0.3
	}
	h := planFollowing(t, lay, planFasteners(), 2.5)
	var states []PlanState
	for _, e := range []float64{-0.002, -0.004, -0.006} {
		s := planLoad(h, 3, plan.StrainX, e)
		for b := range 3 {
			s.Load[4*b+int(plan.BendX)] = 2e-5
		}
		states = append(states, s)
	}
	return lay, h, states, []PlanLine{
		{X: 252.5, Open: []PlanStretch{{From: 0, To: 150}}},
		{X: 167.5, Open: []PlanStretch{{From: 650, To: 800, Gap: 0.3}}},
	}
}

func benchmarkPlan(b *testing.B, set PlanSetting) {
	lay, h, states, lines := planExample(b)
	for b.Loop() {
		for _, l := range lines {
			if _, err := FollowPlan(lay, l, h, []float64{2.5}, states, set); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkPlanFine(b *testing.B)   { benchmarkPlan(b, PlanFine) }
func BenchmarkPlanCoarse(b *testing.B) { benchmarkPlan(b, PlanCoarse) }
