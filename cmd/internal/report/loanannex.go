package report

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// What the two sheets hold of what may grow: rows of a table and lines of text under one heading, and letters of one line. The rest
// stands in an annex, so that there is never a third sheet of conditions.
const (
	mostRows    = 6
	mostLetters = 330
	lineLetters = 96 // about so many stand on one line of paper
	boldLetters = 84 // of lines that are read first
	slimLetters = 58 // beside drawings
)

// mostLines is what the headings that grow with the loan may take on their sheet, in lines of paper.
var mostLines = map[int]int{2: 6, 3: 3, 4: 5, 5: 6, 6: 5, 9: 2, 10: 4, 13: 5, 15: 6, 16: 4, 17: 4}

// room is how much one sheet of Letter holds, the lower of the two papers, in lines of paper.
const room = 56.0

// taken is what a heading takes of its sheet, in lines of paper.
func (it sheetItem) taken() float64 {
	n := 0.0
	bold, plain := it.letters()
	for _, s := range it.Strong {
		n += linesOf(s, bold)
	}
	for _, s := range it.Lines {
		n += linesOf(s, plain)
	}
	if it.Table != nil {
		n += float64(1 + len(it.Table.Rows))
		if it.Table.long() && len(it.Table.Rows) <= mostRows {
			n += room // a cell that fills many lines
		}
	}
	if it.Alarms != nil {
		n += 1.1 * float64(1+len(it.Alarms.Rows))
	}
	if it.Drawing != nil {
		n += 9
	}
	if it.Sides != nil {
		n = max(n, 9)
	}
	if it.Call {
		n += 2
	}
	return max(n, 1) + 2.2*float64(len(it.Sign)) + 0.4
}

// letters is how many stand on a line of what is read first, and of the rest.
func (it sheetItem) letters() (bold, plain int) {
	if it.Sides != nil {
		return slimLetters, slimLetters
	}
	return boldLetters, lineLetters
}

func linesOf(s string, letters int) float64 {
	return float64((utf8.RuneCountInString(s) + letters - 1) / letters)
}

// giving are the headings that may be shortened, those first that a reader misses least on the sheet itself.
var giving = []int{3, 9, 2, 17, 16, 4, 10, 13, 5, 15, 6}

// shorten takes from the headings of one sheet what it cannot hold, and returns them whole for the annex, in their order.
func shorten(items []sheetItem) (annex []sheetItem) {
	for _, n := range giving {
		sum := 0.0
		for _, it := range items {
			sum += it.taken()
		}
		i := slices.IndexFunc(items, func(it sheetItem) bool { return it.N == n })
		if sum <= room || i < 0 {
			continue
		}
		it := &items[i]
		whole := *it
		cut := it.shortTable()
		if it.shortText(mostLines[n]) || cut {
			whole.Drawing, whole.Sides, whole.Alarms, whole.Call = nil, nil, nil, false
			annex = append(annex, whole)
			it.Lines = append(it.Lines, say("loan.annex.more"))
		}
	}
	slices.SortFunc(annex, func(a, b sheetItem) int { return a.N - b.N })
	return annex
}

// shortTable keeps the first rows.
func (it *sheetItem) shortTable() bool {
	if it.Table == nil || !it.Table.long() {
		return false
	}
	t := *it.Table
	t.Rows = nil
	for _, r := range it.Table.Rows[:min(mostRows, len(it.Table.Rows))] {
		row := slices.Clone(r)
		for k := range row {
			row[k] = clip(row[k], lineLetters)
		}
		t.Rows = append(t.Rows, row)
	}
	it.Table = &t
	return true
}

func (t *Table) long() bool {
	return len(t.Rows) > mostRows || slices.ContainsFunc(t.Rows, func(r []string) bool {
		return slices.ContainsFunc(r, func(c string) bool { return utf8.RuneCountInString(c) > lineLetters })
	})
}

// shortText keeps the first lines of text, those that are read first before the others.
func (it *sheetItem) shortText(most int) bool {
	cut, room := false, most
	keep := func(list []string, line int) (out []string) {
		for _, s := range list {
			letters := min(mostLetters, room*line)
			if letters < line || len(out) > 0 && utf8.RuneCountInString(s) > letters {
				cut, room = true, 0
				continue
			}
			short := clip(s, letters)
			cut = cut || short != s
			out = append(out, short)
			room -= int(linesOf(short, line))
		}
		return out
	}
	bold, plain := it.letters()
	it.Strong = keep(it.Strong, bold)
	it.Lines = keep(it.Lines, plain)
	return cut
}

// clip cuts a text after so many letters, between words where there are any.
func clip(s string, most int) string {
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	r := []rune(s)[:most-2]
	short := string(r)
	if i := strings.LastIndex(short, " "); i > most/2 {
		short = short[:i]
	}
	return short + " …"
}
