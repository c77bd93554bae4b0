package fracture

import (
	"fmt"
	"math"
	"sync"

	"crossgrain/panel/internal/plan"
)

// sheets computes the energy release of a crack in a sheet held at its long edges on the plan: two lengths of one run.
func sheets(got map[string]value) {
	run := sync.OnceValues(crackedSheet)
	for id, a := range map[string]float64{"PLAN-E-100": 100, "PLAN-E-200": 200} {
		got[id] = func() (float64, error) {
			r, err := run()
			if err != nil {
				return 0, err
			}
			for _, p := range r.Points {
				if math.Abs(p.End-a) < 1e-6 {
					return p.Slow.Total(), nil
				}
			}
			return 0, fmt.Errorf("no such length: %g mm", a)
		}
	}
}

// crackedSheet is a sheet of 600 x 800 mm, shrinking 0.3 % across, its long edges held across and free to slide along.
func crackedSheet() (PlanRun, error) {
	const width, length, points = 600.0, 800.0, 129
	lay := plan.Layout{Plates: []plan.Plate{{Width: width, Thickness: 1, EX: 700, EL: 11000, GXL: 700, GXZ: 60, GLZ: 700, NuLX: 0.4}}, Length: length}
	var h PlanHold
	for _, x := range [2]float64{0, width} {
		for i := range points {
			h.Rows = append(h.Rows, PlanRow{Patch: plan.Patch{X: x, Y: length * float64(i) / (points - 1)}, Way: plan.U})
		}
	}
	s := PlanState{Load: make([]float64, 6), Grips: make([]PlanGrip, len(h.Rows))}
	for i := range s.Grips {
		s.Grips[i].Bears = true
	}
	s.Load[plan.StrainX] = -0.003
	runs, err := FollowPlan(lay, PlanLine{X: width / 2, Open: []PlanStretch{{To: 100}}}, h, nil, []PlanState{s}, PlanFine)
	if err != nil {
		return PlanRun{}, err
	}
	return runs[0], nil
}
