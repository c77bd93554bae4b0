package figure

import (
	"math"
	"time"
)

// The samples are invented; their numbers follow no wood and no model.

// sweep is every 2 points of humidity from 20 to 80.
func sweep() []float64 {
	var out []float64
	for v := 20.0; v <= 80; v += 2 {
		out = append(out, v)
	}
	return out
}

func over(x []float64, f func(float64) float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = f(v)
	}
	return out
}

func samplePanel() Panel {
	nails := func(along float64) []Fixing {
		var out []Fixing
		for _, x := range []float64{40, 150, 260, 370, 480, 600} {
			out = append(out, Fixing{AcrossMM: x, AlongMM: along, Kind: Nail})
		}
		return out
	}
	return Panel{
		Meta: Meta{Invented: true}, AcrossMM: 640, AlongMM: 920,
		Boards: []PanelBoard{{"left", 218, false}, {"middle", 212, false}, {"right", 210, false}},
		Joins: []PanelJoin{
			{Name: "join left-middle", AcrossMM: 218},
			{Name: "join middle-right", Note: "open 120 mm from the bottom, 0.3 mm wide", AcrossMM: 430, Open: []Stretch{{0, 120}}},
		},
		Cracks: []PanelCrack{{Name: "split top", Note: "160 mm, through, old", AcrossMM: 313, Stretch: Stretch{760, 920}, Through: true}},
		Members: []Member{
			{Name: "upper batten", Note: "oak, 6 nails", AcrossTo: 640, AlongFrom: 708, AlongTo: 752, Fixings: nails(730)},
			{Name: "lower batten", Note: "oak, 6 nails", AcrossTo: 640, AlongFrom: 168, AlongTo: 212, Fixings: nails(190), Assumed: true},
		},
		Inserts: []Insert{{Name: "butterfly", Note: "oak, let in", AcrossMM: 430, AlongMM: 500, WidthMM: 60, LengthMM: 40, Butterfly: true}},
	}
}

func sampleCradle() Panel {
	p := Panel{
		Meta: Meta{ID: "cradle"}, AcrossMM: 520, AlongMM: 1180, GrainLevel: true,
		Boards: []PanelBoard{{"lower", 250, true}, {"upper", 270, true}},
		Joins:  []PanelJoin{{Name: "join lower-upper", AcrossMM: 250, Assumed: true}},
		Cracks: []PanelCrack{{Name: "check in the upper board", Note: "300 mm, 4 mm deep", AcrossMM: 390, Stretch: Stretch{500, 800}}},
	}
	for i := range 4 {
		x := 60 + 120*float64(i)
		m := Member{AcrossFrom: x, AcrossTo: x + 35, AlongFrom: 20, AlongTo: 1160, Cradle: true}
		if i == 0 {
			m.Name, m.Note = "glued members, with the grain", "4, spruce, 35 mm wide"
		}
		p.Members = append(p.Members, m)
	}
	for i := range 6 {
		y := 100 + 185*float64(i)
		m := Member{AcrossFrom: 10, AcrossTo: 510, AlongFrom: y, AlongTo: y + 30, Cradle: true, Fixings: []Fixing{{AcrossMM: 77, AlongMM: y + 15, Kind: Slot}, {AcrossMM: 200, AlongMM: y + 15, FootprintMM: 40, Kind: Glue}}}
		if i == 0 {
			m.Name, m.Note = "sliding members, across", "6, 30 mm wide, two seized"
		}
		p.Members = append(p.Members, m)
	}
	return p
}

