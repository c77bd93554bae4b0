package figure

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// invented course: two years of a heated house, a gap of five weeks in the first summer.
func sampleYear() YearCourse {
	y := YearCourse{Meta: Meta{Invented: true}, Start: time.Date(2021, 10, 4, 0, 0, 0, 0, time.UTC), UsedToPct: 45}
	for d := range 730 {
		x := float64(d)
		s := math.Sin(2 * math.Pi * (x - 110) / 365)
		rh := 42 + 14*s + 5*math.Sin(x/4.3)
		w, b := 4.5*math.Sin(2*math.Pi*(x-128)/365), -1.8*s-2.4*math.Sin(x/4.3+0.9)
		y.Days = append(y.Days, x+0.5)
		y.LowPct, y.HighPct = append(y.LowPct, rh-3), append(y.HighPct, rh+3)
		y.WarpLow, y.WarpHigh = append(y.WarpLow, b-0.7), append(y.WarpHigh, b+0.7)
		y.WidthLow, y.WidthHigh = append(y.WidthLow, w-0.06), append(y.WidthHigh, w+0.06)
		if d >= 255 && d < 290 {
			for _, v := range []*[]float64{&y.LowPct, &y.HighPct, &y.WarpLow, &y.WarpHigh, &y.WidthLow, &y.WidthHigh} {
				(*v)[d] = math.NaN()
			}
		}
	}
	y.Remembered = over(y.WidthLow, func(v float64) float64 { return 0.75 * v })
	y.Moments = []Moment{{128.5, "batten upper: a fixing is overloaded, 12 tenths of its limit"}, {134.5, "join a: the join opens, 7 tenths of its limit"}, {395.5, "frame: bound in its frame, 4 tenths of its limit"}}
	return y
}

func sampleThickness() Thickness {
	t := Thickness{Meta: Meta{Invented: true}, Name: "board left", Painted: "ground and paint"}
	for i, name := range []string{"12 Feb 2022, most hollow", "3 Oct 2022, most rounded", "1 Mar 2022, driest", "20 Aug 2022, dampest"} {
		c := ThicknessCurve{Name: name}
		for k := range 17 {
			z := 12 * float64(k) / 16
			c.ZMM = append(c.ZMM, z)
			c.MCPct = append(c.MCPct, 6+2*float64(i)+(2-float64(i))*math.Exp(-z/4))
		}
		t.Curves = append(t.Curves, c)
	}
	return t
}

func sampleWait() HowLong {
	f := HowLong{Meta: Meta{Invented: true}, Setting: Setting{UsedToPct: 50}, Hours: []float64{1, 2, 4, 8, 16, 24, 48, 96, 168, 336, 720, 1440, 2160}, Cause: "batten upper: a fixing is overloaded"}
	for _, h := range f.Hours {
		far := 60 * math.Pow(h, -0.45)
		side := func(by float64) float64 { return by * (8 + far) }
		open := func(v float64) float64 {
			if v < 5 || v > 95 {
				return math.NaN()
			}
			return v
		}
		for i, d := range []*Departure{&f.Call, &f.Act} {
			by := float64(i + 1)
			d.Dry, d.Damp = append(d.Dry, open(50-side(0.5*by))), append(d.Damp, open(50+side(0.5*by)))
			d.DryQuick, d.DampQuick = append(d.DryQuick, open(50-side(0.35*by))), append(d.DampQuick, open(50+side(0.35*by)))
			d.DrySlow, d.DampSlow = append(d.DrySlow, open(50-side(0.7*by))), append(d.DampSlow, open(50+side(0.7*by)))
		}
	}
	return f
}

