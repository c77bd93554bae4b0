package fracture

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// counted counts a series of even steps of one.
func counted(threshold float64, v ...float64) (out []Cycle) {
	r := Rainflow{Threshold: threshold, Each: func(c Cycle) { out = append(out, c) }}
	for i, x := range v {
		r.Add(float64(i), x)
	}
	r.Close()
	return out
}

// sums adds the counts of alike ranges.
func sums(cycles []Cycle) map[float64]float64 {
	out := map[float64]float64{}
	for _, c := range cycles {
		out[c.Range] += c.Count
	}
	return out
}

// Worked examples. The standard itself was not seen; its example is carried with the same counts by public
// programs that say where it comes from (github.com/iamlikeme/rainflow, tests/test_rainflow.py, "cycle
// counts from ASTM E1049-85", with means 1.0, -0.5, ...; pyYeti, py_rain.py, "the example from the ASTM
// paper"). The others are counted by hand below.
func TestRainflowExamples(t *testing.T) {
	for _, row := range []struct {
		name, source string
		series       []float64
		want         []Cycle
	}{
		{"ASTM", "ASTM E1049-85, example of rainflow counting, as carried by iamlikeme/rainflow tests/test_rainflow.py (index, mean and count of each cycle)",
			[]float64{-2, 1, -3, 5, -1, 3, -4, 4, -2}, []Cycle{
				{3, -0.5, 0.5, 2}, {4, -1, 0.5, 2}, {4, 1, 1, 2}, {8, 1, 0.5, 2}, {9, 0.5, 0.5, 6}, {8, 0, 0.5, 2}, {6, 1, 0.5, 2},
			}},
		// By hand. Turns 0 10 5 8 0 (3 lies on the way down). 8-0 = 8 is not less than 5-8 = 3, which does
		// not hold the first turn: a full cycle of 3 about 6.5. Left 0 10 0: 10 is not less than 10, which
		// holds the first turn: half of 10. Left 10 0: half of 10.
		{"roof", "by hand", []float64{0, 10, 5, 8, 3, 0}, []Cycle{{3, 6.5, 1, 2}, {10, 5, 0.5, 2}, {10, 5, 0.5, 8}}},
		{"one rise", "by hand: half a cycle", []float64{1, 2, 3}, []Cycle{{2, 2, 0.5, 4}}},
		{"falls first", "by hand: 1-4 = 3 is less than 5-1 = 4; 4-0 = 4 is not less than 3, which does not hold the first turn: a full cycle of 3; left 5 0: half of 5", []float64{5, 1, 4, 0},
			[]Cycle{{3, 2.5, 1, 2}, {5, 2.5, 0.5, 6}}},
		{"alike values", "by hand: standing still is no turn", []float64{0, 2, 2, 2, 0}, []Cycle{{2, 1, 0.5, 2}, {2, 1, 0.5, 6}}},
	} {
		got := counted(0, row.series...)
		if row.name == "ASTM" { // the time of the second turn of each is that of its index in the source
			assert.Equal(t, map[float64]float64{3: 0.5, 4: 1.5, 6: 0.5, 8: 1, 9: 0.5}, sums(got), row.source)
		}
		assert.ElementsMatch(t, row.want, got, "%s: %s", row.name, row.source)
	}
}

func TestRainflowNothing(t *testing.T) {
	assert.Empty(t, counted(0))
	assert.Empty(t, counted(0, 3))
	assert.Empty(t, counted(0, 3, 3, 3))
	assert.Empty(t, counted(1, 0, 1, 0, 1, 0), "swings up to the threshold are none")
	assert.Len(t, counted(0.99, 0, 1, 0, 1, 0), 4)
	r := Rainflow{Each: func(Cycle) {}}
	r.Add(0, math.NaN())
	r.Add(1, math.Inf(1))
	assert.Equal(t, 2, r.Skipped())
	assert.Zero(t, r.Open())
}

// A ripple below the threshold on a slow swing leaves the slow swing alone, with its length.
func TestRainflowThreshold(t *testing.T) {
	var v []float64
	for i := range 2*365*24 + 1 {
		v = append(v, math.Sin(2*math.Pi*float64(i)/(365*24))+0.01*math.Sin(2*math.Pi*float64(i)/24))
	}
	slow := counted(0.05, v...)
	for _, c := range slow {
		assert.Greater(t, c.Range, 0.9)
	}
	long := slices.MaxFunc(slow, func(a, b Cycle) int { return int(math.Copysign(1, a.Range-b.Range)) })
	assert.InDelta(t, 2.02, long.Range, 0.001)
	assert.InDelta(t, 365*24, long.Lasts, 100, "hours; a swing of a year")
	fine := sums(counted(0, v...))
	var n float64
	for r, c := range fine {
		if r < 0.1 {
			n += c
		}
	}
	assert.InDelta(t, 2*365, n, 2*365*0.1, "the days of two years; near the steep parts of the year some are no turns")
}

// Every turn but the last begins half a cycle; the greatest swing of all is counted; little is kept.
func TestRainflowKeepsLittle(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 1)) // fixed seed
	var count, top, least, most float64
	kept, turns := 0, 1
	r := Rainflow{Each: func(c Cycle) { count += c.Count; top = math.Max(top, c.Range) }}
	before, was := 0.0, 0.0
	for i := range 24 * 365 {
		x := math.Sin(2*math.Pi*float64(i)/(24*365)) + 0.3*rnd.NormFloat64()
		r.Add(float64(i), x)
		least, most = math.Min(least, x), math.Max(most, x)
		if i > 1 && (x > before) != (before > was) {
			turns++
		}
		was, before = before, x
		kept = max(kept, r.Open())
	}
	r.Close()
	assert.InDelta(t, most-least, top, 1e-12)
	assert.InDelta(t, float64(turns)/2, count, 1e-9)
	assert.Less(t, kept, 60, "a year of hours keeps a few turns")
	require.Zero(t, r.Open())
}

func BenchmarkRainflow(b *testing.B) {
	v := make([]float64, 24*365)
	rnd := rand.New(rand.NewPCG(7, 1))
	for i := range v {
		v[i] = rnd.NormFloat64()
	}
	for b.Loop() {
		r := Rainflow{Each: func(Cycle) {}}
		for i, x := range v {
			r.Add(float64(i), x)
		}
		r.Close()
	}
}
