package restraint

import (
	"fmt"
	"math"
)

// Comes is movement held back in a panel: strain across the grain and curvature, 1/mm.
type Comes struct{ Strain, Curvature float64 }

// Kept is what restraint has stored in a panel, by when it comes back once the restraint is off: what
// one run of the wood's creep gives. The parts add up to the free movement that was held back.
type Kept struct {
	AtOnce Comes // elastic
	Weeks  Comes // as the creep that follows time alone runs back
	Cycles Comes // only as the moisture comes and goes
	Never  Comes // set
}

// Pace says how fast the stored parts come back.
type Pace struct {
	Part []float64 // share of Weeks that each time stands for, adding up to 1
	Tau  []float64 // its time, s, above 0
	// Path is the way that the moisture goes in one damp and dry year, kg/kg up and down added,
	// low and high; Spent the way after which 63 in 100 of Cycles is back, low and high, above 0.
	Path, Spent [2]float64
}

// After is the panel at one time after the restraint came off.
type After struct {
	When  string
	Width [2]float64 // change of width since, mm, low and high (negative: narrower)
	Warp  [2]float64 // change of warp over the width since, mm, low and high (positive: rounder)
}

// Release returns the change of width and warp of a panel of the given width across the grain, mm,
// after its restraint comes off, since that moment and at the moisture of that moment: at once, after
// twelve hours, after four weeks, after the first damp and dry year, and what would never come back
// as a stage of its own (to be set beside the others, not added). Each is a range over the runs in
// stored (for instance with little and with much creep) and over Path and Spent:
//
//	w(t) = at once + weeks Sum p_k (1 - exp(-t/tau_k)) + cycles (1 - exp(-path/spent))
//
// Kelvin elements running back at no stress. The warp is the sagitta of an arc. At least one run;
// errors name what is out of range.
func Release(stored []Kept, r Pace, width float64) ([]After, error) {
	if err := r.valid(); err != nil {
		return nil, err
	}
	if len(stored) == 0 || !(width > 0) || math.IsInf(width, 1) {
		return nil, fmt.Errorf("release needs one run or more and a width above 0 mm, got %d and %g", len(stored), width)
	}
	const day = 86400.0
	slow := [2]float64{1 - math.Exp(-r.Path[0]/r.Spent[1]), 1 - math.Exp(-r.Path[1]/r.Spent[0])}
	stages := []struct {
		when   string
		back   float64 // of Weeks
		cycles [2]float64
	}{
		{"at once", 0, [2]float64{}},
		{"after twelve hours", r.back(day / 2), [2]float64{}},
		{"after four weeks", r.back(28 * day), [2]float64{}},
		{"after the first damp and dry year", r.back(365 * day), slow},
	}
	var out []After
	for _, s := range stages {
		var all []Comes
		for _, k := range stored {
			for _, c := range s.cycles {
				all = append(all, k.AtOnce.plus(k.Weeks, s.back).plus(k.Cycles, c))
			}
		}
		out = append(out, stage(s.when, all, width))
	}
	never := make([]Comes, len(stored))
	for i, k := range stored {
		never[i] = k.Never
	}
	return append(out, stage("never comes back", never, width)), nil
}

func (h Comes) plus(o Comes, f float64) Comes {
	return Comes{h.Strain + f*o.Strain, h.Curvature + f*o.Curvature}
}

// back returns the share of Weeks that is back after a time, s.
func (r Pace) back(t float64) float64 {
	var s float64
	for k, p := range r.Part {
		s += p * (1 - math.Exp(-t/r.Tau[k]))
	}
	return s
}

func stage(when string, all []Comes, width float64) After {
	s := After{When: when, Width: [2]float64{math.Inf(1), math.Inf(-1)}, Warp: [2]float64{math.Inf(1), math.Inf(-1)}}
	for _, h := range all {
		w, c := h.Strain*width, Sagitta(h.Curvature, width)
		s.Width = [2]float64{min(s.Width[0], w), max(s.Width[1], w)}
		s.Warp = [2]float64{min(s.Warp[0], c), max(s.Warp[1], c)}
	}
	return s
}

func (r Pace) valid() error {
	if len(r.Part) != len(r.Tau) {
		return fmt.Errorf("shares and times must be as many, got %d and %d", len(r.Part), len(r.Tau))
	}
	var sum float64
	for k, p := range r.Part {
		if !(p >= 0 && r.Tau[k] > 0) {
			return fmt.Errorf("shares must be 0 or more and times above 0 s, got %g and %g", p, r.Tau[k])
		}
		sum += p
	}
	if len(r.Part) > 0 && math.Abs(sum-1) > 1e-6 {
		return fmt.Errorf("shares of what comes back in time must add up to 1, got %g", sum)
	}
	if !(r.Path[0] >= 0 && r.Path[1] >= r.Path[0] && r.Spent[0] > 0 && r.Spent[1] >= r.Spent[0]) {
		return fmt.Errorf("moisture's way must be 0 kg/kg or more and the way spent above 0, low before high, got %g and %g", r.Path, r.Spent)
	}
	return nil
}
