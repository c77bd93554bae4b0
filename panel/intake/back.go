package intake

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
)

// Back returns the list with a column of questions before it, sorted by store and place so that it can
// be carried along the racks; rows of one place keep their order. words turns a row's questions into
// what stands in its cell. A column of questions from an earlier time is renewed. Filled in and read
// again, it gives the same panels.
func (l *List) Back(words func(Row) string) [][]string {
	keep := func(r []string) []string {
		out := make([]string, 0, len(r))
		for i, c := range l.Columns {
			if c.Field != asked {
				out = append(out, r[i])
			}
		}
		return out
	}
	heads := make([]string, len(l.Columns))
	for i, c := range l.Columns {
		heads[i] = c.Heading
	}
	out := [][]string{append([]string{string(asked)}, keep(heads)...)}
	rows := slices.Clone(l.Rows)
	slices.SortStableFunc(rows, func(a, b Row) int {
		return cmp.Or(ComparePlaces(a.Value(Store), b.Value(Store)), ComparePlaces(a.Value(Place), b.Value(Place)))
	})
	for _, r := range rows {
		out = append(out, append([]string{words(r)}, keep(r.Cells)...))
	}
	return out
}

// ComparePlaces orders names of places as people do: rack 2 before rack 10, capitals alike, blanks last.
func ComparePlaces(a, b string) int {
	if (a == "") != (b == "") {
		return cmp.Compare(len(b), len(a))
	}
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	for len(x) > 0 && len(y) > 0 {
		if unicode.IsDigit(x[0]) && unicode.IsDigit(y[0]) {
			m, n := digits(x), digits(y)
			p, q := strings.TrimLeft(string(x[:m]), "0"), strings.TrimLeft(string(y[:n]), "0")
			if c := cmp.Or(cmp.Compare(len(p), len(q)), cmp.Compare(p, q)); c != 0 {
				return c
			}
			x, y = x[m:], y[n:]
			continue
		}
		if x[0] != y[0] {
			return cmp.Compare(x[0], y[0])
		}
		x, y = x[1:], y[1:]
	}
	return cmp.Compare(len(x), len(y))
}

func digits(r []rune) int {
	n := 0
	for n < len(r) && unicode.IsDigit(r[n]) {
		n++
	}
	return n
}
