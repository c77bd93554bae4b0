package species

import (
	"crossgrain/moisture"
	"crossgrain/tables"
)

const (
	// Wetting over drying curve at 50 % RH is 0.79 in the mean of the ten woods whose own curves are
	// used here (0.82 over all 17 woods of bratasz_gab, 1.00 of larch among them; a test computes
	// both); about a mean curve of 1 that is 0.89 and 1.11.
	wettingShare = 0.89
	dryingShare  = 1.11
	// The branches of one wood do not meet at 100 % RH (poplar 21 and 24 % MC), yet above about 98 %
	// RH water condenses in the cell cavities and the curves lose their meaning: taken to meet
	// there. Assumption.
	closureRH moisture.RH = 0.98
)

// Sorption returns how the wood takes up water. A wood with a sound pair of curves in table
// bratasz_gab has them as branches and their mean as the curve that decides. Every other wood has
// the handbook curve, which stands for all woods, with branches 0.89 and 1.11 times it.
func (w *Wood) Sorption() Sorption {
	ads, ok1 := gab(w.row.Text("gab"), "ads")
	des, ok2 := gab(w.row.Text("gab"), "des")
	if ok1 && ok2 {
		return Sorption{
			Mean:     moisture.Mean{A: ads, B: des},
			Branches: moisture.Branches{Ads: ads, Des: des, Closure: closureRH},
			Source:   "BRATASZ-FIRENZE", Grade: tables.One,
		}
	}
	var all moisture.HailwoodHorrobin
	return Sorption{
		Mean: all,
		Branches: moisture.Branches{
			Ads: moisture.Scaled{Of: all, Factor: wettingShare}, Des: moisture.Scaled{Of: all, Factor: dryingShare},
			Closure: closureRH, T: 20,
		},
		Source: "FPL-GTR190", Grade: tables.Estimate, Borrowed: "handbook curve, all woods",
	}
}

// gab reads one branch of table bratasz_gab.
func gab(wood, branch string) (moisture.GAB, bool) {
	if wood == "" {
		return moisture.GAB{}, false
	}
	for _, r := range tables.MustRead("bratasz_gab").Rows {
		if r.Text("wood") != wood || r.Text("branch") != branch {
			continue
		}
		vm, ok1 := r.Float("vm_pct")
		c, ok2 := r.Float("c")
		k, ok3 := r.Float("k")
		return moisture.GAB{Vm: vm / 100, C: c, K: k}, ok1 && ok2 && ok3
	}
	return moisture.GAB{}, false
}
