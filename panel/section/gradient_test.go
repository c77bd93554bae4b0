package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestGradientLeavesNoForceOrMoment(t *testing.T) {
	const h, E = 20.0, 700.0
	e := func(z float64) float64 { return 0.01 * math.Exp(-z/5) }
	b := Gradient(h, e)
	assert.Negative(t, b.Curvature, "a longer back hollows the front")
	var n, m float64
	const steps = 20000
	for i := range steps {
		z := h * (float64(i) + 0.5) / steps
		s := b.Stress(E, z, e(z)) * h / steps
		n += s
		m += s * (z - h/2)
	}
	assert.InDelta(t, 0, n, 1e-6)
	assert.InDelta(t, 0, m, 1e-5)
}

func TestGradientAtAgainstGradient(t *testing.T) {
	z, e := make([]float64, 401), make([]float64, 401)
	f := func(z float64) float64 { return 0.008 * (z / 20) * (z / 20) }
	for i := range z {
		z[i] = 20 * float64(i) / 400
		e[i] = f(z[i])
	}
	got, err := GradientAt(z, e)
	require.NoError(t, err)
	want := Gradient(20, f)
	assert.InDelta(t, want.Curvature, got.Curvature, 1e-8)
	assert.InDelta(t, want.Strain0, got.Strain0, 1e-7)
	for _, bad := range [][2][]float64{{{0}, {0}}, {{0, 1}, {0}}, {{1, 0}, {0, 0}}, {{0, 2, 1, 3}, {0, 0, 0, 0}}, {{0, 1}, {0, math.NaN()}}} {
		_, err := GradientAt(bad[0], bad[1])
		assert.Error(t, err)
	}
}

func TestOneSided(t *testing.T) {
	peak, at := 0.0, 0.0
	for fo := 0.0; fo < 0.3; fo += 1e-4 {
		if _, b := OneSided(fo); b > peak {
			peak, at = b, fo
		}
	}
	assert.InDelta(t, PassingPeak, peak, 5e-4)
	assert.InDelta(t, 0.0846, at, 2e-4)
	m1, b1 := OneSided(0.03 - 1e-12)
	m2, b2 := OneSided(0.03)
	assert.InDelta(t, m1, m2, 1e-6, "the two forms meet")
	assert.InDelta(t, b1, b2, 2e-5)
	m, b := OneSided(0)
	assert.Zero(t, m)
	assert.Zero(t, b)
	m, b = OneSided(50)
	assert.InDelta(t, 1, m, 1e-12)
	assert.InDelta(t, 0, b, 1e-12)
	m, _ = OneSided(-1)
	assert.True(t, math.IsNaN(m))
	assert.Negative(t, Passing(0.01, 20))
	assert.InDelta(t, -0.00048, Passing(0.01, 20), 1e-12)
}

func TestRing(t *testing.T) {
	g := Ring{Inner: 10, Outer: 100, ER: 1046, ET: 693, NuRT: 0.4915, EpsR: -0.012, EpsT: -0.024}
	assert.InDelta(t, 7.54, g.SlitOpening(100), 0.005, "2 pi 100 x 0.012, printed to 0.01 mm")
	_, in, inner := g.At(10)
	_, out, _ := g.At(100)
	assert.InDelta(t, 0, in, 1e-9)
	assert.InDelta(t, 0, out, 1e-9)
	assert.InDelta(t, -17.39, inner, 0.005, "worked out apart, printed to 0.01 MPa")
	// hoop force over the wall must vanish
	var n float64
	const steps = 20000
	for i := range steps {
		_, _, s := g.At(10 + 90*(float64(i)+0.5)/steps)
		n += s * 90 / steps
	}
	assert.InDelta(t, 0, n, 1e-4)
	// alike in R and T: the logarithmic form is the limit of the other
	g.ET = g.ER
	_, _, log := g.At(50)
	g.ET = g.ER * (1 + 1e-5)
	_, _, near := g.At(50)
	assert.InDelta(t, log, near, 1e-3)
	g.EpsT = g.EpsR
	_, sr, st := g.At(50)
	assert.InDelta(t, 0, math.Abs(sr)+math.Abs(st), 1e-9, "even shrinkage, no stress")
	_, _, s := g.At(5)
	assert.True(t, math.IsNaN(s))
}
