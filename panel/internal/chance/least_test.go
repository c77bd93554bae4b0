package chance

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// Each family is orthonormal over its distribution: integrals by Gauss's rules, exact for these degrees.
func TestBasesAreOrthonormal(t *testing.T) {
	const degree, n = 8, 20
	x, w := make([]float64, n), make([]float64, n)
	check := func(b Basis, at func(float64) float64, scale float64) {
		for a := range degree + 1 {
			for c := range degree + 1 {
				var sum float64
				for i, v := range x {
					p := make([]float64, degree+1)
					b.values(at(v), p)
					sum += w[i] * p[a] * p[c] / scale
				}
				want := 0.0
				if a == c {
					want = 1
				}
				require.InDelta(t, want, sum, 1e-10, "basis %d, degrees %d and %d", b, a, c)
			}
		}
	}
	quad.Hermite{}.FixedLocations(x, w, math.Inf(-1), math.Inf(1)) // weight exp(-x^2)
	check(Hermite, func(v float64) float64 { return math.Sqrt2 * v }, math.Sqrt(math.Pi))
	quad.Legendre{}.FixedLocations(x, w, 0, 1)
	check(Legendre, func(v float64) float64 { return v }, 1)
}

// The leave-one-out error in one go is that of leaving out every point in turn and fitting anew.
func TestLeaveOneOutByLeavingOut(t *testing.T) {
	x := Normals(60, 4, 4, 9)
	f, _ := additive(4, 0.3)
	y := results(x, func(x []float64) float64 { return f(append(x[:4:4], make([]float64, 36)...)) })
	w := slices.Repeat([]float64{1}, 60)
	for i := range w {
		w[i] += float64(i % 3)
	}
	for _, weights := range [][]float64{nil, w} {
		fit, err := newForward(x, y, Options{Weights: weights})
		require.NoError(t, err)
		require.NotEmpty(t, fit.chosen)
		a := fit.design()
		var sum float64
		for out := range y {
			root := slices.Clone(fit.root)
			root[out] = 0
			c := solve(a, y, root)
			sum += math.Pow(fit.root[out]*(y[out]-floats.Dot(c, a.RawRowView(out))), 2)
		}
		require.InEpsilon(t, sum/60, fit.loo, 1e-6)
	}
}

// Two columns alike share what they explain, and the fit is that of one.
func TestSolveColumnsAlike(t *testing.T) {
	a := mat.NewDense(4, 3, []float64{1, 1, 1, 1, 2, 2, 1, 3, 3, 1, 5, 5})
	c := solve(a, []float64{3, 5, 7, 11}, []float64{1, 1, 1, 1})
	require.InDeltaSlice(t, []float64{1, 1, 1}, c, 1e-4)
}

// With few points that weights have left, an input that has nothing to do with the result gets no share on
// average, where as many polynomials as are fitted would describe 3 in 59 of it by chance.
func TestAloneIsFair(t *testing.T) {
	var share []float64
	for seed := range uint64(400) {
		x := plain(60, 2, seed)
		y := columnOf(x, 0)
		w := slices.Repeat([]float64{1}, 60)
		f, err := newForward(x, y, Options{Weights: w})
		require.NoError(t, err)
		v := slices.Clone(y)
		floats.AddConst(-stat.Mean(y, nil), v)
		share = append(share, f.alone(1, v))
	}
	// Half of the draws fall below 0 and are cut off there, so the median is 0 and the mean a little above.
	require.Less(t, stat.Mean(share, nil), 0.025)
	require.Less(t, Quantile(share, nil, 0.5), 0.005)
}
