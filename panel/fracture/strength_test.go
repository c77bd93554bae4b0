package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// Rows that stand in the checks of species, through this package's wrapper.
func TestRowsOfSpecies(t *testing.T) {
	rows, err := verify.FromTable(tables.MustRead("checks_mechanics"), map[string]value{
		"SIH-EI-TL":  is(ModeOneModulus(14070, 693, 0.547, 1531)),
		"SIH-EI-RT":  is(ModeOneModulus(693, 1046, 0.285, 54)),
		"SIH-EI-ISO": is(ModeOneModulus(1000, 1000, 0.3, 1000/2.6)),
	})
	require.NoError(t, err)
	for _, r := range verify.Run(rows) {
		assert.True(t, r.Pass, "%s: got %g, want %g", r.Row.ID, r.Got, r.Row.Want)
	}
}

func TestSoundWoodNamesWhatDecides(t *testing.T) {
	slow, fast := species.SlowLimit{Value: 0.009}, species.FastLimit{Value: 0.006}
	d := SoundWood(0.0045, slow, 0.4, fast)
	assert.Equal(t, ByStrain, d.By, "0.0045/0.009 against 0.4 x 0.0045/0.006")
	assert.InDelta(t, 0.5, d.Share, 1e-12)
	d = SoundWood(0.0045, slow, 1, fast)
	assert.Equal(t, ByStress, d.By, "at once: nothing has relaxed")
	assert.InDelta(t, 0.75, d.Share, 1e-12)
	assert.Zero(t, SoundWood(-0.01, slow, 1, fast).Share)
}

func TestJoinShare(t *testing.T) {
	limit := species.SlowLimit{Value: 0.009}
	assert.InDelta(t, 0.5, JoinShare(0.0045, limit, 1), 1e-12)
	assert.InDelta(t, 1, JoinShare(0.0045, limit, 0.5), 1e-12, "half as strong as wood")
	assert.Zero(t, JoinShare(-0.01, limit, 0.5))
	assert.Zero(t, JoinShare(0, limit, 0))
	assert.True(t, math.IsInf(JoinShare(0.001, limit, 0), 1))
}

func TestShortCracksAreDecidedByTheWorse(t *testing.T) {
	tough, stress := Demand{ByToughness, 0.3}, Demand{ByStress, 0.8}
	assert.Equal(t, stress, Governs(10, tough, stress))
	assert.Equal(t, tough, Governs(100, tough, stress), "long ones by toughness alone")
	assert.Equal(t, tough, Decides(tough, Demand{ByStress, 0.3}))
	c, err := Release(split(), Drive{Strain: even(0.002), E0: 500, Left: 0.4})
	require.NoError(t, err)
	d := Drive{E0: 500, Left: 0.4}
	assert.InDelta(t, math.Sqrt(c.Now().Slow/0.1), c.Demand(0.1).Share, 1e-12)
	assert.InDelta(t, 0.4*500*0.002/3, d.Stress(0.002, 3).Share, 1e-12)
	assert.Zero(t, d.Stress(-0.002, 3).Share)
}
