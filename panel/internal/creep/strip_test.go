package creep

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
)

// spec is a strip of spruce, tangential, without crushing and moisture-driven creep.
func spec(t testing.TB, thickness float64, n int) Spec {
	t.Helper()
	pull, err := Spruce(Tangential, Tension, 65)
	require.NoError(t, err)
	press, err := Spruce(Tangential, Compression, 65)
	require.NoError(t, err)
	return Spec{
		Layers: Even(thickness, n), E: 690, Duration: species.Short, Pull: pull, Press: press,
		Dead: Threshold, Limit: math.Inf(1),
	}
}

// started returns a strip at rest in a state alike in all layers.
func started(t testing.TB, p Spec, moisture float64) *Strip {
	t.Helper()
	s, err := New(p)
	require.NoError(t, err)
	require.NoError(t, s.Start(uniform(len(p.Layers), moisture, 0)))
	return s
}

func uniform(n int, moisture, free float64) In {
	return In{Moisture: same(n, moisture), Free: same(n, free)}
}

func same(n int, v float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v
	}
	return out
}

func held() Support { return Support{Axial: math.Inf(1), Bending: math.Inf(1)} }

// A bar held in length is the chain of the exact answer.
func TestHeldBarRelaxesAsItsChain(t *testing.T) {
	p := spec(t, 20, 10)
	s := started(t, p, 0.12)
	require.NoError(t, s.Hold(held()))
	in := uniform(10, 0.12, -0.01)
	out, err := s.Step(0, in)
	require.NoError(t, err)
	assert.InDelta(t, 690*0.01*20, out.N, 1e-9, "dry = pulled")
	now := 0.0
	for _, d := range []float64{hour, day, 7 * day, 30 * day, 365 * day} {
		for ; now < d; now += 600 {
			_, err = s.Step(600, in)
			require.NoError(t, err)
		}
		assert.InDelta(t, p.Pull.Relaxation(d), s.Now().N/(690*0.01*20), 1e-4, "after %g d", d/day)
	}
}
