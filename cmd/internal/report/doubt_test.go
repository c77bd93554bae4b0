package report

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// counted100 is a made-up doubt: one way, with a past that counts and a warp that was measured.
func counted100() *Doubt {
	return &Doubt{
		Cases: 1000, Asked: []int{1000, 0}, Inputs: 28, HeldDays: 91,
		Ways: []Way{{
			Count: Of100{62, 1.5}, Before: Of100{97, 0.5}, Home: &Of100{8, 1},
			Parts:   []PartOf100{{"fixing_overload", "batten.upper", Of100{60, 1.5}}, {"join_tension", "join.middle-right", Of100{4, 0.6}}},
			Ranges:  []ChanceRange{{Chance: 5, LowRHPct: ptr(44), HighPct: ptr(58), LowBy: "fixing_overload:batten.upper", HighBy: "cap", ByPast: true}, {Chance: 1}},
			Seasons: []SeasonRange{{"dry", 44, 30, 300, ChanceRange{Chance: 5, LowRHPct: ptr(38), HighPct: ptr(55), LowBy: "join_tension:join.middle-right", HighBy: "cap"}}},
			Map:     LimitMap{LowRHPct: []float64{52, 42}, HighRHPct: []float64{52, 62}, Of100: [][]float64{{0, 5}, {8, 20}}},
			MovesMM: []float64{6, 11},
			Evidence: DoubtEvidence{
				Counts: true, Dropped: 366, Partly: 575, Worth: 300, Fits: true, RestMM: []float64{1.9, 2.1}, RestOver: 600,
				Seen: []Seen{{Name: "dry", When: "2024-02-10", What: "warp", RHPct: 42, OverMM: 600, Measured: 3, Error: 1.2, Before: []float64{0.2, 0.5}, After: []float64{0.3, 0.5}, Rests: true, RestMM: 2}},
			},
			Causes:  []Cause{{Path: "board.left.ring_angle_deg", What: "board left, ring angle", Unit: "deg", Before: []float64{20, 80}, After: []float64{40, 70}}},
			Decides: "fixing_overload:batten.upper", First: []string{"batten upper, yield"}, Left: 0.02, SameOrd: 0.99,
			FindOut: []Narrowing{
				{What: "the end grain of board left", Means: "torch and loupe", Minutes: 5, By: "conservator", Share: 0.4, Now: []float64{0.5, 2}, After: []float64{0.7, 1.7}},
				{What: "the gap of split top", Means: "feeler gauge", Minutes: 20, By: "conservator", Share: 0.01, Now: []float64{0.5, 2}, After: []float64{0.5, 2}},
			},
			Models: []ModelApart{{"fixing_overload", "batten.upper", 1.1, 1.2, 0.3, false}, {"wood_split", "board.left", 0.2, 0.4, 0.1, true}},
		}},
	}
}

// forked is the same, parted by an unknown.
func forked() *Doubt {
	d := counted100()
	stuck := d.Ways[0]
	stuck.Words, stuck.Count, stuck.Home = "if it is stuck", Of100{62, 1.5}, nil
	d.Ways[0].Words, d.Ways[0].Count = "if the cradle slides", Of100{0.2, 0.1}
	d.Ways = append(d.Ways, stuck)
	d.DependsOn = &DependsOn{Path: "cradle.seized", Part: "cradle", Question: "Do the members of the cradle slide?", Means: "strip of paper", Minutes: 10, By: "conservator"}
	d.CannotBeTold = true
	return d
}

