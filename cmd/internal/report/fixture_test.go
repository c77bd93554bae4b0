package report

import "math"

func ptr(v float64) *float64 { return &v }

// invented is a complete document with made-up numbers: every list filled, hard text in the names.
func invented() Assess {
	a := Assess{
		Head:     Head{Format: 1, Kind: "assess", Version: "devel", PanelDigest: "sha256:3f1c9a7e0b52", Seed: 1, Setting: "quick"},
		Invented: true,
		Panel: Panel{
			Accession: "INVENTED 1", Title: "Invented example: a three-board oak panel", HeightMM: 920, WidthMM: 640,
			Grain: "upright", AcrossMM: 640, ThicknessMM: 11.3, Boards: 3, Woods: "oak", Described: 46,
		},
		UsedTo: Climate{RHPct: 52, TemperatureC: 19, Words: "heated house, not humidified"},
		Range:  Range{LowRHPct: 32, HighRHPct: 72, From: "default"},
		Gates: []Gate{{ID: "blind_cleavage", Part: "face.front",
			Text: "The paint is lifting in places that cannot be seen from the front; a conservator has to look before the panel is moved."}},
		CalculatedRange: CalculatedRange{
			Nominal:      &Limits{44.2, 61.8, "check_growth:split.top", "fixing_overload:batten.upper"},
			Unfavourable: &Limits{48.1, 57.3, "check_growth:split.top", "compression_set:board.middle"},
		},
		Evidence: "general knowledge, unchecked",
		Cautions: Cautions(),
		NotUsed:  []string{"face.back.label: recorded, used by no calculation yet"},
		Warnings: []Remark{
			{Code: "stand_in", Part: "board.right", Text: "the toughness of this wood is borrowed from a related one"},
			{Code: "extrapolated", Text: "at 72 % RH the stiffness lies outside the range for which it was measured"},
		},
		Sources: []Source{
			{Key: "invented-1950", Text: "Invented Author 1950, Movement of invented woods, p. 12 (made up for this test)"},
			{Key: "invented-1961", Text: "Another Invented Author 1961, Strength across the grain, Table 3 (made up for this test)"},
		},
		Record: &Record{File: "hall.csv", Rows: 8760, First: "1 Jan 2024", Last: "31 Dec 2024", MeanPct: 51,
			Boards: []RecordBoard{{"board.left", 24, 41, 51, 60}, {"board.middle", 29, 42, 51, 59}}},
	}
	fillStates(&a)
	fillParts(&a)
	return a
}

func fillStates(a *Assess) {
	for _, rh := range []float64{32, 37, 42, 47, 52, 57, 62, 67, 72} {
		d := (rh - 52) / 20
		s := State{RHPct: rh, EMCPct: 9.6 + 2.6*d, WidthChangeMM: 5.1 * d, WidthChangeLoopMM: 3.4 * d, HeldPct: 62 * math.Abs(d),
			CupMM: -1.8 * d, CupLowMM: -2.6 * d, CupHighMM: -0.9 * d, CupPassingMM: 3.2 * d, GroundStrain: 0.002 * d}
		for _, m := range worstModes() {
			m.RHPct = rh
			if m.Share != nil {
				m.Share = ptr(*m.Share * math.Abs(d))
			}
			s.Modes = append(s.Modes, m)
		}
		a.States = append(a.States, s)
	}
	a.Worst = worstModes()
}

func worstModes() []Mode {
	m := func(mode, part string, rh, demand, capacity, share, low, high float64, unit string, sets bool) Mode {
		return Mode{Mode: mode, Part: part, RHPct: rh, Demand: demand, Capacity: ptr(capacity), Unit: unit, Share: ptr(share),
			ShareLow: ptr(low), ShareHigh: ptr(high), SetsRange: sets, Evidence: "one published"}
	}
	return []Mode{
		m("check_growth", "split.top", 32, 340, 190, 1.79, 0.9, 2.6, "J/m2", true),
		m("fixing_overload", "batten.upper", 72, 410, 330, 1.24, 0.7, 1.7, "N", true),
		m("join_tension", "join.middle-right", 32, 1.9, 2.0, 0.96, 0.5, 1.4, "MPa", true),
		m("compression_set", "board.middle", 72, 0.006, 0.0075, 0.8, 0.5, 1.1, "1", true),
		m("ground_cracking", "face.front", 32, 0.002, 0.004, 0.5, 0.2, 0.9, "1", false),
		m("frame_bound", "frame", 72, 1.2, 3, 0.4, 0.3, 0.5, "mm", true),
		m("wood_split", "board.left", 32, 0.8, 3.5, 0.23, 0.1, 0.4, "MPa", true),
		m("handling", "panel", 52, 0.1, 3.5, 0.03, 0.02, 0.04, "MPa", false),
		{Mode: "slot_exhausted", Part: "batten.lower", RHPct: 72, Demand: 0.2, Unit: "mm", NoLimit: true, Evidence: "estimate"},
	}
}

