package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"crossgrain/panel/intake"
)

// Intake is the document of the command intake: what a list gave, and what it leaves open.
type Intake struct {
	Head
	List       string           `json:"list"`
	Folder     string           `json:"folder"`
	DryRun     bool             `json:"dry_run"` // nothing was written
	Read       int              `json:"read"`    // rows under the headings
	Written    int              `json:"written"` // panel files
	New        int              `json:"new"`
	Changed    int              `json:"changed"`
	Same       int              `json:"same"`
	Kept       int              `json:"kept"`        // files left as they are although the list differs
	NotWritten int              `json:"not_written"` // rows that need an answer first
	SetAside   int              `json:"set_aside"`   // rows that are no panels
	Columns    []IntakeColumn   `json:"columns"`
	Panels     []IntakePanel    `json:"panels"`
	Lacking    []IntakeLack     `json:"lacking"`
	Questions  []IntakeQuestion `json:"questions"`

	Back [][]string `json:"-"` // the list with its questions, by place
}

// IntakeColumn is one column as it was understood.
type IntakeColumn struct {
	Heading string `json:"heading"`
	Field   string `json:"field"`
	Unit    string `json:"unit"` // empty: each cell carries its own
	How     string `json:"how"`
	Example string `json:"example"`
}

// IntakePanel is one row: its file and how that stands to the list.
type IntakePanel struct {
	Row       int    `json:"row"`
	Accession string `json:"accession"`
	File      string `json:"file"`  // empty: not written
	State     string `json:"state"` // new, same, changed, by hand, loses, needs an answer, set aside
	Words     string `json:"words"` // that set it aside
}

// IntakeLack counts the panels that do not answer a field.
type IntakeLack struct {
	Field  string `json:"field"`
	Panels int    `json:"panels"`
}

// IntakeQuestion is one thing that the list leaves open.
type IntakeQuestion struct {
	ID        string `json:"id"`
	Row       int    `json:"row"` // 0: the list as a whole
	Accession string `json:"accession"`
	Store     string `json:"store"`
	Place     string `json:"place"`
	Column    string `json:"column"`
	Cell      string `json:"cell"`
	Question  string `json:"question"`
}

// NewIntakeQuestion puts a question into words.
func NewIntakeQuestion(q intake.Question) IntakeQuestion {
	return IntakeQuestion{ID: q.ID, Row: q.Line, Accession: q.Accession, Store: q.Store, Place: q.Place, Column: q.Heading, Cell: q.Cell, Question: IntakeWords(q)}
}

// IntakeWords is a question as whole sentences.
func IntakeWords(q intake.Question) string {
	key := "intake.ask." + q.ID
	if bare := "intake.bare." + q.ID; q.Detail == "" && known(bare) {
		key = bare
	}
	var slots []string
	for _, s := range [...][2]string{{"cell", q.Cell}, {"heading", q.Heading}, {"detail", q.Detail}} {
		if strings.Contains(english()[key], "{"+s[0]+"}") {
			slots = append(slots, s[0], clipped(s[1]))
		}
	}
	return say(key, slots...)
}

// clipped cuts what was typed to a length that a sentence bears, on one line.
func clipped(s string) string {
	const most = 200
	s = plainLine(s)
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}

// shownRows is how many rows are named for each kind of question on a terminal.
const shownRows = 3

// WriteText writes the counts, the columns, the questions by kind and what to do next.
func (d Intake) WriteText(w io.Writer) error {
	t := &textPage{}
	t.paras(say("intake.lead", "list", d.List, "n", fmt.Sprint(d.Read)) + " " + d.counts())
	t.table("intake.columns", d.columnTable())
	t.list("intake.lacking", d.lacking())
	if len(d.Questions) > 0 {
		t.title("intake.questions")
		for _, id := range intake.IDs() {
			d.kind(t, id)
		}
	}
	t.line("")
	if d.DryRun {
		t.paras(say("intake.dry"))
	} else {
		t.paras(plural("intake.written", d.Written))
	}
	return t.to(w)
}

func (d Intake) counts() string {
	var out []string
	for _, c := range []struct {
		key string
		n   int
	}{{"intake.new", d.New}, {"intake.changed", d.Changed}, {"intake.same", d.Same}, {"intake.kept", d.Kept}, {"intake.open", d.NotWritten}, {"intake.aside", d.SetAside}} {
		if c.n > 0 {
			out = append(out, plural(c.key, c.n))
		}
	}
	return strings.Join(out, " ")
}

func (d Intake) columnTable() Table {
	t := Table{Head: strings.Split(say("intake.columns.head"), " | ")}
	for _, c := range d.Columns {
		unit := c.Unit
		if unit == "" {
			unit = "-"
		}
		t.Rows = append(t.Rows, []string{clipped(c.Heading), c.Field, unit, c.How, c.Example})
	}
	return t
}

func (d Intake) lacking() []string {
	var out []string
	for _, l := range d.Lacking {
		if l.Panels > 0 {
			out = append(out, say("intake.lack", "field", strings.ReplaceAll(l.Field, "_", " "), "n", fmt.Sprint(l.Panels)))
		}
	}
	return out
}

// kind writes the questions of one kind: how many, and the first in the order of the places.
func (d Intake) kind(t *textPage, id string) {
	n := 0
	for _, q := range d.Questions {
		if q.ID != id {
			continue
		}
		if n++; n > shownRows {
			continue
		}
		where := say("intake.row.number", "row", fmt.Sprint(q.Row), "number", clipped(q.Accession))
		switch {
		case q.Row == 0:
			where = say("intake.row.list")
		case q.Accession == "":
			where = say("intake.row.bare", "row", fmt.Sprint(q.Row))
		}
		t.hang("  - ", where+" "+q.Question)
	}
	if more := n - shownRows; more > 0 {
		t.hang("    ", plural("intake.more", more))
	}
}

// WriteCSV writes the list back with its questions, by place.
func (d Intake) WriteCSV(w io.Writer) error {
	c := csv.NewWriter(w)
	for _, row := range d.Back {
		cells := make([]string, len(row))
		for i, s := range row {
			cells[i] = cellText(s)
		}
		if err := c.Write(cells); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}
