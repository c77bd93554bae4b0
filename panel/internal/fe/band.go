package fe

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// Band is a symmetric matrix of which only the diagonal and kd lines above it are not nil, stored
// row by row.
type Band struct {
	n, kd  int
	a      []float64 // row i holds columns i to i+kd
	solved bool      // a holds the factor U, A = U^T U
}

// NewBand returns a zero matrix of n unknowns with the half-bandwidth kd, 0 to n-1.
func NewBand(n, kd int) (*Band, error) {
	if n < 1 || kd < 0 || kd >= n {
		return nil, fmt.Errorf("band must have 1 unknown or more and a half-bandwidth of 0 to one less than that, got %d and %d", n, kd)
	}
	return &Band{n: n, kd: kd, a: make([]float64, n*(kd+1))}, nil
}

// Size returns the number of unknowns and the half-bandwidth.
func (b *Band) Size() (n, kd int) { return b.n, b.kd }

// Add adds v to the places i, j and j, i. Places outside the band are refused by a false return.
func (b *Band) Add(i, j int, v float64) bool {
	if i > j {
		i, j = j, i
	}
	if i < 0 || j >= b.n || j-i > b.kd {
		return false
	}
	b.a[i*b.kd+j] += v // i*(kd+1) + j-i
	return true
}

// At returns the value at i, j; nil outside the band. After Factor it is that of the factor.
func (b *Band) At(i, j int) float64 {
	if i > j {
		i, j = j, i
	}
	if j-i > b.kd {
		return 0
	}
	return b.a[i*b.kd+j]
}

// Hold takes the unknown i out: its row and column become nil and its diagonal d, above 0.
func (b *Band) Hold(i int, d float64) {
	for j := max(0, i-b.kd); j < i; j++ {
		b.a[j*b.kd+i] = 0
	}
	row := b.a[i*(b.kd+1):][:b.kd+1]
	clear(row)
	row[0] = d
}

// Clone returns a copy.
func (b *Band) Clone() *Band {
	c := *b
	c.a = append([]float64(nil), b.a...)
	return &c
}

// Factor replaces the matrix by its Cholesky factor. A matrix that is not positive definite, or
// holds a value that is no number, is refused.
func (b *Band) Factor() error {
	if b.solved {
		return fmt.Errorf("band is factored already")
	}
	for k, v := range b.a {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("stiffness must be finite, got %g in row %d", v, k/(b.kd+1))
		}
	}
	s := blas64.SymmetricBand{N: b.n, K: b.kd, Data: b.a, Stride: b.kd + 1, Uplo: blas.Upper}
	if _, ok := lapack64.Pbtrf(s); !ok {
		return fmt.Errorf("stiffness is not positive definite: the body can move without strain, or a modulus is not above 0")
	}
	b.solved = true
	return nil
}

// SolveRows solves A X = B for m columns; x holds B on entry and X on return, row by row (the m
// values of unknown 0, then those of unknown 1). Whole rows are added at a time, so that many
// columns cost little more than few.
func (b *Band) SolveRows(x []float64, m int) error {
	if !b.solved {
		return fmt.Errorf("band must be factored before it is solved")
	}
	if m < 1 || len(x) != b.n*m {
		return fmt.Errorf("right-hand sides must be %d rows of %d values, got %d values", b.n, m, len(x))
	}
	kd := b.kd
	for i := range b.n { // U^T Y = B
		u := b.a[i*(kd+1):][:kd+1]
		xi := x[i*m:][:m]
		floats.Scale(1/u[0], xi)
		for j := 1; j <= kd && i+j < b.n; j++ {
			if u[j] != 0 {
				floats.AddScaled(x[(i+j)*m:][:m], -u[j], xi)
			}
		}
	}
	for i := b.n - 1; i >= 0; i-- { // U X = Y
		u := b.a[i*(kd+1):][:kd+1]
		xi := x[i*m:][:m]
		for j := 1; j <= kd && i+j < b.n; j++ {
			if u[j] != 0 {
				floats.AddScaled(xi, -u[j], x[(i+j)*m:][:m])
			}
		}
		floats.Scale(1/u[0], xi)
	}
	return nil
}

// Residual returns the largest part of A x - f relative to |A| |x| + |f|, for one column and a
// matrix that is not factored.
func (b *Band) Residual(x, f []float64) (float64, error) {
	if b.solved || len(x) != b.n || len(f) != b.n {
		return 0, fmt.Errorf("residual needs the matrix before it is factored and %d values twice, got %d and %d", b.n, len(x), len(f))
	}
	r, scale := make([]float64, b.n), make([]float64, b.n)
	for i := range b.n {
		row := b.a[i*(b.kd+1):][:b.kd+1]
		r[i] += row[0]*x[i] - f[i]
		scale[i] += math.Abs(row[0])
		for j := 1; j <= b.kd && i+j < b.n; j++ {
			r[i] += row[j] * x[i+j]
			r[i+j] += row[j] * x[i]
			scale[i] += math.Abs(row[j])
			scale[i+j] += math.Abs(row[j])
		}
	}
	s := floats.Max(scale)*floats.Norm(x, math.Inf(1)) + floats.Norm(f, math.Inf(1))
	if s == 0 {
		return 0, nil
	}
	return floats.Norm(r, math.Inf(1)) / s, nil
}
