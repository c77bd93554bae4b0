package plan

import (
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/tabletest"
)

// readCaseE reads the energy release rates of the reference (source in the file's head).
func readCaseE(t *testing.T) map[string]float64 {
	t.Helper()
	src, err := os.ReadFile("../../../testdata/solvers/case_e.csv")
	require.NoError(t, err)
	rows := tabletest.Cells(t, src)
	out := map[string]float64{}
	for _, row := range rows {
		if row[2] != "G_J_integral" || row[5] != "own FE (scipy)" {
			continue
		}
		v, err := strconv.ParseFloat(row[3], 64)
		require.NoError(t, err)
		out[row[0]+"/"+row[1]] = v
	}
	require.NotEmpty(t, out)
	return out
}

// unzipCaseE opens the middle line of the reference's sheet on cells dx by dy and returns the energy
// release per thickness at each length: the mean of the two rows about it.
func unzipCaseE(t *testing.T, clamped bool, dx, dy float64, at []float64) []float64 {
	t.Helper()
	p := Plate{Width: 600, Thickness: 1, EX: 700, EL: 11000, GXL: 700, GXZ: 60, GLZ: 700, NuLX: 0.4}
	m := held(t, Layout{Plates: []Plate{p}, Length: 800, CellX: dx, CellY: dy, Lines: []Line{{X: 300, Live: true}}},
		func(x, y float64, way Way) bool {
			edge := x == 0 || x == 600
			return way > V || way == U && edge || way == V && edge && (clamped || y == 800)
		})
	var targets []Target
	var jump []int
	var tie []float64
	for r, y := range m.Grid.Y {
		if y > 400+2*dy {
			break
		}
		k, _ := m.Tie(0, r)
		j, err := m.Jump(0, r, U)
		require.NoError(t, err)
		jump, tie, targets = append(jump, len(targets)), append(tie, k[U]), append(targets, j)
	}
	c, err := m.Condense(targets)
	require.NoError(t, err)
	u, err := c.Unzip(jump, tie)
	require.NoError(t, err)
	load := make([]float64, c.Loads)
	load[m.LoadOf(0, StrainX)] = -0.003
	var out []float64
	for _, a := range at {
		r := int(a/dy + 0.5)
		out = append(out, (u.Release(r-1, nil, load)+u.Release(r, nil, load))/(2*dy))
	}
	return out
}

// Energy release at four lengths from one elimination a mesh, two meshes extrapolated to nil size.
func TestCaseEOnTheMesh(t *testing.T) {
	want := readCaseE(t)
	at := []float64{50, 100, 200, 400}
	for _, edge := range []string{"E1", "E2"} {
		a := unzipCaseE(t, edge == "E2", 20, 10, at)
		b := unzipCaseE(t, edge == "E2", 10, 5, at)
		for i, q := range at {
			w := want[fmt.Sprintf("%s/%g", edge, q)]
			got := 2*b[i] - a[i]
			t.Logf("%s a %g: coarse %+.2f %%, fine %+.2f %%, extrapolated %+.3f %%", edge, q, 100*(a[i]/w-1), 100*(b[i]/w-1), 100*(got/w-1))
			assert.InEpsilon(t, w, got, 0.005, "%s a %g", edge, q)
		}
	}
}
