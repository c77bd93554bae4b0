package creep

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
)

// heldMonth is a strip that shrank by 1 % a month ago and was held.
func heldMonth(t *testing.T, p Spec) *Strip {
	t.Helper()
	n := len(p.Layers)
	s := started(t, p, 0.12)
	require.NoError(t, s.Hold(held()))
	_, err := s.Step(0, uniform(n, 0.12, -0.01))
	require.NoError(t, err)
	for range 30 * 24 {
		_, err := s.Step(hour, uniform(n, 0.12, -0.01))
		require.NoError(t, err)
	}
	return s
}

// What is held back in all is the free movement; at once comes what the exact chain has left of the
// stress, the rest as the chain runs back.
func TestReleaseIsTheChain(t *testing.T) {
	p := spec(t, 20, 8)
	s := heldMonth(t, p)
	before := s.Now()
	r, err := s.Release()
	require.NoError(t, err)
	left := p.Pull.Relaxation(30 * day)
	assert.InDelta(t, -0.01*left, r.AtOnce.Strain, 1e-6)
	assert.InDelta(t, -0.01*(1-left), r.Weeks.Strain, 1e-6)
	assert.InDelta(t, 0, r.Cycles.Strain, 1e-12)
	assert.InDelta(t, 0, r.Never.Strain, 1e-12)
	assert.InDelta(t, 0, r.AtOnce.Curvature+r.Weeks.Curvature, 1e-12)
	assert.Equal(t, before, s.Now(), "the strip itself is left as it is")
}

// Moisture-driven strain comes back only as the moisture comes and goes; set never does.
func TestReleaseOfSwings(t *testing.T) {
	p := spec(t, 20, 8)
	p.Moist, p.Limit = Slices(Tangential), 0.005
	s := started(t, p, 0.12)
	require.NoError(t, s.Hold(held()))
	require.NoError(t, sineYear(s, 0.04, day, 0.005))
	r, err := s.Release()
	require.NoError(t, err)
	assert.Less(t, s.Set()[0], -1e-3)
	assert.InDelta(t, -s.Set()[0], r.Never.Strain, 1e-6, "without the set it would be longer")
	assert.Greater(t, math.Abs(r.Cycles.Strain), 1e-4)
	sum := r.AtOnce.Strain + r.Weeks.Strain + r.Cycles.Strain + r.Never.Strain
	assert.InDelta(t, -0.005, sum, 1e-9, "the whole is the free movement held back")
}

// A coat of half the modulus on a shrinking board bends it as two bonded strips do.
// Source: Timoshenko 1925, Analysis of bi-metal thermostats, J. Opt. Soc. Am. 11, eq. (4).
func TestCoatBendsAsTwoStrips(t *testing.T) {
	const h1, h2, e1, e2, free = 18., 3., 600., 300., -0.01
	s, err := New(Spec{Layers: Even(h1, 6), E: e1, Duration: species.Short, Limit: math.Inf(1)})
	require.NoError(t, err)
	require.NoError(t, s.Coats(Coat{E: e2, Thickness: h2}, Coat{}))
	require.NoError(t, s.Start(uniform(6, 0.12, 0)))
	out, err := s.Step(hour, uniform(6, 0.12, free))
	require.NoError(t, err)
	m, n := h2/h1, e2/e1
	want := 6 * -free * (1 + m) * (1 + m) / ((h1 + h2) * (3*(1+m)*(1+m) + (1+m*n)*(m*m+1/(m*n))))
	assert.InEpsilon(t, want, out.Kappa, 1e-9, "the wood shrinks away from the ground: painted face rounded")
	assert.InDelta(t, 0, out.N, 1e-9)
}

// A dry surface layer over a damp core: what the layers want differs, the board stays in balance,
// and its painted face goes round when the back is the drier one.
func TestDryBackRoundsThePaintedFace(t *testing.T) {
	s := started(t, spec(t, 20, 10), 0.12)
	in := uniform(10, 0.12, 0)
	for l, z := range s.Points() {
		in.Free[l] = -0.005 * (0.5 - z/20)
	}
	out, err := s.Step(hour, in)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.005/20, out.Kappa, 1e-9, "a straight free strain is followed without stress")
	for _, v := range s.Stress() {
		assert.InDelta(t, 0, v, 1e-9)
	}
}
