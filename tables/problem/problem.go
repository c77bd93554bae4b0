// Package problem holds lists of positioned problems found in something a person typed.
package problem

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is one mistake: where it stands, which part it concerns, what is wrong and what helps.
type Problem struct {
	File      string // as the user named it
	Line, Col int    // from 1; 0 when the place is the whole file
	Part      string // path in the file, such as board.left.thickness_mm
	Msg       string // lower case, no full stop, allowed range with unit, what was got
	Hint      string // optional
}

// Error returns the problem as printed: file:line: part: message, and a hint on a second line.
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		fmt.Fprintf(&b, ":%d", p.Line)
		if p.Col > 0 {
			fmt.Fprintf(&b, ":%d", p.Col)
		}
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	if p.Part != "" {
		b.WriteString(p.Part + ": ")
	}
	b.WriteString(p.Msg)
	if p.Hint != "" {
		b.WriteString("\n\thint: " + p.Hint)
	}
	return b.String()
}

// List is all problems of one input. The zero value is an empty list.
type List []Problem

// Add appends a problem.
func (l *List) Add(p Problem) { *l = append(*l, p) }

// Sort orders the list by file, line, column and part, and drops exact repeats.
func (l *List) Sort() {
	slices.SortStableFunc(*l, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line),
			cmp.Compare(a.Col, b.Col), cmp.Compare(a.Part, b.Part))
	})
	*l = slices.Compact(*l)
}

// Err returns the list as an error, or nil when it is empty.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	return l
}

func (l List) Error() string {
	lines := make([]string, len(l))
	for i, p := range l {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the problems one by one, for errors.As.
func (l List) Unwrap() []error {
	out := make([]error, len(l))
	for i, p := range l {
		out[i] = p
	}
	return out
}

// Nearest returns the candidate nearest to name (at most a third of its letters changed), or "".
func Nearest(name string, candidates []string) string {
	name = strings.ToLower(name)
	best, bestD := "", len([]rune(name))/3+2
	for _, c := range candidates {
		if d := distance(name, strings.ToLower(c)); d < bestD {
			best, bestD = c, d
		}
	}
	return best
}

// distance is the number of letters to insert, drop, change or swap with a neighbour.
func distance(s, t string) int {
	a, b := []rune(s), []rune(t)
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}
