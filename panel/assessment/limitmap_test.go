package assessment

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"crossgrain/moisture"
)

func TestCountsAreReadOffTheMap(t *testing.T) {
	m := LimitMap{Low: []moisture.RH{0.5, 0.4, 0.3}, High: []moisture.RH{0.5, 0.6},
		Of100: [][]float64{{0, 10}, {4, 14}, {20, 40}}}
	for _, c := range []struct {
		low, high moisture.RH
		want      float64
		ok        bool
	}{
		{0.5, 0.5, 0, true}, {0.4, 0.6, 14, true}, {0.45, 0.55, 7, true}, {0.35, 0.5, 12, true}, {0.3, 0.6, 40, true},
		{0.55, 0.57, 7, true}, {0.29, 0.5, 0, false}, {0.4, 0.61, 0, false},
	} {
		got, ok := m.Over(c.low, c.high)
		assert.Equal(t, c.ok, ok, c)
		if ok {
			assert.InDelta(t, c.want, got, 1e-9, c)
		}
	}
	d := &Doubt{Ways: []Ways{{Map: m}, {Map: LimitMap{Low: m.Low, High: m.High, Of100: [][]float64{{1, 1}, {1, 1}, {1, 1}}}}}}
	few, many, ok := CountOver(d.Maps(), 0.4, 0.6)
	assert.True(t, ok)
	assert.Equal(t, [2]float64{1, 14}, [2]float64{few, many}, "the ways of an unknown stay apart")
}

// Between the limits of a map counts go by straight lines, each worked by hand.
func TestReadMapByHand(t *testing.T) {
	m := LimitMap{Low: []moisture.RH{0.5, 0.4}, High: []moisture.RH{0.5, 0.6}, Of100: [][]float64{{0, 20}, {10, 40}}}
	for _, c := range []struct {
		low, high moisture.RH
		want      float64
	}{
		{0.5, 0.5, 0}, {0.4, 0.6, 40}, {0.45, 0.55, 17.5}, {0.425, 0.5, 7.5}, {0.5, 0.575, 15},
		{0.52, 0.575, 15}, // the used-to humidity is always within
	} {
		got, ok := m.Over(c.low, c.high)
		assert.True(t, ok)
		assert.InDelta(t, c.want, got, 1e-9, "%v..%v", c.low, c.high)
	}
	_, ok := m.Over(0.39, 0.6)
	assert.False(t, ok, "beyond what was counted")
	few, many, ok := CountOver([]LimitMap{m, {Low: m.Low, High: m.High, Of100: [][]float64{{0, 2}, {1, 4}}}}, 0.4, 0.6)
	assert.True(t, ok)
	assert.Equal(t, [2]float64{4, 40}, [2]float64{few, many})
}
