package cli

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/disk"
	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/cmd/internal/store"
	"crossgrain/moisture/record/logger"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/intake"
	"crossgrain/panel/survey"
)

type surveyOptions struct {
	common
	recordFlags
	stores, keep string
	cases        int
	fresh        bool
}

// casesSurvey is how many cases are drawn for each panel of a survey.
const casesSurvey = 200

func newSurvey(e env) *cobra.Command {
	var o surveyOptions
	cmd := &cobra.Command{
		Use:   "survey DIR|PANEL|LIST... --stores STORES",
		Short: "many panels and several stores: which to look at first, and where each would stand best",
		Long: `survey reads panel files, folders of them, or lists of panels (CSV, .xlsx) as intake
reads them, and a list of stores with their
records or bands of humidity, and puts each panel into one of four groups: look at
first, next, can wait, cannot tell yet; what is known of it stands beside that. It
tells how many of 100 such panels reach a limit in each store, which places would be
used better by which panels, how many panels need a better room, and what to measure
with one day. A panel that fails is told, and the others go on. Where a panel stands
is told by the list of stores, else by its own file (store, place).

What was worked out is kept in the file of --keep, with --out in results.db of that
folder, as soon as it is there: after a stop, or when panels or stores have changed,
only what is new is worked out.

    [store.north]
    name = "North store"
    record = "north.csv"
    places = 40

    [store.planned]
    low_rh_pct = 45
    high_rh_pct = 55
    places = 12

    [rack.N1]
    store = "north"
    panels = ["1923.10", "1931.4"]

    [stay]
    panels = ["1931.4"]

    [together.wings]
    panels = ["1940.1", "1940.2"]

It calculates from descriptions and has not seen the panels. Supports, splits
and loan terms are decided by a structural conservator after examination.`,
		Example: "  crossgrain survey panels --stores stores.toml\n  crossgrain survey panels --stores stores.toml --out overview\n  crossgrain survey a.toml b.toml --stores stores.toml --format csv",
		Args:    cobra.MinimumNArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return o.run(cmd, e, args) },
	}
	o.common.bind(cmd, "out", "format", "seed")
	o.recordFlags.bind(cmd)
	cmd.Flags().StringVar(&o.stores, "stores", "", "list of stores, racks and what is kept together, `FILE`")
	cmd.Flags().IntVar(&o.cases, "cases", casesSurvey, "`N` cases drawn for each panel")
	cmd.Flags().StringVar(&o.keep, "keep", "", "`FILE` in which results are kept for the next time; with --out it is results.db in that folder")
	cmd.Flags().BoolVar(&o.fresh, "fresh", false, "work everything out anew, and keep nothing")
	return cmd
}

func (o *surveyOptions) run(cmd *cobra.Command, e env, args []string) error {
	if err := o.checkFormat(cmd, "text", "json", "csv"); err != nil {
		return err
	}
	if o.cases < assessment.Fewest || o.cases > mostCases {
		return badUsage(cmd, "", "--cases must lie between %d and %d, got %d", assessment.Fewest, mostCases, o.cases)
	}
	if o.stores == "" {
		return badUsage(cmd, "crossgrain survey --help shows one", "--stores FILE is missing: the list of stores with their records or bands")
	}
	sum := sha256.New()
	stores, err := o.readStores(cmd, sum)
	if err != nil {
		return err
	}
	panels, invented, err := o.readPanels(cmd, args, sum)
	if err != nil {
		return err
	}
	ask := survey.Options{Samples: o.cases, Seed: uint64(o.seed), Version: build()}
	if kept := o.keptIn(); kept != "" {
		s, err := store.Open(kept)
		if err != nil {
			return err
		}
		defer s.Close()
		ask.Keeper = s
	}
	if tell := e.progress(""); tell != nil {
		ask.Progress = func(done, of int) { tell("panels", done, of) }
	}
	r, err := stores.Survey(cmd.Context(), panels, ask)
	if err != nil {
		return err
	}
	if ask.Keeper != nil {
		cmd.PrintErrf("%d results worked out, %d taken from %s\n", r.Worked, r.Taken, o.keptIn())
	}
	if r.Unkept != nil {
		cmd.PrintErrf("remark: some results could not be kept: %v\n", r.Unkept)
	}
	doc := report.BuildSurvey(r, report.Meta{Version: Version(), Seed: o.seed, Invented: invented}, hex.EncodeToString(sum.Sum(nil)))
	if o.out != "" {
		if err := o.writeOverview(cmd, e, &doc); err != nil {
			return err
		}
	}
	switch o.format {
	case "json":
		return report.WriteJSON(e.stdout, &doc)
	case "csv":
		return doc.WriteCSV(e.stdout)
	}
	return doc.WriteText(e.stdout)
}

// keptIn is the file in which results are kept; "" keeps none.
func (o *surveyOptions) keptIn() string {
	switch {
	case o.fresh:
		return ""
	case o.keep == "" && o.out != "":
		return filepath.Join(o.out, "results.db")
	}
	return o.keep
}

// readStores reads the list and the records that it names, from its folder.
func (o *surveyOptions) readStores(cmd *cobra.Command, sum hash.Hash) (*survey.Stores, error) {
	src, err := readFile(o.stores, survey.MaxFile+1)
	if err != nil {
		return nil, err
	}
	s, problems := survey.Read(o.stores, src)
	if err := problems.Err(); err != nil {
		return nil, &problemsError{err: err, n: len(problems)}
	}
	sum.Write(src)
	options, err := o.options(cmd)
	if err != nil {
		return nil, err
	}
	var wrong []error
	for i := range s.List {
		f := s.List[i].File
		if f == "" {
			continue
		}
		path := filepath.FromSlash(f)
		if !filepath.IsAbs(path) {
			path = filepath.Join(filepath.Dir(o.stores), path)
		}
		src, err := readFile(path, maxRecord)
		if err == nil {
			var reading *logger.Reading
			if s.List[i].Record, reading, err = logger.Read([]logger.File{{Name: f, Data: src}}, options); err == nil {
				remarkOn(cmd, reading)
				sum.Write(src)
			}
		}
		if err != nil {
			err = fmt.Errorf("store %s: %w", s.List[i].Name, err)
		}
		wrong = append(wrong, err)
	}
	if err := errors.Join(wrong...); err != nil {
		return nil, fmt.Errorf("records that %s names cannot be used; nothing was computed\n%w", o.stores, err)
	}
	return s, nil
}

