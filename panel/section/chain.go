package section

import (
	"fmt"

	"gonum.org/v1/gonum/mat"
)

// chain is the small system that joins the boards: unknown are the forces at the pairs of each join and
// the three rigid movements of every board but the first. Each join knows its neighbours only, so the
// equations are block-tridiagonal; stiffness of the boards stands in them as condensed flexibility, and
// springs and gaps of the joins enter here alone, outside the factorised boards.
type chain struct {
	parts []*part
	seams []*seam
	start []int // first column of the loads of each board
	cols  int   // loads of all boards, then pull, moment, constant, then the strains along the grain
	y     []*mat.Dense
}

// columns beyond the loads.
const (
	colPull = iota
	colMoment
	colOne // constant: gaps
	colAlong
	extraCols = colAlong + 3
)

func newChain(parts []*part, seams []*seam) *chain {
	c := &chain{parts: parts, seams: seams}
	for _, p := range parts {
		c.start = append(c.start, c.cols)
		c.cols += p.np
	}
	return c
}

// all is the number of columns of the answers.
func (c *chain) all() int { return c.cols + extraCols }

// end is the column after the loads of board i.
func (c *chain) end(i int) int { return c.start[i] + c.parts[i].np }

// solve finds y: for each join, rows of 2 forces a pair and the 3 rigid movements of the board on its
// right, for a unit of each column.
func (c *chain) solve() error {
	n := len(c.seams)
	c.y = make([]*mat.Dense, n)
	up := make([]*mat.Dense, n) // D^-1 U
	for j := range n {
		d, lo, hi, r := c.block(j)
		if j > 0 {
			var t mat.Dense
			t.Mul(lo, up[j-1])
			d.Sub(d, &t)
			t.Reset()
			t.Mul(lo, c.y[j-1])
			r.Sub(r, &t)
		}
		var lu mat.LU
		lu.Factorize(d)
		c.y[j] = new(mat.Dense)
		if err := lu.SolveTo(c.y[j], false, r); err != nil {
			return fmt.Errorf("join %d cannot be solved: %w", j+1, err)
		}
		if hi != nil {
			up[j] = new(mat.Dense)
			if err := lu.SolveTo(up[j], false, hi); err != nil {
				return fmt.Errorf("join %d cannot be solved: %w", j+1, err)
			}
		}
	}
	for j := n - 2; j >= 0; j-- {
		var t mat.Dense
		t.Mul(up[j], c.y[j+1])
		c.y[j].Sub(c.y[j], &t)
	}
	return nil
}

// size is the number of unknowns of join j.
func (c *chain) size(j int) int { return 2*len(c.seams[j].z) + 3 }

// block returns the equations of join j: on its own unknowns, on those before and after (nil at the
// ends), and the right-hand sides.
//
//	opening b(u_B) - a(u_A) = give * force;   forces on board B add up to nothing
func (c *chain) block(j int) (d, lo, hi, r *mat.Dense) {
	s, b := c.seams[j], c.parts[j+1]
	n2 := 2 * len(s.z)
	d, r = mat.NewDense(n2+3, n2+3, nil), mat.NewDense(n2+3, c.all(), nil)
	if j > 0 {
		lo = mat.NewDense(n2+3, c.size(j-1), nil)
	}
	if j+1 < len(c.seams) {
		hi = mat.NewDense(n2+3, c.size(j+1), nil)
	}
	for i := range n2 {
		c.opening(j, i, d, lo, hi, r)
	}
	for i, t := range b.left { // forces on B: minus those on A
		ux, uz := b.rigid(t.x, t.z)
		for k := range 3 {
			d.Set(n2+k, 2*i, -ux[k])
			d.Set(n2+k, 2*i+1, -uz[k])
		}
	}
	if hi != nil {
		for i, t := range b.right {
			ux, uz := b.rigid(t.x, t.z)
			for k := range 3 {
				hi.Set(n2+k, 2*i, ux[k])
				hi.Set(n2+k, 2*i+1, uz[k])
			}
		}
	}
	for k := range 3 {
		r.Set(n2+k, c.cols+colPull, -b.push[k][0])
		r.Set(n2+k, c.cols+colMoment, -b.push[k][1])
	}
	return d, lo, hi, r
}

// opening fills the equation of pair i/2 in the direction i%2.
func (c *chain) opening(j, i int, d, lo, hi, r *mat.Dense) {
	s, a, b := c.seams[j], c.parts[j], c.parts[j+1]
	n2 := 2 * len(s.z)
	k, dir := i/2, i%2
	if s.open[k] && (dir == 1 || !s.shut[k]) { // no glue: no force; faces that touch slide
		d.Set(i, i, 1)
		return
	}
	rb, ra := b.atL[i*b.m:][:b.m], a.atR[i*a.m:][:a.m]
	al, ar := a.np+3, a.np+3+2*len(a.left)
	bl, br := b.np+3, b.np+3+2*len(b.left)
	for q := range n2 {
		d.Set(i, q, rb[bl+q]-ra[ar+q])
	}
	if !s.open[k] {
		d.Set(i, i, d.At(i, i)-s.give(k, dir))
	}
	ub, ua := pick(b, b.left[k], dir), pick(a, a.right[k], dir)
	for q := range 3 {
		d.Set(i, n2+q, ub[q])
	}
	if lo != nil {
		for q := range 2 * len(a.left) {
			lo.Set(i, q, -ra[al+q])
		}
		for q := range 3 {
			lo.Set(i, 2*len(a.left)+q, -ua[q])
		}
	}
	if hi != nil {
		for q := range 2 * len(b.right) {
			hi.Set(i, q, rb[br+q])
		}
	}
	row := r.RawRowView(i)
	for q := range a.np {
		row[c.start[j]+q] += ra[q]
	}
	for q := range b.np {
		row[c.start[j+1]+q] -= rb[q]
	}
	for q := range 2 {
		row[c.cols+q] += ra[a.np+q] - rb[b.np+q]
	}
	for q := range 3 {
		row[c.cols+colAlong+q] += ra[a.m-3+q] - rb[b.m-3+q]
	}
	if s.open[k] { // touching: the opening is minus the gap
		row[c.cols+colOne] -= s.Gap
	}
}

func pick(p *part, t tie, dir int) [3]float64 {
	ux, uz := p.rigid(t.x, t.z)
	if dir == 0 {
		return ux
	}
	return uz
}

// gap returns the row of the opening across at pair i of join j, on the loads of all boards and beside them.
func (c *chain) gap(j, i int) *mat.Dense {
	a, b := c.parts[j], c.parts[j+1]
	ra, rb := c.inside(j, a.atR[2*i*a.m:][:a.m]), c.inside(j+1, b.atL[2*i*b.m:][:b.m])
	rb.Sub(rb, ra)
	row := rb.RawRowView(0)
	ua, ub := pick(a, a.right[i], 0), pick(b, b.left[i], 0)
	n2 := 2 * len(c.seams[j].z)
	for k := range 3 {
		addRow(row, c.y[j].RawRowView(n2+k), ub[k])
		if j > 0 {
			addRow(row, c.y[j-1].RawRowView(2*len(c.seams[j-1].z)+k), -ua[k])
		}
	}
	return rb
}

func addRow(dst, src []float64, w float64) {
	for i, v := range src {
		dst[i] += w * v
	}
}
