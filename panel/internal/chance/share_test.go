package chance

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// By hand from the score interval: 0 of n: 1/(2(n+1)); 50 of 1000: sqrt(0.05 0.95/1000 + 1/4e6)/1.001.
func TestShareByHand(t *testing.T) {
	share, err := Share(nil, make([]bool, 99))
	require.Zero(t, share)
	require.InDelta(t, 0.005, err, 1e-12)
	hit := make([]bool, 1000)
	for i := range 50 {
		hit[i] = true
	}
	share, err = Share(nil, hit)
	require.InDelta(t, 0.05, share, 1e-12)
	require.InDelta(t, 0.006903, err, 1e-6)
	share, err = Share([]float64{3, 1, 0}, []bool{true, false, true})
	require.InDelta(t, 0.75, share, 1e-12)
	// squares of 0.75 0.25 and 0.25 0.75; effective points 16/10
	require.InDelta(t, math.Sqrt(2*0.1875*0.1875+1/(4*1.6*1.6))/(1+1/1.6), err, 1e-12)
	_, single := Share(nil, []bool{true})
	require.InDelta(t, 0.25, single, 1e-12)
	_, scaled := Share([]float64{3e300, 1e300, 0}, []bool{true, false, true})
	require.InDelta(t, err, scaled, 1e-12)
}

// The error is the spread of the share over repeats: that of the binomial, sqrt(p(1-p)/n).
func TestShareAgainstBinomial(t *testing.T) {
	for _, p := range []float64{0.02, 0.3, 0.9} {
		r := rand.New(rand.NewPCG(1, 2))
		const n = 400
		var shares, squares []float64
		for range 2000 {
			hit := make([]bool, n)
			for i := range hit {
				hit[i] = r.Float64() < p
			}
			s, e := Share(nil, hit)
			shares, squares = append(shares, s), append(squares, e*e)
		}
		exact := math.Sqrt(p * (1 - p) / n)
		require.InDelta(t, p, stat.Mean(shares, nil), 4*exact/math.Sqrt(2000))
		require.InEpsilon(t, exact, stat.StdDev(shares, nil), 0.06)
		require.InEpsilon(t, exact, math.Sqrt(stat.Mean(squares, nil)), 0.06)
	}
}

// Normals weighted by exp(m x - m^2/2) are normals with mean m: the share above c is that of the normal
// distribution above c - m. Here the hits are the heavy points, which the effective number alone misses.
func TestShareOfHeavyPoints(t *testing.T) {
	const m, c, n = 1.0, 2.0, 1000
	want := distuv.UnitNormal.Survival(c - m)
	var off []float64
	for seed := range uint64(500) {
		x := plain(n, 1, seed)
		w, hit := make([]float64, n), make([]bool, n)
		for i := range x {
			w[i], hit[i] = math.Exp(m*x[i][0]-m*m/2), x[i][0] > c
		}
		s, e := Share(w, hit)
		off = append(off, (s-want)/e)
	}
	require.InDelta(t, 0, stat.Mean(off, nil), 0.25)
	require.InDelta(t, 1, stat.StdDev(off, nil), 0.15)
}

func TestEffective(t *testing.T) {
	require.InDelta(t, 4, Effective([]float64{2, 2, 2, 2, 0}), 1e-12)
	require.InDelta(t, 1.6, Effective([]float64{3e-300, 1e-300}), 1e-12)
	require.Zero(t, Effective(nil))
	require.Zero(t, Effective([]float64{0, 0}))
	share, err := Share([]float64{0, 0}, []bool{true, false})
	require.True(t, math.IsNaN(share) && math.IsNaN(err))
	share, _ = Share(nil, nil)
	require.True(t, math.IsNaN(share))
	require.Panics(t, func() { Share([]float64{1}, []bool{true, false}) })
}
