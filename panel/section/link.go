package section

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// seam is the join between two neighbouring boards: pairs of places, one on each, with a force between
// them.
type seam struct {
	Link
	z     []float64 // heights of the pairs
	open  []bool    // lies in the open part
	shut  []bool    // of those open, the faces touch now
	share *mat.Dense
}

// sameHeight is how near, in mm, two places count as one.
const sameHeight = 1e-6

// newSeam pairs the right edge of a with the left edge of b: every node of the thinner edge within the
// common height is tied to its place on the other edge. Where the rows match, node meets node.
func newSeam(a, b *part, l Link) (*seam, error) {
	if !(l.OpenFrom >= 0 && l.OpenTo <= 1 && l.OpenFrom <= l.OpenTo) || !(l.Normal >= 0 && l.Shear >= 0 && l.Gap >= 0) || math.IsInf(l.Normal+l.Shear+l.Gap, 0) {
		return nil, fmt.Errorf("open part of a join must run from 0 to 1 of its height, its stiffness and gap be 0 or more, got %g to %g, %g and %g MPa/mm, %g mm",
			l.OpenFrom, l.OpenTo, l.Normal, l.Shear, l.Gap)
	}
	an, bn := a.edgeNodes(true), b.edgeNodes(false)
	lo := math.Max(an[0].z, bn[0].z) - sameHeight
	hi := math.Min(an[len(an)-1].z, bn[len(bn)-1].z) + sameHeight
	few, many := an, bn
	flip := span(bn) < span(an)-sameHeight
	if flip {
		few, many = bn, an
	}
	s := &seam{Link: l}
	var mine, other []tie
	for _, t := range few {
		if t.z >= lo && t.z <= hi {
			mine = append(mine, t)
			other = append(other, onEdge(many, t.z))
			s.z = append(s.z, t.z)
		}
	}
	if len(mine) < 3 {
		return nil, fmt.Errorf("edges of the boards meet over %.3g mm only: too little for a join", math.Max(0, hi-lo))
	}
	if flip {
		mine, other = other, mine
	}
	a.right, b.left = mine, other
	return s, s.part(lo, hi)
}

func span(t []tie) float64 { return t[len(t)-1].z - t[0].z }

// part marks the open part.
func (s *seam) part(lo, hi float64) error {
	s.open, s.shut = make([]bool, len(s.z)), make([]bool, len(s.z))
	whole := 0
	for i, z := range s.z {
		at := (z - lo) / (hi - lo)
		s.open[i] = s.OpenTo > s.OpenFrom && at >= s.OpenFrom && at <= s.OpenTo
		if !s.open[i] {
			whole++
		}
	}
	if whole < 3 {
		return fmt.Errorf("join is open over nearly all its height (%g to %g): the boards are two panels, model them one by one", s.OpenFrom, s.OpenTo)
	}
	return nil
}

// onEdge returns the place at the height z of an edge given by all its nodes.
func onEdge(nodes []tie, z float64) tie {
	k := 0
	for k+4 < len(nodes) && nodes[k+2].z < z {
		k += 2
	}
	a, b := nodes[k].z, nodes[k+2].z
	w := quadratic(2*(z-a)/(b-a) - 1)
	for i := range w {
		if math.Abs(w[i]) < 1e-9 {
			w[i] = 0
		}
	}
	return tie{node: [3]int{nodes[k].node[0], nodes[k+1].node[0], nodes[k+2].node[0]}, w: w, x: nodes[k].x, z: z}
}

// shares returns the matrix that turns forces at the pairs into tractions there: the inverse of the mass
// matrix of the quadratic sides. Pairs whose sides are not whole (edges that overlap in part) count as
// strips.
func (s *seam) shares() *mat.Dense {
	n := len(s.z)
	m := mat.NewDense(n, n, nil)
	if n%2 == 0 || !s.regular() {
		for i := range n {
			lo, hi := max(0, i-1), min(n-1, i+1)
			m.Set(i, i, 2/(s.z[hi]-s.z[lo]))
		}
		return m
	}
	for k := 0; k+2 < n; k += 2 {
		h := (s.z[k+2] - s.z[k]) / 30
		for i, row := range [3][3]float64{{4, 2, -1}, {2, 16, 2}, {-1, 2, 4}} {
			for j, v := range row {
				m.Set(k+i, k+j, m.At(k+i, k+j)+v*h)
			}
		}
	}
	var inv mat.Dense
	if err := inv.Inverse(m); err != nil {
		return m
	}
	return &inv
}

// regular says whether the pairs are corners and middles in turn.
func (s *seam) regular() bool {
	for k := 0; k+2 < len(s.z); k += 2 {
		if math.Abs(s.z[k]+s.z[k+2]-2*s.z[k+1]) > 1e-9*(s.z[k+2]-s.z[k]) {
			return false
		}
	}
	return true
}

// give is the yielding of pair i in the direction d (0 across, 1 up) under a unit force: glue line over
// the share of height that belongs to it.
func (s *seam) give(i, d int) float64 {
	k := s.Normal
	if d == 1 {
		k = s.Shear
	}
	if k == 0 {
		return 0
	}
	return 1 / (k * s.tributary(i))
}

// tributary is the height that belongs to pair i, mm: a sixth or two thirds of each side it is on.
func (s *seam) tributary(i int) float64 {
	n := len(s.z)
	if n%2 == 0 || !s.regular() {
		return (s.z[min(n-1, i+1)] - s.z[max(0, i-1)]) / 2
	}
	if i%2 == 1 {
		return 2 * (s.z[i+1] - s.z[i-1]) / 3
	}
	return (s.z[min(n-1, i+2)] - s.z[max(0, i-2)]) / 6
}
