package cli

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/illustrate"
	"crossgrain/cmd/internal/report"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/logger"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/loan"
)

type loanOptions struct {
	common
	recordFlags
	cases int
	issue bool
}

// casesLoan is how many cases are drawn for each panel of a loan.
const casesLoan = 500

func newLoan(e env) *cobra.Command {
	var o loanOptions
	cmd := &cobra.Command{
		Use:   "loan LOAN",
		Short: "conditions for lending one or several panels, with their reasons",
		Long: `loan reads a loan file (panels, legs with dates, venues with records or terms, a
case) and takes every panel from home through the loan and back. It tells the
range that all panels in one room share, the change within 24 hours, how long a
case stays closed, hours for alarms, what the borrower's own record shows for the
same months, and what an offer would change. A panel with a finding that stands
before the figures has none: its conservator is asked first. With --out a schedule
of two sheets is written for each panel, with a covering sheet; it is a draft until
--issue is given, and what has been issued is never written over.

It calculates from descriptions and has not seen the panels. Loan terms are
decided by a structural conservator after examination.`,
		Example: "  crossgrain loan loan.toml\n  crossgrain loan loan.toml --out schedules\n  crossgrain loan loan.toml --out schedules --issue",
		Args:    cobra.ExactArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return o.run(cmd, e, args[0]) },
	}
	o.common.bind(cmd, "out", "format", "seed")
	o.recordFlags.bind(cmd)
	cmd.Flags().IntVar(&o.cases, "cases", casesLoan, "`N` cases drawn for each panel")
	cmd.Flags().BoolVar(&o.issue, "issue", false, "with --out, the schedules are issued: number, date and digest are then fixed")
	return cmd
}

func (o *loanOptions) run(cmd *cobra.Command, e env, name string) error {
	if err := o.checkFormat(cmd, "text", "json"); err != nil {
		return err
	}
	if o.cases < assessment.Fewest || o.cases > mostCases {
		return badUsage(cmd, "", "--cases must lie between %d and %d, got %d", assessment.Fewest, mostCases, o.cases)
	}
	if o.issue && o.out == "" {
		return badUsage(cmd, "", "--issue needs --out DIR, where the issued schedules are kept")
	}
	l, in, files, err := o.read(cmd, name)
	if err != nil {
		return err
	}
	if err := o.frozen(l.Number, l.Issue); err != nil {
		return err
	}
	in.Samples = assessment.Samples{Held: o.cases, Seed: uint64(o.seed), Progress: e.progress("")}
	r, err := l.Assess(cmd.Context(), in)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	digest := sha256.New()
	for _, f := range files {
		fmt.Fprintln(digest, f.SHA256, f.Name)
	}
	doc := report.BuildLoan(r, report.LoanMeta{
		Version: Version(), Seed: o.seed, Issued: o.issue, Date: time.Now(), Inputs: files, Digest: hex.EncodeToString(digest.Sum(nil)),
	})
	if o.out != "" {
		if err := o.schedules(cmd, e, &doc, r); err != nil {
			return err
		}
	}
	if o.format == "json" {
		return report.WriteJSON(e.stdout, &doc)
	}
	return doc.WriteText(e.stdout)
}

// read reads the loan file and every file that it names; their paths are taken from its folder.
func (o *loanOptions) read(cmd *cobra.Command, name string) (*loan.Loan, loan.Inputs, []report.LoanInput, error) {
	in := loan.Inputs{Panels: map[string]*panel.Panel{}, Records: map[string]*record.Record{}}
	var files []report.LoanInput
	load := func(path, as string, most int64) ([]byte, error) {
		src, err := readFile(path, most)
		if err == nil {
			sum := sha256.Sum256(src)
			files = append(files, report.LoanInput{Name: as, SHA256: hex.EncodeToString(sum[:])})
		}
		return src, err
	}
	src, err := load(name, filepath.Base(name), loan.MaxFile+1)
	if err != nil {
		return nil, in, nil, err
	}
	l, problems := loan.Read(name, src)
	if err := problems.Err(); err != nil {
		return nil, in, nil, &problemsError{err: err, n: len(problems)}
	}
	at := func(f string) string {
		if filepath.IsAbs(f) {
			return f
		}
		return filepath.Join(filepath.Dir(name), filepath.FromSlash(f))
	}
	options, err := o.options(cmd)
	if err != nil {
		return nil, in, nil, err
	}
	var wrong []error
	panels, records := l.Files()
	for _, f := range panels {
		src, err := load(at(f), f, maxPanel)
		if err == nil {
			p, problems := panel.Read(at(f), src)
			in.Panels[f], err = p, problems.Err()
		}
		wrong = append(wrong, err)
	}
	for _, f := range records {
		src, err := load(at(f), f, maxRecord)
		if err == nil {
			var reading *logger.Reading
			in.Records[f], reading, err = logger.Read([]logger.File{{Name: f, Data: src}}, options)
			if err == nil {
				remarkOn(cmd, reading)
			}
		}
		wrong = append(wrong, err)
	}
	if err := errors.Join(wrong...); err != nil {
		return nil, in, nil, fmt.Errorf("files that %s names cannot be used; nothing was computed\n%w", name, err)
	}
	return l, in, files, nil
}

