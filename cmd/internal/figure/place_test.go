package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot/vg"
)

func TestSpread(t *testing.T) {
	ten := func(n int) []vg.Length {
		out := make([]vg.Length, n)
		for i := range out {
			out[i] = 10
		}
		return out
	}
	for _, c := range []struct {
		name       string
		want, got_ []vg.Length
		lo, hi     vg.Length
	}{
		{"apart: left alone", []vg.Length{20, 50}, []vg.Length{20, 50}, 0, 100},
		{"equal: pushed apart evenly", []vg.Length{50, 50}, []vg.Length{45, 55}, 0, 100},
		{"chain", []vg.Length{40, 50, 51}, []vg.Length{37, 47, 57}, 0, 100},
		{"at the lower end", []vg.Length{0, 1}, []vg.Length{5, 15}, 0, 100},
		{"at the upper end", []vg.Length{99, 100}, []vg.Length{85, 95}, 0, 100},
		{"not a number", []vg.Length{vg.Length(math.NaN())}, []vg.Length{5}, 0, 100},
	} {
		got := spread(c.want, ten(len(c.want)), c.lo, c.hi)
		for i := range c.got_ {
			assert.InDelta(t, float64(c.got_[i]), float64(got[i]), 0.01, c.name)
		}
	}
	assert.Empty(t, spread(nil, nil, 0, 1))
}

func TestPlaces(t *testing.T) {
	pl := places{area: box(0, 0, 100, 100), lines: [][]vg.Point{{at(0, 50), at(100, 50)}}}
	r, cost := pl.put(20, 10, []vg.Point{at(10, 45), at(90, 10), at(10, 60)})
	assert.Equal(t, at(10, 60), r.Min, "neither on the line nor outside")
	assert.Less(t, cost, 1.0)
	r, cost = pl.put(20, 10, []vg.Point{at(15, 62), at(40, 45)})
	assert.Equal(t, at(40, 45), r.Min, "rather on a line than on a text")
	assert.Greater(t, cost, 19.0)
	_, cost = pl.put(20, 10, []vg.Point{at(15, 62), at(45, 45)})
	assert.True(t, math.IsInf(cost, 1), "nowhere")
}

func TestCovered(t *testing.T) {
	r := box(0, 0, 10, 10)
	assert.InDelta(t, 10, covered(r, at(-5, 5), at(50, 5)), 1e-9)
	assert.InDelta(t, 10*math.Sqrt2, covered(r, at(-1, -1), at(11, 11)), 1e-9, "the diagonal")
	assert.Zero(t, covered(r, at(-5, 11), at(50, 11)))
	assert.Zero(t, covered(r, at(vg.Length(math.NaN()), 1), at(5, 5)))
}

func TestTicksAndScales(t *testing.T) {
	assert.Equal(t, []float64{20, 30, 40}, ticks(20, 40, 10))
	assert.Equal(t, []float64{-2, 0, 2}, ticks(-2.5, 2.5, 2))
	assert.InDelta(t, 0.5, step(3, 6), 1e-12)
	assert.InDelta(t, 20, step(100, 6), 1e-12)
	assert.Equal(t, []float64{1, 10, 100, 1000}, decades(1, 1000))
	assert.Equal(t, []float64{1, 2, 5, 10}, decades(1, 10))
	s := scale{lo: 1, hi: 100, a: 0, b: 200, log: true}
	assert.InDelta(t, 100, float64(s.at(10)), 1e-9)
	assert.True(t, math.IsNaN(float64(s.at(-1))), "no logarithm, no place")
	lo, hi := rhRange([]float64{14, 92, math.NaN()})
	assert.Equal(t, []float64{10, 100}, []float64{lo, hi})
	lo, hi = rhRange(nil)
	assert.Equal(t, []float64{20, 80}, []float64{lo, hi})
	a := around("", -4.16, 3.6)
	assert.Equal(t, []float64{-5, 4}, []float64{a.lo, a.hi})
}

func TestSeries(t *testing.T) {
	x, y := []float64{20, 40, 60}, []float64{2, 0, 1}
	assert.InDelta(t, 1, valueAt(x, y, 30), 1e-12)
	assert.True(t, math.IsNaN(valueAt(x, y, 61)), "never beyond its ends")
	assert.InDeltaSlice(t, []float64{30}, crossings(x, y, 1)[:1], 1e-12)
	assert.Len(t, crossings(x, []float64{2, math.NaN(), 0}, 1), 0, "not across a gap")
	s := scale{lo: 0, hi: 100, a: 0, b: 100}
	assert.Len(t, runs(s, s, x, []float64{1, math.NaN(), 1}), 2, "a gap stays open")
}
