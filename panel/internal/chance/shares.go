package chance

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// poly returns the polynomial of the chosen terms with its shares.
func (f *forward) poly() *Poly {
	d := len(f.points[0])
	p := &Poly{First: make([]float64, d), Total: make([]float64, d), basis: f.o.Basis, degree: f.o.Degree}
	a := f.design()
	c := solve(a, f.y, f.root)
	p.Mean, p.constant = c[0], c[0]
	for k, m := range f.chosen {
		m.Coef = c[k+1]
		p.Terms = append(p.Terms, m)
	}
	if f.constant {
		return p
	}
	s := f.shares(a, c, f.loo)
	p.Mean, p.Variance, p.Total, p.Unexplained = s.mean, s.variance, s.total, f.loo/s.variance
	if f.o.Weights == nil {
		p.First = s.first
		return p
	}
	for i := range p.First {
		p.First[i] = f.alone(i, s.fitted) * (1 - p.Unexplained)
	}
	return p
}

// shares is what coefficients c of the chosen terms say about the variance.
type shares struct {
	mean, variance float64
	first, total   []float64
	fitted         []float64 // with weights: the fitted y less its mean, times the root of the weight
}

// shares takes the mean square that is not described, missed, into the variance.
func (f *forward) shares(a *mat.Dense, c []float64, missed float64) shares {
	d := len(f.points[0])
	s := shares{mean: c[0], variance: missed, first: make([]float64, d), total: make([]float64, d)}
	if f.o.Weights == nil {
		s.byCoefficients(f.chosen, c[1:])
	} else {
		s.byPoints(f, a, c)
	}
	floats.Scale(1/s.variance, s.first)
	floats.Scale(1/s.variance, s.total)
	return s
}

// byCoefficients is for independent inputs: the variance of a term is its coefficient squared.
func (s *shares) byCoefficients(terms []Term, c []float64) {
	for k, m := range terms {
		v := c[k] * c[k]
		s.variance += v
		s.total[m.I] += v
		if m.DegreeJ > 0 {
			s.total[m.J] += v
		} else {
			s.first[m.I] += v
		}
	}
}

// byPoints is for inputs that weights have tied together: variances are those of the weighted points.
func (s *shares) byPoints(f *forward, a *mat.Dense, c []float64) {
	part := func(has func(Term) bool) (mean, variance float64, v []float64) {
		v = make([]float64, len(f.y))
		for k, m := range f.chosen {
			if has(m) {
				for r := range v {
					v[r] += c[k+1] * a.At(r, k+1)
				}
			}
		}
		floats.Mul(v, f.root)
		mean = floats.Dot(f.root, v) / float64(len(v))
		floats.AddScaled(v, -mean, f.root)
		return mean, floats.Dot(v, v) / float64(len(v)), v
	}
	mean, variance, v := part(func(Term) bool { return true })
	s.mean, s.variance, s.fitted = s.mean+mean, s.variance+variance, v
	for i := range s.total {
		_, s.total[i], _ = part(func(m Term) bool { return m.has(i) })
	}
}

// alone returns the share of the squares of v that polynomials of input i describe, less what as many
// polynomials without meaning would.
func (f *forward) alone(i int, v []float64) float64 {
	squares := floats.Dot(v, v)
	if squares == 0 {
		return 0
	}
	var taken [][]float64
	var sum float64
	for k := 1; k <= f.o.Degree; k++ {
		q := make([]float64, len(v))
		for r, t := range f.points {
			q[r] = f.root[r] * t[i][k]
		}
		start := floats.Dot(q, q)
		floats.AddScaled(q, -floats.Dot(f.root, q)/float64(len(v)), f.root)
		for _, u := range taken {
			floats.AddScaled(q, -floats.Dot(u, q), u)
		}
		own := floats.Dot(q, q)
		if own <= level*start {
			continue
		}
		floats.Scale(1/math.Sqrt(own), q)
		taken = append(taken, q)
		g := floats.Dot(q, v)
		sum += g * g
	}
	share, k := sum/squares, float64(len(taken))
	if f.n <= k+1 {
		return 0
	}
	return min(max(1-(1-share)*(f.n-1)/(f.n-1-k), 0), 1)
}
