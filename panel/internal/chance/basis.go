package chance

import "math"

// Basis is a family of polynomials of one input that are orthonormal over its distribution.
type Basis int

const (
	Hermite  Basis = iota // inputs standard normal
	Legendre              // inputs uniform on [0, 1]
)

// values fills p[k] with the polynomial of degree k at x. Both recurrences: Abramowitz and Stegun,
// Handbook of Mathematical Functions (1964), table 22.7, scaled to a mean square of 1.
func (b Basis) values(x float64, p []float64) {
	p[0] = 1
	if len(p) == 1 {
		return
	}
	switch b {
	case Hermite:
		p[1] = x
		for k := 1; k+1 < len(p); k++ {
			p[k+1] = (x*p[k] - math.Sqrt(float64(k))*p[k-1]) / math.Sqrt(float64(k+1))
		}
	case Legendre:
		t := 2*x - 1
		before, at := 1.0, t
		for k := 1; k < len(p); k++ {
			p[k] = at * math.Sqrt(float64(2*k+1))
			before, at = at, (float64(2*k+1)*t*at-float64(k)*before)/float64(k+1)
		}
	}
}

// Term is one product of polynomials of one or two inputs, times a coefficient.
type Term struct {
	I, DegreeI int // input and degree, 1 or more
	J, DegreeJ int // second input; degree 0: none
	Coef       float64
}

func (t Term) has(i int) bool { return t.I == i || t.DegreeJ > 0 && t.J == i }

// table holds the polynomials of all inputs at one point: [input][degree].
type table [][]float64

func newTable(d, degree int) table {
	t := make(table, d)
	for i := range t {
		t[i] = make([]float64, degree+1)
	}
	return t
}

func (t table) fill(b Basis, x []float64) {
	for i := range t {
		b.values(x[i], t[i])
	}
}

func (t table) product(m Term) float64 {
	if m.DegreeJ == 0 {
		return t[m.I][m.DegreeI]
	}
	return t[m.I][m.DegreeI] * t[m.J][m.DegreeJ]
}