func yearSamples() []named {
	nan := math.NaN()
	huge := []float64{0, 1e300, math.Inf(1), -4}
	none := []float64{nan, nan, nan}
	return []named{
		{"20-year", sampleYear().Draw()}, {"21-thickness", sampleThickness().Draw()}, {"22-wait", sampleWait().Draw()},
		{"x-year-empty", YearCourse{}.Draw()}, {"x-thickness-empty", Thickness{}.Draw()}, {"x-wait-empty", HowLong{}.Draw()},
		{"x-year-bad", YearCourse{Days: huge, LowPct: huge, HighPct: none, WarpLow: huge, WarpHigh: huge, WidthLow: none, WidthHigh: huge,
			Moments: []Moment{{1e300, longName}, {nan, ""}, {-3, "a"}}}.Draw()},
		{"x-year-one", YearCourse{Days: []float64{0.5}, LowPct: []float64{40}, HighPct: []float64{45}, WarpLow: []float64{1}, WarpHigh: []float64{2},
			WidthLow: []float64{0}, WidthHigh: []float64{0}}.Draw()},
		{"x-thickness-bad", Thickness{Name: longName, Curves: []ThicknessCurve{{longName, huge, none}, {"", nil, nil}}}.Draw()},
		{"x-wait-bad", HowLong{Hours: huge, Cause: longName, Act: Departure{Dry: huge, DryQuick: none, DrySlow: huge}}.Draw()},
	}
}

func TestYearFiguresAreDrawn(t *testing.T) {
	for _, s := range yearSamples() {
		var svg, png bytes.Buffer
		require.NoError(t, s.fig.File(&svg), s.name)
		require.NoError(t, s.fig.PNG(&png, 60), s.name)
		assert.NotContains(t, svg.String(), "NaN", s.name)
		assert.NotContains(t, svg.String(), "Inf", s.name)
		assert.NotEmpty(t, s.fig.Sentence, s.name)
		if *look != "" {
			require.NoError(t, os.MkdirAll(*look, 0o755))
			png.Reset()
			require.NoError(t, s.fig.PNG(&png, 130), s.name)
			require.NoError(t, os.WriteFile(filepath.Join(*look, s.name+".png"), png.Bytes(), 0o644))
		}
	}
}

func TestYearIsDatedAndItsGapOpen(t *testing.T) {
	y := sampleYear()
	y.WarpLow[400], y.WarpHigh[30] = -9.4, 8.7
	f := y.Draw()
	all := strings.Join(texts(f), "|")
	assert.Contains(t, all, "9.4 hollow, 8 Nov 2022")
	assert.Contains(t, all, "8.7 rounded, 3 Nov 2021")
	assert.Contains(t, all, "9 Feb 2022|batten upper: a fixing is overloaded")
	assert.Contains(t, f.Sentence, "from 9.4 mm hollow to 8.7 mm rounded")
	assert.Contains(t, f.Desc, "Invented example.", "the mark stands in words too")
	assert.Equal(t, []int{1, 2, 3}, y.numbers())
	y.Moments[1].Day = y.Moments[0].Day + 0.2
	assert.Equal(t, []int{1, 1, 2}, y.numbers(), "moments of one day share a number")
	air := y.air(0, 730)
	require.Len(t, air.zones, 1, "the gap")
	assert.InDelta(t, 254.5, air.zones[0].lo, 1)
	assert.InDelta(t, 290.5, air.zones[0].hi, 1)
	runs := runs(scale{0, 730, 0, 100, false}, scale{0, 100, 0, 100, false}, y.Days, air.curves[0].y)
	assert.Len(t, runs, 2, "no line is drawn over it")
}

func TestThicknessTellsBothFaces(t *testing.T) {
	f := sampleThickness().Draw()
	assert.Contains(t, f.Sentence, "back face moves over 3.0 %")
	assert.Contains(t, strings.Join(texts(f), "|"), "From the back face / mm")
}

func TestWaitSaysWhenToCallAndAct(t *testing.T) {
	f := sampleWait()
	d := f.Draw()
	all := strings.Join(texts(d), "|")
	for _, s := range []string{"act", "call", "1 day", "3 months", "used to 50 %", "Reading of the air at the panel / % RH"} {
		assert.Contains(t, all, s)
	}
	// 50 - 8 - 60/24^0.45 = 27.6 % after a day; doubt 0.7 to 1.4 of that departure, 34.3 to 18.6 %.
	assert.Contains(t, d.Sentence, "within 1 day below 28 (19 to 34) % RH")
	assert.Contains(t, d.Desc, "Call, dry side")
	f.Reading = "case"
	assert.Contains(t, strings.Join(texts(f.Draw()), "|"), "Reading of the case / % RH")
	assert.Equal(t, []string{"1 h", "20 h", "2 days", "2 weeks", "1 month", "3 months"},
		[]string{timeWords(1), timeWords(20), timeWords(48), timeWords(336), timeWords(720), timeWords(2160)})
}
