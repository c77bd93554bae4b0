package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/species"
)

// openedJoin is two quarter-sawn boards of oak on two battens nailed near their outer edges by nails that do not give,
// their join open from end to end.
func openedJoin(t testing.TB, gap float64, at moisture.RH) *panel.Object {
	t.Helper()
	o := object(oakBoard(t, "a", 200, 12, 90), oakBoard(t, "b", 200, 12, 90))
	w, err := species.Lookup("oak")
	require.NoError(t, err)
	n, _ := w.Numbers(species.Draw{})
	for i, y := range []float64{200, 600} {
		o.Battens = append(o.Battens, panel.Batten{
			Name: string(rune('a' + i)), Wood: n, Y: y, To: o.Across, Width: 60, Depth: 30, Side: "back", Fixing: "nailed",
			HoldsFlat: true, Fixings: nails(2, 50, 350, 1e6, math.Inf(1)),
		})
	}
	j := &o.Joins[0]
	j.OpenEnd, j.Gap, j.GapRH = 800, gap, at
	return o
}

// By hand. Oak quarter-sawn moves 0.165 % per % MC across its width (oak, R, as in TestMovementByHand); its moisture
// content at 40, 50 and 60 % RH is that of the curve. Between the nails 300 mm are free to move; the join is open
// from end to end, so each side moves freely from its nail and the gap changes by what these 300 mm do: it closes where
// 300 x 0.165 x (u - u40) = gap, u as a fraction.
func TestClosingByHand(t *testing.T) {
	o := openedJoin(t, 0.3, 0.40)
	c, err := Prepare(o, Quick)
	require.NoError(t, err)
	b := &c.boards[0]
	want := math.NaN()
	for rh := 0.40; rh < 0.95; rh += 0.001 {
		if 300*0.165*(b.mc(moisture.RH(rh), 20)-b.mc(0.40, 20)) >= 0.3 {
			want = rh
			break
		}
	}
	r, err := c.Reglue(0.35, 0.65, nil)
	require.NoError(t, err)
	require.Equal(t, ClosesAt, r[0].Closes, "hand %g", want)
	assert.InDelta(t, want, float64(r[0].ClosesRH), 0.006, "sought in steps of half a point")

	// Glued to the battens from edge to edge, the wood beside the join does not move.
	for i := range o.Battens {
		o.Battens[i].Glued, o.Battens[i].Fixings = true, nil
	}
	glued, err := Prepare(o, Quick)
	require.NoError(t, err)
	r, err = glued.Reglue(0.35, 0.65, nil)
	require.NoError(t, err)
	assert.Equal(t, NeverCloses, r[0].Closes)
}

// By hand. A join held alike at every humidity h(RH) = -S (RH - 0.5) is pulled S (g - dry)/bears and pressed S (damp - g)/crush when
// glued at g: alike at g = (damp bears + dry crush)/(bears + crush) = (0.65 x 0.009 + 0.35 x 0.0075)/0.0165 = 0.5136.
func TestGluingByHand(t *testing.T) {
	c, err := Prepare(openedJoin(t, 0, 0.5), Quick)
	require.NoError(t, err)
	c.boards[0].breaks, c.boards[1].breaks = 0.009, 0.009
	s := lineStrains{span: 300}
	for rh := moisture.RH(0); rh < 1.01; rh += 0.25 {
		h := -0.02 * float64(rh-0.5)
		s.rh, s.mean = append(s.rh, rh), append(s.mean, h)
		s.held = append(s.held, []float64{h, h, h, h, h})
	}
	var r Reglue
	c.recordedGap(&r, &c.lines[0])
	c.gluing(&r, 0, &s, 0.35, 0.65)
	assert.InDelta(t, 0.5136, float64(r.At.RH), 0.0051, "sought in steps of half a point")
	assert.InDelta(t, 0.02*(0.5136-0.35)/0.009, r.At.Pull, 0.012)
	assert.InDelta(t, 0.02*(0.65-0.50)/0.0075, r.Used.Press, 1e-9)
	assert.InDelta(t, 0.02*(0.50-0.35)/0.009, r.Used.Pull, 1e-9)
	assert.Equal(t, [2]moisture.RH{0.50, 0.55}, [2]moisture.RH{r.Low, r.High})
}

func TestReglueExtremes(t *testing.T) {
	for _, h := range []float64{5, 200} {
		o := openedJoin(t, 0.2, 0.45)
		o.Boards[0].Thickness, o.Boards[1].Thickness = h, h
		c, err := Prepare(o, Quick)
		require.NoError(t, err)
		for _, span := range [][2]moisture.RH{{0, 1}, {0.5, 0.5}, {0.35, 0.65}} {
			r, err := c.Reglue(span[0], span[1], nil)
			require.NoError(t, err)
			for _, v := range []float64{r[0].At.Pull, r[0].At.Press, r[0].Used.Pull, r[0].At.Opens} {
				assert.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%g mm, %v", h, span)
			}
		}
	}
	whole, err := Prepare(object(oakBoard(t, "a", 200, 12, 90)), Quick)
	require.NoError(t, err)
	r, err := whole.Reglue(0.3, 0.7, nil)
	assert.NoError(t, err)
	assert.Empty(t, r, "no line, nothing to glue")
}

func TestFiveSteps(t *testing.T) {
	for rh, want := range map[moisture.RH][2]float64{0: {30, 35}, 0.52: {50, 55}, 0.5499: {50, 55}, 0.56: {55, 60}, 1: {65, 70}} {
		low, high := fiveSteps(rh)
		assert.InDelta(t, want[0], low.Percent(), 1e-9)
		assert.InDelta(t, want[1], high.Percent(), 1e-9)
	}
}
