package cli

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/disk"
	"crossgrain/cmd/internal/example"
	"crossgrain/cmd/internal/report"
	"crossgrain/tables/problem"
)

// paperFlags say what a paper of a command is: a draft, or issued under a number, and to whom it is addressed.
type paperFlags struct{ issue, date, to string }

// bind adds --issue NUMBER and --date, and --addressee where the command has papers that leave the house.
func (f *paperFlags) bind(cmd *cobra.Command, leaves bool) {
	cmd.Flags().StringVar(&f.issue, "issue", "", "with --out, issue the paper under this `NUMBER`: it is then never written over, and replaces earlier issues in the folder")
	cmd.Flags().StringVar(&f.date, "date", "", "`DAY` of the paper, such as 2026-03-04; today where none is given")
	f.to = report.ToFile
	if leaves {
		f.bindTo(cmd)
	}
}

// bindTo adds --addressee.
func (f *paperFlags) bindTo(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.to, "addressee", report.ToFile, "with --out, `WHOM` the paper is addressed to: file, borrower or insurer; what leaves holds no notes, places, paths or other panels")
}

// draft is the paper that the flags ask for, not yet numbered by its folder.
func (f *paperFlags) draft(cmd *cobra.Command, kind, out string) (report.Paper, error) {
	p := report.Paper{Kind: kind, Status: report.Draft, To: f.to, Version: Version(), Date: time.Now().Format(time.DateOnly)}
	if !slices.Contains(report.Audiences(), f.to) {
		hint := ""
		if near := problem.Nearest(f.to, report.Audiences()); near != "" {
			hint = "did you mean " + near + "?"
		}
		return p, badUsage(cmd, hint, "--addressee must be file, borrower or insurer, got %q", f.to)
	}
	if f.date != "" {
		day, err := time.Parse(time.DateOnly, strings.TrimSpace(f.date))
		if err != nil {
			return p, badUsage(cmd, "", "--date must be a day such as 2026-03-04, got %q", f.date)
		}
		p.Date = day.Format(time.DateOnly)
	}
	flag := cmd.Flags().Lookup("issue")
	given := flag.Changed && flag.Value.Type() == "string" // loans have their number in their file
	if out == "" && (given || f.date != "" || f.to != report.ToFile) {
		return p, badUsage(cmd, "", "--issue, --date and --addressee are about papers in a folder, and need --out DIR")
	}
	if given {
		number, err := report.PaperNumber(f.issue)
		if err != nil {
			return p, badUsage(cmd, "such as --issue 2026-041", "--issue: %v", err)
		}
		p.Number, p.Status = number, report.Issued
	}
	return p, nil
}

// earlier is one paper of the same series that lies in the folder.
type earlier struct {
	path string
	src  []byte
	report.Look
}

// mostPaper is the largest file that is looked at as a paper, in bytes.
const mostPaper = 64 << 20

// earlierIn lists the issued papers of the same series in a folder.
func earlierIn(dir string, p report.Paper) ([]earlier, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("cannot read the folder %s: %w", dir, disk.Cause(err))
	}
	var out []earlier
	for _, e := range entries {
		if ext := filepath.Ext(e.Name()); e.IsDir() || ext != ".html" && ext != ".json" {
			continue
		}
		path := filepath.Join(dir, e.Name())
		src, err := readFile(path, mostPaper)
		if err != nil {
			return nil, err
		}
		if look, err := report.ReadPaper(src); err == nil && look.Status == report.Issued && look.Series(p) {
			out = append(out, earlier{path, src, look})
		}
	}
	return out, nil
}

// numbered gives a paper its issue after those in the folder, and names the last of them.
func numbered(p *report.Paper, before []earlier) {
	last := lastOf(before)
	if last == nil {
		p.Issue = max(p.Issue, 1)
		return
	}
	p.Issue = max(p.Issue, last.Issue+1)
	p.Replaces = &report.PaperIssue{Issue: last.Issue, Date: last.Date}
}

// lastOf is the latest issue; nil where there is none.
func lastOf(papers []earlier) *earlier {
	var last *earlier
	for i := range papers {
		if last == nil || papers[i].Issue > last.Issue {
			last = &papers[i]
		}
	}
	return last
}

// settle reads the folder for a numbered paper. What it returns is to be superseded.
func (f *paperFlags) settle(p *report.Paper, dir string) ([]earlier, error) {
	if p.Number == "" {
		return nil, nil
	}
	before, err := earlierIn(dir, *p)
	if err != nil {
		return nil, err
	}
	if last := lastOf(before); last != nil && last.Date > p.Date {
		return nil, fmt.Errorf("issue %d of %s is dated %s, later than %s; an issue cannot be older than the one that it replaces", last.Issue, p.Number, last.Date, p.Date)
	}
	numbered(p, before)
	return before, nil
}

// inputsOf are the files that a paper rests on, with their sums, after the built-in example where that is one.
func inputsOf(builtIn bool, names ...string) ([]report.PaperInput, error) {
	var out []report.PaperInput
	if builtIn {
		out = append(out, inputOf("built-in example", example.Panel()))
	}
	for _, n := range names {
		src, err := readFile(n, maxRecord)
		if err != nil {
			return nil, err
		}
		out = append(out, inputOf(filepath.ToSlash(n), src))
	}
	return out, nil
}

func inputOf(name string, src []byte) report.PaperInput {
	sum := sha256.Sum256(src)
	return report.PaperInput{Name: name, SHA256: hex.EncodeToString(sum[:])}
}

// rest names the inputs of a paper.
func rest(p *report.Paper, builtIn bool, names ...string) error {
	in, err := inputsOf(builtIn, names...)
	p.Inputs, p.Digest = in, report.InputsDigest(in)
	return err
}
