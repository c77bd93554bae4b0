package profile

import (
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

const day = 86400.0

// Checks returns the expected values this package reproduces.
func Checks() ([]verify.Row, error) {
	t, err := tables.Read("checks_moisture")
	if err != nil {
		return nil, fmt.Errorf("moisture profile: %w", err)
	}
	got := map[string]func() (float64, error){}
	stepChecks(t, got)
	rows, err := verify.FromTable(t, got)
	if err != nil {
		return nil, err
	}
	measured, err := measuredChecks()
	return append(rows, measured...), err
}

// stepChecks covers the nonlinear rows NL1 and NL2.
func stepChecks(t *tables.Table, got map[string]func() (float64, error)) {
	for _, r := range t.Rows {
		id := r.Text("id")
		var from, to, days float64
		if n, err := fmt.Sscanf(id, "NL1-%g-%g-%g", &from, &to, &days); err == nil && n == 3 {
			got[id] = func() (float64, error) { return stepFirst(from, to, days) }
		}
		for _, c := range secondCases() {
			if n, err := fmt.Sscanf(id, "NL2-"+c.name+"-%g", &days); err == nil && n == 1 {
				got[id] = func() (float64, error) { return stepSecond(c, days) }
			}
		}
	}
}

// stepFirst is the share of the change of the mean in the sheet whose diffusion grows as exp(4 u). A
// face that jumps costs 1.4e-4 with 40 intervals and a quarter of that with 80, which the rows need.
func stepFirst(from, to, days float64) (float64, error) {
	s, err := NewSheet(Sheet{Thickness: 10, D0: 8e-11, K: 4, Back: 1e3}, Options{Cells: 80})
	if err != nil {
		return 0, err
	}
	if err := s.StartSheet(moisture.MC(from)); err != nil {
		return 0, err
	}
	err = growing(days*day, func(dt float64) error {
		_, err := s.StepSheet(dt, moisture.MC(to), moisture.MC(to))
		return err
	})
	return (s.Mean() - from) / (to - from), err
}

// growing covers a time after a step of the air with steps that start at a 10,000th of it and grow
// by a twentieth.
func growing(time float64, step func(dt float64) error) error {
	dt := time / 1e4
	for t := 0.0; t < time; dt *= 1.05 {
		dt = math.Min(dt, time/200)
		if t+dt > time*(1-1e-9) {
			dt = time - t
		}
		if err := step(dt); err != nil {
			return err
		}
		t += dt
	}
	return nil
}

// second is one board of the rows NL2.
type second struct {
	name        string
	thickness   float64
	to          moisture.RH
	back, front Face
}

func secondCases() []second {
	painted := Face{Sd: 2}
	return []second{
		{"up", 20, 0.65, Face{}, painted}, {"down", 20, 0.35, Face{}, painted},
		{"sealed", 20, 0.65, Face{}, Face{Sealed: true}}, {"bare", 20, 0.65, Face{}, Face{}},
		{"th10", 10, 0.65, Face{}, painted}, {"th40", 40, 0.65, Face{}, painted},
		{"back05", 20, 0.65, Face{Sd: 0.5}, painted},
	}
}

func stepSecond(c second, days float64) (float64, error) {
	s, err := New(Wall{
		Thickness: c.thickness, Density: 450, Storage: Storage{T: 20}, Back: c.back, Front: c.front,
		Transport: Transport{Mu: 50, Saturation: moisture.MagnusWMO},
	}, Options{Memory: Mean})
	if err != nil {
		return 0, err
	}
	if err := s.Start(Climate{0.5, 20}); err != nil {
		return 0, err
	}
	air := Climate{c.to, 20}
	err = growing(days*day, func(dt float64) error {
		_, err := s.Step(dt, air, air)
		return err
	})
	return 100 * s.Mean(), err
}
