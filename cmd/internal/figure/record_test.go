package figure

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// yearOfHours is an invented room: a season, a day, a week without readings.
func yearOfHours() (days, rh, mean, tc []float64) {
	for h := range 400 * 24 {
		d := float64(h) / 24
		days = append(days, d)
		m := 50 + 12*math.Sin(2*math.Pi*d/365)
		v := m + 3*math.Sin(2*math.Pi*d) + 4*math.Sin(d/3.1)
		if h > 3000 && h < 3170 {
			v = math.NaN()
		}
		if d < 15 || d > 385 {
			m = math.NaN()
		}
		rh, mean, tc = append(rh, v), append(mean, m), append(tc, 20+2*math.Sin(2*math.Pi*d))
	}
	return days, rh, mean, tc
}

var recordStart = time.Date(2023, 3, 10, 0, 0, 0, 0, time.UTC)

func sampleCourse() RecordCourse {
	days, rh, mean, tc := yearOfHours()
	return RecordCourse{Meta: Meta{Invented: true}, Start: recordStart, Days: days, RHPct: rh, MeanPct: mean, TC: tc,
		MeanWords: "mean of 30 days", LowPct: -5, HighPct: 6}
}

func sampleDayHours() DayHours {
	_, rh, mean, _ := yearOfHours()
	d := DayHours{Meta: Meta{Invented: true}, Start: recordStart, Departure: true, Cells: make([][]float64, 400)}
	for i := range d.Cells {
		for h := range 24 {
			d.Cells[i] = append(d.Cells[i], rh[24*i+h]-mean[24*i+h])
		}
	}
	return d
}

func sampleOutside() Outside {
	damp, dry := make([]float64, 400), make([]float64, 400)
	for i := range damp {
		damp[i], dry[i] = max(0, math.Sin(float64(i)/30)-0.5), max(0, -math.Sin(float64(i)/30)-0.2)
	}
	damp[200], dry[200] = math.NaN(), math.NaN()
	return Outside{Meta: Meta{Invented: true}, Start: recordStart, Strips: []Strip{
		{Name: "45 to 55 % RH", Note: "outside 31 of 100 hours", Above: damp, Below: dry},
		{Name: "not over 5 points in 24 hours", Note: "never outside", Above: make([]float64, 400)},
	}}
}

func sampleRecordWood() RecordWood {
	days, _, mean, _ := yearOfHours()
	return RecordWood{Meta: Meta{Invented: true}, Start: recordStart, Days: days, Wood: "invented wood", Average: "7 days",
		MeanMC: over(mean, func(v float64) float64 { return v / 5 }), Loop: over(mean, func(v float64) float64 { return 2 + v/6.5 })}
}

func recordSamples() []named {
	short := sampleDayHours()
	short.ID, short.Departure = "short", false
	for i, row := range short.Cells {
		short.Cells[i] = over(row, func(v float64) float64 { return 50 + v })
	}
	short.Cells = short.Cells[50:59]
	return []named{
		{"13-course", sampleCourse().Draw()}, {"13-day-hours", sampleDayHours().Draw()}, {"13-day-hours-short", short.Draw()},
		{"16-outside", sampleOutside().Draw()}, {"annex-record-moisture", sampleRecordWood().Draw()},
	}
}

func recordExtremes() []named {
	nan := math.NaN()
	one, none := []float64{50}, []float64{nan, nan, nan}
	huge := []float64{0, 1e300, math.Inf(1), -4}
	row := [][]float64{{nan}, nil, {1e300, 3}, {4}}
	return []named{
		{"x-course-empty", RecordCourse{}.Draw()}, {"x-map-empty", DayHours{}.Draw()}, {"x-outside-empty", Outside{}.Draw()},
		{"x-recordwood-empty", RecordWood{}.Draw()},
		{"x-course-one", RecordCourse{Days: []float64{0}, RHPct: one, TC: one}.Draw()},
		{"x-course-none", RecordCourse{Days: []float64{0, 1, 2}, RHPct: none, TC: none, MeanPct: none, MeanWords: "mean"}.Draw()},
		{"x-course-bad", RecordCourse{Meta: Meta{Invented: true}, Days: huge, RHPct: huge, TC: huge, MeanPct: huge, MeanWords: longName, LowPct: nan}.Draw()},
		{"x-course-hour", RecordCourse{Start: recordStart, Days: []float64{0, 0.01, 0.04}, RHPct: []float64{40, 41, 40}}.Draw()},
		{"x-map-bad", DayHours{Cells: row, Departure: true}.Draw()}, {"x-map-none", DayHours{Cells: [][]float64{nil, nil}}.Draw()},
		{"x-outside-bad", Outside{Strips: []Strip{{longName, longName, huge, none}, {"", "", nil, nil}}}.Draw()},
		{"x-outside-many", Outside{Strips: make([]Strip, 40)}.Draw()},
		{"x-recordwood-bad", RecordWood{Days: huge, MeanMC: huge, Loop: none, Wood: longName}.Draw()},
	}
}

