package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/cmd/internal/disk"
	"crossgrain/cmd/internal/report"
	"crossgrain/panel/intake"
	"crossgrain/tables/sheet"
)

// memoryFile holds what is remembered of a list, in the folder of its panel files.
const memoryFile = "intake.map"

// intakeOptions are the flags of intake.
type intakeOptions struct {
	common
	columns                        []string
	sheet                          string
	write, overwrite, numbersRight bool
}

func newIntake(e env) *cobra.Command {
	var o intakeOptions
	cmd := &cobra.Command{
		Use:   "intake LIST DIR",
		Short: "a spreadsheet of panels becomes panel files and a list of questions",
		Long: `intake reads a list of panels, CSV or .xlsx, shows how it understood the columns
and what it has to ask, and writes nothing. With --write it writes one panel file
for each panel to the folder DIR, and the list with a column of questions, sorted
by store and place, to be filled in and read again. How the columns were read is
remembered in DIR/intake.map. A panel file that somebody has changed is left as
it is, and so is one from which the list would take something away.`,
		Example: "  crossgrain intake collection.xlsx panels\n  crossgrain intake collection.csv panels --column \"Maße=size cm\" --write\n  crossgrain intake panels/questions.csv panels --write",
		Args:    cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 2 {
				return badUsage(cmd, "as in crossgrain intake collection.csv panels", "name the list and the folder for its panel files")
			}
			if err := o.checkFormat(cmd, "text", "json", "csv"); err != nil {
				return err
			}
			if o.overwrite && !o.write {
				return badUsage(cmd, "", "--overwrite needs --write")
			}
			return o.run(cmd, e, args[0], args[1])
		},
	}
	o.bind(cmd, "format")
	f := cmd.Flags()
	f.BoolVar(&o.write, "write", false, "write the panel files and the list with its questions")
	f.BoolVar(&o.overwrite, "overwrite", false, "replace files that differ from the list although somebody has changed them")
	f.StringArrayVar(&o.columns, "column", nil, "`HEADING=FIELD` of a column that is not known by its name, or with a unit, \"Höhe=height cm\"; =note keeps it as a note")
	f.StringVar(&o.sheet, "sheet", "", "the `SHEET` of a workbook that holds several lists")
	f.BoolVar(&o.numbersRight, "numbers-right", false, "numbers that look like dates or have lost a zero are right as they stand")
	return cmd
}

func (o *intakeOptions) run(cmd *cobra.Command, e env, list, dir string) error {
	data, err := os.ReadFile(list)
	if err != nil {
		return fmt.Errorf("cannot read %s: %w", list, disk.Cause(err))
	}
	memory, err := readMemory(dir)
	if err != nil {
		return err
	}
	named := maps.Clone(memory.Columns)
	if named == nil {
		named = map[string]string{}
	}
	for _, c := range o.columns {
		i := strings.LastIndexByte(c, '=')
		if i < 1 {
			return badUsage(cmd, "as in --column \"Maße=size cm\"", "--column must be HEADING=FIELD, got %q", c)
		}
		if _, _, err := intake.ParseColumn(c[i+1:]); err != nil {
			return badUsage(cmd, "", "--column %q: %s", c, err)
		}
		named[c[:i]] = c[i+1:]
	}
	l, err := intake.Read(list, data, intake.Options{Columns: named, Sheet: o.sheet, NumbersRight: o.numbersRight})
	if err != nil {
		return err
	}
	t := &taking{list: l, dir: dir, memory: memory, overwrite: o.overwrite}
	if err := t.compare(); err != nil {
		return err
	}
	t.remarks(e)
	doc := t.document(list)
	doc.DryRun = !o.write
	if o.write {
		n, err := t.write(cmd.Context(), list, doc.Back)
		if err != nil {
			return err
		}
		doc.Written = n
		fmt.Fprintf(e.stderr, "wrote %d panel files in %s; the questions are in %s\n", n, dir, filepath.Join(dir, t.questions()))
	}
	return o.common.write(e.stdout, doc)
}

