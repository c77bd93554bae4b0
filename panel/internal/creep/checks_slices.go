package creep

import (
	"fmt"
	"math"

	"crossgrain/species"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

const sliceSource = "Ferrara and Wittel 2025, Mechanosorptive creep of Norway spruce on the tissue scale, open data github.com/alessiafe/Mesoscale-Creep-Evaluation-Routines, commit 0863aafdba82, "

// slice is one slice pulled while the humidity swings.
type slice struct {
	name, kind       string
	stress, load, j0 float64 // MPa, % of strength, 1/GPa at 65 % RH
	c                [3]float64
	ends             [7]float64
}

func slices16() ([]slice, error) {
	j0 := map[string]float64{}
	for _, r := range tables.MustRead("experiments/ferrara_2025_compliance").Rows {
		if r.Text("rh_pct") == "65" {
			v, _ := r.Float("elastic")
			j0[r.Text("type")] = v * 1000
		}
	}
	var out []slice
	for _, r := range tables.MustRead("experiments/ferrara_2025_cycles").Rows {
		p := slice{name: r.Text("sample"), kind: r.Text("type"), j0: j0[r.Text("type")]}
		ok := p.j0 > 0
		number := func(column string) float64 {
			v, has := r.Float(column)
			ok = ok && has
			return v
		}
		p.stress, p.load = number("stress_mpa"), number("load_pct")
		for k := range p.c {
			p.c[k] = number(fmt.Sprintf("c%d", k+1))
		}
		for k := range p.ends {
			p.ends[k] = number(fmt.Sprintf("end%d", k+1))
		}
		if !ok {
			return nil, fmt.Errorf("experiments/ferrara_2025_cycles:%d: wants numbers", r.Line)
		}
		out = append(out, p)
	}
	return out, nil
}

// cycled returns the moisture-driven strain over the elastic one at the end of each of n cycles of
// the slices' moisture, of a strip under constant stress with the elements given.
func cycled(m []MoistureDriven, n int) ([]float64, error) {
	s, err := New(Spec{Layers: Even(0.8, 2), E: 300, Duration: species.Short, Moist: m, Dead: Threshold, Limit: math.Inf(1)})
	if err != nil {
		return nil, err
	}
	rows := tables.MustRead("experiments/ferrara_2025_moisture").Rows
	in := In{Moisture: make([]float64, 2), Free: make([]float64, 2)}
	w, _ := rows[0].Float("moisture")
	in.Moisture[0], in.Moisture[1] = w, w
	if err := s.Start(in); err != nil {
		return nil, err
	}
	if err := s.Hold(Support{Force: 0.8, Bending: math.Inf(1)}); err != nil {
		return nil, err
	}
	if _, err := s.Step(0, in); err != nil {
		return nil, err
	}
	elastic, out := s.at.Eps, make([]float64, n)
	for k := range out {
		cycle := "following"
		if k == 0 {
			cycle = "first"
		}
		for _, r := range rows {
			if r.Text("cycle") != cycle {
				continue
			}
			w, _ := r.Float("moisture")
			in.Moisture[0], in.Moisture[1] = w, w
			if _, err := s.Step(60, in); err != nil {
				return nil, err
			}
		}
		out[k] = s.at.Eps/elastic - 1
	}
	return out, nil
}

// sliceChecks compare the moisture-driven form with the slices: with each slice's own constants at
// the ends of its cycles (a check of form and counting; the error of a strain is about 0.001); and
// what the constants of one direction say of others, within a factor of 1.5.
func sliceChecks() ([]verify.Row, error) {
	all, err := slices16()
	if err != nil {
		return nil, err
	}
	var out []verify.Row
	for _, p := range all {
		m := []MoistureDriven{{p.c[0] / p.j0, 0.01}, {p.c[1] / p.j0, 0.1}, {p.c[2] / p.j0, 1}}
		elastic := p.stress * p.j0 / 1000
		for _, k := range []int{0, 6} {
			out = append(out, verify.Row{
				ID: fmt.Sprintf("D2-b-%d-%s", k+1, p.name), Kind: verify.Measured, Unit: "-", Source: sliceSource + "slice " + p.name,
				What: fmt.Sprintf("%s at %.0f %% of strength: moisture-driven strain after cycle %d, its own constants", p.kind, p.load, k+1),
				Want: p.ends[k], Tol: 0.002, Got: func() (float64, error) {
					v, err := cycled(m, k+1)
					if err != nil {
						return math.NaN(), err
					}
					return v[k] * elastic, nil
				},
			})
		}
	}
	return append(out, carried(all)[:5]...), nil
}

// carried are the rows of one direction predicted from another, and of blocks from slices.
func carried(all []slice) []verify.Row {
	mean := func(kind string, low, high float64, f func(slice) float64) float64 {
		sum, n := 0.0, 0.0
		for _, p := range all {
			if p.kind == kind && p.load >= low && p.load <= high {
				sum += f(p)
				n++
			}
		}
		return sum / n
	}
	first := func(p slice) float64 { return p.ends[0] / (p.stress * p.j0 / 1000) }
	grown := func(p slice) float64 { return p.ends[6] / p.ends[0] }
	after := func(n int, ratio bool) func() (low, high float64, err error) {
		return func() (low, high float64, err error) {
			v, err := cycled(Slices(Tangential), n)
			if err != nil {
				return 0, 0, err
			}
			x := v[n-1]
			if ratio {
				x /= v[0]
			}
			return x / 1.5, x * 1.5, nil
		}
	}
	row := func(id, what, source string, want float64, band func() (float64, float64, error), most float64) verify.Row {
		return verify.Row{ID: id, What: what, Unit: "ratio", Kind: verify.Measured, Source: source, Want: want, Band: band, MaxRatio: most}
	}
	return []verify.Row{
		row("D2-a-RL", "first cycle, RL at half the strength, over elastic: within 1.5 of the constants of T", sliceSource+"RL slices", mean("RL", 45, 55, first), after(1, false), 2.3),
		row("D2-a-RT", "first cycle, RT at half the strength, over elastic: within 1.5 of the constants of T", sliceSource+"RT slices", mean("RT", 45, 55, first), after(1, false), 2.3),
		row("D2-b-TR", "strain after cycle 7 over that after cycle 1, TR, within 1.5", sliceSource+"TR slices", mean("TR", 0, 99, grown), after(7, true), 2.3),
		row("P15", "blocks, one cycle of humidity: moisture-driven over elastic strain; bracketed by slices and blocks, not narrowed",
			"Toratti and Svensson 2000, Wood Sci. Technol. 34, 317-326, abstract", 5, between(1), 0),
		row("P16", "blocks, many cycles: the same; the upper end is made from this value, so only the lower one can fail",
			"Svensson and Toratti 2002, Wood Sci. Technol. 36, 145-156, abstract", 10, between(60), 0),
		row("D2-b-RL", "strain after cycle 7 over that after cycle 1, RL at half the strength, from the constants of T, within 1.5", sliceSource+"RL slices", mean("RL", 45, 55, grown), after(7, true), 2.3),
		row("D2-c-RL", "moisture-driven over elastic strain after cycle 1: RL at 30 % of strength within 1.5 of RL at half of it", sliceSource+"RL slices", mean("RL", 25, 35, first), near(mean("RL", 45, 55, first)), 2.3),
	}
}

// between returns what the slices and the blocks say of n cycles.
func between(n int) func() (low, high float64, err error) {
	return func() (low, high float64, err error) {
		a, err := cycled(Slices(Tangential), n)
		if err != nil {
			return 0, 0, err
		}
		b, err := cycled(Blocks(), n)
		if err != nil {
			return 0, 0, err
		}
		return a[n-1], math.Round(b[n-1]*1e6) / 1e6, nil
	}
}

func near(v float64) func() (low, high float64, err error) {
	return func() (low, high float64, err error) { return v / 1.5, v * 1.5, nil }
}
