package figure

// doubtSamples are the figures of doubt and of what the panel has shown.
func doubtSamples() []named {
	return []named{
		{"23-of-hundred", sampleOfHundred().Draw()}, {"24-find-out", sampleFindOut().Draw()},
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
	return []named{
		{"x-hundred-empty", OfHundred{}.Draw()}, {"x-hundred-many", manyOfHundred().Draw()}, {"x-hundred-long", long.Draw()},
		{"x-hundred-two", OfHundred{Situations: sampleOfHundred().Situations[:2]}.Draw()},
		{"x-find-out-empty", FindOut{}.Draw()}, {"x-find-out-many", many.Draw()}, {"x-find-out-low", low.Draw()},
	}
}
