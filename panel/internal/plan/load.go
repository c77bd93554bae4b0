package plan

// Load is what moves the panel apart from forces.
type Load int

// Loads of each board for a unit free strain of its wood across and along the grain and a unit free
// curvature across and along it, 1/mm.
const (
	StrainX Load = iota
	StrainL
	BendX
	BendL
	perBoard
)

// The panel's own weight: standing with the grain upright, and lying with the painted face up.
// Turned over it is the negative.
const (
	Standing Load = iota
	Lying
	weights
)

// LoadOf returns the column of a board's load.
func (m *Model) LoadOf(board int, l Load) int { return int(perBoard)*board + int(l) }

// WeightOf returns the column of the panel's own weight.
func (m *Model) WeightOf(l Load) int { return int(perBoard)*len(m.plates) + int(l) }

// Loads returns the number of load columns.
func (m *Model) Loads() int { return int(perBoard)*len(m.plates) + int(weights) }

// held returns the forces and moments per mm that hold a unit load of the board.
func (l *laminate) hold(load Load) (n, m [3]float64) {
	var unit [3]float64
	unit[int(load)%2] = 1
	if load < BendX {
		return l.fa.times(unit), l.fc.times(unit)
	}
	return l.fb.times(unit), l.fd.times(unit)
}

// loads returns the nodes' forces of all loads, in rows of Loads().
func (m *Model) loads(p *part) []float64 {
	g, cols := m.Grid, m.Loads()
	n, _ := p.band.Size()
	f := make([]float64, n*cols)
	add := func(node, which, col int, v float64) {
		if i := p.index(node, which); i >= 0 {
			f[i*cols+col] += v
		}
	}
	for c, board := range g.Board {
		if board < 0 {
			continue
		}
		for r := range len(g.Y) - 1 {
			l := m.lam(c, r)
			var force, moment [perBoard][3]float64
			for q := range perBoard {
				force[q], moment[q] = l.hold(q)
			}
			a, b := g.X[c+1]-g.X[c], g.Y[r+1]-g.Y[r]
			nx, ny := slopes(a, b, 0, 0)
			for i, node := range g.corners(c, r) {
				x, y := nx[i]*a*b, ny[i]*a*b
				for q := range perBoard {
					col := m.LoadOf(board, q)
					n, k := &force[q], &moment[q]
					add(node, 0, col, x*n[0]+y*n[2])
					add(node, 1, col, y*n[1]+x*n[2])
					add(node, 3, col, x*k[0]+y*k[2])
					add(node, 4, col, y*k[1]+x*k[2])
				}
				w := l.weight * a * b / 4
				add(node, 1, m.WeightOf(Standing), -w)
				add(node, 2, m.WeightOf(Lying), -w)
				if m.Coupled { // weight acts at mid-thickness
					add(node, 4, m.WeightOf(Standing), -w*m.plates[board].Centre)
				}
			}
		}
	}
	return f
}
