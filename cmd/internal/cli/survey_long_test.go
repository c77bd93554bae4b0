//go:build long

package cli

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestLongCollectionAgainstItsStores looks over the invented collection, as a list and as files: the same answer, worked out once.
func TestLongCollectionAgainstItsStores(t *testing.T) {
	at := filepath.Join("..", "..", "..", "testdata", "collection")
	keep := filepath.Join(t.TempDir(), "results.db")
	run := func(what string) (out, remarks string) {
		var o, r bytes.Buffer
		code := Run(context.Background(), []string{"survey", filepath.Join(at, what), "--stores", filepath.Join(at, "stores.toml"), "--keep", keep, "--format", "csv"}, strings.NewReader(""), &o, &r)
		require.Equal(t, exitDone, code, r.String())
		return o.String(), r.String()
	}
	list, remarks := run("collection.csv")
	assert.Contains(t, remarks, " 0 taken from")
	for n := 101; n <= 140; n++ {
		assert.Contains(t, list, fmt.Sprintf("INVENTED %d", n))
	}
	again, remarks := run("collection.csv")
	assert.Equal(t, list, again)
	assert.Contains(t, remarks, "0 results worked out, ")
	_, remarks = run("panels")
	assert.Contains(t, remarks, "0 results worked out, ", "the files are the list's own panels")
}
