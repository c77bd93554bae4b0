package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// chain lists what each package of crossgrain may import of crossgrain, directly. A package that
// is not listed fails the test: whoever adds one decides here where it stands.
var chain = map[string][]string{
	"tables":                   {},
	"tables/problem":           {},
	"tables/edit":              {"tables/problem"},
	"tables/sheet":             {"tables/problem"},
	"tables/tabletest":         {"tables", "tables/verify"},
	"tables/verify":            {"tables"},
	"moisture":                 {"tables", "tables/verify"},
	"moisture/record":          {"moisture", "tables", "tables/problem"},
	"moisture/profile":         {"moisture", "tables", "tables/verify"},
	"moisture/record/terms":    {"moisture", "moisture/record", "tables", "tables/problem"},
	"moisture/record/logger":   {"moisture", "moisture/record", "tables/problem", "tables/sheet"},
	"moisture/record/scenario": {"moisture", "moisture/record", "tables", "tables/problem", "tables/verify"},
	"species":                  {"moisture", "tables", "tables/problem", "tables/verify"},
	"panel":                    {"moisture", "species", "tables", "tables/edit", "tables/problem"},
	"panel/intake":             {"panel", "species", "tables", "tables/problem", "tables/sheet"},
	"panel/internal/chance":    {},
	"panel/internal/creep":     kernel(),
	"panel/internal/plan":      kernel(),
	"panel/internal/fe":        {"tables", "tables/verify"},
	"panel/section":            kernel(),
	"panel/restraint":          kernel(),
	"panel/fracture":           kernel(),
	"panel/response":           append(kernel(), "panel", "panel/section", "panel/restraint", "panel/fracture", "moisture/record", "moisture/profile"),
	"panel/assessment":         {"panel", "panel/internal/chance", "panel/response", "moisture", "moisture/record", "species", "tables", "tables/problem", "tables/verify"},
	"panel/treatment":          {"panel", "panel/assessment", "panel/response", "moisture", "moisture/record", "moisture/record/scenario"},
	"panel/loan":               {"panel", "panel/assessment", "panel/response", "moisture", "moisture/record", "moisture/record/scenario", "moisture/record/terms", "tables", "tables/problem"},
	"panel/fault":              {"panel", "panel/assessment", "panel/response", "moisture", "moisture/record"},
	"panel/survey":             {"panel", "panel/assessment", "panel/response", "moisture", "moisture/record", "tables", "tables/problem"},
	"cmd/crossgrain":           {"cmd/internal/cli"},
	"cmd/internal/cli":         {"*"},
	"cmd/internal/disk":        {},
	"cmd/internal/example":     {},
	"cmd/internal/figure":      {},
	"cmd/internal/illustrate":  {"cmd/internal/figure", "cmd/internal/report", "moisture", "panel", "panel/assessment", "panel/response", "panel/section"},
	"cmd/internal/page":        {"cmd/internal/disk", "cmd/internal/example", "cmd/internal/figure", "cmd/internal/illustrate", "cmd/internal/report", "moisture", "moisture/record", "moisture/record/logger", "moisture/record/scenario", "moisture/record/terms", "panel", "panel/assessment", "panel/fault", "panel/intake", "panel/response", "species", "tables/edit", "tables/problem"},
	"cmd/internal/store":       {},
	"cmd/internal/report":      {"panel", "panel/assessment", "panel/fault", "panel/intake", "panel/loan", "panel/response", "panel/survey", "panel/treatment", "moisture", "moisture/record", "moisture/record/logger", "moisture/record/terms", "species", "tables", "tables/problem", "tables/verify"},
}

// kernel is what a numerical kernel may import: never panel, never another kernel.
func kernel() []string {
	return []string{"tables", "tables/verify", "moisture", "species", "panel/internal/creep", "panel/internal/plan", "panel/internal/fe"}
}

func TestImportChain(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}} {{join .Imports \",\"}}", "crossgrain/...").Output()
	require.NoError(t, err)
	for line := range strings.Lines(string(out)) {
		path, imports, _ := strings.Cut(strings.TrimSpace(line), " ")
		name := strings.TrimPrefix(path, "crossgrain/")
		allowed, known := chain[name]
		if !known {
			t.Errorf("package %s is not in the list of this test", name)
			continue
		}
		for _, imp := range strings.Split(imports, ",") {
			own, isOwn := strings.CutPrefix(imp, "crossgrain/")
			if isOwn && !slices.Contains(allowed, own) && !slices.Contains(allowed, "*") {
				t.Errorf("%s imports %s: against the chain tables <- moisture <- species <- panel <- cmd", name, own)
			}
		}
	}
}

func TestOnlyCommandsTouchTheOutside(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}} {{join .Imports \",\"}}", "crossgrain/...").Output()
	require.NoError(t, err)
	for line := range strings.Lines(string(out)) {
		path, imports, _ := strings.Cut(strings.TrimSpace(line), " ")
		if strings.HasPrefix(path, "crossgrain/cmd") {
			continue
		}
		for _, imp := range strings.Split(imports, ",") {
			if imp == "os" || imp == "log" || imp == "net/http" {
				t.Errorf("%s imports %s: only cmd reads files, prints or exits", path, imp)
			}
		}
	}
}

// behind lists modules that one package alone knows, so that they can be changed for others.
var behind = map[string]string{"modernc.org/sqlite": "cmd/internal/store", "github.com/xuri/excelize/v2": "tables/sheet"}

func TestModulesBehindOnePackage(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}} {{join .Imports \",\"}}", "crossgrain/...").Output()
	require.NoError(t, err)
	met := map[string]bool{}
	for line := range strings.Lines(string(out)) {
		path, imports, _ := strings.Cut(strings.TrimSpace(line), " ")
		for _, imp := range strings.Split(imports, ",") {
			own, listed := behind[imp]
			if met[imp] = true; listed && path != "crossgrain/"+own {
				t.Errorf("%s imports %s, which %s alone does", path, imp, own)
			}
		}
	}
	for module := range behind {
		require.True(t, met[module], "%s is imported by none", module)
	}
}

func TestTopLevelEntries(t *testing.T) {
	allowed := []string{"panel", "moisture", "species", "cmd", "tables", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md"}
	entries, err := os.ReadDir(filepath.Join("..", ".."))
	require.NoError(t, err)
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !slices.Contains(allowed, e.Name()) {
			t.Errorf("%s does not belong at the top level (allowed: %v)", e.Name(), allowed)
		}
	}
}
