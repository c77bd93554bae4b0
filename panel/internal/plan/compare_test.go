package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
)

// An invented panel of three oak-like boards on two nailed battens, a join open for 110 mm at the foot
// and a split of 150 mm at the head: the closed form beside the mesh, each batten alone as the closed
// form takes it. The open lines and the stretch along the grain, which the closed form leaves out, make
// the panel softer; at the nails' slip the forces differ little.
func TestMeshInPlaceOfTheClosedForm(t *testing.T) {
	widths, thick, e := []float64{205, 210, 200}, []float64{10, 11, 10}, []float64{750, 650, 750}
	l := plan.Layout{Length: 880, CellX: 25, CellY: 30, Lines: []plan.Line{
		{X: 415, Open: [][2]float64{{0, 110}}}, {X: 295, Open: [][2]float64{{730, 880}}},
	}}
	var boards []plan.StripBoard
	for i, w := range widths {
		l.Plates = append(l.Plates, plan.Plate{Width: w, Thickness: thick[i], EX: e[i], EL: 11000, GXL: 800, GXZ: 200, GLZ: 900, NuLX: 0.4})
		boards = append(boards, plan.StripBoard{Width: w, Thickness: thick[i], E: e[i]})
	}
	var fix []restraint.Fixing
	var patches []plan.Patch
	for _, x := range []float64{40, 150, 260, 370, 480, 580} {
		fix = append(fix, restraint.Fixing{X: x, Footprint: 12, Slip: 500, Yield: math.Inf(1)})
		patches = append(patches, plan.Patch{X: x, Y: 180, Length: 12})
	}
	l.Follow(patches, 3)
	m, err := plan.NewModel(l)
	require.NoError(t, err)
	var targets []plan.Target
	u := make([]int, len(patches))
	for i, p := range patches {
		v, err := m.Mean(p, plan.U)
		require.NoError(t, err)
		targets, u[i] = append(targets, v), i
	}
	c, err := m.Condense(targets)
	require.NoError(t, err)
	closed, err := plan.Sheet{Boards: boards, GLT: 800, Below: 180, Above: 260}.Flex(restraint.Patches(fix))
	require.NoError(t, err)
	mesh, err := closed.Flex(c.F, c.N, u)
	require.NoError(t, err)
	bar := restraint.Bar{E: 11000, Width: 45, Depth: 18}
	for _, slip := range []float64{500, math.Inf(1)} {
		for i := range fix {
			fix[i].Slip = slip
		}
		var force [2][]float64
		for k, f := range []*plan.Flex{closed, mesh} {
			s, err := restraint.Build(f, bar, fix)
			require.NoError(t, err)
			r, err := s.Solve(plan.Drive{Strain: []float64{-0.005}})
			require.NoError(t, err)
			force[k] = r.Force
		}
		for i := range fix {
			t.Logf("slip %g, x %g: closed %.1f N, mesh %.1f N", slip, fix[i].X, force[0][i], force[1][i])
		}
		tol := 0.03
		if math.IsInf(slip, 1) {
			tol = 0.30
		}
		assert.InEpsilon(t, force[1][0], force[0][0], tol)
		assert.InEpsilon(t, force[1][5], force[0][5], tol)
	}
	_, err = closed.Flex(c.F, c.N, u[1:])
	assert.Error(t, err)
}
