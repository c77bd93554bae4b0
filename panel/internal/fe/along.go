package fe

import (
	"fmt"
	"math"
)

// Complement returns S = Along + Border^T Y, where y holds the movements Y caused by minus the border
// (three columns within rows of m, from column col on): force and moments along the grain for a unit
// of q, the section free to follow.
func (b *Body) Complement(y []float64, m, col int) [3][3]float64 {
	s := b.Along
	for i := range b.Border {
		for j, c := range b.Border[i] {
			if c == 0 {
				continue
			}
			for l := range 3 {
				s[j][l] += c * y[i*m+col+l]
			}
		}
	}
	return s
}

// SolveAlong solves for m columns of forces x and the force and moments along the grain g (three values a
// column) together; x becomes the movements and g the strain along the grain q0, q1, q2 of each column.
func (b *Body) SolveAlong(x []float64, g [][3]float64) error {
	m := len(g)
	n := len(b.Border)
	if m == 0 || len(x) != n*m {
		return fmt.Errorf("forces must be %d rows of %d values, got %d values", n, m, len(x))
	}
	all := make([]float64, n*(m+3))
	for i := range n {
		copy(all[i*(m+3):], x[i*m:][:m])
		for l := range 3 {
			all[i*(m+3)+m+l] = -b.Border[i][l]
		}
	}
	if err := b.Solve(all, m+3); err != nil {
		return err
	}
	s := b.Complement(all, m+3, m)
	for c := range m {
		r := g[c]
		for i := range n {
			for l := range 3 {
				r[l] -= b.Border[i][l] * all[i*(m+3)+c]
			}
		}
		q, err := Solve3(s, r)
		if err != nil {
			return err
		}
		g[c] = q
		for i := range n {
			y := all[i*(m+3):][:m+3]
			x[i*m+c] = y[c] + y[m]*q[0] + y[m+1]*q[1] + y[m+2]*q[2]
		}
	}
	return nil
}

// Solve3 solves three equations with a symmetric matrix, scaled by its diagonal, which must be above 0.
func Solve3(a [3][3]float64, r [3]float64) ([3]float64, error) {
	b, err := NewBand(3, 2)
	if err != nil {
		return r, err
	}
	var d [3]float64
	for i := range 3 {
		if !(a[i][i] > 0) {
			return r, fmt.Errorf("stiffness along the grain must be above 0, got %g", a[i][i])
		}
		d[i] = 1 / math.Sqrt(a[i][i])
	}
	for i := range 3 {
		for j := i; j < 3; j++ {
			b.Add(i, j, (a[i][j]+a[j][i])/2*d[i]*d[j])
		}
	}
	if err := b.Factor(); err != nil {
		return r, err
	}
	x := []float64{r[0] * d[0], r[1] * d[1], r[2] * d[2]}
	if err := b.SolveRows(x, 1); err != nil {
		return r, err
	}
	return [3]float64{x[0] * d[0], x[1] * d[1], x[2] * d[2]}, nil
}
