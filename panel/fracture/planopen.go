package fracture

import (
	"fmt"

	"gonum.org/v1/gonum/mat"

	"crossgrain/panel/internal/plan"
)

// open works out what the rows that are open now but tied in the mesh add to the flexibility between the places that hold: with
// k' - k the change of their ties,
//
//	F open = F - F_r^T [ (k' - k)^-1 + F_rr ]^-1 F_r,   k' = what passes in a part-through opening, else 0
func (p *planMesh) open(h *PlanHold) error {
	var jumps []int
	var change []*mat.Dense // k' - k of each row
	for r, y := range p.y {
		for i := range h.Open {
			if o := &h.Open[i]; h.Whole && p.inside(o, r) && !p.state[r].opened {
				if p.at[r][plan.U] < 0 || p.tie[r][plan.U] == 0 {
					return fmt.Errorf("line is not open now at %g mm, where what holds has it open", y)
				}
				jumps = append(jumps, p.at[r][:]...)
				change = append(change, p.change(o, r))
			}
		}
	}
	n := len(jumps)
	if n == 0 {
		return nil
	}
	a := mat.NewDense(n, n, nil)
	for k, c := range change {
		if err := a.Slice(5*k, 5*k+5, 5*k, 5*k+5).(*mat.Dense).Inverse(c); err != nil {
			return fmt.Errorf("ties of the line as it is: %w", err)
		}
	}
	f, b := p.c.F, mat.NewDense(n, p.nb, nil)
	for i, s := range jumps {
		row := f[(p.nb+s)*p.c.N:]
		for k, t := range jumps {
			a.Set(i, k, a.At(i, k)+row[p.nb+t])
		}
		b.SetRow(i, row[:p.nb])
	}
	var x, d mat.Dense
	if err := x.Solve(a, b); err != nil {
		if _, ill := err.(mat.Condition); !ill {
			return fmt.Errorf("line as it is: %w", err)
		}
	}
	d.Mul(b.T(), &x)
	p.opens = make([]float64, p.nb*p.nb)
	for i := range p.nb {
		for k := range p.nb {
			p.opens[i*p.nb+k] = -(d.At(i, k) + d.At(k, i)) / 2
		}
	}
	return nil
}

// inside tells whether row r lies between the tips of an open stretch.
func (p *planMesh) inside(o *PlanStretch, r int) bool {
	from, to, top := p.rowAt(o.From), p.rowAt(o.To), len(p.y)-1
	return from < to && (r > from || r == from && from == 0) && (r < to || r == to && to == top)
}

// change is by how much the ties of row r differ from whole wood, N/mm and N mm, on the jumps of its five movements.
func (p *planMesh) change(o *PlanStretch, r int) *mat.Dense {
	c := mat.NewDense(5, 5, nil)
	for i, k := range p.tie[r] {
		c.Set(i, i, -k)
	}
	if o.Depth == 0 || o.Hinge == nil {
		return c
	}
	open, up, turn := o.Hinge.Springs(p.across, p.depth)
	s, z, left := p.span(r), (p.face[0]+p.face[1])/2+up, o.Hinge.Left
	add := func(i, k int, v float64) { c.Set(i, k, c.At(i, k)+v) }
	for i, k := range [2]float64{open * s, p.tie[r][1] * left} { // at the height z of the rest
		add(i, i, k)
		add(i, i+3, k*z)
		add(i+3, i, k*z)
		add(i+3, i+3, k*z*z)
	}
	add(2, 2, p.tie[r][2]*left)
	add(3, 3, turn*s)
	add(4, 4, p.tie[r][4]*left)
	return c
}
