package profile_test

import (
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
	"crossgrain/tables/tabletest"
)

// stick is a pine stick in the open: the air at each hour, the sunlight (W/m2) and its moisture
// content (kg/kg). Source: testdata/pine_stick_july_2014.csv.
type stick struct {
	air     []profile.Climate
	sun, mc []float64
}

func readStick(t *testing.T) (out stick) {
	t.Helper()
	src, err := os.ReadFile("testdata/pine_stick_july_2014.csv")
	require.NoError(t, err)
	rows := tabletest.Cells(t, src)
	for _, row := range rows {
		var v [4]float64
		for k := range v {
			v[k], err = strconv.ParseFloat(row[k+1], 64)
			require.NoError(t, err)
		}
		out.air = append(out.air, profile.Climate{RH: moisture.Percent(v[1]), T: moisture.Celsius(v[0])})
		out.sun, out.mc = append(out.sun, v[2]), append(out.mc, v[3]/100)
	}
	require.Len(t, out.mc, 176)
	return out
}

// warmed is the air as the stick has it that full sun (1000 W/m2) warms by so many kelvin: the same
// vapour, warmer.
func (s stick) warmed(t *testing.T, kelvin float64) []profile.Climate {
	t.Helper()
	out := make([]profile.Climate, len(s.air))
	for i, c := range s.air {
		to := c.T + moisture.Celsius(kelvin*s.sun[i]/1000)
		h, err := moisture.Sonntag1994.RHAt(c.RH, c.T, to)
		require.NoError(t, err)
		out[i] = profile.Climate{RH: h, T: to}
	}
	return out
}

// daysOf is what is compared: the mean swing within a day, the middle of the hours of the maximum,
// and the mean. The first day, from 20:00 to the second midnight after, is left out.
func daysOf(mc []float64) (swing, hour, mean float64) {
	var hours []int
	for from := 28; from+24 <= len(mc); from += 24 {
		d := mc[from : from+24]
		swing += slices.Max(d) - slices.Min(d)
		hours = append(hours, slices.Index(d, slices.Max(d)))
	}
	for _, u := range mc[28:] {
		mean += u / float64(len(mc)-28)
	}
	slices.Sort(hours)
	return swing / float64(len(hours)), float64(hours[len(hours)/2]), mean
}

// run follows a sheet of half the stick's diameter, which has its volume by surface, bare on both
// faces.
func (s stick) run(t *testing.T, b *moisture.Branches, m profile.Memory, diffusion, film, kelvin float64) []float64 {
	t.Helper()
	tr, err := profile.Calibrate(profile.Diffusion{D: diffusion, RH: 0.5, T: 20}, 400, nil, 0)
	require.NoError(t, err)
	face := profile.Face{Film: film}
	w := profile.Wall{Thickness: 6.5, Density: 400, Storage: profile.Storage{Branches: b, T: 20}, Transport: tr, Back: face, Front: face}
	air := s.warmed(t, kelvin)
	// begin where the wood is: the humidity in balance with the moisture measured
	first, err := (moisture.HailwoodHorrobin{}).RH(moisture.MC(s.mc[0]), air[0].T)
	require.NoError(t, err)
	sol := start(t, w, profile.Options{Cells: 16, Memory: m}, profile.Climate{RH: first, T: air[0].T})
	out := []float64{sol.Mean()}
	record(t, sol, air, func(int) { out = append(out, sol.Mean()) })
	return out
}

// A stick of pine weighed in the open, 6 rain-free days, against the solver on the printed curves of
// pine in the air that was measured; a sheet stands for the round stick. Asked for: mean within 1.5
// points, morning maximum within 2 h, swing of the day within 30 %. Met, all three, in still air (film
// 2e-8) by a stick that the sun does not warm, with diffusion of 0.5 to 1e-10 m2/s. At 1.5e-10 the
// swing is half as large again; with wind or sun (up to 8 K) the maximum comes 3 h early and the mean
// falls to 1.5 points below: findings, nothing is fitted to them.
func TestStickInTheOpen(t *testing.T) {
	s := readStick(t)
	pine := &moisture.Branches{Ads: moisture.GAB{Vm: 0.0725, C: 13.5, K: 0.49}, Des: moisture.GAB{Vm: 0.1007, C: 8.21, K: 0.44}, T: 20}
	swing, hour, mean := daysOf(s.mc)
	for _, d := range []float64{0.5e-10, 1e-10, 1.5e-10} {
		for _, film := range []float64{2e-8, 6e-8} {
			for _, kelvin := range []float64{0, 8} {
				sw, h, m := daysOf(s.run(t, pine, profile.Turning, d, film, kelvin))
				t.Logf("D %g, film %g, sun %g K: swing %.2f (measured %.2f), most at %g h (%g), mean %.2f (%.2f)",
					d, film, kelvin, 100*sw, 100*swing, h, hour, 100*m, 100*mean)
				if d > 1e-10 || film > 2e-8 || kelvin > 0 {
					continue
				}
				assert.InDelta(t, mean, m, 0.015, "D %g", d)
				assert.InDelta(t, hour, h, 2, "D %g", d)
				assert.InEpsilon(t, swing, sw, 0.30, "D %g", d)
			}
		}
	}
	// wood that follows nearly at once swings more than twice as far as was weighed
	fast, _, _ := daysOf(s.run(t, pine, profile.Turning, 3e-9, 1e-6, 0))
	assert.Greater(t, fast, 2*swing)
}
