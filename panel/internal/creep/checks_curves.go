package creep

import (
	"fmt"
	"math"

	"crossgrain/species"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

const creepSource = "Maas and Wittel 2026, From Elasticity to Creep, open data github.com/chesali/wood-rheology, commit 4d9dff1, creep specimen "

// specimen is one creep specimen with its curve.
type specimen struct {
	name, kind string
	rh         int
	own        Chain
	r2         float64
	hours      []float64
	rel, fit   []float64
}

// specimens reads the creep specimens.
func specimens() ([]specimen, error) {
	var out []specimen
	curves := tables.MustRead("experiments/maas_2026_creep_curves")
	for _, r := range tables.MustRead("experiments/maas_2026_creep").Rows {
		p := specimen{name: r.Text("sample"), kind: r.Text("type")}
		rh, ok := r.Float("rh_pct")
		p.rh = int(rh)
		for k := 1; k <= 4 && ok; k++ {
			tau, ok1 := r.Float(fmt.Sprintf("tau%d_s", k))
			g, ok2 := r.Float(fmt.Sprintf("g%d", k))
			p.own.Tau, p.own.G = append(p.own.Tau, tau), append(p.own.G, g)
			ok = ok1 && ok2
		}
		var ok3 bool
		if p.r2, ok3 = r.Float("r2"); !ok || !ok3 {
			return nil, fmt.Errorf("experiments/maas_2026_creep:%d: wants numbers", r.Line)
		}
		for _, c := range curves.Rows {
			if c.Text("sample") != p.name {
				continue
			}
			h, ok1 := c.Float("time_h")
			rel, ok2 := c.Float("strain_rel")
			fit, ok3 := c.Float("fit_rel")
			if !ok1 || !ok2 || !ok3 {
				return nil, fmt.Errorf("experiments/maas_2026_creep_curves:%d: wants numbers", c.Line)
			}
			p.hours, p.rel, p.fit = append(p.hours, h), append(p.rel, rel), append(p.fit, fit)
		}
		out = append(out, p)
	}
	return out, nil
}

// mean returns the mean chain of the specimen's kind; rolling shear has none here.
func (p specimen) mean() (Chain, bool) {
	sense := map[byte]Sense{'t': Tension, 'c': Compression}
	s, ok := sense[p.kind[0]]
	if !ok {
		return Chain{}, false
	}
	c, err := Spruce(Direction(p.kind[1:]), s, p.rh)
	return c, err == nil
}

// loaded runs a strip of the chain under constant stress through the specimen's times and returns
// strain over elastic strain at each.
func (p specimen) loaded(c Chain) ([]float64, error) {
	const e, stress = 500., 1.
	s, err := New(Spec{Layers: Even(10, 2), E: e, Duration: species.Short, Pull: c, Press: c, Limit: math.Inf(1)})
	if err != nil {
		return nil, err
	}
	in := In{Moisture: make([]float64, 2), Free: make([]float64, 2)}
	if err := s.Start(in); err != nil {
		return nil, err
	}
	if err := s.Hold(Support{Force: stress * 10, Bending: math.Inf(1)}); err != nil {
		return nil, err
	}
	out := make([]float64, len(p.hours))
	now := 0.0
	_, err = s.Step(0, in)
	for i, h := range p.hours {
		if err == nil {
			_, err = s.Step((h-now)*hour, in)
		}
		now = h
		out[i] = s.at.Eps / (stress / e)
	}
	return out, err
}

// creepChecks compare strain under constant stress with the specimens: the formula with the
// authors' own fit, to 1e-3; the specimen's own chain with its curve after 1 d, within 10 % (15 %
// where R2 of the fit is 0.95 or less); the mean chain with the curve after 1 d, within 25 %.
func creepChecks() ([]verify.Row, error) {
	all, err := specimens()
	if err != nil {
		return nil, err
	}
	var out []verify.Row
	for _, p := range all {
		last := len(p.hours) - 1
		dayAt := last
		for i, h := range p.hours {
			if math.Abs(h-24) < math.Abs(p.hours[dayAt]-24) {
				dayAt = i
			}
		}
		what := fmt.Sprintf("%s at %d %% RH: strain over elastic strain", p.kind, p.rh)
		row := func(id, how string, i int, c Chain, want, tol float64) {
			out = append(out, verify.Row{
				ID: id + p.name, What: fmt.Sprintf("%s after %.0f h, %s", what, p.hours[i], how), Unit: "-", Kind: verify.Measured,
				Source: creepSource + p.name, Want: want, Tol: tol, Relative: true, Got: p.value(c, i),
			})
		}
		own := 0.10
		if p.r2 <= 0.95 {
			own = 0.15
		}
		row("D1-h-", "the authors' fit", last, p.own, p.fit[last], 1e-3)
		row("D1-g-own-", "its own chain", dayAt, p.own, p.rel[dayAt], own)
		if c, ok := p.mean(); ok {
			row("D1-g-mean-", "mean chain of its kind", dayAt, c, p.rel[dayAt], 0.25)
		}
	}
	return out, nil
}

func (p specimen) value(c Chain, i int) func() (float64, error) {
	return func() (float64, error) {
		v, err := p.loaded(c)
		if err != nil {
			return math.NaN(), err
		}
		return v[i], nil
	}
}
