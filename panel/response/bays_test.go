package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/restraint"
)

// cradle makes an invented cradle: four members of oak glued on, two sliders.
func cradle(t testing.TB) *panel.Cradle {
	w := oakBoard(t, "m", 30, 12, 90).Wood
	return &panel.Cradle{
		FixedCount: 4, FixedWidth: 30, FixedDepth: 14, FixedX: []float64{50, 150, 250, 350}, FixedWood: w,
		SliderCount: 2, SliderWidth: 28, SliderDepth: 10, SliderY: []float64{200, 600}, SliderWood: w, FrictionForce: 80, ShareStuck: 0.3,
	}
}

func cradled(t testing.TB, thickness float64, used moisture.RH) (*Case, []Bay) {
	t.Helper()
	o := battened(t, 2, 0, thickness, 0)
	o.UsedTo, o.Cradle = used, cradle(t)
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	b, err := c.Bays()
	require.NoError(t, err)
	return c, b
}

// Euler's strut by hand: 70 mm clear of 4 mm oak between members buckles, hinged, at pi^2 t^2/(12 L^2)
// (S. Timoshenko and J. Gere, Theory of Elastic Stability, 2nd ed. 1961: shortening of a strut at its critical load), clamped
// at four times that; a strip 800 mm high adds a few in 100.
func TestBaysByHand(t *testing.T) {
	c, bays := cradled(t, 4, 0.5)
	require.Len(t, bays, 3)
	euler := math.Pi * math.Pi * 16 / 12 / 4900
	for _, b := range bays {
		assert.InDelta(t, 70, b.To-b.From, 1e-9)
		assert.GreaterOrEqual(t, b.Ripples[0].Critical, euler)
		assert.Less(t, b.Ripples[0].Critical, b.Ripples[1].Critical)
		assert.InEpsilon(t, 4*euler, b.Ripples[1].Critical, 0.03)
		assert.Less(t, b.At[0], b.At[1])
		// The humidity comes back: there the free swelling is the critical strain.
		s, err := c.Settle([]moisture.RH{b.At[0]})
		require.NoError(t, err)
		assert.InEpsilon(t, b.Ripples[0].Critical, c.boards[0].across(s[0].MC-c.boards[0].used), 1e-6)
	}
}

func TestBaysSignsAndExtremes(t *testing.T) {
	_, at50 := cradled(t, 4, 0.5)
	_, at40 := cradled(t, 4, 0.4)
	assert.Less(t, at40[0].At[0], at50[0].At[0], "used to drier air, it has swollen earlier")
	assert.Greater(t, at50[0].At[0], moisture.RH(0.5), "swelling, not shrinking")
	_, thin := cradled(t, 2, 0.5)
	assert.InEpsilon(t, 4, at50[0].Ripples[1].Critical/thin[0].Ripples[1].Critical, 1e-9, "with the square of the thickness")
	_, thick := cradled(t, 200, 0.5)
	assert.True(t, math.IsInf(float64(thick[0].At[0]), 1), "a thick panel does not ripple")
	o := battened(t, 2, 0, 4, 0)
	o.Cradle = cradle(t)
	o.Cradle.FixedX = []float64{50, 120, 250, 350}
	wide, err := Prepare(o, Quick)
	require.NoError(t, err)
	order, err := wide.Bays()
	require.NoError(t, err)
	assert.Equal(t, []float64{135, 265, 65}, []float64{order[0].From, order[1].From, order[2].From}, "the widest ripples first")
	o = battened(t, 2, 2, 4, 20)
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	none, err := c.Bays()
	require.NoError(t, err)
	assert.Empty(t, none, "nailed battens are not glued")
	o.Cradle = cradle(t)
	o.Cradle.FixedX, o.Cradle.SliderY = []float64{100, 130}, nil
	c, err = Prepare(o, Quick)
	require.NoError(t, err)
	none, err = c.Bays()
	require.NoError(t, err)
	assert.Empty(t, none, "members side by side leave no bay")
}

// Between two glued battens a low, wide piece takes several half waves across: its stiffness along
// the grain holds it down. By hand the least over m of m^2 + 2 (D3/Dx)(L/H)^2 + (Dy/Dx)(L/H)^4/m^2
// (S. G. Lekhnitskii, Anisotropic Plates: form from memory) is never below 2 (D3/Dx + sqrt(Dy/Dx))(L/H)^2.
func TestBaysBetweenGluedBattens(t *testing.T) {
	o := battened(t, 3, 2, 5, 20)
	for i := range o.Battens {
		o.Battens[i].Glued, o.Battens[i].Fixings = true, nil
	}
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	bays, err := c.Bays()
	require.NoError(t, err)
	require.Len(t, bays, 1)
	b := bays[0]
	assert.Equal(t, 360.0, b.High-b.Low, "400 apart, 40 wide")
	assert.Greater(t, b.Ripples[0].Waves, 1)
	assert.Equal(t, b.Ripples[0], b.Ripples[1])
	ratio := math.Sqrt(c.boards[0].Wood.EL / c.boards[0].stiff)
	floor := math.Pi * math.Pi * 25 / 12 / (360 * 360) * 2 * ratio
	assert.Greater(t, b.Ripples[0].Critical, floor)
	euler, err := restraint.Rippling(5, 600, 0)
	require.NoError(t, err)
	assert.Greater(t, b.Ripples[0].Critical, 10*euler, "the battens hold it, not its sides")
}
