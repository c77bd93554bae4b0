package terms

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture/record"
	"crossgrain/tables/problem"
)

const day = 24 * time.Hour

// The wanted clauses are written out from what the words mean.
func TestParse(t *testing.T) {
	rh := func(lo, hi float64) Clause { return Clause{Of: record.Humidity, Low: lo, High: hi} }
	temp := func(lo, hi float64) Clause { return Clause{Of: record.Temperature, Low: lo, High: hi} }
	points := func(x float64, w time.Duration, signed bool) Clause {
		return Clause{Of: record.Humidity, Most: x, Window: w, Signed: signed}
	}
	kelvin := func(x float64, w time.Duration) Clause { return Clause{Of: record.Temperature, Most: x, Window: w} }
	inf := math.Inf(1)
	for text, want := range map[string][]Clause{
		"45..55, 5/24h, 18..22C":           {rh(0.45, 0.55), points(0.05, day, false), temp(18, 22)},
		"18..22 C; 5 % / 24 h; 45 - 55 %":  {temp(18, 22), points(0.05, day, false), rh(0.45, 0.55)},
		"45 to 55 %RH\n4K/day\n10 in 7d":   {rh(0.45, 0.55), kelvin(4, day), points(0.10, 7*day, false)},
		"45–55%":                           {rh(0.45, 0.55)},
		"55..45":                           {rh(0.45, 0.55)},
		"50+-5":                            {rh(0.45, 0.55)},
		"50 ± 5 % RH, 21 °C ± 2 °C":        {rh(0.45, 0.55), temp(19, 23)},
		"RH 45..55, T 18..22":              {rh(0.45, 0.55), temp(18, 22)},
		"temperature: 18 to 22, rh: 50+-2": {temp(18, 22), rh(0.48, 0.52)},
		"68..77F":                          {temp(20, 25)},
		"9F/24h":                           {kelvin(5, day)},
		"..65":                             {rh(-inf, 0.65)},
		"<= 65 %":                          {rh(-inf, 0.65)},
		"max 65, >= 10C":                   {rh(-inf, 0.65), temp(10, inf)},
		"35..":                             {rh(0.35, inf)},
		"-5..-1C":                          {temp(-5, -1)},
		"+-5/24h":                          {points(0.05, day, true)},
		"±4 °C per 24 hours":               {{Of: record.Temperature, Most: 4, Window: day, Signed: true}},
		"2.5/h, 5/day, 12/week":            {points(0.025, time.Hour, false), points(0.05, day, false), points(0.12, 7*day, false)},
		"10..20 %":                         {rh(0.10, 0.20)},
		"45.5..54.5,,;":                    {rh(0.455, 0.545)},
		"0..100":                           {rh(0, 1)},
	} {
		got, err := Parse(text)
		if !assert.NoError(t, err, text) || !assert.Len(t, got.Clauses, len(want), text) {
			continue
		}
		for i, c := range got.Clauses {
			w := want[i]
			assert.Equal(t, []any{w.Of, w.Window, w.Signed, Typed}, []any{c.Of, c.Window, c.Signed, c.Known}, text)
			for _, pair := range [][2]float64{{w.Low, c.Low}, {w.High, c.High}, {w.Most, c.Most}} {
				if math.IsInf(pair[0], 0) {
					assert.Equal(t, pair[0], pair[1], text)
					continue
				}
				assert.InDelta(t, pair[0], pair[1], 1e-12, text)
			}
		}
		assert.Equal(t, "as typed", got.Evidence())
	}
}

