package cli

import (
	"context"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/illustrate"
	"crossgrain/cmd/internal/report"
	"crossgrain/panel/treatment"
)

// treatOptions are those of assess, with counts of 100 only where they are asked for.
type treatOptions struct{ assessOptions }

func newTreat(e env) *cobra.Command {
	var o treatOptions
	cmd := &cobra.Command{
		Use:   "treat PANEL",
		Short: "what might be done, side by side, doing nothing first",
		Long: `treat reads a panel file with options, tables [option.NAME] that change its parts or
what is around it, and puts the same question to the panel as it is and as each
option would make it: what could give way, movement, warp, what is held back and
what is carried, what gets worse and what gets better, what comes in hours, weeks
and a first year when members let go, room in the frame, and what to look at
afterwards. A file without options is tried with standard ones, those that leave
the panel alone first. Nothing is added up, and no option is put before another.

    [option.slots]
    does = "plane the upper battens and let it slide"
    at_rh_pct = 50
    [option.slots.batten.upper]
    depth_mm = 9
    fixing = "slotted"

    [option.off]
    remove = ["batten.upper"]

The question is asked as with assess. How many of 100 such panels reach a limit is
counted when --cases is given.

It calculates from a description and has not seen the panel. Supports, splits
and loan terms are decided by a structural conservator after examination.`,
		Example: "  crossgrain treat panel.toml --rh 40..60\n  crossgrain treat panel.toml --record room.csv --out treatment\n  crossgrain treat panel.toml --cases 200 --format json",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return o.run(cmd, e, args)
		},
	}
	o.bindAsked(cmd)
	return cmd
}

func (o *treatOptions) run(cmd *cobra.Command, e env, args []string) error {
	paper, err := o.paperFlags.draft(cmd, "treat", o.out)
	if err != nil {
		return err
	}
	p, invented, q, err := o.asked(cmd, e, args)
	if err != nil {
		return err
	}
	if !cmd.Flags().Changed("cases") {
		q.Samples.Held, q.Samples.Course = 0, 0
	}
	r, err := treatment.Weigh(cmd.Context(), p, q)
	if err != nil {
		return err
	}
	doc := report.BuildTreat(r, report.Meta{Version: Version(), Seed: o.seed, Invented: invented, Record: q.Record})
	if o.out != "" {
		if err := rest(&paper, len(args) == 0, append(slices.Clone(args), o.records...)...); err != nil {
			return err
		}
		if err := o.writeFolder(cmd.Context(), e, paper, &doc); err != nil {
			return err
		}
	}
	return o.write(e.stdout, &doc)
}

// writeFolder writes the page, its data, its figure and, where standard options were tried, those as tables of a file.
func (o *treatOptions) writeFolder(ctx context.Context, e env, p report.Paper, data *report.Treat) error {
	before, err := o.settle(&p, o.out)
	if err != nil {
		return err
	}
	out := *data
	doc := &out
	doc.Paper = p.For("report", p.Inputs)
	files := []made{
		{"treat.json", func(w io.Writer) error { return report.WriteJSON(w, doc) }},
		{"options.csv", doc.WriteCSV}, {"report.txt", doc.WriteText},
	}
	if doc.TOML != "" {
		files = append(files, made{"options.toml", func(w io.Writer) error {
			_, err := io.WriteString(w, strings.TrimLeft(doc.TOML, "\n"))
			return err
		}})
	}
	return o.writeReport(ctx, e, doc.Paper, before, []illustrate.Drawn{{Figure: optionsFigure(doc).Draw()}}, o.png, doc.WriteHTML, files...)
}

// optionsFigure draws the parts that work hardest, each with all options; first those that the panel has as it is.
func optionsFigure(doc *report.Treat) figure.Options {
	f := figure.Options{Meta: figure.Meta{Invented: doc.Invented}}
	rows := doc.Hardest()
	slices.SortStableFunc(rows, func(a, b int) int {
		now := doc.Options[0].Modes
		switch {
		case now[a].There == now[b].There:
			return 0
		case now[a].There:
			return -1
		}
		return 1
	})
	for _, i := range rows {
		g := figure.OptionGroup{}
		for _, o := range doc.Options {
			if o.Failed != "" {
				continue
			}
			m := o.Modes[i]
			g.Name = illustrate.ModeName(report.Mode{Mode: m.Mode, Part: m.Part})
			b := figure.Bar{Name: o.Title(), Share: math.NaN(), Low: math.NaN(), High: math.NaN()}
			if m.Share != nil {
				b.Share, b.Low, b.High = *m.Share, *m.ShareLow, *m.ShareHigh
			}
			g.Options = append(g.Options, b)
		}
		f.Groups = append(f.Groups, g)
	}
	return f
}
