package chance

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// By hand from the definition (type 5 of Hyndman and Fan: value k of n stands at (k - 1/2)/n).
func TestQuantileByHand(t *testing.T) {
	five := []float64{50, 10, 40, 20, 30}
	inf := math.Inf(1)
	for _, c := range []struct {
		reason  string
		x, w    []float64
		p, want float64
	}{
		{"middle of an odd number", five, nil, 0.5, 30},
		{"first value stands at 0.1", five, nil, 0.1, 10},
		{"half way from 0.1 to 0.3", five, nil, 0.2, 15},
		{"below the first", five, nil, 0, 10},
		{"above the last", five, nil, 1, 50},
		{"middle of an even number", []float64{4, 1, 3, 2}, nil, 0.5, 2.5},
		{"one value", []float64{7}, nil, 0.05, 7},
		{"equal values", []float64{1, 2, 2, 2, 3}, nil, 0.6, 2},
		{"all equal", []float64{0.1, 0.1, 0.1}, []float64{1, 2, 5}, 0.37, 0.1},
		{"weights 1 and 3: at 1/8 and 5/8", []float64{10, 20}, []float64{1, 3}, 0.375, 15},
		{"no weight, no value", []float64{-9, 10, 20, 99}, []float64{0, 1, 3, 0}, 0.375, 15},
		{"weights of any size", []float64{10, 20}, []float64{1e-200, 3e-200}, 0.375, 15},
		{"infinite at the end", []float64{1, 2, inf}, nil, 0.5, 2},
		{"between a value and infinity", []float64{1, 2, inf}, nil, 0.6, inf},
		{"from minus infinity", []float64{-inf, 2, 3}, nil, 0.3, -inf},
		{"NaN without weight", []float64{math.NaN(), 2}, []float64{0, 1}, 0.5, 2},
	} {
		require.InDelta(t, c.want, Quantile(c.x, c.w, c.p), 1e-12, c.reason)
	}
	require.Equal(t, []float64{50, 10, 40, 20, 30}, five, "the values stay as they were")
	for _, v := range []float64{
		Quantile(nil, nil, 0.5), Quantile([]float64{1}, []float64{0}, 0.5), Quantile([]float64{1, math.NaN()}, nil, 0.5),
		Quantile([]float64{1}, nil, 1.1), Quantile([]float64{1}, nil, math.NaN()),
	} {
		require.True(t, math.IsNaN(v))
	}
	require.Panics(t, func() { Quantile([]float64{1}, []float64{1, 2}, 0.5) })
}

// Whatever the values and weights: it never falls with p, stays between the ends, and does not depend on
// the order of the values.
func TestQuantileAlwaysRises(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		n := 1 + r.IntN(12)
		x, w := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], w[i] = math.Round(4*r.NormFloat64()), float64(r.IntN(4))
		}
		w[0]++
		before := math.Inf(-1)
		for p := 0.0; p <= 1; p += 0.0625 {
			q := Quantile(x, w, p)
			require.GreaterOrEqual(t, q, before)
			before = q
		}
		want := Quantile(x, w, 0.3)
		r.Shuffle(n, func(i, j int) { x[i], x[j], w[i], w[j] = x[j], x[i], w[j], w[i] })
		require.Equal(t, want, Quantile(x, w, 0.3))
	}
}
