package fracture

import (
	"fmt"
	"math"

	"crossgrain/tables"
)

// GessoLaw says after how many swings a brittle ground of glue and chalk or gypsum first cracks:
//
//	eps(N) = Single - Slope log10 N,   N = 10^((Single - eps)/Slope)
//
// Its numbers were written down from memory and not seen: low confidence. It may be told, apart, and
// must set neither a range nor a rank.
type GessoLaw struct {
	Single      float64    // strain that cracks it at once
	Slope       [2]float64 // loss of strain for each tenfold number of swings: mild, harsh
	FromMemory  bool       // the numbers were not seen in a source
	Yield       float64    // strain at which paint, glue and wood yield (Richard, Mecklenburg & Tumosa 1998)
	Brittle     float64    // the same of a brittle traditional gesso (ibid.)
	YieldSource string
}

// Gesso returns the law and the limits of the table limits. It returns an error where a row is not there.
func Gesso() (GessoLaw, error) {
	var l GessoLaw
	rows, err := limitRows("gesso_crack_single", "gesso_fatigue_slope", "slow_yield", "gesso_yield")
	if err != nil {
		return l, err
	}
	single, slope, yield, brittle := rows[0], rows[1], rows[2], rows[3]
	l.Single, _ = single.Float("value")
	l.Slope[0], _ = slope.Float("low")
	l.Slope[1], _ = slope.Float("high")
	l.Yield, _ = yield.Float("value")
	l.Brittle, _ = brittle.Float("value")
	l.FromMemory = single.Text("status") == "memory" || slope.Text("status") == "memory"
	l.YieldSource = brittle.Text("source")
	if !(l.Single > 0 && l.Slope[0] > 0 && l.Slope[1] >= l.Slope[0] && l.Yield > 0 && l.Brittle > 0) {
		return l, fmt.Errorf("fracture: limits of gesso must be above 0, got %+v", l)
	}
	return l, nil
}

func limitRows(names ...string) ([]tables.Row, error) {
	all, err := tables.Read("limits")
	if err != nil {
		return nil, err
	}
	out := make([]tables.Row, len(names))
next:
	for i, name := range names {
		for _, r := range all.Rows {
			if r.Text("limit") == name {
				out[i] = r
				continue next
			}
		}
		return nil, fmt.Errorf("fracture: table limits has no row %s", name)
	}
	return out, nil
}

// Swings returns after how many swings of the given range of strain the ground first cracks, harsh and
// mild: 1 from Single on, +Inf for no swing.
func (l GessoLaw) Swings(strain float64) (harsh, mild float64) {
	if !(strain > 0) {
		return math.Inf(1), math.Inf(1)
	}
	n := func(k float64) float64 { return math.Pow(10, max(0, l.Single-strain)/k) }
	return n(l.Slope[1]), n(l.Slope[0])
}

// Damage is the sum of swings over the swings that crack (Palmgren and Miner's rule; memory): 1 = first
// cracks. Low takes the mild slope and only what of each swing stretches the ground, High the harsh one
// and the whole of each swing.
type Damage struct{ Low, High float64 }

// Of returns the damage of a cycle of the ground's strain, stretched positive.
func (l GessoLaw) Of(c Cycle) Damage {
	low, high := c.Ends()
	harsh, _ := l.Swings(c.Range)
	_, mild := l.Swings(max(0, high) - max(0, low))
	return Damage{Low: c.Count / mild, High: c.Count / harsh}
}

// Plus adds.
func (d Damage) Plus(o Damage) Damage { return Damage{d.Low + o.Low, d.High + o.High} }
