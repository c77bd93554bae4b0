package section

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"

	"crossgrain/panel/internal/fe"
)

// part is one board cut free, held at three places only, with the movements of its section under every
// force that can act on it. Its columns stand in this order:
//
//	free stress of wood and coats (np), unit pull, unit moment and nil (3), forces of the join on the
//	left, of the join on the right (2 a node), unit strains along the grain (3)
type part struct {
	t      Timber
	g      *grid
	wood   fe.Stiffness
	coats  []fe.Stiffness // back then front, from the wood outwards
	rays   rays
	body   *fe.Body
	np, m  int
	left   []tie // of the join on the left, on this board
	right  []tie
	along  [3][]float64 // of a load of the board: force and moments along the grain
	border []float64    // 3 x m: Border^T of every column
	push   [3][2]float64
	ref    [2]float64
	atL    []float64 // movement at the ties on the left, 2 a tie, m columns
	atR    []float64
	rows   []float64 // outputs, m columns
	alone  []float64 // outputs of the board by itself, m columns
	x      []float64 // all movements, until released
}

// tie is a place on the edge of a board, by up to three nodes.
type tie struct {
	node [3]int
	w    [3]float64
	x, z float64
}

// Columns of loads within a layer of wood.
const perLayer = 4

func newPart(t Timber, o *Options, left, base float64) (*part, error) {
	p := &part{t: t, rays: t.rays()}
	var err error
	if p.wood, err = t.Wood.stiffness(); err != nil {
		return nil, err
	}
	for _, side := range [][]Coat{t.Back, t.Front} {
		for _, c := range side {
			s, err := fe.Isotropic(c.E, c.Nu).Stiffness()
			if err != nil {
				return nil, err
			}
			p.coats = append(p.coats, s)
		}
	}
	p.g = newGrid(&t, o, left, base)
	p.np = perLayer*p.g.layers + len(p.coats)
	p.ref = [2]float64{left + t.Width/2, base + t.Thickness/2}
	p.body, err = fe.NewBody(&p.g.Mesh, p.law, p.held())
	return p, err
}

// held are three unknowns that keep the board from moving as a whole: its lower left corner, and the
// height of its lower right one.
func (p *part) held() []int {
	a, b := p.g.corner(0, p.g.back()), p.g.corner(len(p.g.x)-1, p.g.back())
	return []int{2 * a, 2*a + 1, 2*b + 1}
}

// coatOf returns the coat in row r of elements; -1 for wood.
func (p *part) coatOf(r int) int {
	switch {
	case r < p.g.first:
		return p.g.first - 1 - r
	case r >= p.g.first+p.g.layers:
		return r - p.g.layers
	}
	return -1
}

func (p *part) law(e int, x, z float64, d *fe.Stiffness) {
	if c := p.coatOf(e % p.g.rows); c >= 0 {
		*d = p.coats[c]
		return
	}
	c, s := p.rays.at(x-p.g.left, z-p.g.base)
	p.wood.Turned(c, s, d)
}

// Lengths of a load of this board: what acts in the plane, and all of it.
func (p *part) loads() int { return p.np + 2*p.g.layers }

// solve fills and solves all columns. ends says whether the pull on the panel's edges acts at the left
// and at the right edge of this board, at the height mid.
func (p *part) solve(ends [2]bool, mid float64) error {
	nl, nr := 2*len(p.left), 2*len(p.right)
	p.m = p.np + 3 + nl + nr + 3
	n := 2 * len(p.g.X)
	p.x = make([]float64, n*p.m)
	p.loadColumns()
	for i, edge := range [2]int{0, len(p.g.x) - 1} {
		if ends[i] {
			p.pullColumns(edge, float64(2*i-1), mid)
		}
	}
	for i, t := range p.left {
		p.tieColumns(t, p.np+3+2*i, -1)
	}
	for i, t := range p.right {
		p.tieColumns(t, p.np+3+nl+2*i, 1)
	}
	for i, c := range p.body.Border {
		for l := range 3 {
			p.x[i*p.m+p.m-3+l] = -c[l]
		}
	}
	if err := p.body.Solve(p.x, p.m); err != nil {
		return err
	}
	p.body.Release()
	p.border = make([]float64, 3*p.m)
	for i, c := range p.body.Border {
		for l := range 3 {
			if c[l] != 0 {
				floats.AddScaled(p.border[l*p.m:][:p.m], c[l], p.x[i*p.m:][:p.m])
			}
		}
	}
	p.atL, p.atR = p.tieRows(p.left), p.tieRows(p.right)
	return nil
}

