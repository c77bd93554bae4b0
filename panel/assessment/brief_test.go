package assessment

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel"
	"crossgrain/panel/response"
)

func TestBriefCourseFindsTheSameWorst(t *testing.T) {
	if testing.Short() {
		t.Skip("runs nothing in parallel that others do not")
	}
	rec := course{first(open(t, house), 24*240)}
	for _, name := range []string{"three_boards", "four_board_poplar_glued_cradle", "quarter_oak_frame_tight", "six_facts"} {
		prepared := func() *response.Case {
			o, err := described(t, name).Realise(nil)
			require.NoError(t, err)
			c, err := response.Prepare(o, response.Coarse)
			require.NoError(t, err)
			return c
		}
		c, b := prepared(), prepared()
		require.Empty(t, c.Refine())
		require.Empty(t, b.RefineLike(c.Lend()))
		full, brief := &along{low: 1}, &along{low: 1}
		_, err := c.Follow(context.Background(), rec, full)
		require.NoError(t, err)
		_, err = b.FollowBriefly(context.Background(), rec, brief)
		require.NoError(t, err)
		require.NotEmpty(t, full.worst)
		for i, w := range full.worst {
			require.True(t, w.same(brief.worst[i]), name)
			// 4 in 100 or a hundredth of the limit: balances are farther apart, crushing is taken in one order
			assert.InDelta(t, w.Share(), brief.worst[i].Share(), max(0.01, 0.04*w.Share()), "%s %s %s", name, w.Mode, w.Part)
		}
	}
}

func described(t testing.TB, name string) *panel.Panel {
	p, problems := panel.Read(name, []byte(source(t, name)))
	require.NoError(t, problems.Err())
	return p
}