func sampleSection() Section {
	x := over(sweep(), func(v float64) float64 { return (v - 20) / 60 * 640 })
	bent := func(mid, wide float64) (dx, dz []float64) {
		return over(x, func(v float64) float64 { return wide * v / 640 }),
			over(x, func(v float64) float64 { return mid * (1 - math.Pow(v/320-1, 2)) })
	}
	s := Section{
		Meta: Meta{Invented: true},
		Boards: []SectionBoard{
			{Name: "left", WidthMM: 218, ThicknessMM: 11, RingKnown: true, RingDeg: 70},
			{Name: "middle", WidthMM: 212, ThicknessMM: 12, RingKnown: true, Curved: true, PithAcrossMM: 106, PithAboveBackMM: 160},
			{Name: "right", WidthMM: 210, ThicknessMM: 11, RingKnown: true, RingDeg: 67, LeanLeft: true, Assumed: true},
		},
	}
	dx, dz := bent(-1.9, -2.4)
	s.Shapes = append(s.Shapes, SectionShape{Label: "dry, 35 % RH", XMM: x, DxMM: dx, DzMM: dz, CupLowMM: -3.1, CupHigh: 0.4})
	s.Shapes = append(s.Shapes, SectionShape{Label: "used to, 52 % RH", XMM: x, UsedTo: true})
	dx, dz = bent(1.4, 1.7)
	s.Shapes = append(s.Shapes, SectionShape{Label: "damp, 65 % RH", XMM: x, DxMM: dx, DzMM: dz})
	return s
}

func sampleRange() Range {
	return Range{
		Meta: Meta{Invented: true}, UsedToPct: 52, Lived: Span{38, 62}, LivedWords: "since 1988, unchanged",
		Records: []RecordStrip{{"record of the store", Span{41, 63}, Span{47, 57}}},
		Asked:   Span{35, 65}, AskedWords: "the borrower's room",
		Nominal: Span{38.4, 66}, Unfavourable: Span{43, 59},
		LowCause: "the upper batten tears the join left-middle", HighCause: "crushing that stays in the middle board",
	}
}

func sampleBars() GivesWay {
	return GivesWay{Meta: Meta{Invented: true}, Bars: []Bar{
		{"Join left-middle opens", 35, 1.21, 0.72, 2.2, ""},
		{"Split top lengthens", 35, 0.96, 0.41, 1.45, ""},
		{"Fixing of the upper batten overloaded", 65, 0.62, 0.35, 0.91, ""},
		{"Middle board: crushing that stays", 65, 0.44, 0.2, 0.8, ""},
		{"New split in the right board", 35, 0.31, 0.12, 0.66, ""},
		{"Ground cracks", 35, 0.28, 0.1, 0.71, "low evidence"},
		{"Frame binds", 65, 0.12, 0.05, 0.3, ""},
		{"Handling, face down", 52, 0.04, 0.02, 0.08, ""},
		{"Rippling", 52, 0.03, 0.01, 0.05, ""},
		{"Slot exhausted", 52, math.NaN(), math.NaN(), math.NaN(), ""},
	}}
}

var sampleSetting = Setting{UsedToPct: 52, LowPct: 35, HighPct: 65}

func sampleShares() Shares {
	x := sweep()
	join := over(x, func(v float64) float64 { return math.Abs(v-52)/14 + 0.02 })
	fix := over(x, func(v float64) float64 { return 0.1 + math.Pow((v-46)/34, 2) })
	times := func(v []float64, k float64) []float64 { return over(v, func(s float64) float64 { return s * k }) }
	return Shares{Meta: Meta{Invented: true}, Setting: sampleSetting, RHPct: x, Curves: []ShareCurve{
		{"Join left-middle opens", join, times(join, 0.7), times(join, 1.6)},
		{"Fixing of the upper batten overloaded", fix, times(fix, 0.6), times(fix, 1.4)},
	}}
}

func sampleMovement() Movement {
	x := sweep()
	lin := func(k float64) []float64 { return over(x, func(v float64) float64 { return k * (v - 52) / 10 }) }
	return Movement{Meta: Meta{Invented: true}, Setting: sampleSetting, RHPct: x, LoopMM: lin(0.9), MeanMM: lin(1.3),
		Boards: []BoardMovement{{"left", lin(0.41)}, {"middle", lin(0.52)}, {"right", lin(0.43)}}}
}

