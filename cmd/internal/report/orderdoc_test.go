package report

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/assessment"
	"crossgrain/panel/response"
)

// Between two humidities the share goes straight: 0.5 at 40 and 1.5 at 30 meet 1 at 35; what is past its limit on the damp side alone
// is not told on the dry one; ground is never among them.
func TestOrderOfFailure(t *testing.T) {
	state := func(rh, join, split float64) assessment.State {
		return assessment.State{State: response.State{RH: moisture.Percent(rh), Demands: []response.Demand{
			{Mode: response.JoinTension, Part: "join.a", Value: join, Capacity: 1},
			{Mode: response.CheckGrowth, Part: "split.b", Value: split, Capacity: 1},
			{Mode: response.GroundCracking, Part: "face.front", Value: 9, Capacity: 1},
		}}}
	}
	r := &assessment.Result{Object: &panel.Object{UsedTo: 0.5}, Sweep: []assessment.State{
		state(20, 2.5, 1.2), state(30, 1.5, 0.8), state(40, 0.5, 0.4), state(50, 0, 0), state(60, 0.2, 0), state(70, 0.9, 1.8),
	}}
	o := ordersOf(r)
	require.Len(t, o, 2)
	require.Len(t, o[0].First, 2)
	assert.Equal(t, "join.a", o[0].First[0].Part)
	assert.InDelta(t, 35, o[0].First[0].RHPct, 1e-9)
	assert.InDelta(t, 25, o[0].First[1].RHPct, 1e-9)
	require.Len(t, o[1].First, 1)
	assert.InDelta(t, 60+10/1.8, o[1].First[0].RHPct, 1e-9)
	words := Assess{Order: o, Lines: []Line{{}}}.orderWords()
	assert.Contains(t, words[0], "join a, the join opens, at 35 % RH")

	r.Year = &response.Year{}
	day := time.Date(2023, 2, 3, 4, 0, 0, 0, time.UTC)
	r.Worst = []assessment.Worst{
		{Demand: response.Demand{Mode: response.CheckGrowth, Part: "split.b"}, First: day.AddDate(0, 1, 0), FirstRH: 0.4},
		{Demand: response.Demand{Mode: response.JoinTension, Part: "join.a"}, First: day, FirstRH: 0.45},
		{Demand: response.Demand{Mode: response.WoodSplit, Part: "board.c"}},
	}
	o = ordersOf(r)
	require.Len(t, o, 1)
	require.Len(t, o[0].First, 2, "what never got there is left out")
	assert.Equal(t, "join.a", o[0].First[0].Part, "in order of time")
	assert.Contains(t, Assess{Order: o, Lines: []Line{{}}, Year: &Year{}}.orderWords()[0], "on 3 February 2023")
	assert.Contains(t, Assess{Lines: []Line{{}}}.orderWords()[0], "No join")
}
