package moisture

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// swings returns the seasonal swing of the daily means of moisture content in the third year under
// 35-65 % RH with a daily ripple, by memory and by the differential rule, % MC.
func swings(b *Branches, ripple float64) (memory, rule float64) {
	s := StartAt(b, 0.5, Settled)
	r := Rode{U: at(&s, b), At: 0.5}
	lo, hi := [2]float64{9, 9}, [2]float64{}
	for d := range 3 * 365 {
		var mean [2]float64
		for i := 24 * d; i < 24*d+24; i++ {
			h := 0.5 + 0.15*math.Sin(2*math.Pi*float64(i)/8760) + ripple*math.Sin(2*math.Pi*float64(i)/24)
			s.Commit(b, h)
			r.Go(b, h)
			mean[0] += at(&s, b) / 24
			mean[1] += r.U / 24
		}
		if d < 2*365 {
			continue
		}
		for k, m := range mean {
			lo[k], hi[k] = min(lo[k], m), max(hi[k], m)
		}
	}
	return 100 * (hi[0] - lo[0]), 100 * (hi[1] - lo[1])
}

// The four figures for poplar and two for oak were worked out apart from this program, to 0.01 % MC.
func TestRippleDoesNotPump(t *testing.T) {
	calm, calmRule := swings(poplar(), 0)
	rippled, rippledRule := swings(poplar(), 0.03)
	assert.InDelta(t, 3.69, calm, 0.006)
	assert.InDelta(t, 3.78, rippled, 0.006)
	assert.Less(t, rippled/calm, 1.10, "ripple of 3 points changes the season by its own share at most")
	assert.InDelta(t, 2.64, calmRule, 0.006)
	assert.InDelta(t, 4.51, rippledRule, 0.006)
	_, calmRule = swings(oak(), 0)
	_, rippledRule = swings(oak(), 0.03)
	assert.InDelta(t, 2.18, calmRule, 0.006)
	assert.InDelta(t, 4.58, rippledRule, 0.007)
}

// year returns the mean moisture content over a year, % MC, of a season with a daily swing,
// read every step minutes, with logger noise.
func year(b *Branches, step int, noise float64) float64 {
	r := rand.New(rand.NewPCG(7, 11))
	s := StartAt(b, 0.5, Settled)
	sum, n := 0.0, 0
	for m := 0; m < 525600; m += step {
		d := float64(m) / 1440
		h := 0.5 + 0.12*math.Sin(2*math.Pi*d/365) + 0.03*math.Sin(2*math.Pi*d) + noise*(2*r.Float64()-1)
		s.Commit(b, h)
		sum += at(&s, b)
		n++
	}
	return 100 * sum / float64(n)
}

func TestNoiseAndResampling(t *testing.T) {
	for _, b := range []*Branches{poplar(), oak()} {
		plain := year(b, 60, 0)
		assert.InDelta(t, plain, year(b, 60, 0.003), 0.05, "noise of 0.3 % RH")
		assert.InDelta(t, plain, year(b, 10, 0), 0.05, "10 minutes against an hour")
		assert.InDelta(t, plain, year(b, 10, 0.003), 0.05)
	}
}

// Figures for oak worked out apart from this program: from the drying curve 10.62 -> 9.73 in 10 and
// 9.16 in 100 cycles of +-0.5 % RH; from the wetting curve 7.79 -> 8.60 and 9.16.
func TestSmallCyclesPumpTheRuleNotTheMemory(t *testing.T) {
	b := oak()
	for from, want := range map[Start][3]float64{Des: {10.62, 9.73, 9.16}, Ads: {7.79, 8.60, 9.16}} {
		s := StartAt(b, 0.5, from)
		r := Rode{U: at(&s, b), At: 0.5}
		start := at(&s, b)
		assert.InDelta(t, want[0], 100*r.U, 0.006)
		for i := 1; i <= 100; i++ {
			for _, h := range []float64{0.505, 0.495, 0.5} {
				r.Go(b, h)
				s.Commit(b, h)
			}
			if i == 10 {
				assert.InDelta(t, want[1], 100*r.U, 0.015)
			}
		}
		assert.InDelta(t, want[2], 100*r.U, 0.015)
		assert.InDelta(t, 100*start, 100*at(&s, b), 0.07, "memory stays within one small loop")
	}
}

// The settled state lies within 0.1 % MC of where the differential rule ends.
func TestSettledNearTheFixedPointOfTheRule(t *testing.T) {
	for _, b := range []*Branches{poplar(), oak()} {
		s := StartAt(b, 0.5, Settled)
		r := Rode{U: at(&s, b), At: 0.5}
		for range 200 {
			r.Go(b, 0.505)
			r.Go(b, 0.495)
		}
		r.Go(b, 0.5)
		assert.InDelta(t, 100*at(&s, b), 100*r.U, 0.1)
	}
}

func TestLoopMovesLessThanTheMeanCurve(t *testing.T) {
	for _, b := range []*Branches{poplar(), oak()} {
		mean := Mean{b.Ads, b.Des}
		for _, c := range [][2]RH{{0.35, 0.55}, {0.5, 0.6}, {0.5, 0.4}, {0.55, 0.35}, {0.5, 0.8}} {
			loop := Loop(b, c[0], c[1]) - Loop(b, c[0], c[0])
			full := mean.MC(c[1], 20) - mean.MC(c[0], 20)
			assert.Greater(t, float64(loop/full), 0.5, "%v", c)
			assert.Less(t, float64(loop/full), 1.0, "%v", c)
		}
	}
}

// On the way down from 93 % RH the printed curves of spruce miss the measured blocks; kept as a
// finding. Measured 8.10 % at 40.4 % RH and 6.70 at 31.1 %; the values below are this program's, kept
// so that a change is seen. Worked out apart from it with another closure: 8.96 and 7.66.
func TestMeasuredLoopOfSpruce(t *testing.T) {
	steps, err := SpruceLoop()
	if !assert.NoError(t, err) {
		return
	}
	woods, err := printedGAB()
	assert.NoError(t, err)
	b := woods["spruce"]
	for _, c := range []struct{ closure, at40, at31 float64 }{{1, 8.89, 7.60}, {0.934, 9.14, 7.82}} {
		b.Closure = RH(c.closure)
		s := StartAt(&b, 0, Ads)
		worst := 0.0
		for _, st := range steps {
			u := 100 * walk(&s, &b, float64(st.RH))
			switch st.Step {
			case 13:
				assert.InDelta(t, c.at40, u, 0.005)
			case 14:
				assert.InDelta(t, c.at31, u, 0.005)
			}
			if st.Drying {
				worst = max(worst, math.Abs(u-st.Measured.Percent()))
			}
		}
		t.Logf("closure %g: largest miss on the way down %.2f %% MC", c.closure, worst)
		assert.Less(t, worst, 1.2)
	}
}
