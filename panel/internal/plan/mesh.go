package plan

import (
	"fmt"
	"math"
	"slices"
)

// Mark is a place that mesh lines must follow, with the size of the cells beside it, mm; 0 = as
// everywhere.
type Mark struct{ At, Size float64 }

// growth is how fast cells grow with the distance from a finer place, mm per mm.
const growth = 0.25

// together is the distance below which two marks are one, mm.
const together = 1e-6

// divide returns lines from 0 to length through all marks, cells at most cell wide and finer beside
// marks with a size of their own.
func divide(length, cell float64, marks []Mark) []float64 {
	at := []float64{0, length}
	var fine []Mark
	for _, m := range marks {
		if m.At > together && m.At < length-together {
			at = append(at, m.At)
		}
		if m.Size > 0 && m.Size < cell {
			fine = append(fine, m)
		}
	}
	slices.Sort(at)
	at = slices.CompactFunc(at, func(a, b float64) bool { return math.Abs(b-a) < together })
	at[len(at)-1] = length
	size := func(x float64) float64 {
		s := cell
		for _, m := range fine {
			s = min(s, m.Size+growth*math.Abs(x-m.At))
		}
		return s
	}
	out := []float64{0}
	for i := 1; i < len(at); i++ {
		out = append(out, between(at[i-1], at[i], size)...)
	}
	return out
}

// between divides a to b in cells of about size(x), the last line b.
func between(a, b float64, size func(float64) float64) []float64 {
	const steps = 64
	var sum [steps + 1]float64
	h := (b - a) / steps
	for i := range steps {
		sum[i+1] = sum[i] + h/size(a+h*(float64(i)+0.5))
	}
	n := max(1, int(math.Ceil(sum[steps]-1e-6)))
	out := make([]float64, 0, n)
	j := 0
	for k := 1; k < n; k++ {
		want := sum[steps] * float64(k) / float64(n)
		for sum[j+1] < want {
			j++
		}
		out = append(out, a+h*(float64(j)+(want-sum[j])/(sum[j+1]-sum[j])))
	}
	return append(out, b)
}

// Grid is the rectangular mesh: columns of nodes at X, rows at Y. Two columns at one x are the two
// sides of a line; where the line is sound they share their nodes.
type Grid struct {
	X, Y  []float64
	Board []int // board of the cells right of column c; -1 between the two sides of a line
	Left  []int // column on the left side of each line
	node  []int // number of the node in column c and row r, at c len(Y) + r
	place [][2]int
}

// newGrid doubles the columns at the lines, which must be among xs. edges are the boards' right edges.
func newGrid(xs, ys, lines, edges []float64) (*Grid, error) {
	g := &Grid{Y: ys}
	board := 0
	for i, x := range xs {
		g.X = append(g.X, x)
		for _, l := range lines {
			if math.Abs(l-x) <= together && i > 0 && i < len(xs)-1 {
				g.Left = append(g.Left, len(g.X)-1)
				g.Board = append(g.Board, -1)
				g.X = append(g.X, x)
			}
		}
		for board < len(edges)-1 && x >= edges[board]-together {
			board++
		}
		if i < len(xs)-1 {
			g.Board = append(g.Board, board)
		}
	}
	if len(g.Left) != len(lines) {
		return nil, fmt.Errorf("lines must lie inside the panel and apart, %d of %d do", len(g.Left), len(lines))
	}
	return g, nil
}

// number gives every node a number, column by column or row by row, whichever keeps neighbours
// closer. sound tells whether both sides of line i share the node in row r.
func (g *Grid) number(sound func(i, r int) bool) {
	line := make([]int, len(g.X)) // of which column c is the right side, from 1
	for i, c := range g.Left {
		line[c+1] = i + 1
	}
	try := func(byRow bool) {
		g.node, g.place = make([]int, len(g.X)*len(g.Y)), g.place[:0]
		for k := range g.node {
			c, r := k/len(g.Y), k%len(g.Y)
			if byRow {
				c, r = k%len(g.X), k/len(g.X)
			}
			if line[c] > 0 && sound(line[c]-1, r) {
				g.node[c*len(g.Y)+r] = g.Node(c-1, r)
				continue
			}
			g.node[c*len(g.Y)+r] = len(g.place)
			g.place = append(g.place, [2]int{c, r})
		}
	}
	try(false)
	far := g.reach()
	if try(true); g.reach() > far {
		try(false)
	}
}

// Nodes returns the number of nodes.
func (g *Grid) Nodes() int { return len(g.place) }

// Cells returns the number of cells across and along the grain.
func (g *Grid) Cells() (nx, ny int) { return len(g.X) - 1 - len(g.Left), len(g.Y) - 1 }

// Node returns the number of the node in column c and row r.
func (g *Grid) Node(c, r int) int { return g.node[c*len(g.Y)+r] }

// reach is the largest difference of node numbers in a cell or across a line.
func (g *Grid) reach() int {
	far := 0
	for c, board := range g.Board {
		for r := range len(g.Y) - 1 {
			q := g.corners(c, r)
			if board < 0 { // only straight across
				far = max(far, apart(q[0], q[1]), apart(q[2], q[3]))
				continue
			}
			far = max(far, max(q[0], q[1], q[2], q[3])-min(q[0], q[1], q[2], q[3]))
		}
	}
	return far
}

func apart(a, b int) int { return max(a-b, b-a) }

// corners returns the nodes of the cell right of column c and above row r, in the order of
// [membrane]: (-,-) (+,-) (+,+) (-,+).
func (g *Grid) corners(c, r int) [4]int {
	return [4]int{g.Node(c, r), g.Node(c+1, r), g.Node(c+1, r+1), g.Node(c, r+1)}
}

// columnAt returns the cell column that holds x, of the board to the left when x is on a line and
// left is true.
func (g *Grid) columnAt(x float64, left bool) int {
	last := -1
	for c, b := range g.Board {
		if b < 0 {
			continue
		}
		last = c
		if x < g.X[c+1]-together || left && x <= g.X[c+1]+together {
			return c
		}
	}
	return last
}

// rowAt returns the cell row that holds y.
func (g *Grid) rowAt(y float64) int {
	for r := range len(g.Y) - 2 {
		if y < g.Y[r+1] {
			return r
		}
	}
	return len(g.Y) - 2
}
