package chance

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

// Options says how [Fit] works. The zero value is good for inputs that are standard normal.
type Options struct {
	Basis   Basis
	Degree  int       // highest degree of an input and of a product; 0 is 3
	Terms   int       // most terms kept; 0 is a tenth of the (effective) number of points; never more than half of them
	Pairs   int       // how many of the strongest inputs also act in products of two; 0 is 8, below 0 none
	Weights []float64 // of the points; nil is equal
}

// Poly is a polynomial of few terms with the shares of variance that follow from it.
//
// Variance is that of the polynomial plus the leave-one-out error. First, Total and Unexplained are shares
// of it. With equal weights, First[i] is the variance of the terms in input i alone, Total[i] that of all
// terms with input i, and the first shares, the products and Unexplained add up to 1.
//
// Weights tie inputs together (what is observed of a sum makes its parts depend on each other). First[i] is
// then still the share that goes when input i becomes known, with what is learnt of the others through
// it; Total[i] the weighted variance of the terms with input i, and may be smaller.
type Poly struct {
	First, Total   []float64 // by input, 0..1
	Unexplained    float64   // leave-one-out share of the variance that is not described, 0..1
	Mean, Variance float64   // of y, in its unit and that squared
	Terms          []Term    // in the order found; the constant is not among them

	basis    Basis
	degree   int
	constant float64
}

// fewest is the number of points under which nothing is fitted: a tenth of them would be no term.
const fewest = 10

// Fit fits a sparse polynomial y(x) by forward selection (orthogonal least squares: each time the term
// that takes most off the squares that are left). It ends when the best term left is no stronger than
// the strongest of as many terms without meaning, t^2 < 2 ln(terms), and keeps the first part of the
// terms with the least leave-one-out error.
//
// x is point by point, independent inputs with the distribution of the basis; y may be in any unit. An
// input that acts in products alone is found only among Pairs inputs or fewer; products of three are
// not looked for. What is missed stands in Unexplained. y that is constant gives shares of 0.
//
// Refused: fewer than 10 points or effective points, points of unlike length, numbers that are not
// finite, uniform inputs outside 0..1, weights below 0 or all 0.
//
// Sources: G. Blatman, B. Sudret, Journal of Computational Physics 230 (2011) 2345-2367 (sparse
// polynomials, leave-one-out); B. Sudret, Reliability Engineering and System Safety 93 (2008) 964-979
// (shares from coefficients); S. Chen, S. Billings, W. Luo, International Journal of Control 50 (1989)
// 1873-1896 (selection); D. Foster, E. George, Annals of Statistics 22 (1994) 1947-1975 (the bar for a term).
func Fit(x [][]float64, y []float64, o Options) (*Poly, error) {
	f, err := newForward(x, y, o)
	if err != nil {
		return nil, err
	}
	return f.poly(), nil
}

// At returns the polynomial at x.
func (p *Poly) At(x []float64) float64 {
	if len(x) != len(p.First) {
		panic("chance: as many inputs as were fitted are needed")
	}
	t := newTable(len(x), p.degree)
	t.fill(p.basis, x)
	y := p.constant
	for _, m := range p.Terms {
		y += m.Coef * t.product(m)
	}
	return y
}

// Known returns the variance that is left when input i is known exactly, over that of y: 0..1.
func (p *Poly) Known(i int) float64 { return min(max(1-p.First[i], 0), 1) }

// checked returns the options with defaults filled in and weights with mean 1.
func checked(x [][]float64, y []float64, o Options) (Options, error) {
	n := len(y)
	switch {
	case len(x) != n:
		return o, fmt.Errorf("%d points with %d results", len(x), n)
	case n < fewest:
		return o, fmt.Errorf("%d points; at least %d are needed", n, fewest)
	case len(x[0]) == 0:
		return o, errors.New("the points have no inputs")
	case o.Basis != Hermite && o.Basis != Legendre:
		return o, fmt.Errorf("basis %d is not known", o.Basis)
	case o.Degree < 0 || o.Terms < 0:
		return o, fmt.Errorf("degree %d and %d terms: neither may be below 0", o.Degree, o.Terms)
	case o.Weights != nil && len(o.Weights) != n:
		return o, fmt.Errorf("%d weights for %d points", len(o.Weights), n)
	}
	if err := checkNumbers(x, y, o.Basis); err != nil {
		return o, err
	}
	for i, w := range o.Weights {
		if !(w >= 0) || math.IsInf(w, 1) {
			return o, fmt.Errorf("weight of point %d is %v", i, w)
		}
	}
	effective := float64(n)
	if o.Weights != nil {
		if effective = Effective(o.Weights); effective < fewest {
			return o, fmt.Errorf("the weights leave %.1f effective points; at least %d are needed", effective, fewest)
		}
		w := make([]float64, n)
		floats.ScaleTo(w, 1/floats.Max(o.Weights), o.Weights)
		floats.Scale(float64(n)/floats.Sum(w), w)
		o.Weights = w
	}
	if o.Degree == 0 {
		o.Degree = 3
	}
	if o.Terms == 0 {
		o.Terms = int(effective / 10)
	}
	o.Terms = min(o.Terms, int(effective/2))
	if o.Pairs == 0 {
		o.Pairs = 8
	}
	return o, nil
}

func checkNumbers(x [][]float64, y []float64, b Basis) error {
	for i := range x {
		if len(x[i]) != len(x[0]) {
			return fmt.Errorf("point %d has %d inputs, point 0 has %d", i, len(x[i]), len(x[0]))
		}
		for j, v := range x[i] {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("input %d of point %d is %v", j, i, v)
			}
			if b == Legendre && (v < 0 || v > 1) {
				return fmt.Errorf("input %d of point %d is %v, outside 0..1", j, i, v)
			}
		}
		if math.IsNaN(y[i]) || math.IsInf(y[i], 0) {
			return fmt.Errorf("result of point %d is %v", i, y[i])
		}
	}
	return nil
}
