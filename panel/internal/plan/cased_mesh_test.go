package plan

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// sheetCaseD is the sheet of the reference, meshed with n cells to a patch.
func sheetCaseD(n int, cell float64) Layout {
	p := Plate{Width: 600, Thickness: 15, EX: 700, EL: 11000, GXL: 700, GXZ: 60, GLZ: 650, NuLX: 0.4}
	l := Layout{Plates: []Plate{p}, Length: 800, CellX: cell, CellY: cell}
	l.Follow(patchesCaseD(), n)
	return l
}

func patchesCaseD() []Patch {
	out := sixPatches(20)
	for i := range out {
		out[i].Y = 400
	}
	return out
}

// forcesCaseD joins six patches with a bar: c movements, mm/N, beside the panel's own.
func forcesCaseD(t *testing.T, c *Condensed, free []float64, slip, ea float64) []float64 {
	t.Helper()
	a, b := mat.NewDense(7, 7, nil), mat.NewVecDense(7, nil)
	for i := range 6 {
		for j := range 6 {
			v := c.F[i*c.N+j]
			if !math.IsInf(ea, 1) {
				v += 100 * float64(min(i, j)) / ea // a bar from the first fixing on
			}
			a.Set(i, j, v)
		}
		a.Set(i, i, a.At(i, i)+1/slip)
		a.Set(i, 6, 1)
		a.Set(6, i, 1)
		b.SetVec(i, -free[i])
	}
	var x mat.VecDense
	require.NoError(t, x.SolveVec(a, b))
	return x.RawVector().Data[:6]
}

func TestCaseDOnTheMesh(t *testing.T) {
	m, err := NewModel(sheetCaseD(10, 20))
	require.NoError(t, err)
	nx, ny := m.Grid.Cells()
	t.Logf("%d x %d cells", nx, ny)
	var targets []Target
	for _, p := range patchesCaseD() {
		v, err := m.Mean(p, U)
		require.NoError(t, err)
		targets = append(targets, v)
	}
	c, err := m.Condense(targets)
	require.NoError(t, err)
	assert.Less(t, c.Asymmetry, 1e-12)
	fe := readCaseD(t)
	pair := func(u func(i, j int) float64, i, j int) float64 { return u(i, i) + u(j, j) - 2*u(i, j) }
	for i := range 6 {
		for j := range i {
			want := pair(func(i, j int) float64 { return fe[fmt.Sprintf("flex/flex_%d_%d", i+1, j+1)] }, i, j)
			got := pair(func(i, j int) float64 { return c.F[i*6+j] }, i, j)
			assert.InEpsilon(t, want, got, 0.005, "patches %d and %d", j, i)
		}
	}
	load := make([]float64, c.Loads)
	load[m.LoadOf(0, StrainX)] = -0.005
	free := c.Movement(nil, load, nil)
	worst := 0.0
	for _, v := range []struct {
		name     string
		slip, ea float64
	}{
		{"rigid_k500", 500, math.Inf(1)}, {"elastic_k500", 500, 1.2e7},
		{"rigid_k5000", 5000, math.Inf(1)}, {"elastic_k5000", 5000, 1.2e7},
		{"rigid_kinf", math.Inf(1), math.Inf(1)}, {"elastic_kinf", math.Inf(1), 1.2e7},
	} {
		f := forcesCaseD(t, c, free, v.slip, v.ea)
		s, err := c.Shape(f, load, nil)
		require.NoError(t, err)
		for i := range 3 {
			want := fe[fmt.Sprintf("%s/F%d", v.name, i+1)]
			worst = max(worst, math.Abs(f[i]/want-1))
			assert.InEpsilon(t, want, f[i], 0.005, "%s F%d", v.name, i+1)
		}
		for _, y := range []float64{0, 400} {
			want := fe[fmt.Sprintf("%s/dW_y%g", v.name, y)]
			assert.InEpsilon(t, want, s.Move(600, y, false)[0]-s.Move(0, y, false)[0], 0.005, "%s dW %g", v.name, y)
		}
		for _, p := range [][2]float64{{300, 400}, {100, 400}, {200, 400}, {300, 425}, {300, 450}, {300, 500}, {300, 800}, {150, 400}, {250, 400}} {
			want := fe[fmt.Sprintf("%s/sxx_%g_%g", v.name, p[0], p[1])]
			got := s.Resultant(p[0], p[1], false).N[0] / 15
			t.Logf("%s sxx(%g, %g) %+.2f %%", v.name, p[0], p[1], 100*(got/want-1))
			assert.InEpsilon(t, want, got, 0.005, "%s sxx %g %g", v.name, p[0], p[1])
		}
		want := fe[v.name+"/syy_300_400"]
		assert.InEpsilon(t, want, s.Resultant(300, 400, false).N[1]/15, 0.005, "%s syy", v.name)
	}
	t.Logf("largest error of the forces %.2f %%", 100*worst)
}

func BenchmarkMeshCaseD(b *testing.B) {
	for b.Loop() {
		if _, err := NewModel(sheetCaseD(4, 25)); err != nil {
			b.Fatal(err)
		}
	}
}
