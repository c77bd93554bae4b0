package species

import (
	"fmt"

	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// experiment returns a mean and its moisture content of the tables of the spruce tree.
func experiment(table string, where map[string]string, mean string) (v, mc float64, err error) {
	for _, r := range tables.MustRead(table).Rows {
		match := true
		for c, want := range where {
			match = match && r.Text(c) == want
		}
		if !match {
			continue
		}
		v, _ = r.Float(mean)
		mc, _ = r.Float("mc_pct")
		return v, mc, nil
	}
	return 0, 0, fmt.Errorf("%s has no row %v", table, where)
}

// drop is what is left at mc of the value at the other moisture, by a slope relative to 12 % MC.
func drop(slope, from, to float64) float64 {
	return (1 + slope*(to-12)/100) / (1 + slope*(from-12)/100)
}

type factorCase struct {
	id, what, source string
	from, to, want   float64
	steep, flat      float64
	fits             bool
}

// factorCases are measured losses of stiffness and strength with moisture (D1-e spruce, P23 lime) and
// the band for a wood of which nothing is known.
func factorCases() ([]factorCase, error) {
	const lime = "Konopka and others 2024, Holzforschung 78(3), 176-188, lime, abstract"
	var out []factorCase
	for _, f := range (&Wood{}).Factors() {
		if f.Property == StrengthCompress || f.Property == ShearModulus {
			continue
		}
		table, where := "experiments/maas_2026_elastic", map[string]string{"component": "E_" + f.Direction + f.Direction, "load_type": "tension"}
		mean := "mean"
		if f.Property == StrengthTension {
			table, where, mean = "experiments/maas_2026_strength", map[string]string{"direction": f.Direction, "loading": "tension"}, "mean_mpa"
		}
		v, mc, err := span65to95(table, where, mean)
		if err != nil {
			return nil, err
		}
		out = append(out, factorCase{"D1-e-" + f.Property + "-" + f.Direction, "spruce, " + f.Property + " " + f.Direction, spruceTree,
			mc[0], mc[1], v[1] / v[0], f.Low, f.High, true})
		left := map[string]float64{Modulus + "R": 0.48, Modulus + "T": 0.81, StrengthTension + "R": 0.75, StrengthTension + "T": 0.91}
		key := f.Property + f.Direction
		out = append(out, factorCase{"P23-" + f.Property + "-" + f.Direction, "lime, " + f.Property + " " + f.Direction, lime,
			10, 20, left[key], f.Low, f.High, key == Modulus+"T" || key == StrengthTension+"R"})
	}
	return out, nil
}

// span65to95 returns means and moisture contents at 65 and 95 % RH.
func span65to95(table string, where map[string]string, mean string) (v, mc [2]float64, err error) {
	for i, rh := range [...]string{"65.0", "95.0"} {
		where["rh_pct"] = rh
		if v[i], mc[i], err = experiment(table, where, mean); err != nil {
			return v, mc, err
		}
	}
	return v, mc, nil
}

func factorChecks() ([]verify.Row, error) {
	cases, err := factorCases()
	if err != nil {
		return nil, err
	}
	var rows []verify.Row
	for _, c := range cases {
		if !c.fits {
			continue
		}
		rows = append(rows, band(c.id, fmt.Sprintf("share left from %.3g to %.3g %% MC, %s, band for an unknown wood", c.from, c.to, c.what),
			"-", c.source, c.want, drop(c.steep, c.from, c.to), drop(c.flat, c.from, c.to), 2))
	}
	return rows, nil
}

// ratioChecks hold the rule "ratio of a relative times E_L" (Sitka spruce, Table 5-1) against the
// tree, within the 25 % that such a rule should reach (D1-e).
func ratioChecks() ([]verify.Row, error) {
	sitka, ok := find("handbook_2010_t5_1_elastic_ratios", "species", "Spruce, Sitka")
	if !ok {
		return nil, fmt.Errorf("table 5-1 has no Sitka spruce")
	}
	el, _, err := experiment("experiments/maas_2026_elastic", map[string]string{"component": "E_LL", "load_type": "tension", "rh_pct": "65.0"}, "mean")
	if err != nil {
		return nil, err
	}
	var rows []verify.Row
	for _, c := range [...]struct{ component, column string }{{"E_RR", "er_el"}, {"E_TT", "et_el"}} {
		want, _, err := experiment("experiments/maas_2026_elastic", map[string]string{"component": c.component, "load_type": "tension", "rh_pct": "65.0"}, "mean")
		if err != nil {
			return nil, err
		}
		r, _ := sitka.Float(c.column)
		rows = append(rows, verify.Row{ID: "D1-e-ratio-" + c.component, What: c.component + " of spruce at 65 % RH from E_L and the ratio of Sitka spruce",
			Unit: "MPa", Kind: verify.Measured, Source: spruceTree, Want: want, Tol: 0.25, Relative: true, Got: value(r * el)})
	}
	return rows, nil
}
