package figure

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sampleYearCases is the invented course with cases that bend twice as much and half as much.
func sampleYearCases() YearCourse {
	y := sampleYear()
	y.ID = "year-cases"
	y.WarpCases, y.WidthCases = casesOf(y.WarpLow, y.WarpHigh), casesOf(y.WidthLow, y.WidthHigh)
	return y
}

func casesOf(low, high []float64) CaseBand {
	return CaseBand{
		pairwise(low, high, func(a, b float64) float64 { return min(a, 0.6*a, 1.7*a) }),
		pairwise(low, high, func(a, b float64) float64 { return max(b, 0.6*b, 1.7*b) }),
	}
}

func sampleHoldCases() HoldYear {
	y := rampYear()
	y.Meta = Meta{ID: "hold-cases", Invented: true}
	for i := range y.Members {
		m := &y.Members[i]
		m.Cases = CaseBand{scaled(m.LowN, 0.4), scaled(m.HighN, 1.6)}
	}
	return y
}

func TestCasesLieAroundTheCourse(t *testing.T) {
	y := sampleYearCases()
	for _, c := range []struct {
		chart      chart
		cases      CaseBand
		plain, own []float64
	}{{y.warp(0, 730), y.WarpCases, y.WarpLow, y.WarpHigh}, {y.width(0, 730), y.WidthCases, y.WidthLow, y.WidthHigh}} {
		require.Len(t, c.chart.bands, 2)
		assert.Equal(t, c.cases.Low[3], c.chart.bands[0].lo[3], "the cases lie under the course")
		assert.NotEmpty(t, c.chart.bands[0].tone.dash, "told from it by dashes")
		assert.Equal(t, c.plain[3], c.chart.bands[1].lo[3])
		lo, hi, _ := extent(c.cases.Low, c.cases.High)
		assert.True(t, c.chart.y.lo <= lo && c.chart.y.hi >= hi, "%v to %v on %v to %v", lo, hi, c.chart.y.lo, c.chart.y.hi)
		f := c.chart.layout(box(0, 0, 400, 100))
		assert.Len(t, c.chart.bands[0].polygons(f.r, f.sx, f.sy), 2, "the gap stays open")
	}
	f := y.Draw()
	assert.Contains(t, strings.Join(texts(f), " "), caseWords)
	lo, _, _ := extent(y.WarpCases.Low)
	assert.Contains(t, f.Sentence, "(5 to 95 in 100 cases: "+bent(lo)+" to ")
	plain := sampleYear()
	assert.NotContains(t, strings.Join(texts(plain.Draw()), " "), "cases")
	assert.NotContains(t, plain.Draw().Sentence, "cases")
	plain.WarpCases = CaseBand{[]float64{math.NaN()}, []float64{1}}
	assert.False(t, plain.WarpCases.any())
	assert.Len(t, plain.warp(0, 730).bands, 1, "nothing to draw")
}

func TestCasesLieAroundTheForces(t *testing.T) {
	y := sampleHoldCases()
	all := y.courses(y.greatest(), 0, 300)
	require.Len(t, all[0].bands, 2)
	assert.InDelta(t, 320, all[0].bands[0].hi[10], 1e-9, "1.6 times 200 N")
	assert.GreaterOrEqual(t, all[0].y.hi, 320.0)
	assert.Equal(t, "It is held hardest on 26 Dec 2023: 200 N (about 20 kg) on a fixing of batten (5 to 95 in 100 cases: 0 N to 320 N).", y.Draw().Sentence)
	assert.Contains(t, strings.Join(texts(y.Draw()), " "), caseWords)
}
