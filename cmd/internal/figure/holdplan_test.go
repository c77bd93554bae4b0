package figure

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

// circles are the radii of what was drawn round a point.
func circles(f Figure, q vg.Point) []vg.Length {
	_, _, paths := drawn(f)
	var out []vg.Length
	for _, p := range paths {
		for _, c := range p {
			if c.Type == vg.ArcComp && hypot(c.Pos.Sub(q)) < 0.01 {
				out = append(out, c.Radius)
			}
		}
	}
	return out
}

func TestDiscsGoWithTheForce(t *testing.T) {
	h := sampleHold()
	d := h.layout(h.Meta)
	f := h.Draw()
	first := d.all[0]
	require.InDelta(t, 812.5, first.size(), 1e-9, "130 N x 2.5 x 2.5")
	for _, a := range d.all {
		r := d.radius(a)
		assert.Contains(t, circles(f, d.spot(a)), r, "a circle of that radius at its place")
		if r > discLeast && a.sign() != Idle {
			assert.InDelta(t, a.size()/first.size(), math.Pow(float64(r/d.radius(first)), 2), 1e-9, "area to area as force to force")
		}
	}
	assert.InDelta(t, float64(discMost), float64(d.radius(first)), 1e-9, "room enough for the largest")
	assert.Contains(t, circles(f, d.spot(first)), d.radius(first)+hardRing, "the hardest has a ring")
	assert.Len(t, circles(f, d.spot(d.all[1])), 2, "no other has: fill and edge only")
}

func TestDiscsDoNotMeet(t *testing.T) {
	for _, h := range []HoldPlan{sampleHold(), sampleHeldCradle(false), sampleHeldCradle(true)} {
		d := h.layout(h.Meta)
		for i, a := range d.all {
			for _, b := range d.all[:i] {
				assert.Greater(t, float64(hypot(d.spot(a).Sub(d.spot(b)))), float64(d.radius(a)+d.radius(b)))
			}
		}
	}
	// Two fixings 40 mm apart: no disc greater than half of the distance, save that it stays readable.
	h := HoldPlan{Panel: Panel{AcrossMM: 640, AlongMM: 920}, Fixings: []HeldFixing{{AcrossMM: 100, AlongMM: 100, N: 400}, {AcrossMM: 140, AlongMM: 100, N: 400}}}
	d := h.layout(h.Meta)
	assert.InDelta(t, 0.95*40*d.sheet.per/2, float64(d.radius(d.all[0])), 1e-9)
	h.Fixings[1].AcrossMM = 101
	d = h.layout(h.Meta)
	assert.InDelta(t, float64(discMost)/2, float64(d.radius(d.all[0])), 1e-9)
}

func TestFixingsAreSeenFromTheBack(t *testing.T) {
	for _, level := range []bool{false, true} {
		h := sampleHeldCradle(level)
		d := h.layout(h.Meta)
		a, b := d.spot(HeldFixing{AcrossMM: 50, AlongMM: 90}), d.spot(HeldFixing{AcrossMM: 50, AlongMM: 890})
		c := d.spot(HeldFixing{AcrossMM: 710, AlongMM: 90})
		if level {
			assert.Greater(t, float64(a.X), float64(b.X), "the left end of the front at the right")
			assert.Greater(t, float64(c.Y), float64(a.Y), "up is up")
			continue
		}
		assert.Greater(t, float64(a.X), float64(c.X), "the left of the front at the right")
		assert.Greater(t, float64(b.Y), float64(a.Y))
		assert.InDelta(t, 660*d.sheet.per, float64(a.X-c.X), 1e-9, "to scale")
		assert.InDelta(t, float64(d.r.Max.X)-50*d.sheet.per, float64(a.X), 1e-9)
	}
}

// arrows are the tips of the heads of arrows, each with the way it points.
func arrows(f Figure) (tips, ways []vg.Point) {
	_, _, paths := drawn(f)
	for _, p := range paths {
		if len(p) == 5 && p[0].Type == vg.MoveComp && p[2].Type == vg.MoveComp && p[1].Pos == p[3].Pos {
			tips, ways = append(tips, p[1].Pos), append(ways, p[1].Pos.Sub(p[0].Pos))
		}
	}
	return tips, ways
}

