package figure

import "math"

// doubtSamples are the figures of doubt and of what the panel has shown.
func doubtSamples() []named {
	return []named{
		{"23-of-hundred", sampleOfHundred().Draw()}, {"24-find-out", sampleFindOut().Draw()},
		{"25-seen", sampleSeen().Draw()}, {"annex-limit-map", sampleLimitMap().Draw()},
		{"26-year-cases", sampleYearCases().Draw()}, {"27-hold-cases", sampleHoldCases().Draw()},
	}
}

func doubtExtremes() []named {
	long := sampleOfHundred()
	long.What, long.When, long.Situations = longName, longName, long.Situations[:1]
	many := sampleFindOut()
	many.Part, many.High = longName, 6
	for range 5 {
		many.Findings = append(many.Findings, Finding{longName, longName + longName, longName, 1e300, true, 0.4, 5.9})
	}
	low := sampleFindOut()
	low.High, low.Low, low.Findings = 0.3, 0.05, []Finding{{What: "the wood", Low: 0.1, High: 0.2}}
	nan, inf := math.NaN(), math.Inf(1)
	bad := Seen{Meta: Meta{Invented: true}, NoneFits: true, Groups: []SeenGroup{{Values: []SeenValue{
		{Measured: 0, Expected: Cases{nan, 0, 0}},
		{longName, longName, 55, 1e8, nan, Cases{-1e8, inf, 1e8}, &Cases{3, 4, 2}}, {Measured: inf}, {Measured: 5, Error: -3, Expected: Cases{5, 5, 5}},
	}}, {Name: longName, Note: longName, Warp: true}, {Name: longName, Note: longName, Warp: true}}}
	for range 20 {
		bad.Groups[2].Values = append(bad.Groups[2].Values, SeenValue{Name: "a", Measured: -0.01, Error: 0.001, Expected: Cases{-0.02, -0.01, 0.02}})
	}
	odd := sampleLimitMap()
	odd.Meta, odd.Of100[3][4], odd.Of100[2] = Meta{}, nan, nil
	odd.Marks = []LimitMark{{longName, Span{35, 65}}, {longName, Span{36, 66}}, {longName, Span{37, 67}}, {"", Span{38, 68}}, {"e", Span{39, 69}}, {"out", Span{1, 99}}}
	flat := LimitMap{LowPct: []float64{40, 50}, HighPct: []float64{60, 50}, Of100: [][]float64{{5, 5}, {5, 5}}, Marks: []LimitMark{{"corner", Span{50, 60}}}}
	broken := sampleYearCases()
	broken.WarpCases.High, broken.WidthCases = broken.WarpCases.High[:40], CaseBand{[]float64{nan, inf, 1e300}, []float64{nan, 3}}
	return []named{
		{"x-year-cases-broken", broken.Draw()},
		{"x-map-limits-empty", LimitMap{}.Draw()}, {"x-map-limits-odd", odd.Draw()}, {"x-map-limits-flat", flat.Draw()},
		{"x-map-limits-bad", LimitMap{LowPct: []float64{50, 40, 45}, HighPct: []float64{nan, inf, 3}, Of100: [][]float64{{nan}}}.Draw()},
		{"x-seen-empty", Seen{}.Draw()}, {"x-seen-bad", bad.Draw()},
		{"x-hundred-empty", OfHundred{}.Draw()}, {"x-hundred-many", manyOfHundred().Draw()}, {"x-hundred-long", long.Draw()},
		{"x-hundred-two", OfHundred{Situations: sampleOfHundred().Situations[:2]}.Draw()},
		{"x-find-out-empty", FindOut{}.Draw()}, {"x-find-out-many", many.Draw()}, {"x-find-out-low", low.Draw()},
	}
}
