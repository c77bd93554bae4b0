package cli

import (
	"errors"
	"fmt"
	"io"
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
	paperFlags
	cases   int
	issuing bool
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
--issue is given. What has been issued is never written over: a later issue is
written beside it and marks it as superseded. --addressee borrower writes the schedules
alone, without notes, paths and other panels; --addressee insurer writes a sheet for each
panel that keeps an event apart from slow change.

It calculates from descriptions and has not seen the panels. Loan terms are
decided by a structural conservator after examination.`,
		Example: "  crossgrain loan loan.toml\n  crossgrain loan loan.toml --out schedules\n  crossgrain loan loan.toml --out schedules --issue\n  crossgrain loan loan.toml --out schedules --addressee borrower",
		Args:    cobra.ExactArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return o.run(cmd, e, args[0]) },
	}
	o.common.bind(cmd, "out", "format", "seed")
	o.recordFlags.bind(cmd)
	cmd.Flags().IntVar(&o.cases, "cases", casesLoan, "`N` cases drawn for each panel")
	cmd.Flags().BoolVar(&o.issuing, "issue", false, "with --out, the schedules are issued under the number of the loan: number, issue, date and digest are then fixed")
	o.paperFlags.bindTo(cmd)
	return cmd
}

func (o *loanOptions) run(cmd *cobra.Command, e env, name string) error {
	if err := o.checkFormat(cmd, "text", "json"); err != nil {
		return err
	}
	if o.cases < assessment.Fewest || o.cases > mostCases {
		return badUsage(cmd, "", "--cases must lie between %d and %d, got %d", assessment.Fewest, mostCases, o.cases)
	}
	if o.issuing && o.out == "" {
		return badUsage(cmd, "", "--issue needs --out DIR, where the issued schedules are kept")
	}
	p, err := o.paperFlags.draft(cmd, "loan", o.out)
	if err != nil {
		return err
	}
	l, in, files, err := o.read(cmd, name)
	if err != nil {
		return err
	}
	before, err := o.numbered(l, &p)
	if err != nil {
		return err
	}
	p.Inputs, p.Digest = files, report.InputsDigest(files)
	in.Samples = assessment.Samples{Held: o.cases, Seed: uint64(o.seed), Progress: e.progress("")}
	r, err := l.Assess(cmd.Context(), in)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	doc := report.BuildLoan(r, report.LoanMeta{Version: Version(), Seed: o.seed, Paper: p})
	if o.out != "" {
		if err := o.schedules(cmd, e, &doc, r, before); err != nil {
			return err
		}
	}
	if o.format == "json" {
		return report.WriteJSON(e.stdout, &doc)
	}
	return doc.WriteText(e.stdout)
}

// read reads the loan file and every file that it names; their paths are taken from its folder.
func (o *loanOptions) read(cmd *cobra.Command, name string) (*loan.Loan, loan.Inputs, []report.PaperInput, error) {
	in := loan.Inputs{Panels: map[string]*panel.Panel{}, Records: map[string]*record.Record{}}
	var files []report.PaperInput
	load := func(path, as string, most int64) ([]byte, error) {
		src, err := readFile(path, most)
		if err == nil {
			files = append(files, inputOf(as, src))
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

// numbered gives the papers their number, issue and date by the loan file and by what was issued in the folder before.
func (o *loanOptions) numbered(l *loan.Loan, p *report.Paper) ([]earlier, error) {
	number, err := report.PaperNumber(l.Number)
	if err != nil {
		return nil, fmt.Errorf("number of the loan: %w", err)
	}
	p.Number, p.Issue = number, l.Issue
	if !l.Date.IsZero() {
		p.Date = l.Date.Format(time.DateOnly)
	}
	if o.issuing {
		p.Status = report.Issued
	}
	if l.Issue > 1 {
		p.Replaces = &report.PaperIssue{Issue: l.Issue - 1}
	}
	if o.out == "" {
		p.Issue = max(p.Issue, 1)
		return nil, nil
	}
	before, err := earlierIn(o.out, *p)
	if last := lastOf(before); err == nil && last != nil && l.Issue > 0 && l.Issue <= last.Issue {
		return nil, fmt.Errorf("issue %d of loan %s was issued on %s and stays as it is; another issue has issue = %d in the loan file, or no such key",
			last.Issue, number, last.Date, last.Issue+1)
	}
	if err != nil {
		return nil, err
	}
	return o.settle(p, o.out)
}

// schedules writes the papers of the folder.
func (o *loanOptions) schedules(cmd *cobra.Command, e env, doc *report.Loan, r *loan.Result, before []earlier) error {
	b := newBundle(cmd.Context())
	for i := range r.Panels {
		if err := o.panelPapers(b, doc, r, i); err != nil {
			return err
		}
	}
	if o.to == report.ToFile {
		if err := o.filePapers(b, doc); err != nil {
			return err
		}
	}
	return b.hand(e, o.out, before, *doc.Paper)
}

// panelPapers makes what one panel has by itself: its schedule, or what its insurer is told; with the data where that leaves the house.
func (o *loanOptions) panelPapers(b *bundle, doc *report.Loan, r *loan.Result, i int) error {
	if o.to == report.ToInsurer {
		return b.addInsured(doc.Insured(i))
	}
	figs, err := illustrate.InPage(loanFigures(doc, r, i))
	if err != nil {
		return err
	}
	one := doc
	if o.to == report.ToBorrower {
		out := doc.Outgoing(i)
		one, i = &out, 0
	}
	p := one.Sheet(i)
	if err := b.addPaper(p, "html", func(w io.Writer) error { return one.WriteSchedule(w, i, figs, figure.FontCSS()) }); err != nil || o.to == report.ToFile {
		return err
	}
	one.Paper, one.Status = p, p.Status
	return b.addPaper(p, "json", func(w io.Writer) error { return report.WriteJSON(w, one) })
}

// filePapers makes what stays in the file: the covering sheet and the data of all.
func (o *loanOptions) filePapers(b *bundle, doc *report.Loan) error {
	if err := b.addPaper(doc.Paper.For("cover", doc.Inputs), "html", func(w io.Writer) error { return doc.WriteCover(w, figure.FontCSS()) }); err != nil {
		return err
	}
	data := *doc
	data.Paper = doc.Paper.For("loan", doc.Inputs)
	if err := b.addPaper(data.Paper, "json", func(w io.Writer) error { return report.WriteJSON(w, &data) }); err != nil || o.issuing {
		return err
	}
	return b.add("loan.txt", doc.WriteText)
}

// loanFigures are the panel from the front and from the back, small, and where it has figures what it knows beside what is proposed.
func loanFigures(doc *report.Loan, r *loan.Result, i int) []illustrate.Drawn {
	one, p := &r.Panels[i], &doc.Panels[i]
	meta := figure.Meta{Invented: doc.Invented}
	front, back := illustrate.Small(figure.Meta{}, one.Assessed) // without words; the sheet bears the mark
	out := []illustrate.Drawn{{Figure: front}, {Figure: back}}
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
