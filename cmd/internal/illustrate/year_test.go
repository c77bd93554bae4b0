package illustrate

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/cmd/internal/figure"
	"crossgrain/cmd/internal/report"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// someDays are days of a course, those named left out; each swings by one more than its number.
func someDays(n int, without ...int) *assessment.Result {
	y := &response.Year{}
	start := time.Date(2020, 5, 1, 9, 0, 0, 0, time.UTC)
	for i := range n {
		gone := false
		for _, w := range without {
			gone = gone || w == i
		}
		if v := float64(i); !gone {
			y.Days = append(y.Days, response.Day{
				Time: start.AddDate(0, 0, i), RH: [2]float64{0.4, 0.5}, Warp: [2]float64{-v, v}, Width: [2]float64{0, 1}, WidthMemory: [2]float64{0, 1},
			})
		}
	}
	return &assessment.Result{Year: y}
}

func TestYearFigureKeepsGapsOpen(t *testing.T) {
	f := yearFigure(figure.Meta{}, &report.Assess{}, someDays(10, 4, 5, 6))
	require.Len(t, f.Days, 8)
	assert.Equal(t, []float64{0.5, 1.5, 2.5, 3.5, 4, 7.5, 8.5, 9.5}, f.Days)
	assert.True(t, math.IsNaN(f.WarpLow[4]))
	assert.InDelta(t, 40, f.LowPct[0], 1e-12)
	assert.Equal(t, 9.0, f.WarpHigh[7])
}

func TestLongCoursesAreDrawnBySeveralDays(t *testing.T) {
	f := yearFigure(figure.Meta{}, &report.Assess{}, someDays(3650, 100))
	assert.Equal(t, 4, f.Every)
	assert.Less(t, len(f.Days), coursePoints)
	assert.Equal(t, 3.0, f.WarpHigh[0], "the greatest of the first four days")
	assert.Equal(t, -3649.0, f.WarpLow[len(f.WarpLow)-1])
	gaps := 0
	for _, v := range f.LowPct {
		if math.IsNaN(v) {
			gaps++
		}
	}
	assert.Equal(t, 1, gaps)
}

func TestMomentsAreByTimeAndEachModeOnce(t *testing.T) {
	first := time.Date(2020, 5, 1, 0, 0, 0, 0, time.UTC)
	share := func(v float64) *float64 { return &v }
	at := func(s string) *report.When { return &report.When{Time: s} }
	doc := &report.Assess{Worst: []report.Mode{
		{Mode: "fixing_overload", Part: "batten.upper", Share: share(2), At: at("2020-05-09T12:00")},
		{Mode: "fixing_overload", Part: "batten.lower", Share: share(1.9), At: at("2020-05-08T12:00")},
		{Mode: "join_tension", Part: "join.a", Share: share(0.7), At: at("2020-05-03T00:00")},
		{Mode: "handling", Part: "panel", Share: share(0.5), At: at("2020-05-03T00:00")},
		{Mode: "wood_split", Part: "board.a", Share: share(0.05), At: at("2020-05-04T00:00")},
		{Mode: "ground_cracking", Part: "face.front", At: at("2020-05-04T00:00")},
	}}
	got := moments(doc, first)
	require.Len(t, got, 2)
	assert.Equal(t, figure.Moment{Day: 2, Name: "Join a: the join opens, 7 tenths of its limit"}, got[0])
	assert.Equal(t, 8.5, got[1].Day)
}
