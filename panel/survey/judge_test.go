package survey

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"crossgrain/panel/assessment"
)

func TestGroups(t *testing.T) {
	for _, c := range []struct {
		few, many float64
		group     Group
		why       Why
		reason    string
	}{
		{0, 0, Wait, ByCount, "nobody reaches a limit"},
		{5, 5, Wait, ByCount, "5 of 100 are few"},
		{5.5, 5.5, Next, ByCount, "more than 5"},
		{20, 20, Next, ByCount, "20 of 100 are some"},
		{4, 21, First, ByCount, "the unfavourable answer counts"},
		{0, 10, Next, ByCount, "fewer than 1 is taken as 1: tenfold is not more than tenfold"},
		{0, 11, Untold, Apart, "more than tenfold"},
		{3, 35, Untold, Apart, "more than tenfold"},
	} {
		r := Row{Cells: []Cell{{Told: true, Few: c.few, Many: c.many}}}
		r.judge()
		assert.Equal(t, c.group, r.Group, c.reason)
		assert.Equal(t, c.why, r.Why, c.reason)
	}
	r := Row{Cells: []Cell{{Untold: "too short"}}}
	r.judge()
	assert.Equal(t, NoClimate, r.Why)
}

// A day that is too short takes what is worth most for its minutes, and lists it in the order of the rows.
func TestDayIsFilledByWorth(t *testing.T) {
	row := func(many, minutes float64) Row {
		return Row{Why: ByCount, Group: First, Cells: []Cell{{Told: true, Few: many, Many: many}}, Find: []assessment.Narrowing{
			{Path: "board.a.thickness_mm", What: "thickness", Minutes: minutes, Share: 0.5},
			{Path: "observed.warp", What: "warp in two seasons", Minutes: 1, Share: 1},
		}}
	}
	r := Result{Rows: []Row{row(50, 300), row(99.9, 1), row(50, 100), row(30, 30), row(60, 200)}}
	r.day()
	var rows []int
	for _, task := range r.Day.List {
		rows = append(rows, task.Row)
		assert.Equal(t, "thickness", task.What, "what needs two seasons is not for one day")
	}
	assert.Equal(t, []int{2, 3, 4}, rows, "the longest no longer fits, and one that is as good as told is not worth the way")
	assert.InDelta(t, 330, r.Day.Minutes, 1e-9)
}

// Two wings: one would stand better in the other store by 9 of 100, the other worse by 50. Kept together they stay; alone the
// first goes. A place that stands empty is worth nothing.
func TestKeptTogetherByTheirSum(t *testing.T) {
	made := func(together string) *Result {
		row := func(number string, a, b float64) Row {
			return Row{Number: number, Why: ByCount, Together: together, Cells: []Cell{{Told: true, Few: a, Many: a}, {Told: true, Few: b, Many: b}}}
		}
		r := &Result{Stores: &Stores{List: []Store{{Places: 2}, {Places: 2}}}, Rows: []Row{row("left", 10, 1), row("right", 0, 50)}}
		r.place()
		return r
	}
	p := made("wings").Placement
	assert.Empty(t, p.Why)
	assert.Empty(t, p.Moves)
	p = made("").Placement
	assert.Equal(t, []Move{{Row: 0, From: 0, To: 1, Was: 10, Is: 1}}, p.Moves)
	assert.InDelta(t, 0.10, p.Before, 1e-12)
	assert.InDelta(t, 0.01, p.After, 1e-12)
	assert.InDelta(t, 0, p.Stores[1].Last, 1e-12, "the second place stands empty")
}
