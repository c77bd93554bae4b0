package survey

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// exhaustive tries every way to put rows into columns.
func exhaustive(cost [][]float64, room []int) float64 {
	if len(cost) == 0 {
		return 0
	}
	best := math.Inf(1)
	for j := range room {
		if room[j] == 0 || math.IsInf(cost[0][j], 1) {
			continue
		}
		room[j]--
		best = min(best, cost[0][j]+exhaustive(cost[1:], room))
		room[j]++
	}
	return best
}

func TestAssignAgainstExhaustiveSearch(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1))
	fits, fails := 0, 0
	for range 2000 {
		cost, room := make([][]float64, 1+rng.IntN(7)), make([]int, 1+rng.IntN(4))
		for j := range room {
			room[j] = rng.IntN(4)
		}
		for i := range cost {
			cost[i] = make([]float64, len(room))
			for j := range cost[i] {
				if cost[i][j] = math.Round(100*rng.Float64()) / 4; rng.IntN(6) == 0 {
					cost[i][j] = math.Inf(1)
				}
			}
		}
		want := exhaustive(cost, slices.Clone(room))
		at, got, ok := assign(cost, room)
		require.Equal(t, !math.IsInf(want, 1), ok)
		if !ok {
			fails++
			continue
		}
		fits++
		require.InDelta(t, want, got, 1e-9)
		held := make([]int, len(room))
		for _, j := range at {
			held[j]++
		}
		for j := range room {
			require.LessOrEqual(t, held[j], room[j])
		}
	}
	assert.Greater(t, fits, 500)
	assert.Greater(t, fails, 100)
}

// A square case worked by hand: the cheapest cell of each row (1, 1, 2) would put two rows into one column; the
// least sum is 1 + 2 + 2.
func TestAssignByHand(t *testing.T) {
	at, total, ok := assign([][]float64{{1, 4, 5}, {1, 2, 6}, {3, 3, 2}}, []int{1, 1, 1})
	require.True(t, ok)
	assert.Equal(t, []int{0, 1, 2}, at)
	assert.InDelta(t, 5, total, 1e-12)
}

// Groups of rows that go together, against exhaustive search over groups and rows alike.
func TestPutAgainstExhaustiveSearch(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	for range 300 {
		n := 2 + rng.IntN(2)
		units, room := make([]unit, 1+rng.IntN(5)), make([]int, n)
		for j := range room {
			room[j] = 1 + rng.IntN(4)
		}
		for k := range units {
			units[k].rows = make([]int, 1+rng.IntN(3))
			for range n {
				units[k].cost = append(units[k].cost, math.Round(50*rng.Float64()))
			}
		}
		var search func(k int) float64
		search = func(k int) float64 {
			if k == len(units) {
				return 0
			}
			best := math.Inf(1)
			for j := range room {
				if size := len(units[k].rows); room[j] >= size {
					room[j] -= size
					best = min(best, units[k].cost[j]+search(k+1))
					room[j] += size
				}
			}
			return best
		}
		want := search(0)
		_, got, why := put(units, room)
		if math.IsInf(want, 1) {
			require.Equal(t, NoRoom, why)
			continue
		}
		require.Empty(t, why)
		require.InDelta(t, want, got, 1e-9)
	}
}

func BenchmarkAssign(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	cost := make([][]float64, 1000)
	for i := range cost {
		cost[i] = []float64{100 * rng.Float64(), 100 * rng.Float64(), 100 * rng.Float64()}
	}
	for b.Loop() {
		if _, _, ok := assign(cost, []int{300, 300, 400}); !ok {
			b.Fatal("it does not fit")
		}
	}
}
