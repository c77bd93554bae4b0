package report

import "strings"

// Table is a small table for readers. The first cell of a row names the row. Align holds one
// letter for each column: r for numbers, anything else (or nothing) for text.
type Table struct {
	Caption string
	Head    []string
	Rows    [][]string
	Align   string
}

// right says whether column i holds numbers.
func (t Table) right(i int) bool { return i < len(t.Align) && t.Align[i] == 'r' }

// lines renders the table for a terminal, at most n columns wide, indented by two. Cells are
// wrapped inside their column.
func (t Table) lines(n int) []string {
	const indent, gap = 2, 2
	w := t.widths(n - indent - gap*(len(t.Head)-1))
	var out []string
	rule := make([]string, len(w))
	for i := range w {
		rule[i] = strings.Repeat("-", w[i])
	}
	for _, row := range append([][]string{t.Head, rule}, t.Rows...) {
		for _, line := range t.rowLines(row, w, gap) {
			out = append(out, strings.TrimRight(strings.Repeat(" ", indent)+line, " "))
		}
	}
	return out
}

func (t Table) rowLines(row []string, w []int, gap int) []string {
	cells := make([][]string, len(w))
	height := 1
	for i := range w {
		text := ""
		if i < len(row) {
			text = row[i]
		}
		cells[i] = wrap(text, w[i])
		height = max(height, len(cells[i]))
	}
	out := make([]string, height)
	for k := range out {
		parts := make([]string, len(w))
		for i := range w {
			line := ""
			if k < len(cells[i]) {
				line = cells[i][k]
			}
			parts[i] = pad(line, w[i], t.right(i))
		}
		out[k] = strings.Join(parts, strings.Repeat(" ", gap))
	}
	return out
}

// widths gives each column its natural width and takes from the widest text column until the
// table fits into n columns.
func (t Table) widths(n int) []int {
	w, least := make([]int, len(t.Head)), make([]int, len(t.Head))
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		for i, c := range row {
			if i >= len(w) {
				break
			}
			c = plainLine(c)
			w[i] = max(w[i], displayWidth(c))
			for _, word := range tokens(c) {
				least[i] = max(least[i], min(displayWidth(word), 18))
			}
		}
	}
	for sum(w) > n {
		k := widest(w, least)
		if k < 0 { // cut into words
			k = widest(w, make([]int, len(w)))
		}
		if w[k] <= 1 {
			break
		}
		w[k]--
	}
	return w
}

// widest returns the widest column that is still wider than its least width, or -1.
func widest(w, least []int) int {
	k := -1
	for i := range w {
		if w[i] > least[i] && (k < 0 || w[i] > w[k]) {
			k = i
		}
	}
	return k
}

func sum(w []int) int {
	s := 0
	for _, x := range w {
		s += x
	}
	return s
}
