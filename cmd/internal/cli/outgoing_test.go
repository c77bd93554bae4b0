package cli

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// secrets stand in notes, places, paths and other panels; none of them may be in the bytes of a paper that leaves.
const secretPanel = `# INVENTED
[panel]
accession = "%NUMBER%"
title = "%TITLE%"
height_mm = 420
width_mm = 300
boards = 2
wood = "lime"
thickness_mm = 16
end_grain = "quarter"
store = "SECRET store"
place = "SECRET rack"
group = "SECRET group"
note = "SECRET value 5,000,000 </style><script>SECRET</script>"
[used_to]
rh_pct = 50
[face.front]
paint = "sound"
[option.later]
does = "SECRET plan"
note = "SECRET price"
remove = ["batten.upper"]
[batten.upper]
along_mm = 340
width_mm = 30
depth_mm = 15
fixing = "nailed"
`

const secretLoan = `[loan]
number = "INVENTED 40"
date = "2026-03-04"
one_room = true
offer = "40-60, 10 in 24 h"
[panel.own]
file = "SECRET folder/own.toml"
[panel.secretother]
file = "SECRET folder/SECRET other.toml"
[venue.hall]
name = "Invented hall"
record = "SECRET folder/SECRET room.csv"
[leg.hall]
kind = "on show"
venue = "hall"
from = "2026-01-10"
to = "2026-01-20"
`

// secretFolder writes two panels, a loan and a record; it returns the loan file, the folder and the record.
func secretFolder(t *testing.T) (loan, dir, room string) {
	t.Helper()
	root := filepath.Join(t.TempDir(), "SECRET user")
	dir = filepath.Join(root, "SECRET folder")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "SECRET shelf"), 0o777))
	write := func(name, text string) string {
		path := filepath.Join(root, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		return path
	}
	panel := func(number, title string) string {
		return strings.NewReplacer("%NUMBER%", number, "%TITLE%", title).Replace(secretPanel)
	}
	write("SECRET folder/own.toml", panel("INVENTED 41", "Invented own"))
	write("SECRET folder/SECRET other.toml", panel("SECRET 42", "SECRET other title"))
	var csv strings.Builder
	csv.WriteString("time,RH,T\n")
	for _, line := range []string{"10 00:00,50", "11 00:00,44", "12 00:00,36", "13 00:00,30", "14 00:00,31", "15 00:00,40", "16 00:00,48"} {
		csv.WriteString("2024-01-" + line + ",20\n")
	}
	return write("loan.toml", secretLoan), dir, write("SECRET folder/SECRET room.csv", csv.String())
}

func TestNothingLeavesThatShouldNot(t *testing.T) {
	loan, dir, room := secretFolder(t)
	own := filepath.Join(dir, "own.toml")
	require.NoError(t, os.Rename(filepath.Join(dir, "SECRET other.toml"), filepath.Join(dir, "SECRET shelf", "x.toml")))
	for _, command := range [][]string{
		{"assess", own, "--cases", "50", "--record", room, "--issue", "INVENTED 40"},
		{"assess", own, "--cases", "50"},
		{"fault", own, "--record", room, "--issue", "INVENTED 40"},
		{"fault", dir, "--record", room},
		{"loan", loan, "--cases", "50", "--issue"},
	} {
		if command[0] == "loan" {
			require.NoError(t, os.Rename(filepath.Join(dir, "SECRET shelf", "x.toml"), filepath.Join(dir, "SECRET other.toml")))
		}
		for _, to := range []string{"borrower", "insurer"} {
			out := t.TempDir()
			var stdout, remarks bytes.Buffer
			code := Run(context.Background(), append(command, "--addressee", to, "--out", out), strings.NewReader(""), &stdout, &remarks)
			require.Equal(t, exitDone, code, remarks.String())
			looked := 0
			files, err := os.ReadDir(out)
			require.NoError(t, err)
			for _, f := range files {
				src, err := os.ReadFile(filepath.Join(out, f.Name()))
				require.NoError(t, err)
				text := strings.ToLower(string(src))
				if mine := strings.Contains(text, "invented 41"); !mine {
					continue // the other panel's own paper
				}
				looked++
				at := strings.Index(text, "secret")
				assert.Equal(t, -1, at, "%v to the %s, %s: %.200s", command[:2], to, f.Name(), text[max(0, at-60):])
				assert.NotContains(t, text, "<script")
				if to == "insurer" {
					assert.Contains(t, text, "this calculation cannot say when a crack opened.")
					assert.NotContains(t, text, "cause")
					assert.NotContains(t, text, "batten", "no part is named")
				}
			}
			assert.Equal(t, 2, looked, "%v to the %s: a page and its data", command[:2], to)
		}
	}
}

// TestTheFileKeepsAll: what is left out of papers that leave stands in the file's own, so that the test above can fail.
func TestTheFileKeepsAll(t *testing.T) {
	loan, _, _ := secretFolder(t)
	out := t.TempDir()
	var stdout, remarks bytes.Buffer
	require.Equal(t, exitDone, Run(context.Background(), []string{"loan", loan, "--cases", "50", "--out", out}, strings.NewReader(""), &stdout, &remarks), remarks.String())
	src, err := os.ReadFile(filepath.Join(out, "loan.json"))
	require.NoError(t, err)
	for _, s := range []string{"SECRET 42", "SECRET folder/own.toml", "SECRET room.csv"} {
		assert.Contains(t, string(src), s)
	}
}
