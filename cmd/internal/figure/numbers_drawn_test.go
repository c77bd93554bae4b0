package figure

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

func TestPanelIsSeenFromTheBack(t *testing.T) {
	p := samplePanel()
	s := p.layout(p.or("", ""))
	assert.Greater(t, float64(s.at(100, 0).X), float64(s.at(500, 0).X), "the left of the front is at the right")
	assert.Greater(t, float64(s.at(0, 900).Y), float64(s.at(0, 100).Y), "up is up")
	f := p.Draw()
	assert.Greater(t, float64(find(t, f, "1").box.Min.X), float64(find(t, f, "3").box.Min.X))
	assert.Contains(t, find(t, f, "SEEN FROM THE BACK: what is at the left here is at the right from the front.").text, "BACK")

	level := sampleCradle()
	l := level.layout(level.or("", ""))
	assert.Greater(t, float64(l.at(0, 100).X), float64(l.at(0, 900).X), "grain level: left and right are turned over too")
	assert.Greater(t, float64(l.at(400, 0).Y), float64(l.at(100, 0).Y), "the lower board is below")
}

func TestPanelIsToScale(t *testing.T) {
	for _, p := range []Panel{samplePanel(), sampleCradle(), manyParts(false)} {
		s := p.layout(p.or("", ""))
		dx, dy := s.r.Max.X-s.r.Min.X, s.r.Max.Y-s.r.Min.Y
		assert.InDelta(t, p.across()/p.up(), float64(dx/dy), 1e-9, "as wide to high as the panel")
		assert.InDelta(t, float64(dx)/p.across(), s.per, 1e-9)
	}
	assert.InDelta(t, 200, rulerLength(288, 10), 1e-9, "20 cm")
	assert.InDelta(t, 254, rulerLength(288, inch), 1e-9, "10 in; 1 in = 25.4 mm exactly")
	assert.InDelta(t, 500, rulerLength(999, 10), 1e-9)
}

func TestBoardsFillThePanel(t *testing.T) {
	from, to := samplePanel().boards()
	assert.InDeltaSlice(t, []float64{0, 218, 430}, from, 1e-9)
	assert.InDelta(t, 640, to[2], 1e-9)
	from, _ = Panel{AcrossMM: 300, Boards: make([]PanelBoard, 3)}.boards()
	assert.InDeltaSlice(t, []float64{0, 100, 200}, from, 1e-9, "widths not known: even")
}

func TestSectionHasEqualMillimetres(t *testing.T) {
	for _, s := range []Section{sampleSection(), oneBoard(), manySection()} {
		s.Magnification = 1
		d := s.layout()
		f := d.frame(SectionShape{}, 100)
		a, b, c := f.at(0, 0, 0, 50), f.at(10, 0, 0, 50), f.at(0, 10, 0, 50)
		assert.InDelta(t, float64(b.X-a.X), float64(c.Y-a.Y), 1e-9, "10 mm across and 10 mm through")
		assert.InDelta(t, 10*float64(d.per), float64(b.X-a.X), 1e-9)
	}
}

func TestSectionMovesAsGiven(t *testing.T) {
	s := sampleSection()
	d := s.layout()
	dry := s.Shapes[0]
	assert.InDelta(t, -1.9, dry.Bend(), 1e-9)
	assert.InDelta(t, -2.4, dry.Wider(), 1e-9)
	f := d.frame(dry, 0)
	mid, end := f.at(320, 0, 218, 430), f.at(0, 0, 0, 218)
	assert.InDelta(t, -1.9*d.times*float64(d.per), float64(mid.Y-end.Y), 0.05, "hollow is down, magnified")
	flat := d.frame(SectionShape{}, 0)
	assert.InDelta(t, 1.2*d.times*float64(d.per), float64(end.X-flat.at(0, 0, 0, 218).X), 0.05, "each end comes in by half")
	assert.Contains(t, find(t, s.Draw(), "1.9 mm").text, "1.9")
	assert.Contains(t, s.Draw().Sentence, "painted face hollow, 1.9 mm")
}

func TestRingsFollowTheAngle(t *testing.T) {
	slope := func(deg float64, lean bool) float64 {
		all := straights(SectionBoard{WidthMM: 100, ThicknessMM: 20, RingDeg: deg, LeanLeft: lean}, 4)
		require.NotEmpty(t, all)
		l := all[len(all)/2].course
		a, b := l[0], l[len(l)-1]
		return math.Atan2(b.z-a.z, b.x-a.x) * 180 / math.Pi
	}
	assert.InDelta(t, 90, slope(90, false), 1e-9, "quarter-sawn: upright in the section")
	assert.InDelta(t, 0, slope(0, false), 1e-9, "flat-sawn: along the face")
	assert.InDelta(t, 60, slope(60, false), 1e-9)
	assert.InDelta(t, 120, slope(60, true), 1e-9, "leaning left")
	b := SectionBoard{WidthMM: 100, ThicknessMM: 20, PithAcrossMM: 30, PithAboveBackMM: -40}
	for _, l := range arcs(b, 4) {
		r := math.Hypot(l.course[0].x-30, l.course[0].z+40)
		for _, q := range l.course {
			assert.InDelta(t, r, math.Hypot(q.x-30, q.z+40), 1e-9, "about the pith")
			assert.True(t, q.x > -1e-6 && q.x < 100+1e-6 && q.z > -1e-6 && q.z < 20+1e-6, "within the board: %v", q)
		}
	}
}

