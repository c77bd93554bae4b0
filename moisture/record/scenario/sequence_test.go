package scenario

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
)

func moistureRH(h float64) moisture.RH { return moisture.RH(h) }

func TestStepAndHold(t *testing.T) {
	r, err := StepAndHold(Clock{}, Climate{0.5, 20}, Climate{0.3, 22}, 3*time.Hour, 2*time.Hour)
	require.NoError(t, err)
	assert.Equal(t, []float64{0.5, 0.5, 0.5, 0.3, 0.3, 0.3}, r.RH)
	assert.Equal(t, []float64{20, 20, 20, 22, 22, 22}, r.T)
	assert.Equal(t, 5*time.Hour, r.Times[5].Sub(r.Times[0]))
	assert.Contains(t, r.Notes.Error(), "made climate: 30 % RH, 22 °C for 2 h")
	s := r.Stats()
	assert.Equal(t, time.Hour, s.Step)
}

func TestStepAndReturn(t *testing.T) {
	r, err := StepAndReturn(Clock{Step: 30 * time.Minute}, Climate{0.5, 20}, Climate{0.7, 12}, time.Hour, 2*time.Hour, time.Hour)
	require.NoError(t, err)
	assert.Equal(t, []float64{0.5, 0.5, 0.7, 0.7, 0.7, 0.7, 0.5, 0.5, 0.5}, r.RH)
}

func TestRampKeepsItsRate(t *testing.T) {
	for _, step := range []time.Duration{time.Minute, time.Hour, 6 * time.Hour} {
		r, err := Ramp(Clock{Step: step}, Climate{0.65, 20}, Climate{0.45, 18}, 5, days, 2*days)
		require.NoError(t, err)
		for i := range r.RH {
			h := r.Times[i].Sub(r.Times[0]).Hours()
			want := 0.65 - 0.05*min(max(h-24, 0), 96)/24
			require.InDelta(t, want, r.RH[i], 1e-12, "%g h", h)
			require.InDelta(t, 20-2*(0.65-want)/0.2, r.T[i], 1e-9)
		}
		assert.Equal(t, 7*days, r.Times[len(r.Times)-1].Sub(r.Times[0]))
	}
	_, err := Ramp(Clock{}, Climate{0.65, 20}, Climate{0.45, 18}, 0, days, days)
	assert.ErrorContains(t, err, "rate must lie between 0.1 and 1000 points per 24 h, got 0")
}

func TestSequencesOutOfRange(t *testing.T) {
	leg := Leg{Name: "home", Lasts: days, Climate: Climate{0.5, 20}}
	for want, s := range map[string]Sequence{
		"at least one leg": {},
		"leg 1 (home): relative humidity of the leg must lie between 0 and 100 %, got 5000": {Legs: []Leg{{"home", days, Climate{50, 20}, 0}}},
		"leg 2 (transit): temperature of the leg must lie between -40 and 60 °C":            {Legs: []Leg{leg, {"transit", days, Climate{0.5, 99}, 0}}},
		"length must lie between": {Legs: []Leg{{"home", 0, Climate{0.5, 20}, 0}}},
		"leg 2 (show): lasts 24 h, but needs 48 h at 5 points per 24 h to get there": {Legs: []Leg{leg, {"show", days, Climate{0.6, 20}, 5}}},
		"number of readings": {Clock: Clock{Step: days}, Legs: []Leg{{"home", time.Hour, Climate{0.5, 20}, 0}}},
		"step must lie":      {Clock: Clock{Step: -1}, Legs: []Leg{leg}},
	} {
		_, err := s.Record()
		assert.ErrorContains(t, err, want)
	}
}

// A loan of an invented panel: a crate, conditioned at home, stands 30 hours in a cold store.
func ExampleCase_After() {
	crate := Case{Volume: 250, Exchange: 1, Wood: Wood{Mass: 12, Quick: 0.3, Hours: 72}, Lag: 5, Start: Climate{0.52, 20}}
	inside, err := crate.After(Climate{RH: 0.30, T: 8}, 30)
	fmt.Println(inside, err)
	// Output: 50.7 % RH, 8.03 °C <nil>
}
