package figure

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The counts are invented: 100 (1 - exp(-r)) of the square of how far the limits lie from 52 %.
func sampleLimitMap() LimitMap {
	l := LimitMap{Meta: Meta{Invented: true}, Marks: []LimitMark{{"the record's own range", Span{41, 63}}, {"asked", Span{35, 65}}}}
	for i := range 9 {
		l.LowPct = append(l.LowPct, 52-2.5*float64(i))
		l.HighPct = append(l.HighPct, 52+2.5*float64(i))
	}
	for _, lo := range l.LowPct {
		l.Of100 = append(l.Of100, over(l.HighPct, func(hi float64) float64 {
			return 100 * (1 - math.Exp(-math.Pow((52-lo)/22, 3)-math.Pow((hi-52)/26, 3)))
		}))
	}
	return l
}

// planeMap counts lo + hi by a plane that falls to the narrow corner: 3 (50 - lo) + 1 (hi - 50).
func planeMap() LimitMap {
	l := LimitMap{LowPct: []float64{50, 45, 40, 35}, HighPct: []float64{50, 55, 60}}
	for _, lo := range l.LowPct {
		l.Of100 = append(l.Of100, over(l.HighPct, func(hi float64) float64 { return 3*(50-lo) + hi - 50 }))
	}
	return l
}

func TestContoursLieWhereTheCountIs(t *testing.T) {
	g, ok := planeMap().grid()
	require.True(t, ok)
	assert.Equal(t, []float64{35, 40, 45, 50}, g.x, "rising")
	for _, level := range mapLevels[:5] {
		x, y := g.lines(level)
		require.Len(t, x, 1, "one line of %v of 100", level)
		for i := range x[0] {
			assert.InDelta(t, level, 3*(50-x[0][i])+y[0][i]-50, 1e-9, "on the plane")
		}
		first, last := 0, len(x[0])-1
		edge := func(i int) bool {
			return math.Abs(x[0][i]-35) < 1e-9 || math.Abs(x[0][i]-50) < 1e-9 || math.Abs(y[0][i]-50) < 1e-9 || math.Abs(y[0][i]-60) < 1e-9
		}
		assert.True(t, edge(first) && edge(last), "from edge to edge")
	}
	x, y := g.region(20)
	require.Len(t, x, 1)
	area := 0.0
	for i := range x[0] {
		k := (i + 1) % len(x[0])
		area += (x[0][i]*y[0][k] - x[0][k]*y[0][i]) / 2
	}
	assert.InDelta(t, 150-(20+10)/2./3*10, area, 1e-9, "what lies above 20: all 15 by 10 less a strip of 6.7 to 3.3 wide")
	x, _ = g.lines(90)
	assert.Empty(t, x, "nowhere so many")
	assert.InDelta(t, 3*8+7, g.at(42, 57), 1e-9)
	assert.True(t, math.IsNaN(g.at(34, 57)) && math.IsNaN(g.at(42, 61)), "outside the map")
}

func TestMapMarksTheRecord(t *testing.T) {
	l := sampleLimitMap()
	f := l.Draw()
	all := strings.Join(texts(f), "|")
	g, _ := l.grid()
	// between the nodes around 41 and 63 %: about 100 (1 - exp(-(11/22)^3 - (11/26)^3)) = 18.2
	assert.InDelta(t, 18.2, g.at(41, 63), 0.5)
	assert.Contains(t, all, "the record's own range, 41 to 63 % RH: 19 of 100")
	assert.Contains(t, f.Sentence, "The record's own range, 41 to 63 % RH: 19 of 100 such panels reach a limit.")
	for _, s := range []string{"1 of 100", "5 of 100", "10 of 100", "20 of 100", "50 of 100", "Lower limit / % RH", "Upper limit / % RH"} {
		assert.Contains(t, texts(f), s)
	}
	c := l.axis("", g.x)
	for _, tick := range c.ticks {
		assert.True(t, tick >= c.lo && tick <= c.hi)
	}
	assert.Equal(t, []float64{32, 52}, []float64{c.lo, c.hi})
}

func TestMapLeavesOutWhatWasNotCounted(t *testing.T) {
	l := planeMap()
	l.Of100[1][1] = math.NaN()
	g, ok := l.grid()
	require.True(t, ok)
	assert.Len(t, g.triangles(), 12-6, "six triangles meet in a node")
	assert.Equal(t, [][4]float64{{40, 50, 45, 55}, {40, 55, 45, 60}, {45, 50, 50, 55}, {45, 55, 50, 60}}, g.uncounted(), "four cells meet in it")
	l.Marks = []LimitMark{{"the record's own range", Span{20, 59}}}
	assert.Equal(t, " Hatched: not counted. Beyond this map: the record's own range, 20 to 59 % RH.", l.besides(g))
	l.Of100 = nil
	_, ok = l.grid()
	assert.False(t, ok)
	assert.Equal(t, "No limits were tried.", l.Draw().Sentence)
	_, ok = LimitMap{LowPct: []float64{50, 40, 45}, HighPct: []float64{50, 60}, Of100: [][]float64{{1, 1}, {1, 1}, {1, 1}}}.grid()
	assert.False(t, ok, "neither rising nor falling")
	hole := planeMap()
	hole.Of100 = [][]float64{{0, 0, 0}, {0, 40, 0}, {0, 0, 0}, {0, 0, 0}}
	g, _ = hole.grid()
	x, _ := g.lines(20)
	require.Len(t, x, 1)
	assert.Equal(t, x[0][0], x[0][len(x[0])-1], "closed")
	none, all := planeMap(), planeMap()
	for i := range none.Of100 {
		none.Of100[i], all.Of100[i] = over(none.Of100[i], func(float64) float64 { return 0 }), over(all.Of100[i], func(float64) float64 { return 300 })
	}
	assert.Contains(t, none.Draw().Sentence, "fewer than 1 to fewer than 1 of 100")
	assert.Contains(t, all.Draw().Sentence, "over 99 to over 99 of 100")
}
