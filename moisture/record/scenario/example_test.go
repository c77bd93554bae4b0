package scenario_test

import (
	"fmt"
	"time"

	"crossgrain/moisture/record"
	"crossgrain/moisture/record/scenario"
)

const day = 24 * time.Hour

// Invented numbers: a fault of three days, and a case that is closed through it.
func ExampleStepAndReturn() {
	used, dry := scenario.Climate{RH: 0.55, T: 20}, scenario.Climate{RH: 0.35, T: 20}
	room, err := scenario.StepAndReturn(scenario.Clock{}, used, dry, 2*day, 3*day, 10*day)
	if err != nil {
		fmt.Println(err)
		return
	}
	c := scenario.Case{Volume: 60, Exchange: 0.5, Wood: scenario.Wood{Mass: 4, Quick: 0.3, Hours: 48}, Start: used}
	inside, err := c.Inside(room)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range []*record.Record{room, inside} {
		low, _, _, _ := r.RunningMean(day)
		fmt.Printf("%s: driest day %.1f %%, %d readings\n", r.Name, 100*low, len(r.RH))
	}
	// Output:
	// step and return: driest day 35.0 %, 361 readings
	// in the case, step and return: driest day 54.9 %, 361 readings
}

// The dampest month of a kind of building is its own.
func ExampleYearly() {
	for _, k := range []scenario.Kind{scenario.HeatedHouse, scenario.UnheatedSpace} {
		r, err := scenario.Yearly(k, scenario.Clock{}, 1)
		if err != nil {
			fmt.Println(err)
			return
		}
		sum, n, best, month := 0.0, 0, 0.0, time.Month(0)
		for i, at := range r.Times {
			sum, n = sum+r.RH[i], n+1
			if i+1 == len(r.Times) || r.Times[i+1].Month() != at.Month() {
				if m := sum / float64(n); m > best && n > 24 {
					best, month = m, at.Month()
				}
				sum, n = 0, 0
			}
		}
		fmt.Printf("%s: %s\n", k, month)
	}
	// Output:
	// heated house: August
	// unheated attic: November
}
