package chance

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
)

// plain returns points of d independent standard normals, nothing more.
func plain(n, d int, seed uint64) [][]float64 {
	r := rand.New(rand.NewPCG(seed, 99))
	x := make([][]float64, n)
	for i := range x {
		x[i] = make([]float64, d)
		for j := range x[i] {
			x[i][j] = r.NormFloat64()
		}
	}
	return x
}

func columnOf(x [][]float64, j int) []float64 {
	v := make([]float64, len(x))
	for i := range x {
		v[i] = x[i][j]
	}
	return v
}

// Every column is standard normal, closer than plain points are (there the standard error of the mean is
// 1/sqrt n = 0.03 and of the variance sqrt(2/n) = 0.045; here the worst of 40 columns is held), and so are its quantiles (tables of the normal distribution: 5 % below
// -1.6449, 25 % below -0.6745).
func TestNormalsColumns(t *testing.T) {
	x := Normals(1000, 40, 10, 7)
	for j := range 40 {
		v := columnOf(x, j)
		mean, variance := stat.MeanVariance(v, nil)
		require.InDelta(t, 0, mean, 0.02, "mean of column %d", j)
		require.InDelta(t, 1, variance, 0.03, "variance of column %d", j)
		for _, q := range []struct{ p, z float64 }{{0.05, -1.6449}, {0.25, -0.6745}, {0.5, 0}, {0.75, 0.6745}, {0.95, 1.6449}} {
			require.InDelta(t, q.z, Quantile(v, nil, q.p), 0.03, "quantile %v of column %d", q.p, j)
		}
	}
}

// worstPair returns the largest correlation, either sign, of the first d columns.
func worstPair(x [][]float64, d int) float64 {
	var worst float64
	for a := range d {
		for b := range a {
			worst = max(worst, math.Abs(stat.Correlation(columnOf(x, a), columnOf(x, b), nil)))
		}
	}
	return worst
}

func TestNormalsLeadColumnsAreLessCorrelatedThanPlain(t *testing.T) {
	var ours, theirs []float64
	for seed := range uint64(20) {
		ours = append(ours, worstPair(Normals(1000, 12, 10, seed), 10))
		theirs = append(theirs, worstPair(plain(1000, 10, seed), 10))
	}
	t.Logf("worst of 45 pairs, median of 20 seeds: %.3f, plain %.3f", Quantile(ours, nil, 0.5), Quantile(theirs, nil, 0.5))
	require.Less(t, Quantile(ours, nil, 0.5), 0.6*Quantile(theirs, nil, 0.5))
	require.Less(t, Quantile(ours, nil, 0.95), Quantile(theirs, nil, 0.05))
}

// The mean of exp(0.4 (x1 + x2 + x3 + x4)) is exp(4 0.4^2 / 2) (lognormal mean). Plain points lose error
// with the square root of the number: 4 times less from 16 times the points.
func TestNormalsIntegrateFasterThanPlain(t *testing.T) {
	want := math.Exp(4 * 0.16 / 2)
	miss := func(points func(int, int, uint64) [][]float64, n int) float64 {
		var sum float64
		for seed := range uint64(40) {
			var mean float64
			for _, x := range points(n, 4, seed) {
				mean += math.Exp(0.4*(x[0]+x[1]+x[2]+x[3])) / float64(n)
			}
			sum += (mean - want) * (mean - want)
		}
		return math.Sqrt(sum / 40)
	}
	lead := func(n, d int, seed uint64) [][]float64 { return Normals(n, d, 4, seed) }
	coarse, fine := miss(lead, 256), miss(lead, 4096)
	plainCoarse, plainFine := miss(plain, 256), miss(plain, 4096)
	t.Logf("256 and 4096 points: %.2e %.2e, plain %.2e %.2e", coarse, fine, plainCoarse, plainFine)
	require.Greater(t, coarse/fine, 8.0)
	require.Less(t, fine, plainFine/6)
	require.Less(t, coarse, plainCoarse/2)
}

// A first part has the lead columns of any other number of points, and every column of it is normal as far
// as so few points tell: the mean of 100 within four standard errors.
func TestNormalsFirstPart(t *testing.T) {
	x, few := Normals(1000, 40, 10, 3), Normals(100, 40, 10, 3)
	for i := range few {
		require.Equal(t, few[i][:10], x[i][:10])
	}
	var lead, rest float64
	for j := range 40 {
		mean, variance := stat.MeanVariance(columnOf(x[:100], j), nil)
		require.InDelta(t, 0, mean, 0.4, "column %d", j)
		require.InDelta(t, 1, variance, 0.57, "column %d", j)
		if j < 10 {
			lead += mean * mean / 10
		} else {
			rest += mean * mean / 30
		}
	}
	require.Less(t, math.Sqrt(lead), 0.05) // still spread evenly: half of what plain points have
	require.InDelta(t, 0.1, math.Sqrt(rest), 0.04)
}

func TestNormalsSeedAndEdges(t *testing.T) {
	require.Equal(t, Normals(50, 12, 4, 1), Normals(50, 12, 4, 1))
	require.NotEqual(t, Normals(50, 12, 4, 1), Normals(50, 12, 4, 2))
	require.Empty(t, Normals(0, 3, 1, 1))
	require.Empty(t, Normals(-1, 3, 1, 1))
	require.Equal(t, [][]float64{{}, {}}, Normals(2, 0, 1, 1))
	require.Len(t, Normals(1, 3, 1, 1)[0], 3)
	require.Equal(t, Normals(20, 3, 3, 1), Normals(20, 3, 99, 1))
	require.Equal(t, Normals(20, 15, 10, 1), Normals(20, 15, 15, 1))
	require.Equal(t, Normals(20, 3, 0, 1), Normals(20, 3, -2, 1))
	all := slices.Concat(Normals(100000, 2, 1, 5)...)
	require.False(t, slices.ContainsFunc(all, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }))
	ends := normal{}.Quantile(nil, []float64{0, 1})
	require.InDelta(t, -8.21, ends[0], 0.01)
	require.InDelta(t, 8.21, ends[1], 0.01)
}