func allOf(a Assess) string {
	var b strings.Builder
	if err := a.WriteText(&b); err != nil {
		return err.Error()
	}
	for _, t := range []Table{a.rangeTable(), a.doubtTable(), a.seenTable(), a.findTable()} { // cells that the text breaks
		for _, row := range t.Rows {
			b.WriteString(" " + strings.Join(row, " "))
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

func says(t *testing.T, got string, want ...string) {
	t.Helper()
	for _, w := range want {
		assert.True(t, strings.Contains(got, w), "%q is not said", w)
	}
}

func silent(t *testing.T, got string, not ...string) {
	t.Helper()
	for _, w := range not {
		assert.False(t, strings.Contains(got, w), "%q is said", w)
	}
}

func TestCountsAreTold(t *testing.T) {
	a := invented()
	a.Gates, a.Doubt = nil, counted100()
	a.Lived = &Lived{LowRHPct: 40, HighRHPct: 62}
	got := allOf(a)
	says(t, got,
		"1000 cases were worked out", "most (about 60, give or take 2) of 100 such panels would reach a limit", "it was about 97",
		"Held for a season anywhere in the 40 to 62 % RH", "about 60 ± 2", "about 5 ± 1", "at most 5 of 100 such panels reach a limit *",
		"none is left", "in the driest season, the wood then at 44 % RH, for 30 days: at most 5 of 100 38 to 55", "366 would have reached a limit there within weeks", "575 more", "10 February 2024", "1.0 rounded *", "is 1.9 to 2.1 rounded, in mm over 600 mm",
		"ring angle 40 to 70 degrees rather than 20 to 80", "The end grain of board left", "torch and loupe, 5 min", "board left (a new split)",
	)
	silent(t, got, "feeler gauge")
	silent(t, got, "with doubt, 5 in 100")
}

func TestTheTwoWaysAreNeverAveraged(t *testing.T) {
	a := invented()
	a.Gates, a.Doubt = nil, forked()
	got := allOf(a)
	says(t, got,
		"it cannot be told yet", "almost none (fewer than 1) of 100 such panels would reach a limit, if the cradle slides",
		"most (about 60, give or take 2) of 100 such panels would reach a limit, if it is stuck", "Do the members of the cradle slide? strip of paper", "two answers",
	)
	silent(t, got, "about 30 of 100", "no range is left around")
}

func TestARangeForOneWayAlone(t *testing.T) {
	a := invented()
	_, _, _, ok := a.OnlyWay()
	assert.False(t, ok)
	a.Doubt = forked()
	_, _, _, ok = a.OnlyWay()
	assert.False(t, ok, "both ways have a range")
	a.Doubt.Ways[1].Ranges = nil
	words, low, high, ok := a.OnlyWay()
	assert.True(t, ok)
	assert.Equal(t, "if the cradle slides", words)
	assert.Equal(t, [2]float64{44, 58}, [2]float64{low, high})
}

func TestNoCountsBehindAGate(t *testing.T) {
	a := invented()
	a.Doubt = counted100()
	a.CalculatedRange = CalculatedRange{Why: "gate: seized_cradle"}
	got := allOf(a)
	says(t, got, "no counts are given")
	silent(t, got, "about 60 ± 2")
	assert.False(t, a.Counted())
}

func TestNoCountWhereNothingIsJudged(t *testing.T) {
	a := invented()
	a.Gates, a.Doubt, a.Worst = nil, counted100(), nil
	assert.False(t, a.Counted())
	says(t, strings.Join(a.doubtParas(), " "), "a count would say nothing")
}

func TestEvidenceThatDoesNotCount(t *testing.T) {
	a := invented()
	a.Gates, a.Doubt = nil, counted100()
	a.Lived = &Lived{LowRHPct: 40, HighRHPct: 62}
	e := &a.Doubt.Ways[0].Evidence
	e.Counts, e.Why = false, "It was treated since."
	says(t, allOf(a), "does not count as evidence. It was treated since.")
	e.Why = ""
	says(t, allOf(a), "may not describe this panel")
	e.Fits = false
	says(t, allOf(a), "the calculation does not describe this panel")
	e.Unused = []string{"the gap of split top: no such part"}
	a.Doubt.Partial = true
	says(t, allOf(a), "Not used: the gap of split top")
	says(t, allOf(a), "stopped early")
}

func TestHundred(t *testing.T) {
	for n, want := range map[float64]string{
		0: "fewer than 1", 0.4: "fewer than 1", 0.6: "about 1", 4.1: "about 5", 11: "about 10", 24: "about 20", 47: "about 50", 62: "about 60", 94: "about 95", 99.4: "about 99",
		99.9: "more than 99", 100: "more than 99", math.NaN(): "–",
	} {
		assert.Equal(t, want, hundred(n), n)
	}
	for n, want := range map[float64]string{0: "almost none", 3: "few", 10: "some", 35: "many", 80: "most", 100: "most"} {
		assert.Equal(t, want, amount(n), n)
	}
}

func TestHeldFor(t *testing.T) {
	for days, want := range map[float64]string{91: "for a season", 3: "for 3 days", 0.5: "for 12 hours", 1.0 / 24: "for an hour"} {
		assert.Equal(t, want, (&Doubt{HeldDays: days}).time())
	}
	a := invented()
	a.Gates, a.Doubt = nil, counted100()
	a.Lived = &Lived{LowRHPct: 40, HighRHPct: 62}
	a.Doubt.HeldDays = 3
	assert.Contains(t, a.Opening()[0], "Held for 3 days", "what is asked is said where it is not a season")
}