// frozen says that the folder already holds this issue of the loan, issued.
func (o *loanOptions) frozen(number string, issue int) error {
	if o.out == "" {
		return nil
	}
	path := filepath.Join(o.out, "loan.json")
	src, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	var before struct {
		Status, Number, Date string
		Issue                int
	}
	if err != nil || json.Unmarshal(src, &before) != nil {
		return fmt.Errorf("%s is there and cannot be read; give another folder", path)
	}
	switch {
	case before.Status != "issued":
		return nil
	case before.Number != number:
		return fmt.Errorf("%s holds the issued schedules of loan %s; give another folder", o.out, before.Number)
	}
	return fmt.Errorf("issue %d of loan %s was issued on %s and stays as it is; write another issue to a folder of its own, with issue = %d in the loan file",
		before.Issue, before.Number, before.Date, max(issue, before.Issue+1))
}

// schedules writes the folder: a schedule for each panel, the covering sheet, the data.
func (o *loanOptions) schedules(cmd *cobra.Command, e env, doc *report.Loan, r *loan.Result) error {
	b := newBundle(cmd.Context())
	for i := range r.Panels {
		figs, err := illustrate.InPage(loanFigures(doc, r, i))
		if err != nil {
			return err
		}
		if err := b.add(doc.SheetName(i), func(w io.Writer) error { return doc.WriteSchedule(w, i, figs, figure.FontCSS()) }); err != nil {
			return err
		}
	}
	for _, f := range []made{
		{"cover.html", func(w io.Writer) error { return doc.WriteCover(w, figure.FontCSS()) }},
		{"loan.json", func(w io.Writer) error { return report.WriteJSON(w, doc) }},
		{"loan.txt", doc.WriteText},
	} {
		if err := b.add(f.name, f.write); err != nil {
			return err
		}
	}
	if err := b.write(o.out); err != nil {
		return err
	}
	fmt.Fprintf(e.stderr, "wrote %s and %d schedules, %s\n", filepath.Join(o.out, "cover.html"), len(r.Panels), doc.Status)
	return nil
}

// loanFigures are the panel from the back, and where it has figures what it knows beside what is proposed.
func loanFigures(doc *report.Loan, r *loan.Result, i int) []illustrate.Drawn {
	one, p := &r.Panels[i], &doc.Panels[i]
	meta := figure.Meta{Invented: doc.Invented}
	out := []illustrate.Drawn{{Figure: illustrate.Back(figure.Meta{}, one.Assessed)}} // small, without words; its sheet bears the mark
	if p.Terms == nil {
		return out
	}
	f := figure.Range{
		Meta: meta, UsedToPct: p.UsedTo.RHPct, Asked: figure.Span{LowPct: p.Terms.LowRHPct, HighPct: p.Terms.HighRHPct}, AskedWords: "to be kept",
		Unfavourable: figure.Span{LowPct: p.Range.LowRHPct, HighPct: p.Range.HighRHPct},
	}
	f.Nominal, f.LowCause, f.HighCause = f.Unfavourable, illustrate.RangeEnd(p.Range.LowBy), illustrate.RangeEnd(p.Range.HighBy)
	if n := one.Assessed.Range.Nominal; n != nil {
		f.Nominal = figure.Span{LowPct: n.Low.Percent(), HighPct: n.High.Percent()}
		f.LowCause, f.HighCause = illustrate.RangeEnd(n.LowBy), illustrate.RangeEnd(n.HighBy)
	}
	if p.Lived != nil {
		f.Lived, f.LivedWords = figure.Span{LowPct: p.Lived.LowRHPct, HighPct: p.Lived.HighRHPct}, "unharmed, by the panel's file"
	}
	for _, k := range doc.Borrowers {
		if len(k.Months) > 0 {
			f.Records = append(f.Records, figure.RecordStrip{Name: "borrower, " + k.Leg, All: figure.Span{LowPct: k.LowPct, HighPct: k.HighPct},
				Middle: figure.Span{LowPct: k.P7Pct, HighPct: k.P93Pct}})
		}
	}
	return append(out, illustrate.Drawn{Figure: f.Draw()})
}
