package creep

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The values stand in the table of checks; here the same case with other steps.
func TestCaseGStepsOfAnyLength(t *testing.T) {
	for _, c := range []struct {
		step float64 // h
		tol  float64 // MPa: the error of the moisture drawn straight between the steps
	}{{1. / 60, 1e-4}, {1, 1e-4}, {6, 2e-3}} {
		s, err := bar(true, true)
		require.NoError(t, err)
		steps := int(math.Round(720 / c.step))
		for i := 1; i <= steps; i++ {
			_, err := s.Step(c.step*hour, barAt(float64(i)*c.step))
			require.NoError(t, err)
		}
		assert.InDelta(t, -1.200698, s.Stress()[0], c.tol, "at 720 h in steps of %g h", c.step)
	}
}

// Stress of steps far longer than what they follow must stay within what an elastic bar bears.
func TestLongStepsStayStable(t *testing.T) {
	for _, step := range []float64{60, hour, day, 30 * day} {
		for _, rh := range []int{65, 90} {
			for _, moist := range [][]MoistureDriven{nil, Slices(Tangential), Blocks()} {
				t.Run(fmt.Sprint(step, rh, len(moist)), func(t *testing.T) { stable(t, step, rh, moist) })
			}
		}
	}
}

func stable(t *testing.T, step float64, rh int, moist []MoistureDriven) {
	p := spec(t, 20, 8)
	p.Moist = moist
	p.Dead = 0
	p.Pull, _ = Spruce(Tangential, Tension, rh)
	s := started(t, p, 0.12)
	require.NoError(t, s.Hold(held()))
	last := math.Inf(1)
	for i := range 400 {
		out, err := s.Step(step, uniform(8, 0.12+0.05*float64(i%2), -0.01))
		require.NoError(t, err)
		require.LessOrEqual(t, out.N, last+1e-3*690*0.01*20, "step %d: a held strain only relaxes", i)
		require.GreaterOrEqual(t, out.N, 0.0)
		last = out.N
	}
}

// The account of energy must close to rounding, whatever happens: swelling, drying, softening,
// creep, crushing, coats, an elastic support that is put on and taken off.
func TestEnergyCloses(t *testing.T) {
	for _, order := range []Order{SetFirst, CreepFirst} {
		p := spec(t, 20, 8)
		p.Moist, p.Limit, p.Order = Slices(Tangential), 0.003, order
		s, err := New(p)
		require.NoError(t, err)
		require.NoError(t, s.Coats(Coat{E: 3000, Thickness: 1}, Coat{}))
		require.NoError(t, s.Start(uniform(8, 0.12, 0)))
		require.NoError(t, s.Hold(Support{Axial: 300, Bending: math.Inf(1)}))
		most := 0.0
		for i := range 300 {
			in := uniform(8, 0, 0)
			in.Stiffness = same(8, 1)
			for l := range 8 {
				w := 0.04 * math.Sin(float64(i)/20+float64(l)/5)
				in.Moisture[l], in.Free[l], in.Stiffness[l] = 0.12+w, 0.3*w, 1-2*w
			}
			in.Front = CoatIn{Free: 1e-4 * float64(i%7), Stiffness: 1 - 0.001*float64(i)}
			switch i {
			case 100:
				require.NoError(t, s.Hold(Support{}))
			case 200:
				require.NoError(t, s.Coats(Coat{}, Coat{E: 900, Thickness: 3}))
			}
			_, err := s.Step(6*hour, in)
			require.NoError(t, err)
			e := s.Energy()
			most = max(most, math.Abs(e.Creep))
			require.InDelta(t, 0, e.Error(), 1e-12, "step %d: %+v", i, e)
			require.GreaterOrEqual(t, e.Set, 0.0)
		}
		assert.Greater(t, most, 1e-4)
		assert.Greater(t, s.Energy().Set, 1e-4)
	}
}

// Once it goes round in the same way each time, what goes into creep does not come back.
func TestClosedLoopLosesEnergy(t *testing.T) {
	p := spec(t, 20, 8)
	p.Moist = Slices(Tangential)
	s := started(t, p, 0.12)
	require.NoError(t, s.Hold(Support{Axial: 200, Bending: 1e5}))
	for range 200 {
		require.NoError(t, sineYear(s, 0.03, day, 0))
	}
	before := s.Energy()
	require.NoError(t, sineYear(s, 0.03, day, 0))
	after := s.Energy()
	assert.Greater(t, after.Creep-before.Creep, 1e-5)
	assert.InDelta(t, before.Elastic, after.Elastic, 1e-8)
	assert.InDelta(t, after.Creep-before.Creep, before.Swelling-after.Swelling+after.Support-before.Support, 1e-8)
}

// sineYear is a year of moisture swinging by the given amplitude, alike in all layers, with the
// movement of spruce T.
func sineYear(s *Strip, amplitude, step, shrunk float64) error {
	n := len(s.Points())
	in := uniform(n, 0, 0)
	steps := int(math.Round(365 * day / step))
	for i := 1; i <= steps; i++ {
		w := amplitude * math.Sin(2*math.Pi*float64(i)/float64(steps))
		for l := range n {
			in.Moisture[l], in.Free[l] = 0.12+w, 0.30*w-shrunk
		}
		if _, err := s.Step(step, in); err != nil {
			return err
		}
	}
	return nil
}
