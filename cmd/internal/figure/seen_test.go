package figure

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

// What was measured and expected is invented.
func sampleSeen() Seen {
	return Seen{Meta: Meta{Invented: true}, Groups: []SeenGroup{
		{Name: "Warp", Note: "from where it stands at rest", Warp: true, Values: []SeenValue{
			{"3 Mar 2024", "over 600 mm", 38, -2.1, 0.5, Cases{-6.4, -3.3, -0.9}, &Cases{-3.2, -2.3, -1.5}},
			{"14 Aug 2024", "over 600 mm", 61, 1.6, 0.5, Cases{0.5, 2.4, 4.8}, &Cases{0.9, 1.6, 2.3}},
		}},
		{Name: "Gap of join left-middle", Values: []SeenValue{
			{"3 Mar 2024", "", 38, 0.45, 0.1, Cases{0.02, 0.11, 0.2}, &Cases{0.04, 0.13, 0.22}},
		}},
	}}
}

func TestMeasuredStandsAgainstTheCases(t *testing.T) {
	s := sampleSeen()
	f := s.Draw()
	// The gap: 0.45 - 1.645*0.1 = 0.286 mm lies above 0.2.
	assert.Equal(t, "Within what was expected: 2 of the 3 values measured.", f.Sentence)
	all := texts(f)
	for _, w := range []string{"2.1 hollow", "remain 1.5 to 3.2 hollow", "1.6 rounded", "0.45", "remain 0.04 to 0.22", "at 38 % RH, over 600 mm"} {
		assert.Contains(t, all, w)
	}
	assert.Contains(t, f.Desc, "Warp, 3 Mar 2024: measured 2.1 mm hollow")
	g := s.Groups[0]
	sc := g.scale()
	_, _, paths := drawn(f)
	for _, want := range [][2]float64{{-6.4, -0.9}, {-3.2, -1.5}, {0.5, 4.8}} {
		assert.True(t, spans(paths, sc, want), "no bar over %v mm", want)
	}
	// 5 to 95 in 100 of a normal error of 0.5 mm is 1.645*0.5 = 0.822 mm to each side (tables of the normal distribution).
	assert.InDelta(t, 0.822, g.Values[0].reach(), 5e-4)
	whisker := false
	for _, p := range paths {
		whisker = whisker || len(p) == 6 && math.Abs(float64(p[0].Pos.X-sc.at(-2.1-0.8224))) < 0.02 && math.Abs(float64(p[1].Pos.X-sc.at(-2.1+0.8224))) < 0.02
	}
	assert.True(t, whisker, "the error of the instrument")
}

// spans reports whether a bar reaches over a range.
func spans(paths []vg.Path, s scale, want [2]float64) bool {
	for _, p := range paths {
		if len(p) == 5 && math.Abs(float64(p[0].Pos.X-s.at(want[0]))) < 0.01 && math.Abs(float64(p[2].Pos.X-s.at(want[1]))) < 0.01 {
			return true
		}
	}
	return false
}

func TestAxisHoldsAllThatWasSeen(t *testing.T) {
	for _, g := range sampleSeen().Groups {
		a := g.axis()
		for _, v := range g.Values {
			for _, x := range []float64{v.Measured - v.reach(), v.Measured + v.reach(), v.Expected.Low, v.Expected.High, v.Left.Low, v.Left.High} {
				assert.True(t, x >= a.lo && x <= a.hi, "%v outside of %v to %v", x, a.lo, a.hi)
			}
		}
		require.GreaterOrEqual(t, len(a.ticks), 3)
	}
	a := SeenGroup{Values: []SeenValue{{Measured: 0}}}.axis()
	assert.Less(t, a.lo, a.hi)
}

func TestSeenInWords(t *testing.T) {
	one := func(v SeenValue) Seen { return Seen{Groups: []SeenGroup{{Name: "Width", Values: []SeenValue{v}}}} }
	nan := math.NaN()
	for _, c := range []struct {
		s    Seen
		want string
	}{
		{Seen{}, "Nothing was measured on this panel."},
		{one(SeenValue{Measured: nan}), "Nothing was measured on this panel."},
		{one(SeenValue{Measured: 1, Expected: Cases{nan, nan, nan}}), "Of what was measured the model expects nothing."},
		{one(SeenValue{Measured: 1, Expected: Cases{0, 1, 2}}), "What was measured lies within what was expected."},
		{one(SeenValue{Measured: 3, Error: 0.5, Expected: Cases{0, 1, 2}}), "Within what was expected: 0 of the 1 value measured."},
		{one(SeenValue{Measured: 3, Error: 0.61, Expected: Cases{0, 1, 2}}), "What was measured lies within what was expected."},
		{Seen{NoneFits: true, Groups: sampleSeen().Groups}, "The model does not describe this panel: no case fits all that was measured."},
	} {
		assert.Equal(t, c.want, c.s.Draw().Sentence)
	}
	many := Seen{Groups: []SeenGroup{{Name: "Width", Values: make([]SeenValue, 15)}}}
	assert.Contains(t, strings.Join(texts(many.Draw()), " "), "3 more not drawn.")
	assert.NotContains(t, strings.Join(texts(many.Draw()), " "), "Full bar", "none was weighed")
	assert.Equal(t, "0.3 hollow to 1.2 rounded", SeenGroup{Warp: true}.span(-0.3, 1.2))
}