func sampleCrack() Crack {
	x := sweep()
	stops := over(x, func(v float64) float64 {
		if v > 41 {
			return math.NaN()
		}
		return 160 + 14*(41-v)
	})
	high := over(x, func(v float64) float64 {
		if v > 47 {
			return math.NaN()
		}
		return min(920, 160+math.Pow(47-v, 2)*1.4)
	})
	return Crack{Meta: Meta{Invented: true}, Setting: sampleSetting, Name: "Split top", NowMM: 160, HeightMM: 920, RHPct: x, StopsMM: stops, StopsHighMM: high}
}

func sampleForces() Forces {
	x := sweep()
	v := func(k, free float64) []float64 {
		return over(x, func(r float64) float64 { return k * max(0, math.Abs(r-52)-free) })
	}
	return Forces{Meta: Meta{Invented: true}, Setting: sampleSetting, RHPct: x, Curves: []ForceCurve{
		{"upper batten, whole", v(48, 0)}, {"lower batten, whole", v(41, 0)}, {"upper batten, one nail", v(14, 0)}, {"lower batten, one nail", v(12, 0)}, {"left side of the frame", v(60, 8)},
	}}
}

func sampleEnergy() Energy {
	var l []float64
	for v := 10.0; v <= 920; v += 13 {
		l = append(l, v)
	}
	g := func(k float64) []float64 {
		return over(l, func(v float64) float64 { return k * math.Tanh(v/200) * (1 - 0.8*v/1000) })
	}
	return Energy{Meta: Meta{Invented: true}, Name: "split top", LengthMM: l, ToughnessJM2: 130, LowJM2: 80, HighJM2: 200, NowMM: 160,
		Curves: []EnergyCurve{{35, g(320)}, {40, g(160)}, {45, g(40)}, {65, g(4)}}}
}

func sampleSorption() Sorption {
	x := sweep()
	mc := func(k float64) []float64 {
		return over(x, func(v float64) float64 { return k*v/6 + math.Exp(v/20-2.4) })
	}
	return Sorption{Meta: Meta{Invented: true}, Setting: Setting{UsedToPct: 52}, RHPct: x, Wood: "invented wood",
		Curves: []SorptionCurve{{"mean", mc(1)}, {"drying", mc(1.1)}, {"wetting", mc(0.9)}}}
}

func sampleMeans() Means {
	var d []float64
	for v := 0.0; v < 365; v++ {
		d = append(d, v)
	}
	y := func(k, lag float64) []float64 {
		return over(d, func(v float64) float64 {
			return 50 + k*math.Sin((v-lag)/58) + 0.3*k*math.Sin(v/1.7)*math.Exp(-lag/5)
		})
	}
	air := y(14, 0)
	for i := 120; i < 130; i++ {
		air[i] = math.NaN()
	}
	return Means{Meta: Meta{Invented: true}, Start: time.Date(2023, 3, 10, 0, 0, 0, 0, time.UTC), Days: d, Setting: Setting{UsedToPct: 52},
		Curves: []MeanCurve{{"air", air}, {"left, 21 days", y(11, 14)}, {"middle, 26 days", y(10, 20)}}}
}

// named is a sample with the name it is looked up by.
type named struct {
	name string
	fig  Figure
}

func samples() []named {
	return append([]named{
		{"1-panel", samplePanel().Draw()}, {"1-cradle", sampleCradle().Draw()},
		{"2-section", sampleSection().Draw()}, {"3-range", sampleRange().Draw()},
		{"5-gives-way", sampleBars().Draw()}, {"6-shares", sampleShares().Draw()},
		{"7-movement", sampleMovement().Draw()}, {"8-crack", sampleCrack().Draw()},
		{"9-forces", sampleForces().Draw()}, {"annex-energy", sampleEnergy().Draw()},
		{"annex-sorption", sampleSorption().Draw()}, {"annex-means", sampleMeans().Draw()},
	}, append(recordSamples(), doubtSamples()...)...)
}