func TestArrowsPointTheWayThePanelIsPulled(t *testing.T) {
	h := HoldPlan{Panel: Panel{AcrossMM: 640, AlongMM: 920, Boards: []PanelBoard{{"only", 640, false}}},
		Fixings: []HeldFixing{{AcrossMM: 300, AlongMM: 400, N: 100, PullAcross: 7}}}
	d := h.layout(h.Meta)
	tips, ways := arrows(h.Draw())
	require.Len(t, tips, 4, "the arrow and the one in the key, each on white")
	assert.Less(t, float64(ways[0].X), 0.0, "to the right from the front is to the left from the back")
	assert.InDelta(t, 0, float64(ways[0].Y), 1e-9)
	assert.Greater(t, float64(d.spot(h.Fixings[0]).X-tips[0].X), float64(d.radius(h.Fixings[0])), "outside the disc")
	h.Fixings[0].PullAcross, h.Fixings[0].PullAlong = 0, 1
	_, ways = arrows(h.Draw())
	assert.Greater(t, float64(ways[0].Y), 0.0, "up is up")
	h.Panel.GrainLevel = true
	_, ways = arrows(h.Draw())
	assert.Less(t, float64(ways[0].X), 0.0, "grain level: along is to the right from the front")
	h.Fixings[0].PullAlong = math.NaN()
	tips, _ = arrows(h.Draw())
	assert.Len(t, tips, 0)
}

func TestNoArrowRunsIntoADisc(t *testing.T) {
	for _, h := range []HoldPlan{sampleHold(), sampleHeldCradle(false), sampleHeldCradle(true)} {
		d := h.layout(h.Meta)
		tips, _ := arrows(h.Draw())
		require.NotEmpty(t, tips)
		for _, tip := range tips {
			for _, a := range d.all {
				assert.Greater(t, float64(hypot(tip.Sub(d.spot(a)))), float64(d.radius(a)))
			}
		}
	}
}

func TestTheHardestIsNamed(t *testing.T) {
	h := sampleHold()
	f := h.Draw()
	for _, s := range []string{"810 N, about 83 kg", "the hardest, at 35 % RH", "has the hardest", "at most 410 N, at 35 % RH", "500 N, about 51 kg", "bears", "slides", "yields", "carries nothing"} {
		assert.Contains(t, texts(f), s)
	}
	assert.Equal(t, "A fixing of upper batten works hardest, 810 N (about 83 kg) at 35 % RH; of 12 fixings 7 bear, 2 slide, 1 yields, 2 carry nothing.", f.Sentence)
	assert.Contains(t, f.Desc, "Invented example. Upper batten, 40 mm across, 730 mm along: yields, 810 N, at 35 % RH.")
	d := h.layout(h.Meta)
	n := d.rightNotes[0]
	require.Equal(t, "810 N, about 83 kg", n.lines[0])
	assert.InDelta(t, float64(d.radius(d.all[0])+hardRing), float64(hypot(d.at(n.part.across, n.part.along).Sub(d.spot(d.all[0])))), 1e-6, "its leader ends at the ring")
	h.Fixings[0].N = -h.Fixings[0].N
	assert.Equal(t, f.Sentence, h.Draw().Sentence, "the sign does not count")
}

func TestFixingsWithoutForce(t *testing.T) {
	h := sampleHold()
	for i := range h.Fixings {
		h.Fixings[i].N = 0.4
	}
	f := h.Draw()
	assert.Equal(t, "No fixing carries a force of a newton.", f.Sentence)
	assert.Contains(t, texts(f), "its fixings carry nothing")
	assert.NotContains(t, strings.Join(texts(f), "|"), "Area of a disc")
	assert.NotContains(t, texts(f), "bears")
	for _, q := range h.Fixings {
		assert.Equal(t, []vg.Length{idleDisc, idleDisc}, circles(f, h.layout(h.Meta).spot(q)))
	}
	assert.Equal(t, "Nothing is fixed to this panel.", HoldPlan{Panel: samplePanel()}.Draw().Sentence)
}

func TestKeyForceIsRound(t *testing.T) {
	for n, want := range map[float64]float64{1: 1, 1.9: 1, 2: 2, 49: 20, 50: 50, 99: 50, 812: 500, 1e5: 1e5} {
		assert.InDelta(t, want, keyForce(n), 1e-9*want, "of at most %v N", n)
	}
}