// readMemory reads what is remembered in a folder; nothing where there is none.
func readMemory(dir string) (intake.Memory, error) {
	path := filepath.Join(dir, memoryFile)
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return intake.Memory{}, nil
	}
	if err != nil {
		return intake.Memory{}, fmt.Errorf("cannot read %s: %w", path, disk.Cause(err))
	}
	return intake.ReadMemory(path, data)
}

// taking is one list on its way into one folder.
type taking struct {
	list      *intake.List
	dir       string
	memory    intake.Memory
	overwrite bool
	states    []intake.State // by row; "" for rows without a file
}

// questions is the name of the list with its questions: a workbook for a workbook.
func (t *taking) questions() string {
	if t.list.Delimiter == 0 {
		return "questions.xlsx"
	}
	return "questions.csv"
}

// compare looks at the files in the folder and asks about those that differ.
func (t *taking) compare() error {
	given := map[string]bool{}
	t.states = make([]intake.State, len(t.list.Rows))
	for i := range t.list.Rows {
		r := &t.list.Rows[i]
		if r.File == "" {
			continue
		}
		given[r.File] = true
		old, err := os.ReadFile(filepath.Join(t.dir, r.File))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot read %s: %w", filepath.Join(t.dir, r.File), disk.Cause(err))
		}
		state, diff := intake.Compare(r.Text, old, t.memory.Written[r.File])
		t.states[i] = state
		id := map[intake.State]string{intake.ByHand: intake.FileChanged, intake.Loses: intake.FileLoses}[state]
		if id != "" && !t.overwrite {
			r.Questions = append(r.Questions, intake.Question{ID: id, Line: r.Line, Accession: r.Accession, Store: r.Value(intake.Store), Place: r.Value(intake.Place),
				Cell: r.File, Detail: strings.Join(diff, "; ")})
		}
	}
	for _, f := range slices.Sorted(maps.Keys(t.memory.Written)) {
		if _, err := os.Stat(filepath.Join(t.dir, f)); err == nil && !given[f] && strings.HasSuffix(f, ".toml") {
			t.list.Questions = append(t.list.Questions, intake.Question{ID: intake.FileGone, Cell: f})
		}
	}
	return nil
}

// remarks tells what was read beside the list itself.
func (t *taking) remarks(e env) {
	for _, s := range t.list.Unread {
		fmt.Fprintf(e.stderr, "remark: the sheet %q holds no list and was not read\n", s)
	}
	if n := len(t.list.Above); n > 0 {
		fmt.Fprintf(e.stderr, "remark: %d rows above the headings in line %d were not read\n", n, t.list.Head)
	}
}

// writes says whether a file in that state is written.
func (t *taking) writes(s intake.State) bool {
	return s == intake.New || s == intake.Changed || t.overwrite && (s == intake.ByHand || s == intake.Loses)
}

// write writes the panel files, the list with its questions and the memory, each whole or not at all. The
// memory is written whatever happens on the way, so that it knows every file that was.
func (t *taking) write(ctx context.Context, list string, back [][]string) (n int, err error) {
	m := intake.Memory{Format: 1, List: filepath.Base(t.list.Name), Columns: t.list.Named(), Written: maps.Clone(t.memory.Written)}
	if m.Written == nil {
		m.Written = map[string]string{}
	}
	for h, as := range t.memory.Columns { // of other lists into the same folder
		if _, ok := m.Columns[h]; !ok {
			m.Columns[h] = as
		}
	}
	defer func() {
		err = cmp.Or(err, disk.WriteWhole(filepath.Join(t.dir, memoryFile), m.Bytes()))
	}()
	for i, r := range t.list.Rows {
		if err := ctx.Err(); err != nil {
			return n, err
		}
		switch {
		case t.writes(t.states[i]):
			if err := disk.WriteWhole(filepath.Join(t.dir, r.File), r.Text); err != nil {
				return n, err
			}
			n++
			m.Written[r.File] = intake.Digest(r.Text)
		case t.states[i] == intake.Same && m.Written[r.File] == "":
			m.Written[r.File] = intake.Digest(r.Text)
		}
	}
	return n, t.writeQuestions(list, back, m.Written)
}