// loadColumns fills the forces of unit free stress: for each layer of wood R0 R1 T0 T1 (mean, and
// straight from -1 to 1 over the layer), then unit free strain of each coat.
func (p *part) loadColumns() {
	for l := range p.along {
		p.along[l] = make([]float64, p.loads())
	}
	radial := func(x, z float64) [4]float64 {
		c, s := p.rays.at(x-p.g.left, z-p.g.base)
		return fe.ToSection([4]float64{1, 0, 0, 0}, c, s)
	}
	tangential := func(x, z float64) [4]float64 {
		c, s := p.rays.at(x-p.g.left, z-p.g.base)
		return fe.ToSection([4]float64{0, 1, 0, 0}, c, s)
	}
	grain := func(_, _ float64) [4]float64 { return [4]float64{0, 0, 0, 1} }
	slope := func(_, eta float64) float64 { return eta }
	spare := make([]float64, 2*len(p.g.X))
	for e := range p.g.El {
		r := e % p.g.rows
		if c := p.coatOf(r); c >= 0 {
			s := p.coats[c].Stress([4]float64{1, 1, 0, 1})
			col := perLayer*p.g.layers + c
			p.sum(col, p.body.Load(p.x, p.m, col, e, nil, func(_, _ float64) [4]float64 { return s }))
			continue
		}
		l := r - p.g.first
		p.body.Load(p.x, p.m, perLayer*l, e, nil, radial)
		p.body.Load(p.x, p.m, perLayer*l+1, e, slope, radial)
		p.body.Load(p.x, p.m, perLayer*l+2, e, nil, tangential)
		p.body.Load(p.x, p.m, perLayer*l+3, e, slope, tangential)
		p.sum(p.np+2*l, p.body.Load(spare, 1, 0, e, nil, grain))
		p.sum(p.np+2*l+1, p.body.Load(spare, 1, 0, e, slope, grain))
	}
}

func (p *part) sum(col int, along [3]float64) {
	for l, v := range along {
		p.along[l][col] += v
	}
}

// pullColumns fills the traction that pulls the edge by 1 N/mm at the height mid, and that which bends it
// by 1 N mm/mm, painted face pulled; straight over the wood.
func (p *part) pullColumns(edge int, sign, mid float64) {
	lo, hi := p.g.back(), p.g.front()
	zl, zh := p.g.Z[p.g.corner(edge, lo)], p.g.Z[p.g.corner(edge, hi)]
	h, zc := zh-zl, (zl+zh)/2
	ga := math.Sqrt(0.6)
	for k := lo; k < hi; k += 2 {
		n := [3]int{p.g.corner(edge, k), p.g.corner(edge, k+1), p.g.corner(edge, k+2)}
		a, b := p.g.Z[n[0]], p.g.Z[n[2]]
		for i, xi := range [3]float64{-ga, 0, ga} {
			w := [3]float64{5. / 18, 8. / 18, 5. / 18}[i] * (b - a)
			z := (a+b)/2 + xi*(b-a)/2
			bend := 12 * (z - zc) / (h * h * h)
			s := quadratic(xi)
			for j := range 3 {
				row := p.x[2*n[j]*p.m:]
				row[p.np] += sign * w * s[j] * (1/h + bend*(mid-zc))
				row[p.np+1] += sign * w * s[j] * bend
			}
		}
	}
	// resultant on the board: force x, force z, moment turning x towards z about ref
	p.push[0][0] += sign
	p.push[2][0] -= sign * (mid - p.ref[1])
	p.push[2][1] -= sign
}

// quadratic returns the shape functions of the three nodes of a side at xi, -1 to 1.
func quadratic(xi float64) [3]float64 {
	return [3]float64{xi * (xi - 1) / 2, 1 - xi*xi, xi * (xi + 1) / 2}
}

func (p *part) tieColumns(t tie, col int, sign float64) {
	for i, n := range t.node {
		for d := range 2 {
			p.x[(2*n+d)*p.m+col+d] += sign * t.w[i]
		}
	}
}

func (p *part) tieRows(ties []tie) []float64 {
	out := make([]float64, 2*len(ties)*p.m)
	for i, t := range ties {
		for d := range 2 {
			p.point(out[(2*i+d)*p.m:][:p.m], t, d, 1)
		}
	}
	return out
}

// point adds w times the movement of a place to the row of an output; d = 0 in x, 1 in z.
func (p *part) point(row []float64, t tie, d int, w float64) {
	for i, n := range t.node {
		if t.w[i] != 0 {
			floats.AddScaled(row, w*t.w[i], p.x[(2*n+d)*p.m:][:p.m])
		}
	}
}

// rigid returns the movement of the place x, z for a unit shift in x, in z, and a unit turn from x to z.
func (p *part) rigid(x, z float64) (ux, uz [3]float64) {
	return [3]float64{1, 0, -(z - p.ref[1])}, [3]float64{0, 1, x - p.ref[0]}
}

// onFace returns the place x (of the panel) on the half row k, which must be a row's edge.
func (p *part) onFace(x float64, k int) tie {
	i, xi := p.g.place(x - p.g.left)
	a, b, c := p.g.corner(i, k), p.g.middle(i, k/2), p.g.corner(i+1, k)
	w := quadratic(xi)
	return tie{node: [3]int{a, b, c}, w: w, x: x, z: w[0]*p.g.Z[a] + w[1]*p.g.Z[b] + w[2]*p.g.Z[c]}
}

// edgeTies returns a tie for every node of an edge, from the back upwards.
func (p *part) edgeNodes(right bool) []tie {
	edge := 0
	if right {
		edge = len(p.g.x) - 1
	}
	out := make([]tie, 2*p.g.rows+1)
	for k := range out {
		n := p.g.corner(edge, k)
		out[k] = tie{node: [3]int{n, n, n}, w: [3]float64{1, 0, 0}, x: p.g.X[n], z: p.g.Z[n]}
	}
	return out
}

// wrap says which board an error is about.
func wrap(i int, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("board %d: %w", i+1, err)
}
