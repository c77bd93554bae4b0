package figure

import (
	"fmt"
	"math"
	"strings"
	"time"
)

const longName = "the very long name of a part that somebody has described with all that can be said of it, twice over"

// extremes are inputs at the edge of what can be drawn, and beyond it.
func extremes() []named {
	nan, inf := math.NaN(), math.Inf(1)
	x := sweep()
	bad := over(x, func(v float64) float64 {
		switch int(v) % 6 {
		case 0:
			return nan
		case 2:
			return inf
		case 4:
			return -1e300
		}
		return 1e300
	})
	one := []float64{50}
	out := []named{
		{"x-panel-empty", Panel{}.Draw()}, {"x-section-empty", Section{}.Draw()}, {"x-range-empty", Range{}.Draw()},
		{"x-bars-empty", GivesWay{}.Draw()}, {"x-options-empty", Options{}.Draw()}, {"x-shares-empty", Shares{}.Draw()}, {"x-movement-empty", Movement{}.Draw()},
		{"x-crack-empty", Crack{}.Draw()}, {"x-forces-empty", Forces{}.Draw()}, {"x-energy-empty", Energy{}.Draw()},
		{"x-sorption-empty", Sorption{}.Draw()}, {"x-means-empty", Means{}.Draw()},
		{"x-panel-bad", Panel{AcrossMM: nan, AlongMM: inf, Boards: make([]PanelBoard, 3)}.Draw()},
		{"x-shares-bad", Shares{RHPct: x, Curves: []ShareCurve{{longName, bad, bad, bad}, {longName, bad, nil, nil}}}.Draw()},
		{"x-shares-short", Shares{RHPct: x, Curves: []ShareCurve{{"a", x[:3], nil, x[:9]}}}.Draw()},
		{"x-movement-bad", Movement{RHPct: bad, LoopMM: bad, MeanMM: bad, Boards: []BoardMovement{{longName, bad}, {"", nil}}}.Draw()},
		{"x-movement-one", Movement{RHPct: one, LoopMM: one, MeanMM: one}.Draw()},
		{"x-crack-bad", Crack{RHPct: x, StopsMM: bad, StopsHighMM: bad, NowMM: nan, HeightMM: inf, Setting: Setting{nan, inf, nan}}.Draw()},
		{"x-crack-long-name", Crack{Meta: Meta{Invented: true}, Name: longName, RHPct: x, StopsMM: x, NowMM: 10, HeightMM: 200}.Draw()},
		{"x-forces-bad", Forces{RHPct: x, Curves: []ForceCurve{{longName, bad}}}.Draw()},
		{"x-energy-bad", Energy{LengthMM: bad, Curves: []EnergyCurve{{nan, bad}}, ToughnessJM2: inf, LowJM2: nan}.Draw()},
		{"x-sorption-bad", Sorption{RHPct: bad, Curves: []SorptionCurve{{"", bad}}}.Draw()},
		{"x-means-bad", Means{Start: time.Time{}, Days: bad, Curves: []MeanCurve{{longName, bad}}}.Draw()},
		{"x-range-bad", Range{UsedToPct: nan, Nominal: Span{nan, inf}, Asked: Span{-5, 200}, Why: longName + " " + longName}.Draw()},
		{"x-range-wide", Range{Meta: Meta{Invented: true}, UsedToPct: 79, Lived: Span{2, 99}, LivedWords: longName, Asked: Span{60, 98},
			Nominal: Span{70, 97}, Unfavourable: Span{90, 80}, LowCause: longName + longName, Records: []RecordStrip{{longName, Span{1, 100}, Span{}}}}.Draw()},
		{"x-options-bad", Options{Groups: []OptionGroup{{longName, []Bar{{"a\x00b", nan, inf, -inf, nan, "x"}, {longName, 1e9, 30, nan, inf, longName}, {"under", 20, -1, -2, -1, ""}}}}}.Draw()},
		{"x-bars-bad", GivesWay{Bars: []Bar{{"a\x00b\n\tc", nan, inf, -inf, nan, "x"}, {longName, 1e9, 30, nan, inf, longName}, {"under", 20, -1, -2, -1, ""}}}.Draw()},
		{"x-section-bad", Section{Magnification: 1e9, Boards: []SectionBoard{{Name: longName, WidthMM: nan}, {Name: longName, WidthMM: 100, ThicknessMM: 10, RingKnown: true, RingDeg: nan}},
			Shapes: []SectionShape{{Label: longName, XMM: []float64{0, 50, 100}, DxMM: []float64{nan, inf, 1}, DzMM: []float64{0, inf, 0}, CupLowMM: nan}}}.Draw()},
		{"x-section-one", oneBoard().Draw()},
		{"x-section-many", manySection().Draw()},
		{"x-panel-one", Panel{AcrossMM: 180, AlongMM: 240, Boards: []PanelBoard{{Name: "only", WidthMM: 180}}}.Draw()},
		{"x-panel-narrow", Panel{Meta: Meta{Invented: true}, AcrossMM: 120, AlongMM: 1900, Boards: []PanelBoard{{longName, 60, true}, {"b", 60, true}}, Cracks: []PanelCrack{{longName, longName, 30, Stretch{-50, 5000}, true, false}}}.Draw()},
		{"x-panel-many", manyParts(false).Draw()}, {"x-panel-many-level", manyParts(true).Draw()},
		{"x-movement-many", manyBoards().Draw()}, {"x-forces-many", manyForces().Draw()},
	}
	return append(append(out, recordExtremes()...), doubtExtremes()...)
}

