package fracture

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFactorEnds(t *testing.T) {
	for _, p := range []Place{FromEnd, Inside} {
		for _, e := range []Edges{Clamped, Sliding} {
			assert.Zero(t, Factor(p, e, 0))
			assert.Zero(t, Factor(p, e, -1))
			assert.Zero(t, Factor(p, e, math.NaN()))
			assert.InDelta(t, Factor(p, e, 0.02)/2, Factor(p, e, 0.01), 1e-12, "straight to the origin")
			assert.InDelta(t, 1, Factor(p, e, 50), 0.02, "a long crack")
			last := 0.0
			for x := 0.005; x < 0.5; x += 0.005 {
				f := Factor(p, e, x)
				assert.GreaterOrEqual(t, f, last)
				assert.Less(t, f-last, 0.05, "no jump at %g", x)
				last = f
			}
		}
	}
	assert.Equal(t, 0.9982, Factor(FromEnd, Clamped, 100))
	assert.InDelta(t, 0.925, Factor(FromEnd, Clamped, 0.5), 1e-12, "a point of the table")
}

// How far the table is off at a point that it is not given: the two that cannot meet their own
// tolerance of 0.02.
func TestPointsLeftOut(t *testing.T) {
	assert.InEpsilon(t, 0.6555, without(endClampedNodes(), 0.25).at(0.25), 0.055)
	assert.InEpsilon(t, 0.9351, without(insideNodes(), 0.5).at(0.5), 0.025)
}

// Case E: independent finite-element solution (order-4 elements), this project's test data: another
// wood (E/G = 1, not 0.45; E_L/E_T 15.7, not 20.3) and a sheet 600 x 800 mm. Nothing of it stands in
// the tables. A closed form is asked to meet it within 10 % for a = 100 to 400 mm.
func TestFactorAgainstCaseE(t *testing.T) {
	const H, E, G, eps = 600.0, 700.0, 700.0, 0.003
	long := StripRelease(eps, E, H)
	require.InDelta(t, 1.89, long, 1e-12)
	scale := LengthScale(E, G)
	for _, row := range caseE(t, "G_J_integral") {
		edges := Sliding
		if row.variant == "E2" {
			edges = Clamped
		}
		got := long * Factor(FromEnd, edges, row.a*scale/H)
		t.Logf("%s a = %3.0f: %.4f, FE %.4f, %+.1f %% (unscaled length %+.1f %%)", row.variant, row.a, got, row.value,
			100*(got/row.value-1), 100*(long*Factor(FromEnd, edges, row.a/H)/row.value-1))
		if row.a >= 100 {
			assert.InEpsilon(t, row.value, got, 0.10, "%s, a = %g", row.variant, row.a)
		}
	}
}

func TestOpeningAgainstCaseE(t *testing.T) {
	for _, row := range caseE(t, "CMOD") {
		got := Opening(0.003, 600, row.a)
		t.Logf("%s a = %3.0f: %.3f, FE %.3f mm, %+.0f %%", row.variant, row.a, got, row.value, 100*(got/row.value-1))
		assert.InEpsilon(t, row.value, got, 0.15, "an estimate: %s, a = %g", row.variant, row.a)
	}
	assert.Negative(t, Opening(-0.001, 600, 200), "damp closes it")
	assert.Zero(t, Opening(0.001, 0, 200))
	assert.Zero(t, Opening(0.001, 600, 0))
}

type caseRow struct {
	variant  string
	a, value float64
}

func caseE(t *testing.T, quantity string) []caseRow {
	t.Helper()
	text, err := os.ReadFile("../../testdata/solvers/case_e.csv")
	require.NoError(t, err)
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"variant", "a", "quantity", "value"}, all[0][:4])
	var out []caseRow
	for _, cells := range all[1:] {
		if cells[2] != quantity {
			continue
		}
		a, err := strconv.ParseFloat(cells[1], 64)
		require.NoError(t, err)
		v, err := strconv.ParseFloat(cells[3], 64)
		require.NoError(t, err)
		out = append(out, caseRow{cells[0], a, v})
	}
	require.Len(t, out, 8)
	return out
}

func TestLengthScale(t *testing.T) {
	assert.InDelta(t, 1, LengthScale(693, 1531), 1e-12)
	assert.Equal(t, 1.0, LengthScale(693, 0), "not known")
	assert.Equal(t, 1.0, LengthScale(693, math.NaN()))
	assert.Greater(t, LengthScale(693, 700), 1.0, "wood soft in shear: the same crack counts as longer")
}
