package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/disk"
	"crossgrain/cmd/internal/example"
	"crossgrain/cmd/internal/illustrate"
	"crossgrain/cmd/internal/report"
	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

type assessOptions struct {
	common
	recordFlags
	doubtFlags
	paperFlags
	png      bool
	scenario string
}

func newAssess(e env) *cobra.Command {
	var o assessOptions
	cmd := &cobra.Command{
		Use:   "assess [PANEL]",
		Short: "what moves, what is near its limit, how far the humidity may go",
		Long: `assess reads a panel file and tells, over a range of humidity or a record, how
the panel moves and warps, what holds it back, which part gives way first, and
the range in which no limit of the calculation is reached. Each humidity of a
range is taken as held for a season. A record is followed step by step, with the
moisture through the thickness of each board, creep and crushing; with --quick
only its running means are taken. Without PANEL the built-in invented example is
used. How many of 100 such panels would reach a limit is counted on many cases, in
which everything that is not known is drawn within its spread; Ctrl-C ends that
early and keeps what is done.

It calculates from a description and has not seen the panel. Supports, splits
and loan terms are decided by a structural conservator after examination.`,
		Example: "  crossgrain assess\n  crossgrain assess panel.toml --rh 40..60 --out report\n  crossgrain assess panel.toml --record room.csv --format json\n  crossgrain assess panel.toml --scenario \"step to 30 % RH, return after 3 days\"",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return o.run(cmd, e, args)
		},
	}
	o.bindAsked(cmd, "fail-on-limit")
	o.paperFlags.bindTo(cmd)
	return cmd
}

func (o *assessOptions) run(cmd *cobra.Command, e env, args []string) error {
	paper, err := o.paperFlags.draft(cmd, "assess", o.out)
	if err != nil {
		return err
	}
	p, invented, q, err := o.asked(cmd, e, args)
	if err != nil {
		return err
	}
	r, err := assessment.Assess(cmd.Context(), p, q)
	if err != nil {
		return err
	}
	doc := report.Build(r, report.Meta{Version: Version(), Seed: o.seed, Invented: invented, Record: q.Record})
	if o.out != "" {
		if err := rest(&paper, len(args) == 0, append(slices.Clone(args), o.records...)...); err != nil {
			return err
		}
		if err := o.writeFolder(cmd.Context(), e, paper, &doc, r); err != nil {
			return err
		}
	}
	if err := o.write(e.stdout, &doc); err != nil {
		return err
	}
	if o.failOnLimit && doc.LimitReached() {
		return errLimit
	}
	return nil
}

// asked reads what is asked: the panel, whether it is invented, and the question.
func (o *assessOptions) asked(cmd *cobra.Command, e env, args []string) (p *panel.Panel, invented bool, q assessment.Question, err error) {
	if err = o.checkFormat(cmd, "text", "json", "csv"); err != nil {
		return
	}
	if q, err = o.question(cmd); err != nil {
		return
	}
	if err = o.doubtFlags.ask(cmd, e, o.seed, &q); err != nil {
		return
	}
	if p, invented, err = readPanel(args); err != nil || o.scenario == "" {
		return
	}
	err = o.making(cmd, &q, p)
	return
}

// bindAsked gives a command the flags of the question and of its papers.
func (o *assessOptions) bindAsked(cmd *cobra.Command, more ...string) {
	o.common.bind(cmd, append([]string{"out", "format", "rh", "temp", "record", "seed", "quick", "fine"}, more...)...)
	o.recordFlags.bind(cmd)
	o.doubtFlags.bind(cmd)
	cmd.Flags().StringVar(&o.scenario, "scenario", "", "made climate `TEXT` instead of a record, such as \"step to 35 % RH, hold 60 days\"")
	o.paperFlags.bind(cmd, false)
	cmd.Flags().BoolVar(&o.png, "png", false, "with --out, write the figures as PNG too")
}

