package logger

import (
	"bytes"
	"unicode"

	"crossgrain/tables/sheet"
)

// grid is the rows of one table: lines of text with the sign that parts their cells, or the cells of a
// workbook or of JSON.
type grid struct {
	name     string
	encoding string
	text     []byte
	starts   []int       // of each line in text
	rows     []sheet.Row // instead of text
	delim    byte        // ' ' parts at blanks, [blanks] at several; 0 for rows
	joined   []int       // rows that go on over the next line, once for each line
}

// blanks stands for two or more blanks, or a tab, between cells.
const blanks = '\x02'

func textGrid(name, encoding string, text []byte) *grid {
	g := &grid{name: name, encoding: encoding, text: text}
	for at := 0; at < len(text); {
		g.starts = append(g.starts, at)
		i := bytes.IndexAny(text[at:], "\n\r")
		if i < 0 {
			break
		}
		at += i + 1
		if text[at-1] == '\r' && at < len(text) && text[at] == '\n' {
			at++
		}
	}
	g.joinLines()
	return g
}

// joinLines makes one row of lines at the beginning that a quotation mark holds together, such as a
// head with breaks in its names.
func (g *grid) joinLines() {
	const near, most = 60, 8
	for i := 0; i < min(near, len(g.starts)); i++ {
		n, quotes := 0, bytes.Count(g.line(i), []byte{'"'})
		for quotes%2 == 1 && n < most && i+n+1 < len(g.starts) {
			n++
			next := bytes.TrimLeft(g.line(i+n), " \t\"")
			if len(next) == 0 || next[0] >= '0' && next[0] <= '9' {
				break
			}
			quotes += bytes.Count(g.line(i+n), []byte{'"'})
		}
		if n == 0 || quotes%2 == 1 {
			continue
		}
		g.starts = append(g.starts[:i+1], g.starts[i+1+n:]...)
		for range n {
			g.joined = append(g.joined, i)
		}
	}
}

func (g *grid) len() int {
	if g.rows != nil {
		return len(g.rows)
	}
	return len(g.starts)
}

// number is the number of row i as the user sees it.
func (g *grid) number(i int) int {
	if g.rows != nil {
		return g.rows[i].Line
	}
	n := i + 1
	for _, j := range g.joined {
		if j < i {
			n++
		}
	}
	return n
}

// line returns row i of a text without its end.
func (g *grid) line(i int) []byte {
	end := len(g.text)
	if i+1 < len(g.starts) {
		end = g.starts[i+1]
	}
	return bytes.TrimRight(g.text[g.starts[i]:end], "\r\n\x1a")
}

// maxCells bounds the cells of a row that are looked at.
const maxCells = 2000

// split returns the cells of row i, trimmed and without quotation marks; dst is used again.
func (g *grid) split(i int, dst [][]byte) [][]byte {
	dst = dst[:0]
	if g.rows != nil {
		for _, c := range g.rows[i].Cells[:min(len(g.rows[i].Cells), maxCells)] {
			dst = append(dst, bytes.TrimSpace([]byte(c)))
		}
		return dst
	}
	return splitLine(g.line(i), g.delim, dst)
}

func splitLine(line []byte, delim byte, dst [][]byte) [][]byte {
	switch delim {
	case ' ':
		return splitBlanks(line, dst)
	case blanks:
		return splitWide(line, dst)
	}
	for len(dst) < maxCells {
		cell, rest, more := cut(line, delim)
		dst = append(dst, cell)
		if !more {
			break
		}
		line = rest
	}
	return dst
}

// cut takes the first cell off a line; a cell in quotation marks may hold the delimiter.
func cut(line []byte, delim byte) (cell, rest []byte, more bool) {
	k := 0
	for k < len(line) && (line[k] == ' ' || line[k] == '\t' && delim != '\t') {
		k++
	}
	if k < len(line) && line[k] == '"' {
		for e := k + 1; e < len(line); e++ {
			if line[e] != '"' {
				continue
			}
			if e+1 < len(line) && line[e+1] == '"' {
				e++
				continue
			}
			inner := line[k+1 : e]
			rest := line[e+1:]
			j := bytes.IndexByte(rest, delim)
			if j < 0 {
				return trim(inner), nil, false
			}
			return trim(inner), rest[j+1:], true
		}
	}
	j := bytes.IndexByte(line, delim)
	if j < 0 {
		return trim(line), nil, false
	}
	return trim(line[:j]), line[j+1:], true
}

func trim(b []byte) []byte {
	if len(b) > 1 && (b[0] == '=' && b[1] == '"' || b[0] == '\'') { // text, as spreadsheets mark it
		b = b[1:]
	}
	for len(b) > 0 && (b[0] == ' ' || b[0] == '\t' || b[0] == '"') {
		b = b[1:]
	}
	for len(b) > 0 && (b[len(b)-1] == ' ' || b[len(b)-1] == '\t' || b[len(b)-1] == '"') {
		b = b[:len(b)-1]
	}
	if len(b) > 0 && (b[0] >= 0x80 || b[len(b)-1] >= 0x80) {
		return bytes.TrimFunc(b, unicode.IsSpace) // no-break spaces
	}
	return b
}

func splitBlanks(line []byte, dst [][]byte) [][]byte {
	for len(dst) < maxCells {
		line = bytes.TrimLeft(line, " \t")
		if len(line) == 0 {
			return dst
		}
		j := bytes.IndexAny(line, " \t")
		if j < 0 {
			return append(dst, line)
		}
		dst, line = append(dst, line[:j]), line[j:]
	}
	return dst
}

func splitWide(line []byte, dst [][]byte) [][]byte {
	for len(dst) < maxCells {
		line = bytes.Trim(line, " \t")
		if len(line) == 0 {
			return dst
		}
		j := 0
		for j < len(line) && line[j] != '\t' && !(line[j] == ' ' && j+1 < len(line) && (line[j+1] == ' ' || line[j+1] == '\t')) {
			j++
		}
		dst, line = append(dst, trim(line[:j])), line[j:]
	}
	return dst
}

// uncommented takes the sign of a comment off a line.
func uncommented(b []byte) (rest []byte, was bool) {
	t := bytes.TrimLeft(b, " \"") // a tab begins the second cell
	for _, sign := range [...]string{"#", "//", ";", "!", "'", "%", "*"} {
		if bytes.HasPrefix(t, []byte(sign)) {
			return bytes.TrimLeft(t[len(sign):], sign+" \t"), true
		}
	}
	return b, false
}
