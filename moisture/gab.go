package moisture

import (
	"math"

	"crossgrain/tables"
)

// GAB is the sorption equation of Guggenheim, Anderson and de Boer:
//
//	u = Vm C K h / ((1 - K h)(1 - K h + C K h))
//
// Vm is the monolayer moisture content as a fraction (kg/kg; papers often print it in per cent), C
// and K are pure numbers; Vm > 0, C > 0 and 0 < K < 1 for a curve that rises over the whole range.
// It has no temperature term: the temperature argument of its methods is not used.
//
// Source: form and constants of woods, Bratasz, Kozlowski, Kozlowska and Rachwal, Sorption of
// moisture and dimensional change of wood species used in historic objects, Table 1.
type GAB struct {
	Vm float64 // kg/kg
	C  float64
	K  float64
}

// MC returns the moisture content in kg/kg at RH 0..1; NaN outside.
func (g GAB) MC(h RH, _ Celsius) MC {
	if !inUnit(h) {
		return MC(math.NaN())
	}
	x := g.K * float64(h)
	return MC(g.Vm * g.C * x / ((1 - x) * (1 - x + g.C*x)))
}

// Slope returns du/dh, kg/kg per unit of RH, at RH 0..1; NaN outside.
func (g GAB) Slope(h RH, _ Celsius) float64 {
	if !inUnit(h) {
		return math.NaN()
	}
	x := g.K * float64(h)
	den := (1 - x) * (1 - x + g.C*x)
	return g.K * g.Vm * g.C * (1 + (g.C-1)*x*x) / (den * den)
}

// RH returns the humidity that gives the moisture content u (kg/kg), from the quadratic in K h, or
// a *tables.RangeError naming the moisture contents between RH 0 and 1.
func (g GAB) RH(u MC, t Celsius) (RH, error) {
	if err := reachable(g, u, t); err != nil {
		return 0, err
	}
	// (C-1) u x^2 + (Vm C - (C-2) u) x - u = 0, x = K h, written for the root of least magnitude.
	w := float64(u)
	b := g.Vm*g.C - (g.C-2)*w
	x := 2 * w / (b + math.Sqrt(b*b+4*(g.C-1)*w*w))
	return RH(min(max(x/g.K, 0), 1)), nil
}

// reachable returns nil when u lies between the moisture contents of the isotherm at RH 0 and 1.
func reachable(iso Isotherm, u MC, t Celsius) error {
	return tables.InRange("moisture content", u.Percent(),
		iso.MC(0, t).Percent(), iso.MC(1, t).Percent(), "% MC", "ends of the sorption curve")
}
