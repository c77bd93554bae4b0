package moisture

import (
	"fmt"
	"math"

	"crossgrain/tables"
	"crossgrain/tables/verify"
)

// printedGAB reads the boundary curves of the printed table, by the wood's name there. The curves
// have no temperature term; the closure is left at 1.
func printedGAB() (map[string]Branches, error) {
	t, err := tables.Read("bratasz_gab")
	if err != nil {
		return nil, err
	}
	out := map[string]Branches{}
	for _, r := range t.Rows {
		vm, ok1 := r.Float("vm_pct")
		c, ok2 := r.Float("c")
		k, ok3 := r.Float("k")
		if !ok1 || !ok2 || !ok3 {
			return nil, fmt.Errorf("%s:%d: vm_pct, c and k must be numbers", t.Name, r.Line)
		}
		b := out[r.Text("wood")]
		switch g := (GAB{Vm: vm / 100, C: c, K: k}); r.Text("branch") {
		case "ads":
			b.Ads = g
		case "des":
			b.Des = g
		}
		out[r.Text("wood")] = b
	}
	return out, nil
}

// printedTable makes one row for each temperature of the printed table: the largest difference of
// the equation from any of its cells. The cells are printed to 0.1 % MC.
func printedTable() ([]verify.Row, error) {
	t, err := tables.Read("handbook_2010_t4_2_emc")
	if err != nil {
		return nil, err
	}
	var out []verify.Row
	worst := map[float64]float64{} // by °F
	for _, r := range t.Rows {
		f, ok1 := r.Float("temp_f")
		h, ok2 := r.Float("rh_pct")
		m, ok3 := r.Float("emc_pct")
		if !ok1 || !ok2 || !ok3 {
			return nil, fmt.Errorf("%s:%d: temp_f, rh_pct and emc_pct must be numbers", t.Name, r.Line)
		}
		if _, seen := worst[f]; !seen {
			out = append(out, temperatureRow(f, worst))
		}
		d := HailwoodHorrobin{}.MC(Percent(h), Celsius((f-32)/1.8)).Percent() - m
		worst[f] = max(worst[f], math.Abs(d))
	}
	return out, nil
}

func temperatureRow(f float64, worst map[float64]float64) verify.Row {
	return verify.Row{
		ID:   fmt.Sprintf("EMC-T42-%g", f),
		What: fmt.Sprintf("largest difference of eq. 4-5 from the printed column at %g °F, 5 to 95 %% RH", f),
		Unit: "% MC", Kind: verify.Printed, Want: 0, Tol: 0.06,
		Source: "FPL-GTR190, Table 4-2, p. 4-4 (rounding 0.05; temperatures of the table are rounded too)",
		Got:    func() (float64, error) { return worst[f], nil },
	}
}
