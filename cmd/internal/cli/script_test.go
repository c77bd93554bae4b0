package cli

import (
	"context"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"crossgrain": func() { os.Exit(Run(context.Background(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs testdata/*.txt, one topic each. "exits 2 crossgrain ..." asks for an exit code.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata",
		Setup: func(e *testscript.Env) error {
			records, err := filepath.Abs(filepath.Join("..", "..", "..", "testdata", "records"))
			e.Setenv("RECORDS", records)
			e.Setenv("PANELS", filepath.Join(filepath.Dir(records), "panels"))
			e.Setenv("SURVEY", filepath.Join(filepath.Dir(records), "survey"))
			e.Setenv("LOANS", filepath.Join(filepath.Dir(records), "loans"))
			e.Setenv("COLLECTION", filepath.Join(filepath.Dir(records), "collection"))
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
	})
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND ...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		coder, ok := err.(interface{ ExitCode() int })
		if !ok {
			ts.Fatalf("%v did not run: %v", args[1:], err)
		}
		got = coder.ExitCode()
	}
	if got != want {
		ts.Fatalf("%v: exit code %d, want %d", args[1:], got, want)
	}
}