func TestRefused(t *testing.T) {
	for text, want := range map[string]struct {
		line, col int
		msg, hint string
	}{
		"":                    {0, 0, "holds no clause", "45..55"},
		" , ;":                {0, 0, "holds no clause", "45..55"},
		"45..55, 5":           {1, 9, "is no clause", "a number alone"},
		"45,5..55":            {1, 1, "is no clause", "decimals with a point"},
		"45..55, +-5":         {1, 9, "is no clause", "needs its middle"},
		"45..55,\n fifty":     {2, 2, "is no clause", "write as"},
		"18..22":              {1, 1, "not clear whether 22 is a humidity or a temperature", "18..22C"},
		"max 25":              {1, 1, "not clear", "18..22C"},
		">= 18":               {1, 1, "not clear", "18..22C"},
		"45..55, 40..60":      {1, 9, `asked twice, first as "45..55"`, "unit"},
		"5/24h, 6/day":        {1, 8, `a change of relative humidity in 24 hours is asked twice, first as "5/24h"`, ""},
		"45..155":             {1, 1, "must lie between 0 and 100 %, got 155", ""},
		"98+-5":               {1, 1, "must lie between 0 and 100 %, got 103", ""},
		"45..55K":             {1, 1, `the unit "k" is not known`, "C or F"},
		"65..75 F, 200..300C": {1, 11, "must lie between -60 and 80 °C, got 200", ""},
		"50..50":              {1, 1, "must differ", "50+-5"},
		"T 45..55 %":          {1, 1, "contradict", ""},
		"RH 18..22C":          {1, 1, "contradict", ""},
		"18F..22C":            {1, 1, "contradict", ""},
		"0/24h":               {1, 1, "must be above 0", ""},
		"500/24h":             {1, 1, "at most 100 points, got 500", ""},
		"5/400d":              {1, 1, "between 1 min and 366 d", ""},
		"50+-5/24h":           {1, 1, "two clauses", "50+-5, 5/24h"},
		"5 apples/24h":        {1, 1, `the unit "apples" is not known`, "C or F"},
		"45..":                {},
		"é, zzz":              {1, 1, "is no clause", ""},
	} {
		_, err := Parse(text)
		if want.msg == "" {
			assert.NoError(t, err, text)
			continue
		}
		var p problem.Problem
		if !assert.True(t, errors.As(err, &p), text) {
			continue
		}
		assert.Equal(t, []int{want.line, want.col}, []int{p.Line, p.Col}, text)
		assert.Contains(t, p.Msg, want.msg, text)
		assert.Contains(t, p.Hint, want.hint, text)
	}
}

func TestAllMistakesAreToldTogether(t *testing.T) {
	_, err := Parse("45..155, sweet, 5/24h, 6")
	var list problem.List
	require.True(t, errors.As(err, &list))
	require.Len(t, list, 3)
	assert.Equal(t, []int{1, 10, 24}, []int{list[0].Col, list[1].Col, list[2].Col})
	assert.EqualError(t, list[1], "terms:1:10: sweet: is no clause\n\thint: write as 45..55, 5/24h, 18..22C")
	_, err = Parse(strings.Repeat("what,", 10_000))
	assert.ErrorContains(t, err, "at most 40 clauses")
}

// What is written back is read as the same clauses.
func TestTextIsReadBack(t *testing.T) {
	for _, s := range []string{"45..55, 5/24h, 18..22C", "..65, +-4C/24h, 2.5/1h, 12/7d, 10C..", "37.5..52.5, 3/30min, 20.2..24C"} {
		a, err := Parse(s)
		require.NoError(t, err)
		assert.Equal(t, s, text(a.Clauses))
	}
}

func TestWords(t *testing.T) {
	a, err := Parse("45..55, 5/24h, 18..22C, ..4C/7d, +-1.5C/1h, 12/7d")
	require.Error(t, err, "a side is no change")
	a, err = Parse("45..55, 5/24h, 18..22C, +-1.5C/1h, 12/7d, 3/90min")
	require.NoError(t, err)
	var got []string
	for _, c := range a.Clauses {
		got = append(got, c.String())
	}
	assert.Equal(t, []string{"45 to 55 % RH", "not over 5 points in 24 hours", "18 to 22 °C", "not over ±1.5 K in 1 hour",
		"not over 12 points in 7 days", "not over 3 points in 90 minutes"}, got)
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"45..55, 5/24h, 18..22C", "50+-5", "<=65;T 18..22", "\xff..é", "1/0h", "-..-", "5/99999999999999999999w"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		a, err := Parse(s)
		if err != nil {
			assert.NotEmpty(t, err.Error())
			return
		}
		for _, c := range a.Clauses {
			assert.NotEmpty(t, c.String())
			if c.Window == 0 {
				assert.Less(t, c.Low, c.High)
			} else {
				assert.Greater(t, c.Most, 0.0)
			}
		}
	})
}
