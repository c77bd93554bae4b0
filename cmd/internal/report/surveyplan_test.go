package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestEveryPlanIsSaid puts every sort of plan into words.
func TestEveryPlanIsSaid(t *testing.T) {
	steps := []float64{55, 50}
	for _, v := range []struct {
		m    SurveyMove
		want string
	}{
		{SurveyMove{PlanWhy: "worse"}, "asks more of it than staying does"},
		{SurveyMove{PlanWhy: "unknown"}, "nothing was counted"},
		{SurveyMove{FromPct: 50, ToPct: 52}, "In any season at once: 50 and 52 % RH are near enough."},
		{SurveyMove{FromPct: 50, ToPct: 52, Start: []int{5, 9}}, "At once, begun in May, September"},
		{SurveyMove{FromPct: 60, StepsPct: steps, Weeks: 1, Total: 2}, "In any season, from 60 % RH by 55, 50 % RH, one week at each, 2 weeks in all."},
		{SurveyMove{FromPct: 60, StepsPct: steps, Weeks: 4, Total: 8, Start: []int{3}, Arrives: 5}, "Begun in March, from 60 % RH by 55, 50 % RH, 4 weeks at each, 8 weeks in all; begun in the first of these it arrives in May."},
	} {
		assert.Contains(t, v.m.plan(), v.want)
	}
}
