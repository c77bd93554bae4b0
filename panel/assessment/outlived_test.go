package assessment

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestPassedAgainstDrawnCases draws shares one by one, keeps each as often as it survives, and reads the middle and the far end off those
// that are left.
func TestPassedAgainstDrawnCases(t *testing.T) {
	for _, c := range []struct{ share, log, add float64 }{{0.8, 0.3, 0}, {1.4, 0.4, 0}, {2.2, 0.5, 0}, {1.2, 0.2, 0.3}, {1.8, 0, 0.5}} {
		r := rand.New(rand.NewPCG(1, 2))
		s := spread{c.log, c.add}
		var kept []float64
		const n = 200000
		for range n {
			z := r.NormFloat64()
			share := c.share*math.Exp(z*c.log) + z*c.add
			if share <= 1 || share < 2 && r.Float64() < 2/share-1 { // the wood made between half of the change and all of it
				kept = append(kept, share)
			}
		}
		slices.Sort(kept)
		by, left := passed(c.share, s)
		assert.InDelta(t, float64(len(kept))/n, left, 0.005, "%+v", c)
		assert.InDelta(t, kept[len(kept)/2], s.high(c.share, by.middle), 0.02, "%+v", c)
		assert.InDelta(t, kept[len(kept)*95/100], s.high(c.share, by.middle+z95*by.wide), 0.03, "%+v", c)
	}
}

func TestPassedOfASmallShareTellsNothing(t *testing.T) {
	by, left := passed(0.1, spread{log: 0.3})
	assert.Equal(t, offset{0, 1}, by)
	assert.InDelta(t, 1, left, 0)
	_, left = passed(8, spread{log: 0.2})
	assert.Less(t, left, leastLeft, "hardly a case is left: the past contradicts the calculation")
}
