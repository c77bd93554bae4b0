package figure

// doubtSamples are the figures of doubt and of what the panel has shown.
func doubtSamples() []named {
	return []named{
		{"23-of-hundred", sampleOfHundred().Draw()},
	}
}

func doubtExtremes() []named {
	long := sampleOfHundred()
	long.What, long.When, long.Situations = longName, longName, long.Situations[:1]
	return []named{
		{"x-hundred-empty", OfHundred{}.Draw()}, {"x-hundred-many", manyOfHundred().Draw()}, {"x-hundred-long", long.Draw()},
		{"x-hundred-two", OfHundred{Situations: sampleOfHundred().Situations[:2]}.Draw()},
	}
}
