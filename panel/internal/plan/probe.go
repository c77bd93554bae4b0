package plan

// Probe says how the force and the moment across the grain at a place, N/mm and N, follow from forces
// on the targets and from loads.
type Probe struct {
	Force [2][]float64 // of force and of moment, by target
	Load  [2][]float64 // the same by load
}

// Probe returns what [Shape.Resultant] would read there, across the grain, for a unit of each force and
// load.
func (c *Condensed) Probe(x, y float64, left bool) Probe {
	var p Probe
	for i := range 2 {
		p.Force[i], p.Load[i] = make([]float64, c.N), make([]float64, c.Loads)
	}
	g := c.model.Grid
	col, row, lo, hi := g.about(x, y, left)
	for _, a := range parabola(g.X, col, lo, hi, x) {
		for _, b := range parabola(g.Y, row, 0, len(g.Y)-2, y) {
			c.probe(&p, a.line, b.line, a.by*b.by)
		}
	}
	return p
}

// about returns the cell that holds a place and the first and last cell column of its board.
func (g *Grid) about(x, y float64, left bool) (col, row, lo, hi int) {
	col, row = g.columnAt(x, left), g.rowAt(y)
	lo, hi = col, col
	for lo > 0 && g.Board[lo-1] == g.Board[col] {
		lo--
	}
	for hi+1 < len(g.Board) && g.Board[hi+1] == g.Board[col] {
		hi++
	}
	return col, row, lo, hi
}

// probe adds the middle of a cell.
func (c *Condensed) probe(p *Probe, col, row int, by float64) {
	m, g := c.model, c.model.Grid
	board := g.Board[col]
	l := m.lam(col, row)
	nx, ny := slopes(g.X[col+1]-g.X[col], g.Y[row+1]-g.Y[row], 0, 0)
	for i, node := range g.corners(col, row) {
		for k, s := range [2][2]*m3{{&l.a, &l.b}, {&l.b, &l.d}} { // N = a e + b k, M = b e + d k
			c.add(p, k, node, 0, by*(s[0][0][0]*nx[i]+s[0][0][2]*ny[i]))
			c.add(p, k, node, 1, by*(s[0][0][1]*ny[i]+s[0][0][2]*nx[i]))
			c.add(p, k, node, 3, by*(s[1][0][0]*nx[i]+s[1][0][2]*ny[i]))
			c.add(p, k, node, 4, by*(s[1][0][1]*ny[i]+s[1][0][2]*nx[i]))
		}
	}
	for q := range perBoard {
		n, b := l.hold(q)
		p.Load[0][m.LoadOf(board, q)] -= by * n[0]
		p.Load[1][m.LoadOf(board, q)] -= by * b[0]
	}
}

// add adds a share of one movement of a node.
func (c *Condensed) add(p *Probe, which, node, way int, by float64) {
	for i := range c.fields {
		f := &c.fields[i]
		at := f.part.index(node, way)
		if at < 0 || by == 0 {
			continue
		}
		w := f.width()
		row := f.columns[at*w:][:w]
		for k, j := range f.forces {
			p.Force[which][j] += by * row[k]
		}
		for k, j := range f.loads {
			p.Load[which][j] += by * row[len(f.forces)+k]
		}
	}
}
