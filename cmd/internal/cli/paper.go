package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/report"
)

type paperOptions struct{ inputs []string }

// errNotAsIssued is returned when a paper was altered, or when what it rests on is no longer the same.
var errNotAsIssued = errors.New("a paper was altered, or its inputs are no longer the same")

func newPaper(e env) *cobra.Command {
	var o paperOptions
	cmd := &cobra.Command{
		Use:   "paper FILE...",
		Short: "read an issued paper again: what it is, whether it is as it was issued",
		Long: `paper reads papers of this program again, HTML or JSON: number, issue, date, to whom,
whether another issue has superseded it, on which inputs and with which program.
It tells whether the file is still as it was issued, but for the mark that another
issue sets, and whether the inputs are the same: those named with --input, those
that lie where the paper says or by the named ones, and those of the same name
beside it.

The sum tells of changes by mistake or by hand; it is no signature, and whoever
has the program can make another paper. Exit code 1: a paper was altered or an
input is not the same; 2: a file cannot be read or is no paper.

The command is a noun, as record and wood are: it tells what is known of a paper.`,
		Example: "  crossgrain paper schedules/*.html\n  crossgrain paper report.html --input panel.toml --input room.csv",
		Args:    cobra.MinimumNArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return o.run(e, args) },
	}
	cmd.Flags().StringArrayVar(&o.inputs, "input", nil, "`FILE` that a paper rests on, to be compared; may be given several times")
	return cmd
}

func (o *paperOptions) run(e env, files []string) error {
	given, err := inputsOf(false, o.inputs...)
	if err != nil {
		return err
	}
	var unread []error
	same := true
	for i, f := range files {
		if i > 0 {
			fmt.Fprintln(e.stdout)
		}
		src, err := readFile(f, mostPaper)
		var look report.Look
		if err == nil {
			if look, err = report.ReadPaper(src); err != nil {
				err = fmt.Errorf("%s: %w", f, err)
			}
		}
		if err != nil {
			unread = append(unread, err)
			continue
		}
		told := report.PaperTold{File: f, Look: look, Later: laterBeside(f, look), Inputs: compare(f, look, given)}
		if err := told.WriteText(e.stdout); err != nil {
			return err
		}
		same = same && told.Same()
	}
	if err := errors.Join(unread...); err != nil {
		return err
	}
	if !same {
		return errNotAsIssued
	}
	return nil
}

// laterBeside is a later issue that lies in the folder of a paper without the mark; nil where there is none.
func laterBeside(file string, look report.Look) *report.PaperIssue {
	if look.Status != report.Issued || look.Superseded != nil {
		return nil
	}
	all, err := earlierIn(filepath.Dir(file), look.Paper)
	if last := lastOf(all); err == nil && last != nil && last.Issue > look.Issue {
		return &report.PaperIssue{Issue: last.Issue, Date: last.Date}
	}
	return nil
}

// compare holds the inputs of a paper against the files that were named, and against those that are found.
func compare(file string, look report.Look, given []report.PaperInput) []report.InputTold {
	var out []report.InputTold
	used := make([]bool, len(given))
	for i, in := range look.Inputs {
		told := report.InputTold{Name: in.Name, N: i + 1, State: report.InputNotFound}
		for k, g := range given {
			if g.SHA256 == in.SHA256 {
				told.State, told.Where, used[k] = report.InputSame, g.Name, true
			}
		}
		for k, g := range given {
			if told.State == report.InputNotFound && in.Name != "" && filepath.Base(g.Name) == filepath.Base(in.Name) {
				told.State, told.Where, used[k] = report.InputChanged, g.Name, true
			}
		}
		if told.State == report.InputNotFound {
			told.State, told.Where = found(file, in, given)
		}
		out = append(out, told)
	}
	for k, g := range given {
		if !used[k] {
			out = append(out, report.InputTold{State: report.InputOther, Where: g.Name})
		}
	}
	return out
}

// found looks for an input that was not named: where the paper says, and by its name beside it. One that is the same goes before one
// that is not.
func found(file string, in report.PaperInput, given []report.PaperInput) (state, where string) {
	if in.Name == "" {
		return report.InputNotFound, ""
	}
	if !strings.Contains(in.Name, ".") {
		if built, err := inputsOf(true); err == nil && built[0].Name == in.Name {
			if built[0].SHA256 == in.SHA256 {
				return report.InputSame, in.Name
			}
			return report.InputChanged, in.Name
		}
	}
	state = report.InputNotFound
	dir, name := filepath.Dir(file), filepath.FromSlash(in.Name)
	places := []string{name, filepath.Join(dir, name), filepath.Join(dir, "..", name), filepath.Join(dir, filepath.Base(name))}
	for _, g := range given { // a loan file names others from its own folder
		places = append(places, filepath.Join(filepath.Dir(filepath.FromSlash(g.Name)), name))
	}
	for _, at := range places {
		sums, err := inputsOf(false, at)
		if err != nil {
			continue
		}
		if sums[0].SHA256 == in.SHA256 {
			return report.InputSame, at
		}
		if state == report.InputNotFound {
			state, where = report.InputChanged, at
		}
	}
	return state, where
}
