package restraint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Two runs that both held back a shrinkage of 1 in 100 for decades: moisture-driven creep has taken
// most of it in the first, none in the second. 600 mm wide (invented).
func stored() ([]Kept, Pace) {
	return []Kept{
			{AtOnce: Comes{-0.0008, 2e-5}, Weeks: Comes{-0.0015, 1e-5}, Cycles: Comes{-0.0069, -3e-5}, Never: Comes{-0.0008, 0}},
			{AtOnce: Comes{-0.0031, 5e-5}, Weeks: Comes{-0.0069, 2e-5}},
		}, Pace{
			Part: []float64{0.31, 0.15, 0.18, 0.36}, Tau: []float64{7200, 72000, 720000, 7.2e6},
			Path: [2]float64{0.05, 0.1}, Spent: [2]float64{0.1, 1},
		}
}

func TestRelease(t *testing.T) {
	k, p := stored()
	s, err := Release(k, p, 600)
	require.NoError(t, err)
	require.Len(t, s, 5)
	assert.InDelta(t, -0.0031*600, s[0].Width[0], 1e-9)
	assert.InDelta(t, -0.0008*600, s[0].Width[1], 1e-9)
	assert.InDelta(t, 2e-5*600*600/8, s[0].Warp[0], 1e-9, "rounder, sagitta")
	assert.InDelta(t, 5e-5*600*600/8, s[0].Warp[1], 1e-9)
	// twelve hours, by hand: 0.31 (1-e^-6) + 0.15 (1-e^-0.6) + 0.18 (1-e^-0.06) + 0.36 (1-e^-0.006) = 0.3896
	assert.InDelta(t, -(0.0031+0.38955*0.0069)*600, s[1].Width[0], 1e-3)
	// a year of 0.05 to 0.1 kg/kg on a way of 0.1 to 1: 1-e^-0.05 to 1-e^-1 of the cycles
	assert.InDelta(t, -(0.0008+p.back(365*86400)*0.0015+0.0069*(1-math.Exp(-0.05)))*600, s[3].Width[1], 1e-9)
	for i := 1; i < 4; i++ {
		assert.LessOrEqual(t, s[i].Width[0], s[i-1].Width[0], "narrower and narrower: %s", s[i].When)
		assert.LessOrEqual(t, s[i].Width[1], s[i-1].Width[1], s[i].When)
		assert.LessOrEqual(t, s[i].Warp[0], s[i].Warp[1])
	}
	assert.InDeltaSlice(t, []float64{-0.48, 0}, s[4].Width[:], 1e-9)
	// a second run at the end of everything is the free movement
	p.Path, p.Spent = [2]float64{1e9, 1e9}, [2]float64{1, 1}
	p.Tau = []float64{1, 1, 1, 1}
	s, err = Release(k[:1], p, 600)
	require.NoError(t, err)
	assert.InDelta(t, -0.01*600, s[3].Width[0]+s[4].Width[0], 1e-9)
	nothing, err := Release([]Kept{{}}, Pace{Spent: [2]float64{1, 1}}, 600)
	require.NoError(t, err)
	assert.Equal(t, [2]float64{}, nothing[3].Width)
}

func TestReleaseRefused(t *testing.T) {
	k, p := stored()
	_, err := Release(nil, p, 600)
	assert.Error(t, err)
	_, err = Release(k, p, 0)
	assert.Error(t, err)
	for _, bad := range []Pace{{}, {Spent: [2]float64{1, 0.5}}, {Part: []float64{1}, Spent: [2]float64{1, 1}},
		{Part: []float64{0.5}, Tau: []float64{1}, Spent: [2]float64{1, 1}}, {Part: []float64{1}, Tau: []float64{0}, Spent: [2]float64{1, 1}}} {
		_, err = Release(k, bad, 600)
		assert.Error(t, err)
	}
}
