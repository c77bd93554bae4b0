package moisture

import (
	"fmt"
	"math"
	"strings"

	"crossgrain/tables"
)

// isothermChecks covers the rows EMC, GAB and HYS.
func isothermChecks(t *tables.Table, g got) error {
	hh := HailwoodHorrobin{}
	emc := func(p []float64) (float64, error) { return hh.MC(Percent(p[1]), Celsius(p[0])).Percent(), nil }
	each(t, g, "EMC-WH-%g-%g", emc)
	each(t, g, "EMC-HH-%g-%g", emc)
	each(t, g, "EMC-INV-%g", func(p []float64) (float64, error) {
		h, err := hh.RH(MC(p[0]/100), 20)
		return float64(h), err
	})
	each(t, g, "EMC-SLOPE-%g", func(p []float64) (float64, error) { return 100 * hh.Slope(Percent(p[0]), 20), nil })
	return woodChecks(t, g)
}

// woodChecks covers the rows of single woods, with constants from the printed table.
func woodChecks(t *tables.Table, g got) error {
	woods, err := printedGAB()
	if err != nil {
		return err
	}
	for _, r := range t.Rows {
		id := r.Text("id")
		part := strings.Split(id, "-")
		switch {
		case part[0] == "GAB" && part[1] == "AD":
			b := woods[part[2]]
			g.plain(id, func() float64 { return b.ads(0.5) / b.des(0.5) })
		case part[0] == "GAB":
			b := woods[part[1]]
			var rh float64
			if _, err := fmt.Sscanf(part[2][1:], "%g", &rh); err != nil {
				return fmt.Errorf("check %s: %w", id, err)
			}
			curve := map[byte]Isotherm{'A': b.Ads, 'D': b.Des}[part[2][0]]
			g.plain(id, func() float64 { return curve.MC(Percent(rh), 0).Percent() })
		}
	}
	hysteresisChecks(woods["poplar"], g)
	return nil
}

func hysteresisChecks(b Branches, g got) {
	rode := func(path ...float64) func() float64 {
		return func() float64 {
			r := Rode{U: b.ads(path[0]), At: path[0]}
			for _, h := range path[1:] {
				r.Go(&b, h)
			}
			return 100 * r.U
		}
	}
	g.plain("HYS-R1", rode(0.65, 0.35))
	g.plain("HYS-R2", rode(0.65, 0.35, 0.65))
	g.plain("HYS-R4", rode(0.50, 0.40))
	g.plain("HYS-M1", func() float64 { return ScanDrying(0.08, 0.098, 0.115, 0.28) })
	g.plain("HYS-M2", func() float64 { return ScanWetting(0.16, 0.115, 0.135, 0.28) })
}

func bareFront() Faces { return Faces{Front: math.Inf(1)} }
