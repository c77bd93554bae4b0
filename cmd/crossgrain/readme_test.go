package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/cmd/internal/cli"
)

// run runs one command line as a user would and returns what it printed on both outputs.
func run(t *testing.T, want int, args ...string) string {
	t.Helper()
	var out, remarks bytes.Buffer
	code := cli.Run(context.Background(), args, strings.NewReader(""), &out, &remarks)
	require.Equal(t, want, code, remarks.String())
	return out.String() + remarks.String()
}

// blocks returns the fenced blocks of README.md.
func blocks(t *testing.T) (readme string, fenced []string) {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	parts := strings.Split(string(src), "```\n")
	for i := 1; i < len(parts); i += 2 {
		fenced = append(fenced, parts[i])
	}
	return string(src), fenced
}

// A block that begins with a command shows lines that the command prints; paths are those of the repository.
func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	readme, fenced := blocks(t)
	root, err := filepath.Abs(filepath.Join("..", ".."))
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	shown := 0
	for _, block := range fenced {
		command, sample, _ := strings.Cut(block, "\n")
		command, found := strings.CutPrefix(command, "$ go run ./cmd/crossgrain ")
		if !found {
			continue
		}
		shown++
		got := run(t, 0, words(command, root)...)
		for line := range strings.Lines(sample) {
			if strings.TrimSpace(line) != "" && !strings.Contains(got, line) {
				t.Errorf("README shows what %s does not print: %s", command, line)
			}
		}
	}
	assert.Equal(t, 5, shown, "a new block is counted here")

	src := "format = 1\n[panel]\naccession = \"x\"\nheight_mm = 100\nwidth_mm = 100\nwood = \"oak\"\n\n[board.left]\nthickness_mm = -3\n"
	require.NoError(t, os.WriteFile("panel.toml", []byte(src), 0o600))
	assert.Contains(t, run(t, 2, "assess", "panel.toml"), fenced[1])

	checks := run(t, 0, "verify", "--format", "csv")
	n := strings.Count(checks, "\n") - 1
	assert.True(t, strings.Contains(readme, fmt.Sprintf("runs %d checks", n)), "README does not say that verify runs %d checks", n)
}

// words parts a command line, and finds its files in the repository.
func words(command, root string) (out []string) {
	for i, part := range strings.Split(command, "\"") {
		if i%2 == 1 {
			out = append(out, part)
			continue
		}
		for _, w := range strings.Fields(part) {
			if strings.HasPrefix(w, "testdata/") {
				w = filepath.Join(root, w)
			}
			out = append(out, w)
		}
	}
	return out
}

func TestReadmeCommandsRun(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	run(t, 0, "start", "panel.toml")
	run(t, 0, "assess", "panel.toml", "--out", "report")
	run(t, 0, "emc", "--rh", "50", "--temp", "20")
	run(t, 0, "wood", "oak")
	for _, name := range []string{"report.html", "assessment.json", "modes.csv", "panel.svg"} {
		st, err := os.Stat(filepath.Join(dir, "report", name))
		require.NoError(t, err)
		assert.Positive(t, st.Size())
	}
}

func TestReadmeOpensWithTheJob(t *testing.T) {
	readme, _ := blocks(t)
	first := strings.SplitN(readme, "\n\n", 3)
	require.Equal(t, "# crossgrain", first[0])
	for _, word := range []string{"conservator", "registrar", "collections manager", "humidity"} {
		assert.Contains(t, first[1], word)
	}
}
