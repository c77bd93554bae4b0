package creep

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// board is linear diffusion into a board sealed on the painted face, enough to say what of a noisy
// record reaches which layer. Cells are 0.5 mm; D 1e-10 m2/s, film 6.4e-7 m/s (2e-8 kg/(m2 s Pa) at 20 degC
// over 430 kg/m3 x 0.17 kg/kg), 0.17 kg/kg for the whole range of humidity: orders, not data.
type board struct{ w, up, rhs []float64 }

func (b *board) hour(rh float64) {
	const dt, dx, d, film, capacity = 3600., 0.5, 1e-4, 6.4e-4, 0.17
	between, outside := d*dt/(dx*dx), 1/(1/film+dx/2/d)*dt/dx
	n := len(b.w)
	for i := range n { // Thomas
		low, high, diag := between, between, 1.0
		r := b.w[i]
		if i == 0 {
			low = 0
			diag += outside
			r += outside * capacity * rh
		}
		if i == n-1 {
			high = 0
		}
		diag += low + high
		if i > 0 {
			diag -= low * b.up[i-1]
			r += low * b.rhs[i-1]
		}
		b.up[i], b.rhs[i] = high/diag, r/diag
	}
	for i := n - 1; i >= 0; i-- {
		b.w[i] = b.rhs[i]
		if i < n-1 {
			b.w[i] += b.up[i] * b.w[i+1]
		}
	}
}

// year is a climate: swings of RH over a year, a week, a day, and noise (sd).
type year struct{ season, week, day, noise float64 }

func (y year) rh(h float64, rng *rand.Rand) float64 {
	w := 2 * math.Pi * h
	return 0.5 + y.season*math.Sin(w/8760) + y.week*math.Sin(w/168) + y.day*math.Sin(w/24) + y.noise*rng.NormFloat64()
}

// lives holds a board, shrunk by half a per cent, whose back lives through a year.
func lives(t *testing.T, y year, dead float64) *Strip {
	const cells = 40
	b := board{same(cells, 0.17*0.5), make([]float64, cells), make([]float64, cells)}
	p := spec(t, 20, 8)
	p.Layers, p.Moist, p.Dead = []float64{1, 1, 1.5, 1.5, 2, 3, 4, 6}, []MoistureDriven{{M: 6.4, Path: 1}}, dead
	s := started(t, p, 0.17*0.5)
	require.NoError(t, s.Hold(held()))
	in := uniform(8, 0.17*0.5, -0.005)
	_, err := s.Step(0, in)
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range 8760 {
		b.hour(y.rh(float64(i), rng))
		cell := 0
		for l, thick := range p.Layers {
			n := int(thick * 2)
			sum := 0.0
			for _, w := range b.w[cell : cell+n] {
				sum += w
			}
			in.Moisture[l] = sum / float64(n)
			cell += n
		}
		_, err := s.Step(hour, in)
		require.NoError(t, err)
	}
	return s
}

// A logger's noise of 0.5 points of RH may not change the year's moisture-driven creep by more than
// 5 % in any layer of a board in a house, whose days and weeks swing more than that. Where nothing
// else moves the air, it does so in the outermost millimetre of a bare back (36 % more with days of
// 1 point, 5.3 % with none), and in no other layer. Without a threshold the noise runs the clock.
func TestNoiseDoesNotDriveCreep(t *testing.T) {
	for _, c := range []struct {
		year
		from int // first layer held to 5 %
	}{
		{year{0.15, 0.05, 0.03, 0}, 0}, {year{0.10, 0.03, 0.02, 0}, 0},
		{year{0.08, 0, 0.01, 0}, 1}, {year{0.15, 0, 0, 0}, 1},
	} {
		noisy := c.year
		noisy.noise = 0.005
		a, b, bare := lives(t, c.year, Threshold), lives(t, noisy, Threshold), lives(t, noisy, 0)
		for l := range a.moist {
			if l >= c.from {
				assert.InEpsilon(t, a.moist[l], b.moist[l], 0.05, "%+v layer %d", c.year, l)
			}
		}
		assert.Greater(t, bare.gone[1], 1.5*a.gone[1], "%+v", c.year)
	}
}

func TestTurningPoints(t *testing.T) {
	way := func(d float64, path ...float64) (u float64) {
		var c turning
		c.start(path[0])
		for _, w := range path[1:] {
			u += c.move(w, d)
		}
		return u
	}
	assert.InDelta(t, 0.07, way(0, 0.10, 0.12, 0.10, 0.11, 0.09), 1e-15)
	assert.InDelta(t, 0.02, way(0.002, 0.10, 0.12, 0.119, 0.1195, 0.1185), 1e-15, "ripple below the threshold")
	assert.InDelta(t, 0.023, way(0.002, 0.10, 0.12, 0.119, 0.123), 1e-15, "and the way goes on from the farthest point")
	assert.InDelta(t, 0.024, way(0.002, 0.10, 0.12, 0.119, 0.1175, 0.116), 1e-15, "the whole way back once it is a turn")
	assert.Zero(t, way(0.002, 0.10, 0.101, 0.0995, 0.1005), "never out of the threshold")
	assert.InDelta(t, 0.02, way(0.002, 0.10, 0.099, 0.08), 1e-15)
}
