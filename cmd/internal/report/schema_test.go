package report

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares got with a file of testdata/golden, or rewrites it.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("..", "..", "..", "testdata", "golden", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "keys are added, never renamed; rewrite with -update")
}

func TestSchemas(t *testing.T) {
	for name, doc := range map[string]any{
		"assess": Assess{}, "treat": Treat{}, "emc": Emc{}, "intake": Intake{}, "wood": Wood{}, "woods": Woods{}, "verify": Verify{}, "loan": Loan{},
		"fault": Fault{}, "fault_event": FaultEvent{}, "survey": Survey{}, "insured": Insured{},
	} {
		t.Run(name, func(t *testing.T) { golden(t, "schema_"+name+".txt", Schema(doc)) })
	}
}