func TestThinnedKeepsPeaksAndGaps(t *testing.T) {
	n := 526_000
	x, y := make([]float64, n), make([]float64, n)
	for i := range x {
		x[i], y[i] = float64(i), 50+math.Sin(float64(i)/900)
	}
	y[333_333], y[444_444] = 99, 1
	for i := 100_000; i < 120_000; i++ {
		y[i] = math.NaN()
	}
	xs, ys := thinned(x, y, mostPoints)
	assert.LessOrEqual(t, len(ys), mostPoints+4)
	assert.Contains(t, ys, 99.0)
	assert.Contains(t, ys, 1.0)
	gaps := 0
	for i, v := range ys {
		if i > 0 {
			assert.Greater(t, xs[i], xs[i-1])
		}
		if math.IsNaN(v) {
			gaps++
			assert.InDelta(t, 100_000, xs[i], 1)
		}
	}
	assert.Equal(t, 1, gaps, "a gap stays open")
	xs, ys = thinned(x[:10], y[:10], mostPoints)
	assert.Equal(t, x[:10], xs)
	assert.Equal(t, y[:10], ys)
}

func TestCourseMarksDriestAndDampest(t *testing.T) {
	c := sampleCourse()
	c.RHPct[777], c.RHPct[5000] = 3, 98
	all := strings.Join(texts(c.Draw()), "|")
	assert.Contains(t, all, "3 % on 11 Apr 2023")
	assert.Contains(t, all, "98 % on 4 Oct 2023")
	assert.Contains(t, all, "Temperature / °C")
	assert.Contains(t, c.Draw().Sentence, "from 3 to 98 % RH; their mean of 30 days from 38 to 62 %")
	c.TC = nil
	assert.NotContains(t, strings.Join(texts(c.Draw()), "|"), "Temperature")
}

func TestMapSaysWhenAndIsSmall(t *testing.T) {
	d := sampleDayHours()
	for i := range d.Cells { // plant off from 6 to 9 in February
		if d.Start.AddDate(0, 0, i).Month() == time.February {
			for h := 6; h < 9; h++ {
				d.Cells[i][h] = -40
			}
		}
	}
	f := d.Draw()
	assert.Contains(t, f.Sentence, "farthest in February")
	assert.Contains(t, f.Sentence, "from 6 to 9 h")
	var b bytes.Buffer
	require.NoError(t, f.Bare(&b))
	assert.Less(t, b.Len(), 250_000)
	assert.Contains(t, b.String(), `preserveAspectRatio="none"`)
	assert.Contains(t, b.String(), "data:image/png;base64,")
}

func TestShadesFallEvenlyInGrey(t *testing.T) {
	last := 256.0
	for i := range 21 {
		c := shade(float64(i) / 20)
		g := 0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B)
		assert.Less(t, g, last-4, "step %d is darker in grey too", i)
		last = g
	}
}

func TestOutsideNamesTheWorst(t *testing.T) {
	assert.Contains(t, sampleOutside().Draw().Sentence, "45 to 55 % RH: outside for")
	o := Outside{Strips: []Strip{{Name: "a", Above: []float64{0, 0}}}}
	assert.Contains(t, o.Draw().Sentence, "kept the terms")
}

func TestCurvesOfARecordAreShort(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sampleCourse().Draw().Bare(&b))
	assert.Less(t, b.Len(), 200_000, "ten years weigh no more than one")
}
