package creep

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
)

func TestSpecsThatAreRefused(t *testing.T) {
	for want, change := range map[string]func(*Spec){
		"1 to 64 layers":                func(p *Spec) { p.Layers = nil },
		"layer 2 must be above 0 mm":    func(p *Spec) { p.Layers = []float64{1, 0} },
		"modulus must be above 0 MPa":   func(p *Spec) { p.E = math.NaN() },
		"relaxation would count twice":  func(p *Spec) { p.Duration = species.Long },
		"limit of compression":          func(p *Spec) { p.Limit = 0 },
		"threshold of moisture turns":   func(p *Spec) { p.Dead = -1 },
		"order must be":                 func(p *Spec) { p.Order = 7 },
		"same retardation times":        func(p *Spec) { p.Press = Chain{Tau: []float64{1}, G: []float64{1}} },
		"one compliance for each time":  func(p *Spec) { p.Pull = Chain{Tau: []float64{1}} },
		"retardation time must be":      func(p *Spec) { p.Pull = Chain{Tau: []float64{0}, G: []float64{1}} },
		"creep compliance must be":      func(p *Spec) { p.Pull = Chain{Tau: []float64{1}, G: []float64{-1}} },
		"at most 3 moisture-driven":     func(p *Spec) { p.Moist = make([]MoistureDriven, 4) },
		"a path above 0 kg/kg, got 1 a": func(p *Spec) { p.Moist = []MoistureDriven{{M: 1}} },
	} {
		p := spec(t, 20, 4)
		change(&p)
		_, err := New(p)
		assert.ErrorContains(t, err, want)
	}
	_, err := Spruce(Radial, Tension, 50)
	assert.ErrorContains(t, err, "at 35, 65 or 90 % RH")
	_, err = Across(91, Tension, 65)
	assert.ErrorContains(t, err, "ring angle must be 0 to 90 degrees, got 91")
}

// What is wrong with a step is said before anything is changed.
func TestStepsThatAreRefused(t *testing.T) {
	s, err := New(spec(t, 20, 4))
	require.NoError(t, err)
	_, err = s.Step(1, uniform(4, 0.1, 0))
	assert.ErrorContains(t, err, "must be started")
	require.NoError(t, s.Start(uniform(4, 0.1, 0)))
	require.NoError(t, s.Hold(held()))
	_, err = s.Step(day, uniform(4, 0.1, -0.01))
	require.NoError(t, err)
	before := s.clone()
	soft := uniform(4, 0.1, 0)
	soft.Stiffness = []float64{1, 1, 0, 1}
	coat := uniform(4, 0.1, 0)
	coat.Front.Free = math.NaN()
	for want, x := range map[string]struct {
		dt float64
		in In
	}{
		"step must be 0 s or more":        {-1, uniform(4, 0.1, 0)},
		"wants values for 4 layers":       {1, uniform(3, 0.1, 0)},
		"layer 1 must have finite values": {1, uniform(4, math.NaN(), 0)},
		"stiffness of layer 3":            {1, soft},
		"coats must have finite":          {1, coat},
	} {
		_, err := s.Step(x.dt, x.in)
		assert.ErrorContains(t, err, want)
	}
	assert.ErrorContains(t, s.Hold(Support{Axial: -1}), "must be 0 or more")
	assert.ErrorContains(t, s.Hold(Support{Force: math.Inf(1)}), "load must be finite")
	assert.ErrorContains(t, s.Coats(Coat{E: -1}, Coat{}), "coat must have")
	assert.Equal(t, before.kelvin, s.kelvin)
	assert.Equal(t, before.at, s.at)
	assert.Equal(t, before.turn, s.turn)
}

// A veneer and a beam in the same climate bear the same stress and bend alike by their thickness.
func TestThicknessOnlyScales(t *testing.T) {
	run := func(mm float64) (*Strip, Out) {
		p := spec(t, mm, 8)
		p.Moist, p.Limit = Slices(Tangential), 0.0075
		s := started(t, p, 0.12)
		require.NoError(t, s.Hold(Support{Axial: 300, Bending: 0}))
		in := uniform(8, 0.12, 0)
		require.NoError(t, yearHourly(s, &in, nil))
		return s, s.Now()
	}
	want, at := run(20)
	for _, mm := range []float64{0.5, 1, 150, 200} {
		s, out := run(mm)
		assert.InDeltaSlice(t, want.Stress(), s.Stress(), 1e-9, "%g mm", mm)
		assert.InDeltaSlice(t, want.Set(), s.Set(), 1e-12, "%g mm", mm)
		assert.InDelta(t, at.Kappa*20, out.Kappa*mm, 1e-9, "%g mm", mm)
		assert.InDelta(t, at.N/20, out.N/mm, 1e-9, "%g mm", mm)
	}
}
