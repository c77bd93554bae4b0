package fracture

import (
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
	"crossgrain/tables/tabletest"
)

// planCaseE reads the reference of the sheet with a crack (source in the file's head).
func planCaseE(t *testing.T, quantity string) map[string]float64 {
	t.Helper()
	src, err := os.ReadFile("../../testdata/solvers/case_e.csv")
	require.NoError(t, err)
	out := map[string]float64{}
	for _, row := range tabletest.Cells(t, src) {
		if row[2] == quantity && row[5] == "own FE (scipy)" {
			v, err := strconv.ParseFloat(row[3], 64)
			require.NoError(t, err)
			out[row[0]+"/"+row[1]] = v
		}
	}
	require.NotEmpty(t, out)
	return out
}

func testPlanCaseE(t *testing.T, edge string, points int, lengths []float64, ways ...plan.Way) {
	energy, mouth := planCaseE(t, "G_J_integral"), planCaseE(t, "CMOD")
	lay := plan.Layout{Plates: []plan.Plate{planWood(600, 1)}, Length: 800}
	h := planEdges(600, 800, points, ways...)
	for _, a := range lengths {
		p := planAt(t, planOne(t, lay, PlanStretch{To: a}, h, nil, planLoad(h, 1, plan.StrainX, -0.003))[0], a)
		at := fmt.Sprintf("%s/%g", edge, a)
		t.Logf("%s: G %+.3f %%, mouth %+.2f %%", at, 100*(p.Slow.Total()/energy[at]-1), 100*(p.Profile[0].Middle/mouth[at]-1))
		assert.InEpsilon(t, energy[at], p.Slow.Total(), 0.005, at)
		assert.InEpsilon(t, energy[at], p.Sudden.Total(), 0.005, at)
		assert.InEpsilon(t, mouth[at], p.Profile[0].Middle, 0.03, at)
	}
}

func TestPlanCaseE(t *testing.T) { testPlanCaseE(t, "E1", 129, []float64{100}, plan.U) }
