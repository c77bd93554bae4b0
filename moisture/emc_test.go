package moisture

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
)

// curves returns one of every kind of isotherm, and every printed wood.
func curves(t *testing.T) map[string]Isotherm {
	t.Helper()
	out := map[string]Isotherm{
		"handbook": HailwoodHorrobin{}, "mean": Mean{poplar().Ads, poplar().Des},
		"scaled": Scaled{HailwoodHorrobin{}, 1.1}, "below one": GAB{0.08, 0.6, 0.7}, "C = 1": GAB{0.08, 1, 0.7},
	}
	woods, err := printedGAB()
	require.NoError(t, err)
	for name, w := range woods {
		out[name+" wetting"], out[name+" drying"] = w.Ads, w.Des
	}
	return out
}

func TestIsothermsRiseAndInvert(t *testing.T) {
	for name, iso := range curves(t) {
		for _, temp := range []Celsius{-1.1, 20, 93.3} {
			assert.Zero(t, float64(iso.MC(0, temp)), name)
			prev := MC(-1)
			for i := range 101 {
				h := RH(float64(i) / 100)
				u := iso.MC(h, temp)
				assert.Greater(t, u, prev, "%s at %v", name, h)
				back, err := iso.RH(u, temp)
				assert.NoError(t, err, name)
				assert.InDelta(t, float64(h), float64(back), 1e-9, name)
				prev = u
			}
			assert.Less(t, prev.Percent(), 40.0, "%s is finite at saturation", name)
		}
	}
}

func TestSlopesAreDerivatives(t *testing.T) {
	for name, iso := range curves(t) {
		for _, h := range []RH{0.001, 0.05, 0.3, 0.5, 0.65, 0.9, 0.999} {
			const d = 1e-6
			want := float64(iso.MC(h+d, 20)-iso.MC(h-d, 20)) / (2 * d)
			assert.InEpsilon(t, want, iso.Slope(h, 20), 1e-6, "%s at %v", name, h)
		}
	}
}

func TestOutsideTheRange(t *testing.T) {
	for name, iso := range curves(t) {
		for _, h := range []RH{-0.01, 1.01, RH(math.NaN()), RH(math.Inf(1))} {
			assert.True(t, math.IsNaN(float64(iso.MC(h, 20))), "%s MC(%v)", name, h)
			assert.True(t, math.IsNaN(iso.Slope(h, 20)), "%s Slope(%v)", name, h)
		}
		for _, u := range []MC{-0.001, 0.6, MC(math.NaN())} {
			_, err := iso.RH(u, 20)
			var out *tables.RangeError
			require.True(t, errors.As(err, &out), "%s RH(%v)", name, u)
			assert.InDelta(t, iso.MC(1, 20).Percent(), out.Max, 1e-9)
			assert.Equal(t, "% MC", out.Unit)
		}
	}
}

// Glass and Zelinka: the equation ends at 28.8 % at saturation and 20 °C.
func TestHandbookAtSaturation(t *testing.T) {
	assert.InDelta(t, 28.8, HailwoodHorrobin{}.MC(1, 20).Percent(), 0.05)
}

func TestInTable(t *testing.T) {
	hh := HailwoodHorrobin{}
	assert.True(t, hh.InTable(0.05, -1.1))
	assert.True(t, hh.InTable(0.95, 93.3))
	for _, c := range []struct {
		h RH
		t Celsius
	}{{0.04, 20}, {0.96, 20}, {0.5, -2}, {0.5, 94}, {RH(math.NaN()), 20}} {
		assert.False(t, hh.InTable(c.h, c.t), "%v %v", c.h, c.t)
	}
}

// Values computed apart from this program from the printed constants, % MC at 35, 50, 65, 80 % RH,
// rounded to four and then to three decimals.
func TestPrintedWoods(t *testing.T) {
	woods, err := printedGAB()
	require.NoError(t, err)
	for name, want := range map[string][2][4]float64{
		"poplar": {{6.128, 7.930, 10.149, 13.313}, {7.587, 9.884, 12.558, 16.115}},
		"oak":    {{5.897, 7.790, 10.079, 13.272}, {8.270, 10.624, 12.995, 15.627}},
		"walnut": {{5.431, 7.134, 9.134, 11.820}, {6.671, 9.095, 11.685, 14.704}},
		"pine":   {{6.445, 7.818, 9.183, 10.696}, {7.131, 9.017, 10.815, 12.694}},
	} {
		for i, h := range []RH{0.35, 0.5, 0.65, 0.8} {
			assert.InDelta(t, want[0][i], woods[name].Ads.MC(h, 20).Percent(), 5.5e-4, name)
			assert.InDelta(t, want[1][i], woods[name].Des.MC(h, 20).Percent(), 5.5e-4, name)
		}
	}
}

func TestUnitsPrint(t *testing.T) {
	assert.Equal(t, "50 % RH", Percent(50).String())
	assert.Equal(t, "9.27 % MC", HailwoodHorrobin{}.MC(0.5, 20).String())
	assert.Equal(t, "20 °C", Celsius(20).String())
}