// readPanels reads panel files and the panel files of folders, sorted by name; one that cannot be read says so. The list of stores
// itself is left out.
func (o *surveyOptions) readPanels(cmd *cobra.Command, args []string, sum hash.Hash) (out []survey.Described, invented bool, err error) {
	var files []string
	for _, a := range args {
		if st, err := os.Stat(a); err != nil || !st.IsDir() {
			files = append(files, a)
			continue
		}
		entries, err := os.ReadDir(a)
		if err != nil {
			return nil, false, fmt.Errorf("cannot read the folder %s: %w", a, disk.Cause(err))
		}
		for _, f := range entries {
			if path := filepath.Join(a, f.Name()); !f.IsDir() && strings.EqualFold(filepath.Ext(path), ".toml") && !o.isStores(path) {
				files = append(files, path)
			}
		}
	}
	for i, f := range files {
		if slices.Contains(files[:i], f) {
			cmd.PrintErrf("remark: %s is named twice and read once\n", f)
			continue
		}
		src, err := readFile(f, maxList)
		if err == nil {
			sum.Write(src)
		}
		if isListFile(f) {
			rows, err2 := listed(cmd, f, src, err)
			if err2 != nil {
				return nil, false, err2
			}
			out = append(out, rows...)
			continue
		}
		d := survey.Described{File: f, Name: strings.TrimSuffix(filepath.Base(f), filepath.Ext(f))}
		if err == nil {
			p, problems := panel.Read(f, src)
			if err = problems.Err(); err == nil {
				d.Panel = p
			}
		}
		if err != nil {
			d.Failed = err.Error()
			cmd.PrintErrf("remark: left out: %v\n", err)
		}
		out = append(out, d)
	}
	for _, d := range out {
		invented = invented || d.Panel != nil && d.Panel.Invented()
	}
	slices.SortStableFunc(out, byPlace)
	if len(out) == 0 {
		return nil, false, fmt.Errorf("no panel files (*.toml) and no lists in %s", strings.Join(args, ", "))
	}
	return out, invented, nil
}

// maxList is the largest list of panels that is read, in bytes.
const maxList = 64 << 20

// isListFile says whether a file is a list of panels by its name.
func isListFile(name string) bool {
	return slices.Contains([]string{".csv", ".tsv", ".txt", ".xlsx"}, strings.ToLower(filepath.Ext(name)))
}

// listed reads a list of panels as the command intake does, with the columns that it remembers beside it. A row that makes no panel
// says so.
func listed(cmd *cobra.Command, name string, src []byte, err error) ([]survey.Described, error) {
	if err != nil {
		return nil, err
	}
	memory, err := readMemory(filepath.Dir(name))
	if err != nil {
		return nil, err
	}
	l, err := intake.Read(name, src, intake.Options{Columns: memory.Columns})
	if err != nil {
		return nil, err
	}
	var out []survey.Described
	for _, r := range l.Rows {
		if r.Aside != "" {
			continue
		}
		d := survey.Described{File: fmt.Sprintf("%s, row %d", name, r.Line), Name: r.Accession, Panel: r.Panel}
		if d.Name == "" {
			d.Name = fmt.Sprintf("row %d", r.Line)
		}
		if d.Panel == nil {
			d.Failed = fmt.Sprintf("row %d needs an answer first", r.Line)
			if len(r.Questions) > 0 {
				d.Failed = report.IntakeWords(r.Questions[0])
			}
			cmd.PrintErrf("remark: left out: %s: %s\n", d.File, d.Failed)
		}
		out = append(out, d)
	}
	return out, nil
}

// byPlace orders panels by what their files say of store and place.
func byPlace(a, b survey.Described) int {
	place := func(d survey.Described, key string) string {
		if d.Panel == nil {
			return ""
		}
		return d.Panel.Text(key)
	}
	for _, key := range []string{"panel.store", "panel.place"} {
		if c := inOrder(place(a, key), place(b, key)); c != 0 {
			return c
		}
	}
	return 0
}

// isStores says whether a path is the list of stores.
func (o *surveyOptions) isStores(path string) bool {
	a, err := os.Stat(path)
	b, err2 := os.Stat(o.stores)
	return err == nil && err2 == nil && os.SameFile(a, b)
}

// writeOverview writes the folder: the page, the tables and the data.
func (o *surveyOptions) writeOverview(cmd *cobra.Command, e env, doc *report.Survey) error {
	b := newBundle(cmd.Context())
	for _, f := range []made{
		{"survey.html", func(w io.Writer) error { return doc.WriteHTML(w, figure.FontCSS()) }},
		{"survey.json", func(w io.Writer) error { return report.WriteJSON(w, doc) }},
		{"survey.csv", doc.WriteCSV}, {"survey.txt", doc.WriteText},
	} {
		if err := b.add(f.name, f.write); err != nil {
			return err
		}
	}
	if err := b.write(o.out); err != nil {
		return err
	}
	fmt.Fprintf(e.stderr, "wrote %s with %d panels\n", filepath.Join(o.out, "survey.html"), len(doc.Panels))
	return nil
}
