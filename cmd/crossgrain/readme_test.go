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

func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	readme, fenced := blocks(t)
	require.GreaterOrEqual(t, len(fenced), 4)
	sample, found := strings.CutPrefix(fenced[0], "$ go run ./cmd/crossgrain assess\n")
	require.True(t, found)
	got := run(t, 0, "assess")
	for line := range strings.Lines(sample) {
		if strings.TrimSpace(line) != "" {
			assert.Contains(t, got, line, "README shows a line that assess does not print")
		}
	}

	attic := filepath.Join("..", "..", "testdata", "records", "attic_unheated_tampere_2010-2012_hourly.csv")
	_, sample, found = strings.Cut(fenced[2], "\n")
	require.True(t, found)
	got = run(t, 0, "record", attic, "--terms", "max 75")
	for line := range strings.Lines(sample) {
		if strings.TrimSpace(line) != "" {
			assert.Contains(t, got, line, "README shows a line that record does not print")
		}
	}

	_, sample, found = strings.Cut(fenced[3], "\n")
	require.True(t, found)
	got = run(t, 0, "loan", filepath.Join("..", "..", "testdata", "loans", "two_rooms.toml"))
	for line := range strings.Lines(sample) {
		if strings.TrimSpace(line) != "" {
			assert.Contains(t, got, line, "README shows a line that loan does not print")
		}
	}

	bad := filepath.Join(t.TempDir(), "panel.toml")
	src := "format = 1\n[panel]\naccession = \"x\"\nheight_mm = 100\nwidth_mm = 100\nwood = \"oak\"\n\n[board.left]\nthickness_mm = -3\n"
	require.NoError(t, os.WriteFile(bad, []byte(src), 0o600))
	assert.Contains(t, run(t, 2, "assess", bad), fenced[1])

	checks := run(t, 0, "verify", "--format", "csv")
	n := strings.Count(checks, "\n") - 1
	assert.True(t, strings.Contains(readme, fmt.Sprintf("runs %d checks", n)), "README does not say that verify runs %d checks", n)
}

func TestReadmeShowsTheTreatment(t *testing.T) {
	_, fenced := blocks(t)
	const command = "$ go run ./cmd/crossgrain treat testdata/panels/options_battens.toml --rh 40..60 --out treatment\n"
	for _, block := range fenced {
		sample, found := strings.CutPrefix(block, command)
		if !found {
			continue
		}
		got := run(t, 0, "treat", filepath.Join("..", "..", "testdata", "panels", "options_battens.toml"), "--rh", "40..60", "--out", t.TempDir())
		for line := range strings.Lines(sample) {
			assert.Contains(t, got, line, "README shows a line that treat does not print")
		}
		return
	}
	t.Error("README shows no treatment")
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
