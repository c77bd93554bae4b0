package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// timoshenko is the two-layer formula (Timoshenko 1925), an independent way to the stack's answer:
// kappa = 6 de (1+m)^2 / { h [3(1+m)^2 + (1+mn)(m^2 + 1/(mn))] }, m = t1/t2, n = E1/E2.
func timoshenko(e1, t1, e2, t2, de float64) float64 {
	m, n := t1/t2, e1/e2
	return 6 * de * (1 + m) * (1 + m) / ((t1 + t2) * (3*(1+m)*(1+m) + (1+m*n)*(m*m+1/(m*n))))
}

func TestStackAgainstTimoshenko(t *testing.T) {
	for _, c := range []struct{ e1, t1, e2, t2 float64 }{{700, 15, 3000, 1}, {700, 1, 700, 200}, {10, 20, 11000, 20}, {900, 3, 100, 0.01}} {
		r, err := Stack([]Layer{{c.e1, c.t1, 7, 0.001}, {c.e2, c.t2, 7, 0.005}})
		require.NoError(t, err)
		assert.InEpsilon(t, timoshenko(c.e1, c.t1, c.e2, c.t2, 0.004), r.Curvature, 1e-9)
	}
	thin, err := Stack([]Layer{{700, 20, 1, 0}, {3000, 1e-4, 1, 0.004}})
	require.NoError(t, err)
	assert.InEpsilon(t, 6*3000*0.004*1e-4/(700*400), thin.Curvature, 1e-3, "thin film: Stoney")
}

// Forces and moments of the stresses must vanish, whatever the layers; held flat, only the force.
func TestStackIsInBalance(t *testing.T) {
	layers := []Layer{{11000, 20, 40, 0.001}, {693, 20, 300, -0.01}, {3000, 1, 300, 0.002}}
	r, err := Stack(layers)
	require.NoError(t, err)
	var n, m, flat, flatM, z float64
	for i, l := range layers {
		a, b := r.Stress(i, z), r.Stress(i, z+l.Thickness)
		force := (a + b) / 2 * l.Width * l.Thickness
		n += force
		m += force*(z+l.Thickness/2) + (b-a)/12*l.Width*l.Thickness*l.Thickness
		flat += r.FlatStress(i) * l.Width * l.Thickness
		flatM += r.FlatStress(i) * l.Width * l.Thickness * (r.Middle(i) - r.Centroid)
		z += l.Thickness
	}
	assert.InDelta(t, 0, n, 1e-7)
	assert.InDelta(t, 0, m, 1e-5)
	assert.InDelta(t, 0, flat, 1e-7)
	assert.InDelta(t, r.FlatMoment(), flatM, 1e-6)
}

func TestStackRefuses(t *testing.T) {
	for name, l := range map[string][]Layer{
		"empty": nil, "soft": {{0, 1, 1, 0}}, "thin": {{1, 0, 1, 0}}, "narrow": {{1, 1, -1, 0}}, "nan": {{1, 1, 1, math.NaN()}}, "inf": {{math.Inf(1), 1, 1, 0}},
	} {
		_, err := Stack(l)
		assert.Error(t, err, name)
	}
}