func oneBoard() Section {
	return Section{Boards: []SectionBoard{{Name: "only", WidthMM: 120, ThicknessMM: 32, RingKnown: true, Curved: true, PithAcrossMM: 40, PithAboveBackMM: -15}},
		Shapes: []SectionShape{{Label: "used to", UsedTo: true}, {Label: "dry", XMM: []float64{0, 60, 120}, DzMM: []float64{0, 0.6, 0}}}}
}

func manySection() Section {
	s := Section{}
	for i := range 20 {
		s.Boards = append(s.Boards, SectionBoard{Name: "board", WidthMM: 90 + float64(i), ThicknessMM: 20, RingKnown: true, RingDeg: float64(i) * 4.7})
	}
	s.Shapes = []SectionShape{{Label: "used to, 50 % RH", UsedTo: true}, {Label: "damp, 70 % RH", XMM: []float64{0, 500, 1990}, DzMM: []float64{0, 8, 0}, DxMM: []float64{0, 2, 9}}}
	return s
}

func manyParts(level bool) Panel {
	p := Panel{Meta: Meta{Invented: true}, AcrossMM: 1000, AlongMM: 1300, GrainLevel: level, Note: longName}
	for i := range 20 {
		p.Boards = append(p.Boards, PanelBoard{fmt.Sprintf("board number %d", i+1), 50, i%3 == 0})
		p.Joins = append(p.Joins, PanelJoin{Name: fmt.Sprintf("join %d", i), Note: "open", AcrossMM: float64(i) * 50, Open: []Stretch{{float64(i) * 50, float64(i)*50 + 90}}})
	}
	m := Member{Name: longName, Note: longName, AcrossTo: 1000, AlongFrom: 600, AlongTo: 640}
	for i := range 30 {
		m.Fixings = append(m.Fixings, Fixing{AcrossMM: 20 + float64(i)*33, AlongMM: 620, Kind: FixingKind(i % 7), FootprintMM: 20})
	}
	m.Fixings = append(m.Fixings, Fixing{AcrossMM: math.NaN()}, Fixing{AcrossMM: 1e12})
	p.Members = append(p.Members, m, Member{Name: "nowhere", AcrossFrom: math.NaN()})
	return p
}

func manyBoards() Movement {
	m := sampleMovement()
	m.Boards = nil
	for i := range 20 {
		m.Boards = append(m.Boards, BoardMovement{longName[i:], scaled(m.MeanMM, 0.02+0.003*float64(i))})
	}
	return m
}

func manyForces() Forces {
	f := sampleForces()
	for i := range 24 {
		f.Curves = append(f.Curves, ForceCurve{strings.Repeat("batten ", i), scaled(f.Curves[0].N, 1/float64(i+1))})
	}
	return f
}
