package chance

import (
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// design returns the chosen terms at the points, a row each, the constant first.
func (f *forward) design() *mat.Dense {
	a := mat.NewDense(len(f.y), len(f.chosen)+1, nil)
	for i, t := range f.points {
		row := a.RawRowView(i)
		row[0] = 1
		for k, m := range f.chosen {
			row[k+1] = t.product(m)
		}
	}
	return a
}

// solve returns the coefficients of the weighted least squares, root being the square roots of the
// weights. Terms that the points do not tell apart share what they explain.
func solve(a *mat.Dense, y, root []float64) []float64 {
	n, k := a.Dims()
	scaled := mat.NewDense(n, k, nil)
	right := mat.NewVecDense(n, nil)
	for i, r := range root {
		floats.ScaleTo(scaled.RawRowView(i), r, a.RawRowView(i))
		right.SetVec(i, r*y[i])
	}
	var gram mat.SymDense
	gram.SymOuterK(1, scaled.T())
	var b, c mat.VecDense
	b.MulVec(scaled.T(), right)
	var chol mat.Cholesky
	ridge := 0.0
	for !chol.Factorize(&gram) || chol.Cond() > 1/level {
		ridge = max(10*ridge, level*float64(n))
		for j := range k {
			gram.SetSym(j, j, gram.At(j, j)+ridge)
		}
	}
	if err := chol.SolveVecTo(&c, &b); err != nil {
		panic(err) // the condition was looked at above
	}
	return c.RawVector().Data
}
