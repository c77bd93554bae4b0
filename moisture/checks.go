package moisture

import (
	"fmt"
	"strings"

	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// got maps the id of a check to the function that computes its value.
type got map[string]func() (float64, error)

// Checks returns every published or independently worked out value that this package reproduces:
// the sorption equation against its printed table, isotherms of woods, humid air, scanning, uptake,
// and measured sorption of spruce. The error names a table of the program that cannot be read.
func Checks() ([]verify.Row, error) {
	var out []verify.Row
	for _, part := range []func() ([]verify.Row, error){moistureRows, cuppingRows, printedTable, measuredSorption} {
		rows, err := part()
		if err != nil {
			return nil, fmt.Errorf("moisture: %w", err)
		}
		out = append(out, rows...)
	}
	return out, nil
}

func moistureRows() ([]verify.Row, error) {
	t, err := tables.Read("checks_moisture")
	if err != nil {
		return nil, err
	}
	g := got{}
	psychrometricChecks(t, g)
	if err := isothermChecks(t, g); err != nil {
		return nil, err
	}
	uptakeChecks(t, g)
	swingChecks(t, g)
	return verify.FromTable(t, g)
}

func cuppingRows() ([]verify.Row, error) {
	t, err := tables.Read("checks_mechanics")
	if err != nil {
		return nil, err
	}
	g := got{}
	bare := bareFront()
	each(t, g, "CUP-DIFF-MEAN-%g", func(p []float64) (float64, error) { return bare.Uptake(p[0]), nil })
	each(t, g, "CUP-DIFF-K-%g", func(p []float64) (float64, error) { return bare.Moment(p[0]), nil })
	g["CUP-DIFF-SHORT"] = func() (float64, error) { return bare.Moment(0.01), nil }
	return verify.FromTable(t, g)
}

// each fills in every id of the table that has the form; f is handed the numbers in the id.
func each(t *tables.Table, g got, form string, f func(p []float64) (float64, error)) {
	n := strings.Count(form, "%g")
	for _, r := range t.Rows {
		id := r.Text("id")
		p, refs := make([]float64, n), make([]any, n)
		for i := range p {
			refs[i] = &p[i]
		}
		if k, err := fmt.Sscanf(id, form, refs...); err == nil && k == n && g[id] == nil {
			g[id] = func() (float64, error) { return f(p) }
		}
	}
}

// plain fills in one id whose function cannot fail.
func (g got) plain(id string, f func() float64) {
	g[id] = func() (float64, error) { return f(), nil }
}
