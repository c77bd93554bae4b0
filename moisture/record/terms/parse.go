package terms

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"crossgrain/tables/problem"
)

// mostClauses is how many clauses a text may have, far above what agreements hold.
const mostClauses = 40

// Parse reads terms as typed; see the package comment for what is understood. All mistakes are
// returned together as a problem.List, each with its line, its column (in characters, from 1) and
// the clause.
func Parse(text string) (Terms, error) {
	t := Terms{Text: strings.TrimSpace(text), Name: strings.Join(strings.Fields(text), " ")}
	var faults problem.List
	for _, p := range parts(text) {
		c, err := clauseOf(p.text)
		if err == nil {
			err = t.add(c)
		}
		if err != nil {
			faults.Add(p.problem(err))
		}
		if len(t.Clauses)+len(faults) > mostClauses {
			faults.Add(problem.Problem{File: "terms", Msg: fmt.Sprintf("terms must have at most %d clauses", mostClauses)})
			break
		}
	}
	if len(faults) == 0 && len(t.Clauses) == 0 {
		faults.Add(problem.Problem{File: "terms", Msg: "the text holds no clause", Hint: hintForm})
	}
	if err := faults.Err(); err != nil {
		return Terms{}, err
	}
	return t, nil
}

const hintForm = "write as 45..55, 5/24h, 18..22C"

// add takes a clause that does not say again what another one says.
func (t *Terms) add(c Clause) error {
	for _, o := range t.Clauses {
		if o.Of != c.Of || o.Window != c.Window {
			continue
		}
		if c.Window > 0 {
			return fault{fmt.Sprintf("a change of %s in %s is asked twice, first as %q", c.Of, timeWords(c.Window), o.Text()), ""}
		}
		return fault{fmt.Sprintf("a range of %s is asked twice, first as %q", c.Of, o.Text()),
			"a temperature needs its unit: 18..22C"}
	}
	t.Clauses = append(t.Clauses, c)
	return nil
}

// fault is a mistake and what helps.
type fault struct{ msg, hint string }

func (f fault) Error() string { return f.msg }

// part is the text of one clause and where it stands.
type part struct {
	text      string
	line, col int
}

func (p part) problem(err error) problem.Problem {
	q := problem.Problem{File: "terms", Line: p.line, Col: p.col, Part: p.text, Msg: err.Error()}
	if f, ok := err.(fault); ok {
		q.Hint = f.hint
	}
	if cut := []rune(p.text); len(cut) > 40 {
		q.Part = string(cut[:40]) + "…"
	}
	return q
}

// parts parts a text at commas, semicolons and line ends; empty parts are passed over.
func parts(text string) []part {
	var out []part
	line, col := 1, 1
	for text = strings.ToValidUTF8(text, "?"); text != ""; {
		piece, sign := text, byte(0)
		if i := strings.IndexAny(text, ",;\n"); i >= 0 {
			piece, sign = text[:i], text[i]
		}
		text = text[min(len(text), len(piece)+1):]
		bare := strings.TrimLeftFunc(piece, unicode.IsSpace)
		if s := strings.TrimSpace(bare); s != "" {
			out = append(out, part{s, line, col + utf8.RuneCountInString(piece) - utf8.RuneCountInString(bare)})
		}
		col += utf8.RuneCountInString(piece) + 1
		if sign == '\n' {
			line, col = line+1, 1
		}
	}
	return out
}
