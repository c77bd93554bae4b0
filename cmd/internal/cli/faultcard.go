package cli

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/moisture"
	"crossgrain/moisture/record/logger"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/fault"
	"crossgrain/panel/response"
)

type faultOptions struct {
	common
	recordFlags
	paper              paperFlags
	caseText, from, to string
	season             string
	home               []string
}

func newFault(e env) *cobra.Command {
	var o faultOptions
	cmd := &cobra.Command{
		Use:   "fault [PANEL...]",
		Short: "cards and door sheets for when the climate fails: wait, call, act",
		Long: `fault makes beforehand what is wanted when heating or humidifiers fail: a card for
each panel and a door sheet for a store. By the reading of a logger and the hours
it has stood they say WAIT, CALL or ACT, always by the quick end of what is not
known: a thickness that nobody measured counts as thin. PANEL is a panel file,
several, or a folder with panel files, in which the folders below it are places.
A closed case, by its panel file or by --case, has one card for the logger inside
it and one for that of the room; several panels with --case are taken as in one
crate, which has one card for all of them. Without PANEL the built-in invented example is
used. --out writes one page that prints as A5 cards and an A4 door sheet.

Hours count from the humidity that the wood is used to, or from the driest and the
dampest season where these are known: by --home, a record of at least a year of the
room it hangs in, or by --season.

With --record, afterwards, it makes the event sheet: what each panel did in that
record by calculation and where to look. It names no causes. With --issue it is
issued and stays as it is; --addressee borrower or insurer writes a sheet for each
panel by itself, without places, notes and paths.

It calculates from a description and has not seen the panel. A structural
conservator decides after examination.`,
		Example: "  crossgrain fault panel.toml\n  crossgrain fault store-2 --out fault\n  crossgrain fault panel.toml --case \"60 litres, 0.5 changes a day, buffer 2 kg\"\n  crossgrain fault store-2 --record room.csv --from 2024-01-14 --to 2024-01-17",
		RunE: func(cmd *cobra.Command, args []string) error {
			return o.run(cmd, e, args)
		},
	}
	o.common.bind(cmd, "out", "format", "record")
	o.recordFlags.bind(cmd)
	o.paper.bind(cmd, true)
	f := cmd.Flags()
	f.Lookup("record").Usage = "record `FILE` of what happened, for the event sheet; several make one record"
	f.StringVar(&o.caseText, "case", "", "closed case or crate that holds all the panels, `TEXT` such as \"60 litres, 0.5 changes a day, buffer 2 kg\"")
	f.StringArrayVar(&o.home, "home", nil, "record `FILE` of the room they hang in, for the seasons that hours count from; several make one record")
	f.StringVar(&o.season, "season", "", "the year's driest and dampest humidity in the wood instead, a range `LOW..HIGH` in % RH")
	f.StringVar(&o.from, "from", "", "`TIME` at which the event begins, such as 2024-01-14 or \"2024-01-14 22:00\"")
	f.StringVar(&o.to, "to", "", "`TIME` at which it ends; a day counts to its end")
	return cmd
}

func (o *faultOptions) run(cmd *cobra.Command, e env, args []string) error {
	if err := o.checkFormat(cmd, "text", "json", "csv"); err != nil {
		return err
	}
	switch {
	case len(o.records) > 0 && o.caseText != "":
		return badUsage(cmd, "make the event sheet from the record of the logger inside the case", "give either --case or --record")
	case len(o.records) > 0 && (len(o.home) > 0 || o.season != ""):
		return badUsage(cmd, "what the record holds before --from leads up to the event", "--home and --season are for cards; give either these or --record")
	case len(o.home) > 0 && o.season != "":
		return badUsage(cmd, "", "give either --home or --season")
	case len(o.records) == 0 && o.from+o.to != "":
		return badUsage(cmd, "", "--from and --to choose a part of the record of --record, and none is given")
	case len(o.records) == 0 && (cmd.Flags().Changed("issue") || o.paper.date != "" || o.paper.to != report.ToFile):
		return badUsage(cmd, "", "--issue, --date and --addressee are about the event sheet of --record, and no record is given")
	}
	store, err := readStore(args)
	if err != nil {
		return err
	}
	for _, s := range store.panels {
		if s.err != nil {
			cmd.PrintErrf("remark: %s could not be read and is listed as such: %v\n", s.file, s.err)
		}
	}
	for _, twice := range store.twice() {
		cmd.PrintErrln("remark:", twice)
	}
	if len(o.records) > 0 {
		return o.event(cmd, e, store)
	}
	return o.cards(cmd, e, store)
}

// paper is a document of the command.
type paper interface {
	WriteText(io.Writer) error
	WriteCSV(io.Writer) error
	WriteHTML(io.Writer, string) error
}

