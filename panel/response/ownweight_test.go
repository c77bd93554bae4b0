package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/restraint"
)

func weighed(t testing.TB, boards, battens int, thickness, depth float64) (*Case, OwnWeight) {
	t.Helper()
	c, err := Prepare(battened(t, boards, battens, thickness, depth), Quick)
	require.NoError(t, err)
	w, err := c.OwnWeight()
	require.NoError(t, err)
	return c, w
}

// By hand for a strip 1 mm wide, 800 x 12 mm, q = rho g t (S. Timoshenko, Strength of Materials, part I):
// two bearers at a = 0.207 L carry q L/2 each; the moment over them is q a^2/2, in the middle between them
// q L^2/8 - q L a/2; carried by the edges
// it sags 5 q L^4/(384 D).
func TestOwnWeightByHand(t *testing.T) {
	c, w := weighed(t, 4, 2, 12, 20)
	b := &c.boards[0]
	q := b.Wood.Density * 9.80665e-9 * 12
	l, d := 800.0, b.stiff*12*12*12/12
	assert.InEpsilon(t, b.Wood.Density*0.8*0.8*0.012, w.WeightKg, 1e-9)
	two, a := w.Bearers[0], 0.207*l
	assert.InDelta(t, a, two.At[0], 0.1)
	assert.InDelta(t, l-a, two.At[1], 0.1)
	assert.InEpsilon(t, q*l/2, two.Short.Reaction[0], 1e-9)
	assert.InEpsilon(t, 6*math.Max(q*a*a/2, q*l*l/8-q*l*a/2)/144, two.Short.Stress, 1e-9)
	assert.InEpsilon(t, 5*q*l*l*l*l/(384*d), w.Sides.Deflection, 1e-9)
	along := w.Ends.Deflection
	assert.InEpsilon(t, 5*q*l*l*l*l/(384*b.Wood.EL*144), along, 1e-9, "800 mm along the grain as well")
	ei := 2 * b.Wood.EL * math.Exp(-1.6449*math.Sqrt(math.Log(1+0.22*0.22))) * 40 * 8000 / 12
	assert.InEpsilon(t, 5*q*l*l*l*l/(384*(d+ei/800)), w.Battens.Deflection, 1e-4, "battens beside the panel")
	assert.Less(t, w.Edges[0].Deflection, math.Min(w.Sides.Deflection, w.Ends.Deflection), "borne all round it sags least")
	assert.Less(t, w.Bearers[1].Short.Stress, two.Short.Stress, "three bear better than two")
	assert.Less(t, two.Short.Stress, w.Sides.Stress/4)
	assert.InEpsilon(t, w.Sides.Deflection, must(c.Carried()).Sag, 1e-9, "as the demand of handling")
}

func must[T any](v T, _ error) T { return v }

// Lying for a season bends it 1/left times as much, left being what the wood keeps of a stress
// (spruce, Maas & Wittel 2026): two to three times.
func TestOwnWeightLyingLong(t *testing.T) {
	c, w := weighed(t, 3, 0, 10, 0)
	assert.InEpsilon(t, 1/c.boards[0].left, w.Grown[1], 1e-9)
	assert.Less(t, w.Grown[0], w.Grown[1])
	assert.Greater(t, w.Grown[0], 1.5)
	assert.Less(t, w.Grown[1], 3.0)
	for _, b := range w.Bearers {
		assert.InEpsilon(t, w.Grown[1]*b.Short.Deflection, b.Sag[1], 1e-9)
	}
	assert.Greater(t, w.Edges[1].Deflection, w.Edges[0].Deflection)
	assert.Less(t, w.Edges[1].Deflection, w.Edges[0].Deflection*w.Grown[1], "along the grain it does not creep")
	assert.Less(t, w.Bears[1], w.Bears[0]*1.001, "it bears no more for a season than briefly")
	assert.Zero(t, w.Battens)
}

// The insets give the least stress: scanned in steps of 1/1000 of the width.
func TestBearersStandBest(t *testing.T) {
	w := restraint.Weight{E: 500, T: 10, Span: 1000, Density: 500}
	for n, chosen := range map[int]float64{2: twoInset, 3: threeInset} {
		best, least := 0.0, math.Inf(1)
		for i := range 400 {
			at, err := restraint.EvenBearers(n, 1000, float64(i))
			require.NoError(t, err)
			b, err := w.On(at)
			require.NoError(t, err)
			if b.Stress < least {
				best, least = float64(i)/1000, b.Stress
			}
		}
		assert.InDelta(t, best, chosen, 0.0011, "%d bearers", n)
	}
}

// Standing: rho g H on the lower edge, whichever way the grain runs.
func TestOwnWeightStanding(t *testing.T) {
	c, w := weighed(t, 4, 0, 12, 0)
	up, level := w.Standing[0], w.Standing[1]
	lean := math.Cos(10 * math.Pi / 180)
	assert.InEpsilon(t, c.boards[0].Wood.Density*9.80665e-9*800*lean, up.Now.Press, 1e-9)
	assert.InEpsilon(t, up.Now.Press, level.Now.Press, 1e-9, "800 mm either way")
	assert.True(t, up.AsIs)
	assert.False(t, level.AsIs)
	assert.InEpsilon(t, c.boards[0].Wood.EL/c.boards[0].stiff, level.Now.Share/up.Now.Share, 1e-9)
	assert.Equal(t, up.Now, up.Season, "along the grain it does not creep")
	assert.InEpsilon(t, 1/c.boards[0].left, level.Season.Share/level.Now.Share, 1e-9)
}

func TestOwnWeightExtremes(t *testing.T) {
	_, thin := weighed(t, 6, 0, 5, 0)
	assert.Equal(t, restraint.Outside, thin.Sides.Reach)
	assert.Greater(t, thin.Standing[1].Now.Share, 0.05)
	_, gives := weighed(t, 20, 0, 3, 0)
	assert.True(t, gives.Standing[1].Season.Buckles, "4 m of 3 mm, grain level")
	_, thick := weighed(t, 6, 0, 200, 0)
	assert.Equal(t, restraint.Inside, thick.Sides.Reach)
	assert.Less(t, thick.Sides.Deflection, 0.1)
	assert.Less(t, thick.Standing[1].Season.Share, 1e-3)
	_, many := weighed(t, 20, 12, 15, 20)
	assert.Less(t, many.Battens.Deflection, many.Sides.Deflection)
	// weight goes with t, stiffness with t^3
	_, ten := weighed(t, 3, 0, 10, 0)
	_, five := weighed(t, 3, 0, 5, 0)
	assert.InEpsilon(t, 4, five.Sides.Deflection/ten.Sides.Deflection, 1e-9)
	assert.InEpsilon(t, 4, five.Bearers[1].Sag[1]/ten.Bearers[1].Sag[1], 1e-9)
}