// writeQuestions writes the list with its questions. One that somebody has begun to fill in is left as
// it is, unless it is the list that was read.
func (t *taking) writeQuestions(list string, back [][]string, written map[string]string) error {
	name := t.questions()
	path := filepath.Join(t.dir, name)
	if old, err := os.ReadFile(path); err == nil && !t.overwrite && !sameFile(list, path) && intake.Digest(old) != written[name] {
		return fmt.Errorf("%s was changed since it was written; it was left as it is\n\thint: read it with crossgrain intake %s %s, or move it away first", path, path, t.dir)
	}
	var data []byte
	var err error
	if t.list.Delimiter == 0 {
		data, err = sheet.WriteWorkbook(back)
	} else {
		data, err = sheet.WriteText(back, t.list.Delimiter)
	}
	if err != nil {
		return err
	}
	if err := disk.WriteWhole(path, data); err != nil {
		return err
	}
	written[name] = intake.Digest(data)
	return nil
}

func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// asksFor are the fields whose lack is counted, what keeps a panel from being written first.
var asksFor = []intake.Field{intake.Height, intake.Thickness, intake.Cracks, intake.BackSupport, intake.EndGrain, intake.Boards, intake.Wood, intake.Flaking}

// document puts everything into one document.
func (t *taking) document(list string) report.Intake {
	l := t.list
	doc := report.Intake{Head: head("intake"), List: filepath.Base(list), Folder: t.dir, Read: len(l.Rows),
		Questions: []report.IntakeQuestion{}, Panels: []report.IntakePanel{}, Columns: []report.IntakeColumn{}, Lacking: []report.IntakeLack{}}
	for i, c := range l.Columns {
		example := ""
		for _, r := range l.Rows {
			if example = r.Cells[i]; example != "" {
				break
			}
		}
		doc.Columns = append(doc.Columns, report.IntakeColumn{Heading: c.Heading, Field: string(c.Field), Unit: c.Unit, How: string(c.How), Example: example})
	}
	for i, r := range l.Rows {
		p := report.IntakePanel{Row: r.Line, Accession: r.Accession, File: r.File, State: string(t.states[i]), Words: r.Aside}
		switch s := t.states[i]; {
		case r.Aside != "":
			p.State = "set aside"
			doc.SetAside++
		case r.File == "":
			p.State = "needs an answer"
			doc.NotWritten++
		case s == intake.New:
			doc.New++
		case s == intake.Same:
			doc.Same++
		case t.writes(s):
			doc.Changed++
		default:
			doc.Kept++
		}
		doc.Panels = append(doc.Panels, p)
	}
	for _, f := range asksFor {
		doc.Lacking = append(doc.Lacking, report.IntakeLack{Field: string(f), Panels: l.Lacking(f)})
	}
	var all []intake.Question
	for _, r := range l.Rows {
		all = append(all, r.Questions...)
	}
	slices.SortStableFunc(all, func(a, b intake.Question) int {
		return cmp.Or(intake.ComparePlaces(a.Store, b.Store), intake.ComparePlaces(a.Place, b.Place))
	})
	for _, q := range slices.Concat(l.Questions, all) {
		doc.Questions = append(doc.Questions, report.NewIntakeQuestion(q))
	}
	doc.Back = l.Back(func(r intake.Row) string {
		var words []string
		for _, q := range r.Questions {
			words = append(words, report.IntakeWords(q))
		}
		return strings.Join(words, " ")
	})
	return doc
}
