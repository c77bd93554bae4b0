package profile_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
)

// seasons is 35 to 65 % over the year with a ripple of the given amplitude each day, two years.
func seasons(ripple float64) []profile.Climate {
	out := make([]profile.Climate, 2*8760+1)
	for t := range out {
		a := 2 * math.Pi * float64(t)
		out[t] = profile.Climate{RH: moisture.RH(0.5 + 0.15*math.Sin(a/8760) + ripple*math.Sin(a/24)), T: 20}
	}
	return out
}

// swing is the yearly swing of daily means of the mean moisture content, in the second year.
func swing(t *testing.T, w profile.Wall, o profile.Options, air []profile.Climate) float64 {
	t.Helper()
	s := start(t, w, o, air[0])
	lo, hi, sum := math.Inf(1), math.Inf(-1), 0.0
	record(t, s, air, func(h int) {
		sum += s.Mean() / 24
		if h%24 == 0 {
			if h > 8760 {
				lo, hi = min(lo, sum), max(hi, sum)
			}
			sum = 0
		}
	})
	return hi - lo
}

// A ripple of 3 points a day may not change the seasonal swing by a tenth; the differential rule,
// which forgets turning points, changes it by more where the ripple reaches the whole wood.
func TestRipple(t *testing.T) {
	plain, rippled := seasons(0), seasons(0.03)
	for _, c := range []struct {
		name string
		b    *moisture.Branches
		mm   float64
	}{{"poplar 20 mm", poplarBranches(), 20}, {"oak 20 mm", oakBranches(), 20}, {"oak 3 mm", oakBranches(), 3}} {
		w := board(c.b)
		w.Thickness = c.mm
		o := profile.Options{Cells: 16, Graded: true}
		a, b := swing(t, w, o, plain), swing(t, w, o, rippled)
		t.Logf("%s: swing %.3f, with ripple %.3f %% MC", c.name, 100*a, 100*b)
		assert.InEpsilon(t, a, b, 0.10, c.name)
	}
	w := board(oakBranches())
	w.Thickness = 3
	o := profile.Options{Cells: 16, Graded: true, Memory: profile.Differential}
	assert.Greater(t, swing(t, w, o, rippled), 1.10*swing(t, w, o, plain), "the bracket pumps")
}

// yearly is the mean over the year of the mean and of the skin.
func yearly(t *testing.T, o profile.Options, air []profile.Climate, dt float64) (mean, skin float64) {
	t.Helper()
	s := start(t, board(oakBranches()), o, air[0])
	for i := range len(air) - 1 {
		_, err := s.Step(dt, air[i], air[i+1])
		require.NoError(t, err)
		mean, skin = mean+s.Mean(), skin+s.Skin()
	}
	n := float64(len(air) - 1)
	return mean / n, skin / n
}

// Readings every 10 minutes or every hour, and noise of 0.3 points, give one yearly mean within 0.05 % MC.
func TestResamplingAndNoise(t *testing.T) {
	hourly := room(8761)
	tens := make([]profile.Climate, 6*8760+1)
	for i := range tens {
		a, x := i/6, float64(i%6)/6
		b := min(a+1, 8760)
		tens[i] = profile.Climate{
			RH: hourly[a].RH + moisture.RH(x)*(hourly[b].RH-hourly[a].RH),
			T:  hourly[a].T + moisture.Celsius(x)*(hourly[b].T-hourly[a].T),
		}
	}
	noisy := append([]profile.Climate(nil), tens...)
	x := uint32(7)
	for i := range noisy { // uniform with standard deviation 0.3 points
		x = 1664525*x + 1013904223
		noisy[i].RH += moisture.RH(0.003 * math.Sqrt(12) * (float64(x)/(1<<32) - 0.5))
	}
	o := profile.Options{Cells: 12, Graded: true}
	mean, skin := yearly(t, o, hourly, hour)
	for name, air := range map[string][]profile.Climate{"10 min": tens, "10 min, noise": noisy} {
		m, s := yearly(t, o, air, hour/6)
		t.Logf("%s: mean %+.4f, skin %+.4f %% MC", name, 100*(m-mean), 100*(s-skin))
		assert.InDelta(t, mean, m, 0.0005, name)
		assert.InDelta(t, skin, s, 0.0005, name)
	}
}

// The coarse setting stays near the fine one: half a tenth of a per cent of moisture content.
func TestCoarse(t *testing.T) {
	air := room(8761)
	fine := start(t, board(oakBranches()), profile.Options{Cells: 40, Graded: true}, air[0])
	coarse := start(t, board(oakBranches()), profile.Coarse(), air[0])
	means := profile.Means(nil, air, 3)
	require.Len(t, means, 2920)
	worst := 0.0
	for i, m := range means {
		for k := range 3 {
			_, err := fine.Step(hour, air[3*i+k], air[3*i+k+1])
			require.NoError(t, err)
		}
		_, err := coarse.Step(3*hour, m, m)
		require.NoError(t, err)
		worst = max(worst, math.Abs(fine.Mean()-coarse.Mean()))
	}
	t.Logf("coarse against fine: %.4f %% MC", 100*worst)
	assert.Less(t, worst, 5e-4)
}

// The branch at the start moves the moisture content by half the gap each way.
func TestPosition(t *testing.T) {
	b := oakBranches()
	at := func(p float64) float64 {
		w := board(b)
		w.Storage.Position = p
		return start(t, w, profile.Default(), profile.Climate{RH: 0.5, T: 20}).Mean()
	}
	assert.InDelta(t, 0.07790, at(-1), 1e-5, "wetting, printed curve at 50 %")
	assert.InDelta(t, 0.10624, at(1), 1e-5, "drying, printed curve at 50 %")
	assert.InDelta(t, (0.07790+0.10624)/2, at(0), 1e-5)
}

// The default tolerance costs less than 1e-5 of moisture content at the skin in a year, and few
// iterations: a step takes two stages, and the bend of the curve seldom a second look.
func TestTolerance(t *testing.T) {
	air := room(8761)
	for _, m := range []profile.Memory{profile.Turning, profile.Mean} {
		o := profile.Options{Cells: 24, Graded: true, Memory: m}
		s := start(t, board(oakBranches()), o, air[0])
		o.Tol = 1e-10
		exact := start(t, board(oakBranches()), o, air[0])
		worst, iterations := 0.0, 0
		for i := range 8760 {
			b, err := s.Step(hour, air[i], air[i+1])
			require.NoError(t, err)
			_, err = exact.Step(hour, air[i], air[i+1])
			require.NoError(t, err)
			iterations += b.Iterations
			worst = max(worst, math.Abs(s.Skin()-exact.Skin()))
		}
		assert.Less(t, worst, 1e-5, "memory %d", m)
		assert.Less(t, float64(iterations)/8760, 4.0, "memory %d", m)
	}
}
