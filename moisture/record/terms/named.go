package terms

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"crossgrain/tables"
	"crossgrain/tables/problem"
)

// published are the sets of data/climate_terms.csv in its order, read once.
var published = sync.OnceValues(func() ([]entry, error) { return readSets() })

// entry is a published set and the other names it goes by.
type entry struct {
	Terms
	also []string
}

func readSets() ([]entry, error) {
	t, err := tables.Read("climate_terms")
	if err != nil {
		return nil, err
	}
	var out []entry
	for _, r := range t.Rows {
		name := r.Text("name")
		if len(out) == 0 || out[len(out)-1].Name != name {
			out = append(out, entry{Terms: Terms{Name: name}})
		}
		e := &out[len(out)-1]
		if err := e.row(r); err != nil {
			return nil, fmt.Errorf("tables: data/climate_terms.csv:%d: %w", r.Line, err)
		}
	}
	for i := range out {
		out[i].Text = text(out[i].Clauses)
	}
	return out, nil
}

// row adds a row of the table: one clause.
func (e *entry) row(r tables.Row) error {
	c, err := clauseOf(r.Text("clause"))
	if err != nil {
		return err
	}
	switch s := r.Text("status"); s {
	case "read":
		c.Known = Seen
	case "secondary":
		c.Known = Reported
	case "memory":
		c.Known = Memory
	default:
		return fmt.Errorf("status must be read, secondary or memory, got %q", s)
	}
	if s := r.Text("document"); s != "" {
		e.Source = s
	}
	if s := r.Text("also"); s != "" {
		e.also = append(e.also, strings.Split(s, "; ")...)
	}
	if s := r.Text("note"); s != "" {
		e.Remarks = append(e.Remarks, s)
	}
	return e.add(c)
}

// List returns the names of the published sets in the order of the table.
func List() ([]string, error) {
	sets, err := published()
	return listed(sets), err
}

func listed(sets []entry) []string {
	var out []string
	for _, s := range sets {
		out = append(out, s.Name)
	}
	return out
}

// Named returns a published set by its name or one of its other names; capitals, blanks and signs do
// not count. Figures known from memory are among them: see [Terms.FromMemory].
func Named(name string) (Terms, error) {
	sets, err := published()
	if err != nil {
		return Terms{}, err
	}
	var names []string
	for _, s := range sets {
		for _, n := range append([]string{s.Name}, s.also...) {
			if folded(n) == folded(name) {
				t := s.Terms
				t.Clauses, t.Remarks = slices.Clone(t.Clauses), slices.Clone(t.Remarks)
				return t, nil
			}
			names = append(names, n)
		}
	}
	p := problem.Problem{File: "terms", Msg: fmt.Sprintf("no set of terms is named %q", name), Hint: hintForm + ", or name one of: " + strings.Join(listed(sets), "; ")}
	if near := problem.Nearest(name, names); near != "" {
		p.Hint = fmt.Sprintf("did you mean %q?", near)
	}
	return Terms{}, problem.List{p}
}

// folded is a name by its letters and figures alone.
func folded(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r > 127 {
			return r
		}
		return -1
	}, strings.ToLower(s))
}

// typed tells text from a name: it begins with a figure, a sign, or a word that begins a clause.
var typed = regexp.MustCompile(`(?i)^\s*([^a-z]|(rh|humidity|t|temp|temperature|max|min|over|under|above|below)\b|(rh|t)\d)`)

// Read returns a published set by its name, or else reads text.
func Read(s string) (Terms, error) {
	t, err := Named(s)
	if err == nil {
		return t, nil
	}
	if typed.MatchString(s) || strings.TrimSpace(s) == "" {
		return Parse(s)
	}
	return Terms{}, err
}
