package logger

import (
	"bytes"
	"strings"
)

// findHead looks for the names of the columns above the first row of data: one line or two, in a
// comment or not.
func (l *layout) findHead(g *grid, width int) {
	var lines [][]string
	var at []int
	l.headRow = -1
	for i := l.first - 1; i >= 0 && len(lines) < 4; i-- {
		names := g.names(i)
		if len(names) < 2 {
			if len(names) == 0 && len(lines) == 0 {
				continue
			}
			if len(lines) > 0 {
				break
			}
			continue
		}
		lines, at = append(lines, names), append(at, i)
	}
	best, score := -1, 0
	for k, names := range lines {
		if s := headScore(names); s > score {
			best, score = k, s
		}
	}
	if best < 0 {
		return
	}
	l.head, l.headRow = lines[best], at[best]
	switch {
	case best > 0 && headLike(lines[best-1]): // units or rooms below
		l.head = joined(l.head, lines[best-1])
	case best+1 < len(lines) && repeats(l.head) && len(lines[best+1]) <= len(l.head)+1 && len(lines[best+1]) >= 2:
		l.head = joined(carried(lines[best+1], len(l.head)), l.head) // rooms above
	}
	if len(l.head) == width+1 && g.delim == ' ' {
		l.head = l.head[1:] // "columns: date time ..."
	}
	if len(l.head) == width-1 {
		l.head = l.shifted(g)
	}
}

// shifted puts an empty name before the head when the rows begin with a number that it does not name.
func (l *layout) shifted(g *grid) []string {
	var st stamp
	cells := g.split(l.first, nil)
	q, _, _ := meaning(l.head[0])
	if len(cells) > 1 && !st.read(cells[0], l.decimal) && st.read(cells[1], l.decimal) && (q == moment || q == dateOnly || q == clockOnly) {
		return append([]string{""}, l.head...)
	}
	return l.head
}

// names returns the cells of a head line, out of a comment if it stands in one.
func (g *grid) names(i int) []string {
	var cells [][]byte
	if g.rows == nil {
		line, was := uncommented(g.line(i))
		if was && g.delim == ';' && bytes.HasPrefix(g.line(i), []byte(";")) {
			line, was = g.line(i), false
		}
		if was && g.delim == ' ' {
			if k := bytes.IndexByte(line, ':'); k > 0 && k < 24 {
				line = line[k+1:]
			}
		}
		if bytes.IndexByte(line, g.delim) < 0 && was && g.delim != blanks {
			for _, d := range []byte{',', ';', '\t', ' '} {
				if bytes.IndexByte(line, d) >= 0 {
					cells = splitLine(line, d, nil)
					break
				}
			}
		} else {
			cells = splitLine(line, g.delim, nil)
		}
	} else {
		cells = g.split(i, nil)
	}
	out := make([]string, len(cells))
	any := false
	for k, c := range cells {
		out[k] = string(c)
		any = any || len(c) > 0
	}
	if !any {
		return nil
	}
	return out
}

// headScore counts the cells that name something known.
func headScore(names []string) int {
	n := 0
	for _, h := range names {
		switch q, _, _ := meaning(h); q {
		case humidity:
			n += 3
		case moment, dateOnly, clockOnly, warmth:
			n += 2
		case other:
		default:
			n++
		}
		if len(h) > 60 && !strings.ContainsAny(h, "(,") {
			n--
		}
	}
	if n < 3 {
		return 0
	}
	return n
}

// headLike says whether a line below the names holds units or names and no values.
func headLike(names []string) bool {
	n := 0
	for _, h := range names {
		if h == "" {
			continue
		}
		if humidUnit(strings.ToLower(strings.Trim(h, "[]() "))) || warmUnit(strings.Trim(h, "[]() ")) != 0 {
			n++
		} else if q, _, _ := meaning(h); q == humidity || q == warmth {
			n++
		}
	}
	return n > 0
}

// repeats says whether two columns carry the same name of a quantity.
func repeats(names []string) bool {
	seen := map[string]bool{}
	for _, h := range names {
		if q, _, _ := meaning(h); q != humidity && q != warmth {
			continue
		}
		if seen[fold(h)] {
			return true
		}
		seen[fold(h)] = true
	}
	return false
}

// joined sets two lines of names together, column by column.
func joined(upper, lower []string) []string {
	out := make([]string, max(len(upper), len(lower)))
	for i := range out {
		if i < len(upper) {
			out[i] = upper[i]
		}
		if i < len(lower) && lower[i] != "" {
			if u := strings.Trim(lower[i], "[]() "); humidUnit(strings.ToLower(u)) || warmUnit(u) != 0 {
				out[i] += " [" + u + "]"
			} else {
				out[i] = strings.TrimSpace(out[i] + " " + lower[i])
			}
		}
	}
	return out
}

// carried repeats the name of a room over the columns that stand under it.
func carried(names []string, n int) []string {
	out := make([]string, n)
	last := ""
	for i := range out {
		if i < len(names) && names[i] != "" {
			last = names[i]
		}
		out[i] = last
	}
	return out
}
