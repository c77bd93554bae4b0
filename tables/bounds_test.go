package tables_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
)

func number(t *testing.T, r tables.Row, column string) float64 {
	t.Helper()
	v, ok := r.Float(column)
	require.True(t, ok, "line %d, %s: %q", r.Line, column, r.Text(column))
	return v
}

// Moisture content rises with humidity and, at one humidity, does not rise with temperature above
// 0.1 % (below the freezing point the table is flat).
func TestMoistureRisesWithHumidity(t *testing.T) {
	tab := tables.MustRead("handbook_2010_t4_2_emc")
	assert.Len(t, tab.Rows, 342)
	byTemp := map[float64]float64{}
	at := map[float64]float64{}
	for _, r := range tab.Rows {
		f, rh, emc := number(t, r, "temp_f"), number(t, r, "rh_pct"), number(t, r, "emc_pct")
		assert.Greater(t, emc, byTemp[f], "line %d", r.Line)
		byTemp[f] = emc
		if f > 30 {
			assert.LessOrEqual(t, emc, at[rh]+0.1001, "line %d: warmer is drier", r.Line)
		}
		at[rh] = emc
		assert.InDelta(t, (f-32)/1.8, number(t, r, "temp_c"), 0.0501, "line %d", r.Line)
	}
}

// Radial shrinkage is below tangential (common practice) in every row that prints both.
func TestShrinkageBounds(t *testing.T) {
	for _, name := range []string{"handbook_2010_t4_3_shrinkage", "handbook_2010_t4_4_shrinkage"} {
		for _, r := range tables.MustRead(name).Rows {
			rad, ok1 := r.Float("radial_pct")
			tan, ok2 := r.Float("tangential_pct")
			if ok1 && ok2 {
				assert.Less(t, rad, tan, "%s:%d", name, r.Line)
				assert.True(t, rad > 1 && tan < 15, "%s:%d", name, r.Line)
			}
		}
	}
	for _, r := range tables.MustRead("handbook_2010_t13_5_dimension_change").Rows {
		rad, ok1 := r.Float("cr_per_pct_mc")
		tan, ok2 := r.Float("ct_per_pct_mc")
		if ok1 && ok2 {
			assert.Less(t, rad, tan, "13-5:%d", r.Line)
		}
	}
}

// The default of a wood moves at least as much T as R, without exception; of the rows read, walnut of
// one maker (Juglans nigra in truth) is the known one.
func TestDefaultsAreSound(t *testing.T) {
	move := map[string]map[string]float64{}
	for _, r := range tables.MustRead("panel_wood_defaults").Rows {
		v, cv := number(t, r, "value"), number(t, r, "cv")
		assert.Greater(t, v, 0.0, "line %d", r.Line)
		assert.True(t, cv > 0 && cv < 0.6, "line %d", r.Line)
		if r.Text("property") == "diff_swelling" {
			if move[r.Text("wood")] == nil {
				move[r.Text("wood")] = map[string]float64{}
			}
			move[r.Text("wood")][r.Text("direction")] = v
		}
	}
	assert.Len(t, move, 25)
	for wood, m := range move {
		assert.GreaterOrEqual(t, m["T"], m["R"], wood)
	}
}

func TestElasticRatiosBounds(t *testing.T) {
	odd := []string{"Redwood"} // printed (memory) with E_R below E_T
	for _, r := range tables.MustRead("handbook_2010_t5_1_elastic_ratios").Rows {
		if odd[0] != r.Text("species") {
			assert.Less(t, number(t, r, "et_el"), number(t, r, "er_el"), r.Text("species"))
		}
		assert.Less(t, number(t, r, "er_el"), 0.3, r.Text("species"))
	}
	for _, r := range tables.MustRead("handbook_2010_t5_2_poisson").Rows {
		for _, c := range []string{"mu_lr", "mu_lt", "mu_rt"} {
			if v, ok := r.Float(c); ok {
				assert.True(t, v > 0.1 && v < 1, "%s %s", r.Text("species"), c)
			}
		}
	}
}

func TestGABBounds(t *testing.T) {
	tab := tables.MustRead("bratasz_gab")
	assert.Len(t, tab.Rows, 34)
	for _, r := range tab.Rows {
		assert.True(t, number(t, r, "vm_pct") > 4 && number(t, r, "vm_pct") < 13, r.Text("wood"))
		assert.Greater(t, number(t, r, "c"), 2.0, r.Text("wood"))
		assert.True(t, number(t, r, "k") > 0 && number(t, r, "k") < 1, r.Text("wood"))
	}
}

// Ranges are ordered low, value, high.
func TestRangesAreOrdered(t *testing.T) {
	for name, c := range map[string][3]string{
		"coatings": {"sd_low_m", "sd_mid_m", "sd_high_m"}, "friction": {"low", "value", "high"},
		"limits": {"low", "value", "high"}, "moisture_factors": {"low", "slope", "high"},
	} {
		for _, r := range tables.MustRead(name).Rows {
			last := math.Inf(-1)
			for _, column := range c {
				if v, ok := r.Float(column); ok {
					assert.GreaterOrEqual(t, v, last, "%s:%d", name, r.Line)
					last = v
				}
			}
		}
	}
}

// Rows from memory are kept and marked, and no check expects them.
func TestMemoryIsMarked(t *testing.T) {
	for _, name := range []string{"checks_mechanics", "checks_moisture"} {
		for _, r := range tables.MustRead(name).Rows {
			assert.False(t, strings.EqualFold(r.Text("source"), "memory"), "%s:%d", name, r.Line)
		}
	}
	n := 0
	for _, r := range tables.MustRead("handbook_2010_t4_3_shrinkage").Rows {
		if strings.HasPrefix(r.Text("status"), "memory") {
			n++
		}
	}
	assert.Equal(t, 37, n)
}
