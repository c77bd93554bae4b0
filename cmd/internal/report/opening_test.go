package report

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// number or range: "32", "9 to 26" counts as one.
var aNumber = regexp.MustCompile(`\d+(?: (?:to|and|or above|of) \d+)?`)

func TestOpening(t *testing.T) {
	limits := func(lo, hi float64, lowBy, highBy string) *Limits { return &Limits{lo, hi, lowBy, highBy} }
	tests := []struct {
		name  string
		alter func(*Assess)
		want  string // in the first sentence
		third string
	}{
		{"both ends beyond", func(*Assess) {}, "below 44 or above 62 % RH", "between 48 and 57 % RH"},
		{"fits", func(a *Assess) {
			a.CalculatedRange = CalculatedRange{Nominal: limits(30, 73, "cap", "x:join.a"), Unfavourable: limits(31, 72, "x:join.a", "x:join.a")}
		}, "even in unfavourable cases", "looked at"},
		{"caps are no limits", func(a *Assess) {
			a.Range = Range{LowRHPct: 20, HighRHPct: 80}
			a.CalculatedRange = CalculatedRange{Nominal: limits(30, 70, "cap", "cap"), Unfavourable: limits(30, 70, "cap", "cap")}
		}, "even in unfavourable cases", "looked at"},
		{"fits if as described", func(a *Assess) { a.CalculatedRange.Nominal = limits(30, 73, "cap", "cap") }, "if the panel is as described", "looked at"},
		{"dry end", func(a *Assess) { a.CalculatedRange.Nominal = limits(44, 73, "check_growth:split.top", "cap") }, "season below 44 % RH, a limit is reached: split top", "between 48"},
		{"damp end", func(a *Assess) { a.CalculatedRange.Nominal = limits(30, 62, "cap", "frame_bound:frame") }, "above 62 % RH, a limit is reached: frame", "between 48"},
		{"gate", func(a *Assess) { a.CalculatedRange = CalculatedRange{Why: "gate: seized_cradle"} }, "stands before any number", "Ask a conservator"},
		{"at its limit already", func(a *Assess) {
			a.CalculatedRange = CalculatedRange{Why: "x:join.a reaches its limit at the used-to humidity already"}
		}, "already at 52 % RH", "looked at"},
		{"nothing holds it", func(a *Assess) {
			a.Worst, a.Assumed = nil, nil
			a.CalculatedRange.Nominal = limits(30, 70, "cap", "cap")
		}, "no limit is reached", "Nothing needs"},
		{"nothing holds it, counted", func(a *Assess) {
			a.Gates, a.Doubt, a.Worst, a.Assumed = nil, counted100(), nil, nil
			a.CalculatedRange.Nominal = limits(30, 70, "cap", "cap")
		}, "no limit is reached", "Nothing needs"},
		{"counted", func(a *Assess) { a.Gates, a.Doubt = nil, counted100() }, "about 60 of 100 such panels", "between 48"},
		{"counted beside what it has known", func(a *Assess) {
			a.Gates, a.Doubt, a.Lived = nil, counted100(), &Lived{LowRHPct: 40, HighRHPct: 64}
		}, "has borne 40 to 64 % RH", "what it has known"},
		{"two ways", func(a *Assess) {
			a.Gates, a.Doubt = nil, forked()
			a.FindOut = []FindOut{{What: "whether the cradle slides", DoubtShare: 1}}
		}, "fewer than 1 of 100 such panels reach a limit if the cradle slides, about 60", "first"},
		{"counted in a record", func(a *Assess) {
			a.Gates, a.Doubt = nil, counted100()
			a.Doubt.Followed = 200
		}, "record, about 60 of 100", "between 48"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := invented()
			tt.alter(&a)
			got := a.Opening()
			assert.Len(t, got, 3)
			assert.Contains(t, got[0], tt.want)
			assert.Contains(t, got[2], tt.third)
			for _, s := range got {
				words := len(strings.Fields(strings.ReplaceAll(s, " % RH", "% RH")))
				assert.LessOrEqual(t, words, 25, s)
				assert.LessOrEqual(t, len(aNumber.FindAllString(s, -1)), 3, s)
			}
		})
	}
}

func TestOpeningSaysWhenItCannotBeTold(t *testing.T) {
	a := invented()
	a.Worst[0].ShareLow, a.Worst[0].ShareHigh = ptr(0.1), ptr(3)
	assert.Contains(t, a.Opening()[1], "cannot be told")
}
