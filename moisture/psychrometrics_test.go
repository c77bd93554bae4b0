package moisture

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables"
)

func TestSaturationPressureRisesAndAuthorsAgree(t *testing.T) {
	for _, s := range []Saturation{Sonntag1994, MagnusWMO, HylandWexler} {
		lo, hi := s.Range()
		prev := 0.0
		for c := lo; c <= hi; c++ {
			p, err := s.Pressure(c)
			require.NoError(t, err)
			assert.Greater(t, p, prev, "%s at %v", s, c)
			prev = p
			if c >= 0 && c <= 50 {
				ref, _ := Sonntag1994.Pressure(c)
				assert.InEpsilon(t, ref, p, 0.0035, "%s at %v: the Magnus form is up to 0.3 %% low", s, c)
			}
		}
	}
}

func TestDewPointRoundTrip(t *testing.T) {
	for _, s := range []Saturation{Sonntag1994, MagnusWMO} {
		for _, room := range []Celsius{0, 10, 20, 30} {
			for _, h := range []RH{0.05, 0.3, 0.5, 0.8, 0.99, 1} {
				td, err := s.DewPoint(h, room)
				require.NoError(t, err)
				back, err := s.RHAt(1, td, room)
				require.NoError(t, err)
				assert.InDelta(t, float64(h), float64(back), 1e-9, "%s %v %v", s, room, h)
			}
		}
	}
}

// Colder than the room means damper; one kelvin is about 3 points at 50 % RH.
func TestColdPanelIsDamper(t *testing.T) {
	cold, err := Sonntag1994.RHAt(0.5, 20, 19)
	require.NoError(t, err)
	assert.InDelta(t, 0.53, float64(cold), 0.005)
	same, err := Sonntag1994.RHAt(0.5, 20, 20)
	require.NoError(t, err)
	assert.InDelta(t, 0.5, float64(same), 1e-15)
}

func TestAirOutOfRange(t *testing.T) {
	var out *tables.RangeError
	fails := func(err error, quantity string) {
		t.Helper()
		if assert.True(t, errors.As(err, &out), "%v", err) {
			assert.Equal(t, quantity, out.Quantity)
		}
	}
	_, err := HylandWexler.Pressure(-1)
	fails(err, "temperature")
	_, err = MagnusWMO.Pressure(61)
	fails(err, "temperature")
	_, err = Sonntag1994.Vapour(1.01, 20)
	fails(err, "relative humidity")
	_, err = Sonntag1994.DewPoint(RH(math.NaN()), 20)
	fails(err, "relative humidity")
	_, err = Sonntag1994.DewPoint(0, 20)
	fails(err, "vapour pressure")
	_, err = HylandWexler.DewPoint(0.2, 20)
	fails(err, "vapour pressure")
	_, err = Sonntag1994.RHAt(0.8, 20, 10)
	fails(err, "relative humidity at the surface")
	_, err = MixingRatio(101325, 101325)
	fails(err, "vapour pressure")
	_, err = HylandWexler.MixingRatioWet(20, 21, standardPressure)
	fails(err, "wet bulb")
	_, err = HylandWexler.MixingRatioWet(40, 5, standardPressure)
	fails(err, "mixing ratio")
}
