package terms

import "strings"

// Terms are what is asked of a room's climate.
type Terms struct {
	Name    string   // of a published set, or the text as typed
	Text    string   // as [Parse] reads it
	Clauses []Clause // in the order given
	Source  string   // where the figures of a published set stand, or the document they are remembered from
	Remarks []string // what a published set asks besides, which is not judged
}

// FromMemory returns the clauses whose figures are known from memory only: somebody must compare
// them with the document before they are used.
func (t Terms) FromMemory() []Clause {
	var out []Clause
	for _, c := range t.Clauses {
		if c.Known == Memory {
			out = append(out, c)
		}
	}
	return out
}

// Evidence says in words how the figures are known, each way once, in the order of the clauses.
func (t Terms) Evidence() string {
	var words []string
	said := map[Known]bool{}
	for _, c := range t.Clauses {
		if !said[c.Known] {
			words = append(words, c.Known.String())
		}
		said[c.Known] = true
	}
	if len(words) > 1 {
		return "in part " + strings.Join(words, ", in part ")
	}
	return strings.Join(words, "")
}

// text writes clauses as [Parse] reads them.
func text(clauses []Clause) string {
	var out []string
	for _, c := range clauses {
		out = append(out, c.Text())
	}
	return strings.Join(out, ", ")
}