func TestBarsEndAtTheirTenths(t *testing.T) {
	g := sampleBars()
	bars := g.sorted()
	s := g.scale(bars)
	assert.Equal(t, []float64{0, 16}, []float64{s.lo, s.hi})
	_, _, paths := drawn(g.Draw())
	for _, tenth := range []float64{12.1, 9.6, 6.2, 1.2} {
		want := s.at(tenth)
		assert.True(t, slices.ContainsFunc(paths, func(p vg.Path) bool {
			return len(p) == 5 && math.Abs(float64(p[0].Pos.X-s.a)) < 0.01 && math.Abs(float64(p[2].Pos.X-want)) < 0.01
		}), "no bar from nought to %v tenths, x = %v", tenth, want)
	}
	assert.Equal(t, "Join left-middle opens", bars[0].Name)
	f := g.Draw()
	assert.Less(t, float64(find(t, f, "Frame binds").box.Min.Y), float64(find(t, f, "Ground cracks").box.Min.Y), "sorted")
	assert.Contains(t, texts(f), "2 more, each at most under 1 tenth of its limit. 1 could not be calculated.")
	assert.NotContains(t, texts(f), "Rippling", "seven at most")
}

func TestSharesCrossTheLimit(t *testing.T) {
	f := sampleShares().Draw()
	for _, c := range []struct {
		text, why string
	}{
		{"38 %", "52 − 14·(1 − 0.02) = 38.3"},
		{"66 %", "52 + 14·(1 − 0.02) = 65.7"},
		{"78 %", "46 + 34·√0.9 = 78.3"},
	} {
		assert.Contains(t, texts(f), c.text, c.why)
	}
	assert.Equal(t, "Join left-middle opens: beyond its limit below 38 and above 66 % RH. Fixing of the upper batten overloaded: beyond its limit above 78 % RH.", f.Sentence)
	three := sampleShares()
	three.Curves = append(three.Curves, ShareCurve{Name: "a third"})
	assert.NotContains(t, texts(three.Draw()), "a third", "the worst two only")
}

func TestCurvesLieWhereTheirNumbersSay(t *testing.T) {
	m := sampleMovement()
	c := chart{x: m.axis(m.RHPct), y: around("", -5, 5), curves: []curve{{x: m.RHPct, y: m.MeanMM}}}
	f := c.layout(box(0, 0, 300, 200))
	q := f.drawn[0][0][0]
	assert.InDelta(t, float64(f.sx.at(20)), float64(q.X), 1e-6)
	assert.InDelta(t, float64(f.sy.at(-4.16)), float64(q.Y), 1e-6, "1.3·(20 − 52)/10 mm")
	assert.Contains(t, texts(m.Draw()), "−2.2 and +1.7 mm")
}

func TestRangeSaysWhereItGoesBeyond(t *testing.T) {
	for _, c := range []struct {
		asked Span
		want  string
	}{
		{Span{45, 55}, "lies inside it, at the unfavourable end too"},
		{Span{40, 55}, "as described, not at the unfavourable end"},
		{Span{35, 55}, "goes beyond it, on the dry side"},
		{Span{45, 70}, "goes beyond it, on the damp side"},
		{Span{30, 70}, "on the dry and on the damp side"},
	} {
		r := sampleRange()
		r.Asked = c.asked
		assert.Contains(t, r.Draw().Sentence, c.want)
	}
	r := Range{Why: "the cradle is seized", UsedToPct: 50, Asked: Span{40, 60}}
	assert.Equal(t, "No calculated range is offered: the cradle is seized", r.Draw().Sentence)
	assert.Contains(t, texts(r.Draw()), "none offered")
	r = sampleRange()
	r.LowCause = ""
	assert.Contains(t, texts(r.Draw()), "No limit of this model is reached down to 38 %.")
}

func TestCrackStopsInWords(t *testing.T) {
	c := sampleCrack()
	assert.Equal(t, "Split top, 160 mm long today, would lengthen from about 40 % RH and stop at about 240 mm at 35 % RH.", c.Draw().Sentence)
	c.StopsMM, c.StopsHighMM = over(c.RHPct, func(float64) float64 { return math.NaN() }), nil
	assert.Contains(t, c.Draw().Sentence, "would not lengthen from 35 to 65 % RH")
	assert.Contains(t, texts(c.Draw()), "It would not lengthen anywhere on this scale.")
	c.StopsHighMM = sampleCrack().StopsHighMM
	assert.Contains(t, texts(c.Draw()), "today 160 mm; as described it stays so")
	c.StopsMM = over(c.RHPct, func(float64) float64 { return 920 })
	assert.Contains(t, c.Draw().Sentence, "would run from end to end at 35 % RH")
}

func TestForcesInKilograms(t *testing.T) {
	f := sampleForces().Draw()
	assert.Contains(t, texts(f), "820 N, about 83 kg, at 35 %", "48 N·(52 − 35) = 816 N = 83.2 kg")
	assert.Contains(t, f.Sentence, "upper batten, whole")
	assert.Contains(t, texts(manyForces().Draw()), "The 6 greatest; 23 more carry less.")
}

func TestGivenWordsWin(t *testing.T) {
	f := GivesWay{Meta: Meta{ID: "Own ID", Title: "Own?", Sentence: "own words."}}.Draw()
	assert.Equal(t, []string{"own-id", "Own?", "Own words."}, []string{f.ID, f.Title, f.Sentence})
}

func BenchmarkFigures(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		for _, s := range samples() {
			if err := s.fig.SVG(discard{}); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkPanelSVG(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if err := samplePanel().Draw().SVG(discard{}); err != nil {
			b.Fatal(err)
		}
	}
}

type discard struct{}

func (discard) Write(p []byte) (int, error) { return len(p), nil }
