package tables_test

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
)

// keyColumns name what makes a row of each table unique; "*" is the whole row (tables of many
// sources print the same value twice).
var keyColumns = map[string]string{
	"bratasz_gab":       "wood branch",
	"building_climates": "kind quantity",
	"checks_moisture":   "id", "checks_mechanics": "id", "checks_creep": "id", "checks_climate": "id",
	"climate_terms": "name clause", "coatings": "layer kind", "friction": "wood kind", "limits": "limit",
	"fits": "property direction group", "moisture_factors": "wood property direction",
	"handbook_2010_t13_5_dimension_change": "species status",
	"handbook_2010_t4_2_emc":               "temp_f rh_pct",
	"handbook_2010_t4_3_shrinkage":         "species",
	"handbook_2010_t4_4_shrinkage":         "species",
	"handbook_2010_t5_10_fracture":         "species",
	"handbook_2010_t5_1_elastic_ratios":    "species",
	"handbook_2010_t5_2_poisson":           "species",
	"handbook_2010_t5_6_variation":         "property",
	"handbook_2021_t5_13_intersection_mc":  "species",
	"handbook_2021_t5_15_temperature":      "property moisture_pct",
	"handbook_2021_t5_3b_mechanical":       "species moisture",
	"panel_wood_defaults":                  "wood property direction",
	"panel_woods":                          "*",
	"sources":                              "key", "woods": "key",
	"experiments/published":         "exp_id geometry conditions quantity",
	"experiments/maas_2026_elastic": "component direction load_type rh_pct", "experiments/maas_2026_kelvin": "rh type",
	"experiments/ferrara_2025_compliance": "type rh_pct", "experiments/ferrara_2025_cycles": "sample",
	"experiments/ferrara_2025_moisture": "cycle time_h",
	"experiments/maas_2026_creep":       "sample", "experiments/maas_2026_creep_curves": "sample time_h",
	"experiments/maas_2026_movement": "step", "experiments/maas_2026_strength": "loading direction rh_pct",
}

func all(t *testing.T) []*tables.Table {
	t.Helper()
	var out []*tables.Table
	for _, name := range tables.Names() {
		tab, err := tables.Read(name)
		require.NoError(t, err, name)
		out = append(out, tab)
	}
	require.GreaterOrEqual(t, len(out), 25)
	return out
}

func TestTablesParse(t *testing.T) {
	for _, tab := range all(t) {
		assert.NotEmpty(t, tab.Rows, tab.Name)
		for _, want := range []string{"title:", "table:", "units:", "differs:"} {
			assert.True(t, headHas(tab, want), "%s: no head line %q", tab.Name, want)
		}
		for _, r := range tab.Rows {
			for _, c := range tab.Columns {
				cell := r.Text(c)
				assert.NotContains(t, cell, "\n", "%s:%d", tab.Name, r.Line)
				assert.Equal(t, strings.TrimSpace(cell), cell, "%s:%d %s", tab.Name, r.Line, c)
			}
		}
	}
}

func headHas(tab *tables.Table, word string) bool {
	for _, h := range tab.Head {
		if strings.HasPrefix(h, word) {
			return true
		}
	}
	return false
}

// headKey is the source named at the head of a table: "key: X".
func headKey(tab *tables.Table) string {
	for _, h := range tab.Head {
		if _, key, ok := strings.Cut(h, "key: "); ok {
			return key
		}
	}
	return ""
}

func TestNoDuplicateRows(t *testing.T) {
	for _, tab := range all(t) {
		columns, ok := keyColumns[tab.Name]
		if !assert.True(t, ok, "%s: say what makes its rows unique", tab.Name) {
			continue
		}
		names := strings.Fields(columns)
		if columns == "*" {
			names = tab.Columns
		}
		seen := map[string]int{}
		for _, r := range tab.Rows {
			var cells []string
			for _, c := range names {
				cells = append(cells, r.Text(c))
			}
			key := strings.Join(cells, "|")
			assert.Zero(t, seen[key], "%s:%d repeats line %d: %s", tab.Name, r.Line, seen[key], key)
			seen[key] = r.Line
		}
	}
}

func TestEveryRowHasASource(t *testing.T) {
	known, used := map[string]bool{}, map[string]bool{}
	for _, r := range tables.MustRead("sources").Rows {
		known[r.Text("key")] = true
		assert.NotEmpty(t, r.Text("title"))
		assert.NotEmpty(t, r.Text("how_seen"))
	}
	for _, tab := range all(t) {
		key := headKey(tab)
		require.NotEmpty(t, key, "%s: no key at its head", tab.Name)
		for k := range known {
			for _, h := range tab.Head {
				used[k] = used[k] || strings.Contains(h, k)
			}
		}
		if key != "per row" {
			assert.True(t, known[key], "%s: head names %q", tab.Name, key)
			continue
		}
		if tab.Name == "sources" {
			continue
		}
		for _, r := range tab.Rows {
			if strings.HasPrefix(tab.Name, "checks_") { // references in full, not keys
				assert.NotEmpty(t, r.Text("source"), "%s:%d", tab.Name, r.Line)
				continue
			}
			for _, s := range strings.Split(r.Text("source"), "; ") {
				used[s] = true
				assert.True(t, known[s], "%s:%d: source %q", tab.Name, r.Line, s)
			}
		}
	}
	for _, r := range tables.MustRead("sources").Rows {
		assert.True(t, used[r.Text("key")], "source %s is used by no table", r.Text("key"))
	}
}

// Status and evidence stand in the row or, for all rows, at the head.
func TestEveryRowHasStatusAndEvidence(t *testing.T) {
	for _, tab := range all(t) {
		if tab.Name == "sources" || strings.HasPrefix(tab.Name, "checks_") {
			continue
		}
		head := strings.Join(tab.Head, " ")
		if !tab.Has("status") {
			assert.Contains(t, head, "status:  all rows", tab.Name)
		}
		if !tab.Has("evidence") {
			assert.Contains(t, head, "evidence:", tab.Name)
		}
		for _, r := range tab.Rows {
			if tab.Has("status") {
				assert.NotEmpty(t, r.Text("status"), "%s:%d", tab.Name, r.Line)
			}
			if tab.Has("evidence") {
				g, err := tables.ParseGrade(r.Text("evidence"))
				assert.NoError(t, err, "%s:%d", tab.Name, r.Line)
				if tab.Has("source") && r.Text("source") == "MEMORY" {
					assert.GreaterOrEqual(t, g, tables.General, "%s:%d: memory is not evidence", tab.Name, r.Line)
				}
			}
		}
	}
}

// sums seal the tables: a change must be meant. Renew a line with sha256sum tables/data/NAME.csv.
func TestTablesAreAsSealed(t *testing.T) {
	sealed, err := os.ReadFile("testdata/sums.txt")
	require.NoError(t, err)
	want := map[string]string{}
	for _, line := range strings.Split(strings.TrimSpace(string(sealed)), "\n") {
		sum, name, ok := strings.Cut(line, "  ")
		require.True(t, ok, line)
		want[name] = sum
	}
	names := tables.Names()
	assert.Len(t, want, len(names), "one line a table")
	for _, name := range names {
		src, err := os.ReadFile("data/" + name + ".csv")
		require.NoError(t, err)
		sum := sha256.Sum256(src)
		assert.Equal(t, want[name], hex.EncodeToString(sum[:]), "%s was changed", name)
	}
}