// question is the range or record that is asked about.
func (o *assessOptions) question(cmd *cobra.Command) (assessment.Question, error) {
	q := assessment.Question{Setting: response.Coarse}
	switch {
	case o.quick && o.fine:
		return q, badUsage(cmd, "", "give either --quick or --fine")
	case o.quick:
		q.Setting = response.Quick
	case o.fine:
		q.Setting = response.Fine
	}
	if given(o.rh)+min(1, len(o.records))+given(o.scenario) > 1 {
		return q, badUsage(cmd, "", "give either --rh or --record or --scenario, one of them")
	}
	if cmd.Flags().Changed("temp") {
		if !(o.temp >= -20 && o.temp <= 60) {
			return q, badUsage(cmd, "", "--temp must lie between -20 and 60 °C, got %g", o.temp)
		}
		t := moisture.Celsius(o.temp)
		q.Temperature = &t
	}
	if o.rh != "" {
		low, high, err := parseRange(cmd, "rh", o.rh)
		if err != nil {
			return q, err
		}
		q.Low, q.High = moisture.Percent(low), moisture.Percent(high)
	}
	if len(o.records) > 0 {
		rec, reading, _, err := o.recordFlags.read(cmd, o.records)
		if err != nil {
			return q, err
		}
		remarkOn(cmd, reading)
		q.Record = rec
	}
	return q, nil
}

// making makes the climate of a scenario.
func (o *assessOptions) making(cmd *cobra.Command, q *assessment.Question, p *panel.Panel) error {
	m, err := parseScenario(cmd, o.scenario)
	if err != nil {
		return err
	}
	in, err := q.Panel(p)
	if err != nil {
		return err
	}
	return m.make(cmd, q, in, o.scenario)
}

// given counts a flag that has a value.
func given(s string) int {
	if s == "" {
		return 0
	}
	return 1
}

// The largest files that are read, in bytes.
const (
	maxPanel  = 1 << 20
	maxRecord = 200 << 20
)

// readPanel reads the panel file, or the built-in invented example when none is named.
func readPanel(args []string) (p *panel.Panel, invented bool, err error) {
	name, src := "invented-example.toml", example.Panel()
	if len(args) == 1 {
		name = args[0]
		if src, err = readFile(name, maxPanel); err != nil {
			return nil, false, err
		}
	}
	p, problems := panel.Read(name, src)
	if err := problems.Err(); err != nil {
		return nil, false, &problemsError{err: err, n: len(problems)}
	}
	return p, p.Invented(), nil
}

// problemsError is the complete list of what is wrong in a file.
type problemsError struct {
	err error
	n   int
}

func (e *problemsError) Unwrap() error { return e.err }

func (e *problemsError) Error() string {
	if e.n == 1 {
		return fmt.Sprintf("1 problem, nothing was computed\n%v", e.err)
	}
	return fmt.Sprintf("%d problems, nothing was computed\n%v", e.n, e.err)
}

// readFile reads a whole file of at most max bytes.
func readFile(name string, max int64) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, disk.Cause(err))
	}
	defer f.Close()
	if st, err := f.Stat(); err == nil && st.IsDir() {
		return nil, fmt.Errorf("cannot read %s: it is a folder, not a file", name)
	}
	src, err := io.ReadAll(io.LimitReader(f, max+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, disk.Cause(err))
	}
	if int64(len(src)) > max {
		return nil, fmt.Errorf("%s is larger than %d MB; it cannot be such a file", name, max>>20)
	}
	return src, nil
}

// writeFolder writes the page, its data and its figures; what leaves the house has the page and its data alone.
func (o *assessOptions) writeFolder(ctx context.Context, e env, p report.Paper, doc *report.Assess, r *assessment.Result) error {
	before, err := o.settle(&p, o.out)
	if err != nil {
		return err
	}
	p.Sheet = "report"
	out := *doc
	out.Paper = p.For("report", p.Inputs)
	if o.to == report.ToInsurer {
		b := newBundle(ctx)
		if err := b.addInsured(out.Insured()); err != nil {
			return err
		}
		return b.hand(e, o.out, before, p)
	}
	if o.to == report.ToBorrower {
		out = out.Outgoing()
	}
	var figs []illustrate.Drawn
	if !o.quick {
		figs = illustrate.Assessment(&out, r)
	}
	return o.writeReport(ctx, e, out.Paper, before, figs, o.png, out.WriteHTML,
		made{"assessment.json", func(w io.Writer) error { return report.WriteJSON(w, &out) }},
		made{"modes.csv", out.WriteCSV}, made{"report.txt", out.WriteText})
}
