package moisture

// Mean is the curve midway between two isotherms, as between wetting and drying.
type Mean struct{ A, B Isotherm }

// MC returns the mean of both moisture contents in kg/kg at RH 0..1 and t in °C; NaN outside 0..1.
func (m Mean) MC(h RH, t Celsius) MC { return (m.A.MC(h, t) + m.B.MC(h, t)) / 2 }

// Slope returns the mean of both slopes, kg/kg per unit of RH; NaN outside RH 0..1.
func (m Mean) Slope(h RH, t Celsius) float64 { return (m.A.Slope(h, t) + m.B.Slope(h, t)) / 2 }

// RH returns the humidity (0..1) that gives the moisture content u (kg/kg) at t in °C, or a
// *tables.RangeError naming the moisture contents that can be reached.
func (m Mean) RH(u MC, t Celsius) (RH, error) { return invert(m, u, t) }

// Scaled is an isotherm multiplied by a factor (1 = unchanged), as for the uncertainty of a curve.
type Scaled struct {
	Of     Isotherm
	Factor float64 // > 0
}

// MC returns the scaled moisture content in kg/kg at RH 0..1 and t in °C; NaN outside 0..1.
func (s Scaled) MC(h RH, t Celsius) MC { return MC(s.Factor) * s.Of.MC(h, t) }

// Slope returns the scaled slope, kg/kg per unit of RH; NaN outside RH 0..1.
func (s Scaled) Slope(h RH, t Celsius) float64 { return s.Factor * s.Of.Slope(h, t) }

// RH returns the humidity (0..1) that gives the moisture content u (kg/kg) at t in °C, or a
// *tables.RangeError naming the moisture contents that can be reached.
func (s Scaled) RH(u MC, t Celsius) (RH, error) {
	if err := reachable(s, u, t); err != nil {
		return 0, err
	}
	v := u / MC(s.Factor)
	v = min(max(v, s.Of.MC(0, t)), s.Of.MC(1, t)) // rounding of the division at the two ends
	return s.Of.RH(v, t)
}

// invert finds the humidity at which a rising isotherm holds u.
func invert(iso Isotherm, u MC, t Celsius) (RH, error) {
	if err := reachable(iso, u, t); err != nil {
		return 0, err
	}
	return RH(root(0, 1, func(h float64) (v, slope float64) {
		return float64(iso.MC(RH(h), t) - u), iso.Slope(RH(h), t)
	})), nil
}
