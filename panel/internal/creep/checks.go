package creep

import (
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

const day = 24 * hour

// Checks returns the published and independently computed values this package is held against.
func Checks() ([]verify.Row, error) {
	t, err := Spruce(Tangential, Tension, 65)
	if err != nil {
		return nil, err
	}
	r, err := Spruce(Radial, Tension, 65)
	if err != nil {
		return nil, err
	}
	got := map[string]func() (float64, error){
		"CRP-J-1h": at(t.Compliance, hour), "CRP-J-1d": at(t.Compliance, day), "CRP-J-7d": at(t.Compliance, 7*day),
		"CRP-J-30d": at(t.Compliance, 30*day), "CRP-J-365d": at(t.Compliance, 365*day),
		"CRP-REL-T-1h": at(t.Relaxation, hour), "CRP-REL-T-1d": at(t.Relaxation, day), "CRP-REL-T-7d": at(t.Relaxation, 7*day),
		"CRP-REL-T-30d": at(t.Relaxation, 30*day), "CRP-REL-T-365d": at(t.Relaxation, 365*day),
		"CRP-REL-R-1h": at(r.Relaxation, hour), "CRP-REL-R-1d": at(r.Relaxation, day), "CRP-REL-R-7d": at(r.Relaxation, 7*day),
		"CRP-REL-R-30d": at(r.Relaxation, 30*day), "CRP-REL-R-90d": at(r.Relaxation, 90*day), "CRP-REL-R-365d": at(r.Relaxation, 365*day),
		"CRP-RAMP-1d": at(t.Ramp, day), "CRP-RAMP-180d": at(t.Ramp, 180*day),
		"CRP-SIN-1d": at(t.Sine, day), "CRP-SIN-30d": at(t.Sine, 30*day), "CRP-SIN-365d": at(t.Sine, 365*day),
		"CRP-MS-FORM": func() (float64, error) { return MoistureDriven{M: 10, Path: 0.10}.Strain(0.10) * 0.5 / 693, nil },
	}
	return verify.FromTable(tables.MustRead("checks_mechanics"), got)
}

func at(f func(float64) float64, t float64) func() (float64, error) {
	return func() (float64, error) { return f(t), nil }
}
