package species

import (
	"fmt"

	"crossgrain/moisture"
	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// Checks returns the checks of this package: closed forms of table checks_mechanics, worked examples
// of the handbook and measured wood. What a measured case contradicts is in [Findings].
func Checks() ([]verify.Row, error) {
	got := map[string]func() (float64, error){}
	ringChecks(got)
	crackChecks(got)
	got["MOV-LIN-ALDER"] = func() (float64, error) { return Movement(8, 0.0026, 6), nil } // coefficient as printed there
	got["MOV-LIN-POPLAR"] = func() (float64, error) { return ShrinkageStrain(8.5, 28, 11.5), nil }
	rows, err := verify.FromTable(tables.MustRead("checks_mechanics"), got)
	if err != nil {
		return nil, err
	}
	for _, more := range []func() ([]verify.Row, error){examples, movementChecks, factorChecks, ratioChecks} {
		r, err := more()
		if err != nil {
			return nil, err
		}
		rows = append(rows, r...)
	}
	totals, _, err := totalMovement()
	return append(rows, totals...), err
}

func value(v float64) func() (float64, error) { return func() (float64, error) { return v, nil } }

func ringChecks(got map[string]func() (float64, error)) {
	for _, theta := range []int{0, 45, 60, 90} {
		ex, _, _ := RingAngle(90-theta).Strain(0.02, 0.04)
		got[fmt.Sprintf("MOV-ANG-%02d", theta)] = value(ex)
	}
	_, _, gxz := RingAngle(60).Strain(0.02, 0.04)
	got["MOV-ANG-SHEAR30"] = value(gxz)
	spruce := Numbers{ER: 1046, ET: 693, GRT: 54, NuRT: 0.4915}
	for _, theta := range []int{0, 15, 30, 45, 60, 75, 90} {
		got[fmt.Sprintf("ELA-OFF-%02d", theta)] = value(RingAngle(90 - theta).Modulus(spruce))
	}
}

func crackChecks(got map[string]func() (float64, error)) {
	tl := Ortho{14070, 693, 0.547, 1531}
	rl := Ortho{14070, 1046, 0.48, 1295}
	rt := Ortho{693, 1046, 0.285, 54}
	iso := Ortho{1000, 1000, 0.3, 384.615}
	got["SIH-EI-TL"], got["SIH-EII-TL"] = value(tl.ModeI()), value(tl.ModeII())
	got["SIH-EI-RL"], got["SIH-EII-RL"] = value(rl.ModeI()), value(rl.ModeII())
	got["SIH-EI-RT"], got["SIH-EII-RT"] = value(rt.ModeI()), value(rt.ModeII())
	got["SIH-EI-ISO"], got["SIH-EII-ISO"] = value(iso.ModeI()), value(iso.ModeII())
	got["SIH-EI-TR"] = value(Ortho{1046, 693, 0.4915, 54}.ModeI())
	got["SIH-G-TL"] = value(1000 * Energy(0.3, 1509.9))
}

// examples are worked examples about the Wood Handbook.
func examples() ([]verify.Row, error) {
	oak, err := swelling("northern red oak", "T")
	if err != nil {
		return nil, err
	}
	fir, err := swelling("white fir", "R")
	if err != nil {
		return nil, err
	}
	return []verify.Row{
		{ID: "WH-13-2-OAK", What: "movement of a flat-sawn red oak board 5 in wide from 6 to 9 % MC", Unit: "in", Kind: verify.Printed,
			Source: "hardwoodfloorsmag.com/2016/12/06/quick-tips-determining-dimensional-stability-wood, with the coefficient of Wood Handbook (2010) Table 13-5",
			Want:   0.055, Tol: 0.0005, Got: value(Movement(5, oak.Value/100, 9-6))},
		{ID: "WH-13-2-FIR", What: "radial coefficient of white fir, from its shrinkage by eq. 13-3", Unit: "per % MC", Kind: verify.Printed,
			Source: "Wood Handbook (2010) worked example beside eq. 13-2, https://issuhub.com/view/index/5801?pageIndex=308",
			Want:   0.00112, Tol: 0.000005, Got: value(fir.Value / 100)},
	}, nil
}

func swelling(name, dir string) (Property, error) {
	w, err := Lookup(name)
	if err != nil {
		return Property{}, err
	}
	return w.Property(Swelling, dir)
}

// band makes a row whose measured value must lie in a predicted band no wider than maxRatio.
func band(id, what, unit, source string, want, low, high, maxRatio float64) verify.Row {
	return verify.Row{ID: id, What: what, Unit: unit, Kind: verify.Measured, Source: source, Want: want, MaxRatio: maxRatio,
		Band: func() (float64, float64, error) { return low, high, nil }}
}

const spruceTree = "Maas and Wittel 2026, one tree of Norway spruce, open data, github.com/chesali/wood-rheology"

// measured returns one cell of the movement table by its step.
func measured(step, column string) (float64, error) {
	r, ok := find("experiments/maas_2026_movement", "step", step)
	if !ok {
		return 0, fmt.Errorf("experiments/maas_2026_movement has no step %s", step)
	}
	v, ok := r.Float(column)
	if !ok {
		return 0, fmt.Errorf("experiments/maas_2026_movement:%d: no number in %s", r.Line, column)
	}
	return v, nil
}

// movementChecks hold the spruce default against the tree: secant slopes from ovendry (D1-c) and the
// ratio of both directions at each step (D1-d).
func movementChecks() ([]verify.Row, error) {
	r, err := swelling("spruce", "R")
	if err != nil {
		return nil, err
	}
	t, err := swelling("spruce", "T")
	if err != nil {
		return nil, err
	}
	var rows []verify.Row
	for _, step := range []string{"2", "3", "4", "5", "6", "7", "8"} {
		var v [4]float64
		for i, c := range []string{"mc_pct", "strain_r_pct", "strain_t_pct", "rh_logged_pct"} {
			if v[i], err = measured(step, c); err != nil {
				return nil, err
			}
		}
		at := fmt.Sprintf(" at %.0f %% RH, ", v[3])
		rows = append(rows,
			band("D1-c-R-"+step, "movement per % MC"+at+"R, spruce", "%/%MC", spruceTree, v[1]/v[0], r.Low, r.High, 2),
			band("D1-c-T-"+step, "movement per % MC"+at+"T, spruce", "%/%MC", spruceTree, v[2]/v[0], t.Low, t.High, 2),
			verify.Row{ID: "D1-d-" + step, What: "movement T over R" + at + "spruce", Unit: "-", Kind: verify.Measured,
				Source: spruceTree, Want: v[2] / v[1], Tol: 0.2, Got: value(t.Value / r.Value)})
	}
	return rows, nil
}

// totalMovement predicts movement from 5 to 95 % RH (P13) and sorts what fits from what does not.
func totalMovement() ([]verify.Row, []Finding, error) {
	const richard = "Richard, Mecklenburg and Tumosa 1998, The Structural Conservation of Panel Paintings"
	var rows []verify.Row
	var findings []Finding
	for _, c := range [...]struct {
		id, wood, source string
		from, to, want   float64
		fits             bool
	}{
		{"P13-cottonwood", "poplar", richard, 0.05, 0.95, 7, true},
		{"P13-oak", "oak", richard, 0.05, 0.95, 7, true},
		{"P13-mahogany", "mahogany", richard, 0.05, 0.95, 3.5, true},
		{"P13-spruce", "spruce", richard, 0.05, 0.95, 3.5, false},
		{"P13-spruce-tree", "spruce", spruceTree, 0.067, 0.934, 5.778, true},
	} {
		w, err := Lookup(c.wood)
		if err != nil {
			return nil, nil, err
		}
		p, err := w.Property(Swelling, "T")
		if err != nil {
			return nil, nil, err
		}
		iso := w.Sorption().Mean
		du := float64(iso.MC(moisture.RH(c.to), 20)-iso.MC(moisture.RH(c.from), 20)) * 100
		row := band(c.id, fmt.Sprintf("tangential movement of %s from %.3g to %.3g %% RH", c.wood, 100*c.from, 100*c.to),
			"%", c.source, c.want, du*p.Low, du*p.High, 2.5)
		if c.fits {
			rows = append(rows, row)
			continue
		}
		findings = append(findings, Finding{ID: row.ID, What: row.What, Unit: row.Unit, Source: row.Source,
			Measured: c.want, Low: du * p.Low, High: du * p.High,
			Remark: "another tree of spruce moved 5.8 % between 6.7 and 93.4 % RH: the two sources disagree by 1.6 times, neither is tuned to"})
	}
	return rows, findings, nil
}
