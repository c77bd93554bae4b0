package logger

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"crossgrain/tables/problem"
)

// bareCommas refuses rows in which the comma parts the cells and the decimals alike.
func (l *layout) bareCommas(g *grid) error {
	if g.delim != ',' || l.headRow < 0 || l.decimal == ',' {
		return nil
	}
	beyond, points := 0, 0
	var cells [][]byte
	for _, i := range g.sample() {
		if cells = g.split(i, cells); i < l.first || len(cells) <= len(l.head) {
			continue
		}
		all := true
		for _, c := range cells[1:] {
			all = all && digitsOnly(bytes.TrimLeft(c, "-"))
			if bytes.IndexByte(c, '.') >= 0 {
				points++
			}
		}
		if all {
			beyond++
		}
	}
	if beyond < rowsLike || points > 0 {
		return nil
	}
	return problem.List{{File: g.name, Line: g.number(l.first), Part: "humidity", Msg: fmt.Sprintf("the rows have more cells than the head has names (%d): commas part the cells and the decimals alike", len(l.head)),
		Hint: "export the record again with semicolons between the cells, or with decimal points"}}.Err()
}

// inParts looks for a head that names year and day, for rows without a date in one cell.
func (g *grid) inParts(delims []byte) (*layout, byte) {
	for _, d := range delims {
		g.delim = d
		for i := range min(g.len(), 200) {
			found := map[quantity]bool{}
			names := g.names(i)
			for _, h := range names {
				q, _, _ := meaning(h)
				found[q] = true
			}
			if !found[humidity] || !found[yearPart] || !found[dayPart] && !found[dayOfYear] {
				continue
			}
			for k := i + 1; k < g.len(); k++ {
				cells := g.split(k, nil)
				for _, dec := range [...]byte{'.', ','} {
					if _, n, odd := look(cells, dec); n == len(names) && odd == 0 {
						return &layout{decimal: dec, first: k}, d
					}
				}
			}
		}
	}
	return nil, 0
}

// quoted says whether decimal commas may stand in quotation marks between commas.
func quoted(g *grid) bool {
	return bytes.Contains(g.text[:min(len(g.text), 1<<16)], []byte(`,"`)) || bytes.HasPrefix(g.text, []byte(`"`))
}

func commaCells(g *grid) bool {
	for _, r := range g.rows[:min(len(g.rows), 200)] {
		for _, c := range r.Cells {
			if i := strings.IndexByte(c, ','); i > 0 && i < len(c)-1 && c[i-1] >= '0' && c[i-1] <= '9' && c[i+1] >= '0' && c[i+1] <= '9' {
				return true
			}
		}
	}
	return false
}

// sample returns rows spread over the grid.
func (g *grid) sample() []int {
	n := g.len()
	if n <= 600 {
		out := make([]int, n)
		for i := range out {
			out[i] = i
		}
		return out
	}
	out := make([]int, 0, 600)
	for i := range 300 {
		out = append(out, i)
	}
	for i := range 200 {
		out = append(out, 300+(n-400)*i/200)
	}
	for i := n - 100; i < n; i++ {
		out = append(out, i)
	}
	return out
}

// probe scores one way of parting the cells: the number of sampled rows that look like readings, more
// for more numbers in each.
func (g *grid) probe(decimal byte) (*layout, float64) {
	l := &layout{decimal: decimal, first: -1}
	var cells [][]byte
	var score float64
	good := 0
	var rows, where []int
	for _, i := range g.sample() {
		if g.rows == nil {
			if _, was := uncommented(g.line(i)); was && g.delim != ';' {
				continue
			}
		}
		cells = g.split(i, cells)
		if stamps, numbers, odd := look(cells, decimal); stamps > 0 && numbers > 0 {
			rows, where = append(rows, i), append(where, firstStamp(cells, decimal))
			good++
			score += 1 + 0.1*float64(min(numbers, 8)) - 0.2*float64(odd)
		}
	}
	if good < rowsLike && good < g.len() && (good == 0 || !g.headAbove(rows[0])) {
		return l, 0
	}
	if good > 0 {
		usual := slices.Clone(where)
		slices.Sort(usual)
		l.first = rows[slices.Index(where, usual[len(usual)/2])]
	}
	return l, max(score, 0)
}

// firstStamp is the first cell that holds a date or a time.
func firstStamp(cells [][]byte, decimal byte) int {
	var st stamp
	for c := range cells {
		if st.read(cells[c], decimal) && (st.parts != 1 || c < 3) {
			return c
		}
	}
	return -1
}

// headAbove says whether one of the three lines above names humidity and a time.
func (g *grid) headAbove(row int) bool {
	for i := row - 1; i >= max(0, row-3); i-- {
		if headScore(g.names(i)) >= 5 {
			return true
		}
	}
	return false
}

// look counts what the cells of a row hold: moments, numbers and numbers with the wrong decimal sign.
func look(cells [][]byte, decimal byte) (stamps, numbers, odd int) {
	var st stamp
	for k, c := range cells {
		if k > 60 {
			break
		}
		if st.read(c, decimal) && (st.parts != 1 || k < 3) {
			stamps++
			continue
		}
		if len(c) == 0 {
			continue
		}
		switch _, w := number(c, decimal); w {
		case isNumber:
			numbers++
			if i := bytes.IndexByte(c, 44+46-decimal); i >= 0 { // the other sign, read as thousands
				odd++
			}
		case isMissing:
		default:
			if d, rest := numeric(c); len(d) > 0 && unitText(rest) {
				odd++
			}
		}
	}
	return stamps, numbers, odd
}