func fillParts(a *Assess) {
	series := func(top float64) []float64 {
		v := make([]float64, len(a.States))
		for i, s := range a.States {
			v[i] = top * (s.RHPct - 52) / 20
		}
		return v
	}
	a.Boards = []Board{
		{Part: "board.left", Wood: "oak", WidthMM: 218, ThicknessMM: 11, RingDeg: 70, Ring: "nearly quarter-sawn", PerPct: 0.19,
			WidthChangeMM: series(1.5), Response: "half of a change in about 5 days, nearly all in about 24 days", Response95D: 24, Evidence: "several published"},
		{Part: "board.middle", Wood: "oak", WidthMM: 212, ThicknessMM: 12, RingDeg: 25, Ring: "nearly flat-sawn", PerPct: 0.31,
			WidthChangeMM: series(2.2), Response: "half of a change in about 6 days, nearly all in about 29 days", Response95D: 29, Evidence: "several published"},
	}
	for _, n := range []string{"upper", "lower"} {
		a.Restraints = append(a.Restraints, Restraint{
			Part: "batten." + n, What: "oak batten, six nails", ForceN: series(-1350), FixingN: series(410), SlipMM: series(0.42), HeldPct: series(62),
			Fixings: []Fixing{
				{40, 380, -410, "yields", "yields"}, {150, 210, -230, "bears", "bears"}, {260, 40, -45, "bears", "bears"},
				{370, -60, 70, "bears", "bears"}, {480, -220, 240, "bears", "bears"}, {600, -390, 405, "bears", "yields"},
			},
			AcrossN: series(50), MomentNMM: series(4000), SagMM: series(0.6), ClosedN: series(-1400), ClosedHeldPct: series(58),
			BindsRHPct: ptr(66),
		})
	}
	line := func(part, kind string, length float64, stops *float64) Line {
		l := Line{Part: part, Kind: kind, LengthMM: length, FreeHeightMM: 540}
		for _, s := range a.States {
			x := LineState{RHPct: s.RHPct, OpeningMM: math.Max(0, 0.4*(52-s.RHPct)/20), SlowJM2: 120, SuddenJM2: 310, ToughnessJM2: 190}
			if s.RHPct < 45 {
				x.StopsMM = stops
			}
			l.At = append(l.At, x)
		}
		return l
	}
	a.Lines = []Line{
		line("join.middle-right", "join", 120, nil),
		line("split.top", "split", 160, ptr(233)),
	}
	a.Handling = []Fact{{What: "Weight", Value: 5.1, Unit: "kg", Evidence: "estimate", Words: "two people, upright, by the lower edge"}}
	a.Frame = []Fact{{What: "Room left and right together", Value: 3.2, Unit: "mm", Evidence: "measured on this panel", Words: "enough up to 68 % RH"}}
	a.Assumed = []Assumed{
		{Path: "board.left.free_play_mm", What: "free play of the nails in the upper batten", Value: 0.2, Low: 0, High: 0.5, Unit: "mm", Evidence: "estimate"},
		{Path: "wood.oak.toughness", What: "toughness of oak along the grain", Value: 300, Low: 190, High: 420, Unit: "J/m2", Evidence: "one published"},
		{Path: "join.left-middle.fixed_at_rh_pct", What: "humidity at which the joins were glued", Value: 60, Low: 45, High: 75, Unit: "% RH", Evidence: "general knowledge, unchecked"},
		{Path: "face.back", What: "back of the panel", Text: "bare wood", Evidence: "estimate"},
	}
}

// inventedFigures are stand-ins of the size that drawings have.
func inventedFigures() []Figure {
	svg := func(w, h, text string) string {
		return `<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" width="` + w + `pt" height="` + h + `pt" viewBox="0 0 ` + w + ` ` + h +
			`"><rect x="1" y="1" width="94%" height="94%" fill="none" stroke="#333333"/><text x="20" y="40" font-family="Liberation Sans" font-size="10">` + text + `</text></svg>`
	}
	table := &Table{Head: []string{"At % RH", "Tenths"}, Rows: [][]string{{"32", "18"}, {"72", "12"}}, Align: "rr"}
	return []Figure{
		{ID: "panel", Title: "Which panel is it, and where is what?", Sentence: "Three boards, two battens, a split from the top, and a join open at the bottom.", SVG: svg("300", "420", "the panel, seen from the back"), Table: table},
		{ID: "range-figure", Title: "Is the range asked for inside what it knows and can bear?", Sentence: "Asked: 32 to 72 % RH; calculated: 44 to 62 % RH.", SVG: svg("482", "150", "strips"), Table: table},
		{ID: "worst-figure", Title: "What gives way first?", Sentence: "The split at the top is beyond its limit at 32 % RH.", SVG: svg("482", "230", "bars"), Table: table},
		{ID: "humidity", Title: "At which humidity?", Sentence: "It crosses its limit at 44 % RH.", SVG: svg("482", "260", "curves"), Table: table},
		{ID: "energy", Title: "Energy against length", Sentence: "An inner curve.", SVG: svg("482", "260", "inner"), Annex: true, Table: table},
	}
}
