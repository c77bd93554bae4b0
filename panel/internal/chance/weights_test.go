package chance

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
)

// A normal with prior N(0, 1), observed once as o with error s: the posterior is normal with mean
// o/(1 + s^2) and variance s^2/(1 + s^2). Source: A. Gelman and others, Bayesian Data Analysis, 3rd ed.
// (CRC 2013), section 2.5. The sampling error is taken from the effective number of points.
func TestWeightsAgainstConjugateNormal(t *testing.T) {
	for _, c := range []struct{ o, s float64 }{{0.8, 0.5}, {-1.5, 1}, {2.5, 0.3}, {0, 0.05}} {
		x := columnOf(Normals(20000, 3, 3, 11), 1)
		logL := make([]float64, len(x))
		for i, v := range x {
			logL[i] = -0.5*math.Pow((v-c.o)/c.s, 2) - 5000 // far too small for exp alone
		}
		w, err := Weights(logL)
		require.NoError(t, err)
		require.InDelta(t, 1, stat.Mean(w, nil), 1e-9)
		n := Effective(w)
		mean, variance := stat.MeanVariance(x, w)
		want := c.s * c.s / (1 + c.s*c.s)
		require.InDelta(t, c.o/(1+c.s*c.s), mean, 3*math.Sqrt(want/n))
		require.InDelta(t, want, variance, 3*want*math.Sqrt(2/n))
		require.InDelta(t, c.o/(1+c.s*c.s)+1.6449*math.Sqrt(want), Quantile(x, w, 0.95), 8*math.Sqrt(want/n))
	}
}

func TestWeightsExtremes(t *testing.T) {
	w, err := Weights([]float64{math.Inf(-1), 1e300, 1e300})
	require.NoError(t, err)
	require.Equal(t, []float64{0, 1.5, 1.5}, w)
	w, err = Weights([]float64{-1e308})
	require.NoError(t, err)
	require.Equal(t, []float64{1}, w)
	_, err = Weights([]float64{math.Inf(-1), math.Inf(-1)})
	require.ErrorContains(t, err, "none of the points")
	_, err = Weights([]float64{0, math.NaN()})
	require.ErrorContains(t, err, "point 1 is NaN")
	_, err = Weights([]float64{0, 0, math.Inf(1)})
	require.ErrorContains(t, err, "point 2 is +Inf")
	_, err = Weights(nil)
	require.Error(t, err)
}
