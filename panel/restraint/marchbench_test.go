package restraint

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// season fills free movements of an invented year by the hour: summer and winter, day and night,
// and noise.
func season(b Body, noise float64) [][]float64 {
	r := rand.New(rand.NewPCG(8, 8))
	out := make([][]float64, 8760)
	for h := range out {
		e := 0.6*math.Sin(2*math.Pi*float64(h)/8760) + 0.05*math.Sin(2*math.Pi*float64(h)/24) + noise*r.NormFloat64()
		out[h] = make([]float64, b.N)
		for i := range b.N {
			x := float64(i/2)/float64(b.N/2-1)*2 - 1
			if i%2 == 0 {
				out[h][i] = 3 * e * x // slip
			} else {
				out[h][i] = e * (x*x - 1.0/3) // warp
			}
		}
	}
	return out
}

// cradled is n fixings of one kind: slots with friction under a spring.
func cradled(n int, mu float64) (Body, []Mount) {
	b, mounts := invented(rand.New(rand.NewPCG(4, 4)), n, 0, 0.1)
	for i := range mounts {
		m := &mounts[i]
		m.Slip = &Hold{Row: 2 * i, Stiff: 700, Play: 0.5, Yield: 900}
		m.Lift = &Hold{Row: 2*i + 1, Stiff: 5000, Yield: inf, Presses: true, Spring: 30, Pull: 60}
		m.Friction, m.Keeper = mu, false
	}
	return b, mounts
}

func BenchmarkMarchYear(b *testing.B) {
	for _, c := range []struct {
		n         int
		mu, noise float64
	}{{14, 0.4, 0}, {14, 0.4, 0.005}, {14, 0, 0.005}, {42, 0.4, 0}} {
		b.Run(fmt.Sprintf("fixings=%d/mu=%g/noise=%g", c.n, c.mu, c.noise), func(b *testing.B) {
			body, mounts := cradled(c.n, c.mu)
			m := march(b, body, mounts)
			year := season(body, c.noise)
			b.ReportAllocs()
			var st Situation
			moves := 0
			for b.Loop() {
				for _, f := range year {
					t, err := m.Step(Incoming{Free: f}, &st)
					if err != nil {
						b.Fatal(err)
					}
					moves += t.Moves
				}
			}
			b.ReportMetric(float64(moves)/float64(b.N)/8760, "moves/step")
		})
	}
}

func TestMarchStepsWithoutAllocation(t *testing.T) {
	body, mounts := cradled(5, 0.4)
	m := march(t, body, mounts)
	var st Situation
	year := season(body, 0.01)
	_, err := m.Step(Incoming{Free: year[0]}, &st)
	require.NoError(t, err)
	h := 0
	assert.Zero(t, testing.AllocsPerRun(500, func() {
		h++
		if _, err := m.Step(Incoming{Free: year[h]}, &st); err != nil {
			t.Fatal(err)
		}
	}))
}
