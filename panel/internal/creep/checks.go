package creep

import (
	"math"
	"strconv"

	"crossgrain/species"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

const day = 24 * hour

// Checks returns the published and independently computed values this package is held against:
// closed forms of the chain, the reference bar, and measured wood. A measured row that fails is a
// finding about the model and stands as it is.
func Checks() ([]verify.Row, error) {
	var out []verify.Row
	for _, part := range []func() ([]verify.Row, error){chainChecks, barChecks, creepChecks, sliceChecks, historyChecks} {
		rows, err := part()
		if err != nil {
			return nil, err
		}
		out = append(out, rows...)
	}
	return out, nil
}

func chainChecks() ([]verify.Row, error) {
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

// barChecks are the rows of the reference bar, solved apart from the program.
func barChecks() ([]verify.Row, error) {
	got := map[string]func() (float64, error){}
	for _, c := range []struct {
		name          string
		kelvin, moist bool
	}{{"G1", false, false}, {"G2", true, false}, {"G3", false, true}, {"G4", true, true}} {
		for _, h := range []int{24, 168, 720, 2190, 4380, 6570, 8760} {
			got["CRP-"+c.name+"-"+strconv.Itoa(h)+"h"] = func() (float64, error) { return barStress(c.kelvin, c.moist, h) }
		}
	}
	return verify.FromTable(tables.MustRead("checks_creep"), got)
}

// barStress returns the stress, MPa, of the reference bar after whole hours in hourly steps.
func barStress(kelvin, moist bool, hours int) (float64, error) {
	s, err := bar(kelvin, moist)
	if err != nil {
		return math.NaN(), err
	}
	in := barAt(0)
	for h := 1; h <= hours; h++ {
		w := barMoisture(float64(h))
		for l := range in.Free {
			in.Moisture[l], in.Free[l] = w, 0.30*(w-0.10)
		}
		if _, err := s.Step(hour, in); err != nil {
			return math.NaN(), err
		}
	}
	return s.stress[0], nil
}

// bar is a strip held in length and flat, with the constants of the reference case: modulus 500
// MPa, Kelvin elements 0.4/E and 0.8/E of 24 and 720 h, moisture-driven strain 0.02 1/MPa times
// stress and way, without end.
func bar(kelvin, moist bool) (*Strip, error) {
	p := Spec{Layers: Even(20, 2), E: 500, Duration: species.Short, Limit: math.Inf(1)}
	if kelvin {
		p.Pull = Chain{Tau: []float64{24 * hour, 720 * hour}, G: []float64{0.4, 0.8}}
		p.Press = p.Pull
	}
	if moist {
		const end = 1e9
		p.Moist = []MoistureDriven{{M: 0.02 * 500 * end, Path: end}}
	}
	s, err := New(p)
	if err != nil {
		return nil, err
	}
	if err := s.Start(barAt(0)); err != nil {
		return nil, err
	}
	return s, s.Hold(Support{Axial: math.Inf(1), Bending: math.Inf(1)})
}

func barMoisture(h float64) float64 {
	return 0.10 + 0.02*math.Sin(2*math.Pi*h/8760) + 0.005*math.Sin(2*math.Pi*h/168)
}

// barAt is the reference bar's input at hour h.
func barAt(h float64) In {
	w := barMoisture(h)
	e := 0.30 * (w - 0.10)
	return In{Moisture: []float64{w, w}, Free: []float64{e, e}}
}
