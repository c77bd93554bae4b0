package restraint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestStripsBetweenGluedMembers(t *testing.T) {
	// A high strip: pi^2 t^2/(12 L^2) = 0.000913852 at 5/150 (row BUCKLE of the checks, closed form).
	r, err := Bay{Plate: wood(150, 15000, 5)}.Ripples(-0.002)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.000913852, r.Critical, 1e-3)
	assert.Equal(t, 1, r.Sign)
	assert.Equal(t, 1, r.Waves)
	pulled, err := Bay{Plate: wood(150, 15000, 5)}.Ripples(0.002)
	require.NoError(t, err)
	assert.Equal(t, 0, pulled.Sign, "shrinkage held back does not ripple")
	assert.Equal(t, 0.0, pulled.Share)
	just, err := Bay{Plate: wood(150, 15000, 5)}.Ripples(-r.Critical * 0.999)
	require.NoError(t, err)
	assert.Equal(t, 0, just.Sign)
	clamped, err := Bay{Plate: wood(150, 15000, 5), Clamped: 1}.Ripples(0)
	require.NoError(t, err)
	assert.InEpsilon(t, 4, clamped.Critical/r.Critical, 1e-3, "Euler")
	// One material, square: N = 4 pi^2 D/b^2; twice as wide as high: two half waves, the same 4 by the
	// short side (S. Timoshenko and J. Gere 1961, section 9.2, k = 4 for whole numbers of waves).
	for _, n := range []float64{1, 2, 3} {
		p := iso(100*n, 100)
		dx, _, _, _ := p.rigidity()
		r, err := Bay{Plate: p}.Ripples(0)
		require.NoError(t, err)
		force := r.Critical * 12 / (p.T * p.T) * dx // N = eps E' t with E' = 12 D/t^3
		assert.InEpsilon(t, 4*math.Pi*math.Pi*dx/1e4, force, 1e-9)
		assert.Equal(t, int(n), r.Waves)
	}
	// Twice as thick, four times the strain; half the span likewise when both sides shrink.
	thick, _ := Bay{Plate: wood(150, 600, 10)}.Ripples(0)
	thin, _ := Bay{Plate: wood(150, 600, 5)}.Ripples(0)
	small, _ := Bay{Plate: wood(75, 300, 5)}.Ripples(0)
	assert.InEpsilon(t, 4, thick.Critical/thin.Critical, 1e-9)
	assert.InEpsilon(t, 4, small.Critical/thin.Critical, 1e-9)
	assert.Greater(t, thin.Critical, r.Critical, "a low strip is held by its ends")
}

// A clamped strip by energy is never below the truth; one material, square, all round would be 10.07
// clamped; two sides clamped and two hinged lie between hinged (4) and that.
func TestClampedSquare(t *testing.T) {
	r, err := Bay{Plate: iso(100, 100), Clamped: 1}.Ripples(0)
	require.NoError(t, err)
	dx := 1e6
	force := r.Critical * 12 / 100 * dx * 1e4 / (math.Pi * math.Pi * dx)
	assert.InDelta(t, 6.75, force, 1e-6, "4 + 2 + 3/4")
}

func TestMemberClamps(t *testing.T) {
	b := Bay{Plate: wood(100, 600, 5)}
	hinged, _ := b.Ripples(0)
	last := 0.0
	for _, g := range []float64{1, 100, 700, 1e6, 1e9} {
		b.Rib = Rib{Width: 25, Depth: 20, G: g}
		r, err := b.Ripples(0)
		require.NoError(t, err)
		assert.Greater(t, r.Clamped, last)
		assert.LessOrEqual(t, r.Clamped, 1.0)
		assert.GreaterOrEqual(t, r.Critical, hinged.Critical)
		last = r.Clamped
	}
	assert.InDelta(t, 1, last, 1e-4, "rigid member: clamped")
	soft, _ := Bay{Plate: wood(100, 600, 5), Rib: Rib{Width: 25, Depth: 20, G: 1e-9}}.Ripples(0)
	assert.InDelta(t, 0, soft.Clamped, 1e-6)
	// Square bar: J = 2.25 a^4 with 2a the side (Roark, torsion); kL/(2D) = 1 gives tan u = -u, u = 2.0288
	// (root of tan x + x = 0).
	d, span, h := 1000.0, 100.0, 500.0
	j := 2.25 * math.Pow(10, 4)
	g := 2 * d / span * 2 / (j * math.Pow(math.Pi/h, 2))
	c := Rib{Width: 20, Depth: 20, G: g}.clamps(d, span, h)
	assert.InDelta(t, (math.Pow(2*2.02876/math.Pi, 2)-1)/3, c, 1e-3)
}

func TestRipplesRefused(t *testing.T) {
	for _, b := range []Bay{{}, {Plate: wood(100, 600, 5), Clamped: 2}, {Plate: wood(100, 600, 5), Rib: Rib{G: 1}}, {Plate: wood(0, 600, 5)}} {
		_, err := b.Ripples(0)
		assert.Error(t, err)
	}
	_, err := Bay{Plate: wood(100, 600, 5)}.Ripples(math.NaN())
	assert.Error(t, err)
	for _, tk := range []float64{0.5, 300} {
		r, err := Bay{Plate: wood(100, 600, tk)}.Ripples(-0.01)
		require.NoError(t, err)
		assert.Equal(t, tk < 1, r.Sign == 1)
	}
}
