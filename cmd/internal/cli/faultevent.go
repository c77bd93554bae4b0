package cli

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/moisture/record"
	"crossgrain/panel/fault"
)

// event makes the event sheet.
func (o *faultOptions) event(cmd *cobra.Command, e env, store *storeRead) error {
	paper, err := o.paper.draft(cmd, "fault_event", o.out)
	if err != nil {
		return err
	}
	rec, reading, _, err := o.recordFlags.read(cmd, o.records)
	if err != nil {
		return err
	}
	remarkOn(cmd, reading)
	whole, part, err := o.span(cmd, rec)
	if err != nil {
		return err
	}
	sources := make([]report.EventSource, len(store.panels))
	err = store.each(cmd.Context(), e, func(ctx context.Context, i int) error {
		s := store.panels[i]
		out := report.EventSource{File: s.file, Place: s.place, Err: s.err}
		if s.err == nil {
			out.Event, out.Err = fault.Follow(ctx, s.panel, whole, part.Times[0])
		}
		sources[i] = out
		return store.lost(out.Err)
	})
	if err != nil {
		return err
	}
	doc := report.BuildEvent(o.head(store), store.name, whole, part, sources)
	if o.out != "" {
		if err := o.eventPapers(cmd.Context(), e, paper, store, &doc); err != nil {
			return err
		}
	}
	return o.answer(e, &doc)
}

// eventPapers writes the event sheet: of all panels for the file, of each by itself where it leaves the house.
func (o *faultOptions) eventPapers(ctx context.Context, e env, p report.Paper, store *storeRead, data *report.FaultEvent) error {
	before, err := o.paper.settle(&p, o.out)
	if err != nil {
		return err
	}
	var files []string
	for _, s := range store.panels {
		if s.err == nil && !store.example {
			files = append(files, s.file)
		}
	}
	if err := rest(&p, store.example, append(files, o.records...)...); err != nil {
		return err
	}
	b, doc := newBundle(ctx), *data
	if o.paper.to == report.ToFile {
		doc.Paper = p.For("event", p.Inputs)
		if err := o.eventFile(b, &doc); err != nil {
			return err
		}
		return b.hand(e, o.out, before, p)
	}
	for i := range doc.Panels {
		sheet := "event"
		if len(doc.Panels) > 1 {
			sheet = fmt.Sprintf("event-%d", i+1)
		}
		doc.Paper = p.For(sheet, ownInputs(p.Inputs, files, doc.Panels[i].File))
		if o.paper.to == report.ToInsurer {
			err = b.addInsured(doc.Insured(i))
		} else {
			one := doc.Outgoing(i)
			err = b.addEvent(&one)
		}
		if err != nil {
			return err
		}
	}
	return b.hand(e, o.out, before, p)
}

// ownInputs leaves out the files of other panels.
func ownInputs(inputs []report.PaperInput, panels []string, own string) []report.PaperInput {
	return slices.DeleteFunc(slices.Clone(inputs), func(in report.PaperInput) bool {
		return in.Name != filepath.ToSlash(own) && slices.ContainsFunc(panels, func(f string) bool { return filepath.ToSlash(f) == in.Name })
	})
}

// eventFile is the event sheet for the file; a draft has the tables too.
func (o *faultOptions) eventFile(b *bundle, doc *report.FaultEvent) error {
	if err := b.addEvent(doc); err != nil || doc.Paper.Status == report.Issued {
		return err
	}
	if err := b.add("event.csv", doc.WriteCSV); err != nil {
		return err
	}
	return b.add("event.txt", doc.WriteText)
}

// addEvent makes one event sheet and its data.
func (b *bundle) addEvent(doc *report.FaultEvent) error {
	if err := b.addPaper(doc.Paper, "html", func(w io.Writer) error { return doc.WriteHTML(w, figure.FontCSS()) }); err != nil {
		return err
	}
	return b.addPaper(doc.Paper, "json", func(w io.Writer) error { return report.WriteJSON(w, doc) })
}

// span takes the days of the event out of the record, and the record up to their end.
func (o *faultOptions) span(cmd *cobra.Command, rec *record.Record) (whole, part *record.Record, err error) {
	n := len(rec.Times)
	from, to := rec.Times[0], rec.Times[n-1].Add(time.Second)
	zone := from.Location()
	if rec.Zone != nil {
		zone = rec.Zone
	}
	if o.from != "" {
		if from, _, err = parseMoment(cmd, "from", o.from, zone); err != nil {
			return nil, nil, err
		}
	}
	if o.to != "" {
		var day bool
		if to, day, err = parseMoment(cmd, "to", o.to, zone); err != nil {
			return nil, nil, err
		}
		if day {
			to = to.AddDate(0, 0, 1)
		}
	}
	part = rec.Between(from, to)
	if len(part.Times) < 2 {
		return nil, nil, badUsage(cmd, fmt.Sprintf("it runs from %s to %s", rec.Civil(0).Format("2006-01-02 15:04"), rec.Civil(n-1).Format("2006-01-02 15:04")),
			"the record has fewer than 2 readings between --from and --to")
	}
	return rec.Between(rec.Times[0], to), part, nil
}

// parseMoment reads a day or a moment on the clock of the record.
func parseMoment(cmd *cobra.Command, flag, s string, zone *time.Location) (t time.Time, day bool, err error) {
	s = strings.TrimSpace(s)
	for _, form := range []string{"2006-01-02 15:04", "2006-01-02T15:04", time.DateOnly} {
		if t, err := time.ParseInLocation(form, s, zone); err == nil {
			return t, form == time.DateOnly, nil
		}
	}
	return t, false, badUsage(cmd, "", "--%s must be a day or a time such as 2024-01-14 or \"2024-01-14 22:00\", got %q", flag, s)
}
