package survey

import (
	"cmp"
	"slices"
	"strings"

	"crossgrain/panel"
)

// Day is what to measure with one day and a ruler, in the order in which one walks.
type Day struct {
	List    []Task
	Minutes float64 // of all, without the walking
	Settles int     // panels that cannot be told yet of which these would settle why
}

// Task is one thing to find out about one panel.
type Task struct {
	Row             int
	Path            string // of what nobody has told (see [Row.Unlooked]); "" of anything else
	What, Means, By string
	Minutes         float64
	// Worth is how much of the doubt it takes away: of a panel for which 50 of 100 reach a limit all of it is 1, of one
	// that is as good as told nothing is; of an unknown with two answers, by how many of 100 these differ.
	Worth float64
}

// dayMinutes is a day at the racks, the rest going into walking and writing (working choice); leastWorth is what is not worth the
// way.
const (
	dayMinutes = 7 * 60
	leastWorth = 0.02
)

// day takes what is worth most for its minutes until the day is full. What needs two seasons is not for one day.
func (r *Result) day() {
	var all []Task
	for i := range r.Rows {
		row := &r.Rows[i]
		switch row.Why {
		case ByCount, Apart, Depends, Unlooked:
			all = append(all, row.tasks(i)...)
		}
	}
	slices.SortStableFunc(all, func(a, b Task) int { return cmp.Compare(b.Worth/b.Minutes, a.Worth/a.Minutes) })
	for _, t := range all {
		if t.Worth < leastWorth || r.Day.Minutes+t.Minutes > dayMinutes {
			continue
		}
		r.Day.Minutes += t.Minutes
		r.Day.List = append(r.Day.List, t)
		if row := &r.Rows[t.Row]; row.Group == Untold && (row.Fork != nil && t.What == row.Fork.Question || row.Why == Unlooked && t.Path == "panel.back") {
			r.Day.Settles++
		}
	}
	slices.SortStableFunc(r.Day.List, func(a, b Task) int { return cmp.Compare(a.Row, b.Row) })
}

// tasks are what could be found out about a panel.
func (r *Row) tasks(i int) (out []Task) {
	here := r.Here()
	if f := r.Fork; f != nil {
		worth := 1.0
		if here != nil && !r.unfigured {
			worth = (here.Many - here.Few) / 100
		}
		out = append(out, Task{Row: i, What: f.Question, Means: f.Means, By: f.By, Minutes: max(f.Minutes, 1), Worth: worth})
	}
	for _, path := range r.Unlooked() {
		question, means, minutes := panel.ToLook(path)
		out = append(out, Task{Row: i, Path: path, What: question, Means: means, By: panel.Anyone, Minutes: minutes, Worth: 1})
	}
	if here == nil || r.unfigured {
		return out
	}
	p := here.Many / 100
	for _, n := range r.Find {
		if !strings.HasPrefix(n.Path, "observed.") {
			out = append(out, Task{Row: i, What: n.What, Means: n.Means, By: n.By, Minutes: max(n.Minutes, 1), Worth: n.Share * 4 * p * (1 - p)})
		}
	}
	return out
}
