package assessment

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/response"
)

// In the dry season the wood has gone part of the way: the air may be drier for a month than in the damp season, and less damp. A
// shorter time leaves more room. A record that is not the climate it lives in gives no seasons.
func TestRangesOfTheSeasons(t *testing.T) {
	src := source(t, "three_boards") // used to 50 % RH
	ask := func(days time.Duration) *Result {
		return assess(t, src, Question{
			Record: seasons(0.04), Setting: response.Coarse, For: days * 24 * time.Hour,
			Samples: Samples{Held: 120, Seed: 3},
		})
	}
	month, day := ask(0), ask(1)
	require.True(t, month.Year.Lived)
	for _, r := range []*Result{month, day} {
		got := r.Doubt.Ways[0].Seasons
		require.Len(t, got, 2)
		dry, damp := got[0], got[1]
		assert.InDelta(t, 46, dry.From.Percent(), 1)
		assert.InDelta(t, 54, damp.From.Percent(), 1)
		assert.False(t, dry.Damp || !damp.Damp)
		require.False(t, dry.None || damp.None)
		assert.Less(t, dry.Low, damp.Low)
		assert.Less(t, dry.High, damp.High)
		assert.LessOrEqual(t, dry.Low, dry.From)
		assert.GreaterOrEqual(t, damp.High, damp.From)
	}
	assert.Equal(t, 30*24*time.Hour, month.Doubt.Ways[0].Seasons[0].For)
	assert.Equal(t, 24*time.Hour, day.Doubt.Ways[0].Seasons[0].For)

	away := assess(t, strings.Replace(src, "rh_pct = 50", "rh_pct = 62", 1), Question{
		Record: seasons(0.04), Setting: response.Coarse, Samples: Samples{Held: 60, Seed: 3},
	})
	require.False(t, away.Year.Lived)
	assert.Empty(t, away.Doubt.Ways[0].Seasons)
}
