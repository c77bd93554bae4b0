package species

import "fmt"

// Finding is a measured case that the package does not meet with its inputs inside their stated
// ranges. It is kept apart from the checks and shown as it is; nothing is tuned to it.
type Finding struct {
	ID, What, Unit, Source string
	Measured               float64
	Low, High              float64 // what is predicted
	Remark                 string
}

// Findings returns what measured wood contradicts: the total movement of one spruce (P13), the
// slope of the spruce default (D1-c: within 15 % was asked), and moisture factors of lime outside
// the band for an unknown wood (P23).
func Findings() ([]Finding, error) {
	_, out, err := totalMovement()
	if err != nil {
		return nil, err
	}
	slopes, err := slopeFindings()
	if err != nil {
		return nil, err
	}
	cases, err := factorCases()
	if err != nil {
		return nil, err
	}
	out = append(out, slopes...)
	for _, c := range cases {
		if c.fits {
			continue
		}
		out = append(out, Finding{ID: c.id, What: fmt.Sprintf("share left from %g to %g %% MC, %s", c.from, c.to, c.what), Unit: "-",
			Source: c.source, Measured: c.want, Low: drop(c.steep, c.from, c.to), High: drop(c.flat, c.from, c.to),
			Remark: "just outside the band for an unknown wood; lime itself takes its own measured factors"})
	}
	return out, nil
}

// slopeFindings compare the slope from ovendry to the dampest step with the default and with the
// coefficient of bratasz_gab, each widened by the 15 % that a good prediction should reach.
func slopeFindings() ([]Finding, error) {
	gab, ok := find("bratasz_gab", "wood", "spruce")
	if !ok {
		return nil, fmt.Errorf("bratasz_gab has no spruce")
	}
	mc, err := measured("8", "mc_pct")
	if err != nil {
		return nil, err
	}
	var out []Finding
	for _, d := range [...]struct{ dir, strain, column string }{
		{"R", "strain_r_pct", "radial_pct_per_pct_mc"}, {"T", "strain_t_pct", "tangential_pct_per_pct_mc"},
	} {
		e, err := measured("8", d.strain)
		if err != nil {
			return nil, err
		}
		p, err := swelling("spruce", d.dir)
		if err != nil {
			return nil, err
		}
		printed, _ := gab.Float(d.column)
		for _, c := range [...]struct {
			of string
			v  float64
		}{{"the default", p.Value}, {"bratasz_gab", printed}} {
			if slope := e / mc; slope < 0.85*c.v || slope > 1.15*c.v {
				out = append(out, Finding{ID: "D1-c-" + d.dir, What: "slope of movement " + d.dir + " of spruce against " + c.of, Unit: "%/%MC",
					Source: spruceTree, Measured: slope, Low: 0.85 * c.v, High: 1.15 * c.v,
					Remark: fmt.Sprintf("more than 15 %% from %.3g; inside the stated spread of the default", c.v)})
			}
		}
	}
	return out, nil
}
