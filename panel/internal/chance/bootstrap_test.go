package chance

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
)

// withNoise is a linear function of plain normals with noise: Total is b^2 over the sum of b^2 and the noise.
func withNoise(seed uint64, n int, b []float64, noise float64) (x [][]float64, y, total []float64) {
	r := rand.New(rand.NewPCG(seed, 17))
	x = plain(n, len(b), seed)
	all := noise * noise
	for _, v := range b {
		all += v * v
	}
	for _, v := range b {
		total = append(total, v*v/all)
	}
	return x, results(x, func(x []float64) float64 {
		y := noise * r.NormFloat64()
		for i, z := range x {
			y += b[i] * z
		}
		return y
	}), total
}

// A band from 5 to 95 % should hold the true share in nine of ten sets of points.
func TestBootstrapCovers(t *testing.T) {
	b := []float64{2, 1.5, 1, 0.5}
	var in []bool
	var width []float64
	for seed := range uint64(100) {
		x, y, total := withNoise(seed, 300, b, 1.5)
		bands, err := Bootstrap(x, y, Options{}, 100, seed)
		require.NoError(t, err)
		for i, v := range total {
			in = append(in, bands.Low[i] <= v && v <= bands.High[i])
			width = append(width, bands.High[i]-bands.Low[i])
		}
	}
	share, _ := Share(nil, in)
	t.Logf("holds the truth in %.3f, width %.3f", share, stat.Mean(width, nil))
	require.InDelta(t, 0.9, share, 0.05)
}

// Four times the points make the band half as wide; an order is kept when the shares are far apart and
// lost when they are equal (six orders: at most about one in six by chance).
func TestBootstrapWidthAndOrder(t *testing.T) {
	width := func(n int) float64 {
		x, y, _ := withNoise(1, n, []float64{2, 1.5, 1, 0.5}, 1.5)
		bands, err := Bootstrap(x, y, Options{}, 200, 1)
		require.NoError(t, err)
		require.Greater(t, bands.SameOrder, 0.9)
		return bands.High[0] - bands.Low[0]
	}
	require.InDelta(t, 2, width(500)/width(2000), 0.5)
	x, y, _ := withNoise(2, 300, []float64{1, 1, 1, 1, 1}, 1)
	bands, err := Bootstrap(x, y, Options{}, 200, 1)
	require.NoError(t, err)
	require.Less(t, bands.SameOrder, 0.5)
	again, err := Bootstrap(x, y, Options{}, 200, 1)
	require.NoError(t, err)
	require.Equal(t, bands, again)
	other, err := Bootstrap(x, y, Options{}, 200, 2)
	require.NoError(t, err)
	require.NotEqual(t, bands, other)
	require.False(t, math.IsNaN(bands.SameOrder))
}