// give writes the folder and the answer.
func (o *faultOptions) give(ctx context.Context, e env, doc paper) error {
	if o.out != "" {
		b := newBundle(ctx)
		for _, m := range []made{
			{"fault.html", func(w io.Writer) error { return doc.WriteHTML(w, figure.FontCSS()) }},
			{"fault.json", func(w io.Writer) error { return report.WriteJSON(w, doc) }}, {"fault.csv", doc.WriteCSV}, {"fault.txt", doc.WriteText},
		} {
			if err := b.add(m.name, m.write); err != nil {
				return err
			}
		}
		if err := b.write(o.out); err != nil {
			return err
		}
		fmt.Fprintln(e.stderr, "wrote", filepath.Join(o.out, "fault.html"))
	}
	return o.answer(e, doc)
}

// answer writes the document in the form that was asked for.
func (o *faultOptions) answer(e env, doc paper) error {
	switch o.format {
	case "json":
		return report.WriteJSON(e.stdout, doc)
	case "csv":
		return doc.WriteCSV(e.stdout)
	}
	return doc.WriteText(e.stdout)
}

// cards makes cards and door sheet.
func (o *faultOptions) cards(cmd *cobra.Command, e env, store *storeRead) error {
	flag, err := parseCase(cmd, o.caseText)
	if err != nil {
		return err
	}
	ask, err := o.asked(cmd)
	if err != nil {
		return err
	}
	var crate *fault.Crate
	if flag != nil && store.many {
		crate = fault.NewCrate(flag, store.readable())
	}
	sources := make([]report.FaultSource, len(store.panels))
	err = store.each(cmd.Context(), e, func(ctx context.Context, i int) error {
		s := store.panels[i]
		out := report.FaultSource{File: s.file, Place: s.place, Panel: s.panel, Err: s.err}
		if s.err == nil {
			q := ask
			in, why := caseOf(s.panel, flag)
			if in != nil {
				q.Case = in
				out.Case = &report.FaultCase{VolumeL: in.Volume, ChangesPerDay: in.Exchange, BufferKg: in.Buffer.Mass}
			}
			if crate != nil {
				q.Case = crate
			}
			store.panels[i].remark = why
			out.Cards, out.Err = fault.Cards(ctx, s.panel, q)
		}
		sources[i] = out
		return store.lost(out.Err)
	})
	if err != nil {
		return err
	}
	for i, s := range store.panels {
		if s.remark != "" {
			cmd.PrintErrf("remark: %s: %s\n", s.file, s.remark)
		}
		if err := sources[i].Err; err != nil && s.err == nil {
			cmd.PrintErrf("remark: %s could not be worked out and is listed as such: %v\n", s.file, err)
		}
	}
	if crate != nil {
		doc := report.BuildCrate(o.head(store), store.name, sources)
		return o.give(cmd.Context(), e, &doc)
	}
	doc := report.BuildFault(o.head(store), store.name, store.many, sources)
	return o.give(cmd.Context(), e, &doc)
}

// asked is the question without a panel: the setting, and the seasons that hours count from.
func (o *faultOptions) asked(cmd *cobra.Command) (q assessment.Question, err error) {
	q.Setting = response.Coarse
	if o.season != "" {
		low, high, err := parseRange(cmd, "season", o.season)
		q.Season = [2]moisture.RH{moisture.Percent(low), moisture.Percent(high)}
		return q, err
	}
	if len(o.home) > 0 {
		var reading *logger.Reading
		if q.Home, reading, _, err = o.recordFlags.read(cmd, o.home); err == nil {
			remarkOn(cmd, reading)
		}
	}
	return q, err
}

func (o *faultOptions) head(store *storeRead) report.Head {
	return report.Head{Version: Version(), PanelDigest: store.digest(), Setting: response.Coarse.String()}
}

// readable are the panels that could be read.
func (s *storeRead) readable() (out []*panel.Panel) {
	for _, p := range s.panels {
		if p.err == nil {
			out = append(out, p.panel)
		}
	}
	return out
}

// each works on all panels at once, as many as there are processors, and stops at the first error.
func (s *storeRead) each(ctx context.Context, e env, work func(context.Context, int) error) error {
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	var wg sync.WaitGroup
	var next, done atomic.Int64
	var mu sync.Mutex
	tell := watcher(e)
	for range min(runtime.GOMAXPROCS(0), len(s.panels)) {
		wg.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= len(s.panels) {
					return
				}
				if err := work(ctx, i); err != nil {
					stop(err)
					return
				}
				n := int(done.Add(1))
				mu.Lock()
				tell("panels", n, len(s.panels))
				mu.Unlock()
			}
		})
	}
	wg.Wait()
	return context.Cause(ctx)
}

// lost is an error that ends the command: that of a panel by itself, and being stopped.
func (s *storeRead) lost(err error) error {
	if err != nil && (!s.many || isStopped(err)) {
		return err
	}
	return nil
}

// digest is that of the panel, or one over those of all panels in their order.
func (s *storeRead) digest() string {
	h := sha256.New()
	for _, p := range s.panels {
		if p.panel == nil {
			continue
		}
		if len(s.panels) == 1 {
			return p.panel.Digest()
		}
		io.WriteString(h, p.panel.Digest())
	}
	return hex.EncodeToString(h.Sum(nil))
}
