package cli

import (
	"context"
	"io"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/illustrate"
	"crossgrain/cmd/internal/report"
	"crossgrain/species"
)

type recordOptions struct {
	common
	recordFlags
	terms, without        []string
	wood, dailyChange     string
	confirm, floor10, png bool
}

func newRecord(e env) *cobra.Command {
	var o recordOptions
	cmd := &cobra.Command{
		Use:   "record FILE...",
		Short: "what a humidity record holds, how it was read, how terms were kept",
		Long: `record reads humidity records as loggers and spreadsheets give them: text of any
common layout, JSON and workbooks; several files become one record. It tells how
they were read, what was set aside and what was assumed, and gives statistics,
the historic band, the largest changes, and how long terms were not kept.
Nothing is filled in and nothing is taken out unless it is asked for.

Terms are written as in an agreement, such as "45..55, 5/24h, 18..22C", or are
the name of a published set.`,
		Example: `  crossgrain record room.csv
  crossgrain record january.xlsx february.xlsx --channel "Gallery 2" --zone Europe/Rome
  crossgrain record room.csv --terms "40..60, 10/24h, 16..25C" --out report`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return badUsage(cmd, "", "name the record, one file or several")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd, e, args) },
	}
	o.bindAll(cmd)
	return cmd
}

func (o *recordOptions) bindAll(cmd *cobra.Command) {
	o.common.bind(cmd, "out")
	o.recordFlags.bind(cmd)
	f := cmd.Flags()
	f.StringVar(&o.format, "format", "text", "`FORM` of the result on stdout: text, json, csv or html")
	f.StringArrayVar(&o.terms, "terms", nil, "`TERMS` to judge it by, as text or by name; may be given several times")
	f.BoolVar(&o.confirm, "confirm-terms", false, "confirm the figures of named terms that are known from memory only")
	f.BoolVar(&o.floor10, "floor", false, "widen the historic band to 10 points to each side where it is narrower")
	f.StringVar(&o.dailyChange, "daily-change", "", "`READING` of a change within a time: range, plus-minus, apart or from-mean")
	f.StringVar(&o.wood, "wood", "", "show the moisture of thin wood of this `NAME` beside it, such as oak")
	f.StringArrayVar(&o.without, "without", nil, "take out `WHAT` looks like a fault: spikes or stuck; may be given twice")
	f.BoolVar(&o.png, "png", false, "with --out, write the figures as PNG too")
}

func (o *recordOptions) run(cmd *cobra.Command, e env, args []string) error {
	if err := o.checkFormat(cmd, "text", "json", "csv", "html"); err != nil {
		return err
	}
	j, err := o.judge(cmd)
	if err != nil {
		return err
	}
	if o.wood != "" {
		if j.wood, err = species.Lookup(o.wood); err != nil {
			return err
		}
	}
	rec, reading, files, err := o.recordFlags.read(cmd, args)
	if err != nil {
		return err
	}
	st, err := j.study(rec)
	if err != nil {
		return err
	}
	doc := st.document(reading, files)
	if err := cmd.Context().Err(); err != nil {
		return err
	}
	return o.give(cmd.Context(), e, &doc, st)
}

// give writes the folder, where one was asked for, and the result.
func (o *recordOptions) give(ctx context.Context, e env, doc *report.RoomRecord, st *study) error {
	var figs []illustrate.Drawn
	if o.out != "" || o.format == "html" {
		figs = recordFigures(doc, st)
	}
	if o.out != "" {
		if err := o.writeFolder(ctx, e, doc, figs); err != nil {
			return err
		}
	}
	if o.format == "html" {
		page, err := illustrate.InPage(figs)
		if err != nil {
			return err
		}
		return doc.WriteHTML(e.stdout, page, figure.FontCSS())
	}
	return o.write(e.stdout, doc)
}

func (o *recordOptions) writeFolder(ctx context.Context, e env, doc *report.RoomRecord, figs []illustrate.Drawn) error {
	return o.writeReport(ctx, e, nil, nil, figs, o.png, doc.WriteHTML,
		made{"record.json", func(w io.Writer) error { return report.WriteJSON(w, doc) }},
		made{"series.csv", doc.WriteCSV}, made{"report.txt", doc.WriteText})
}
