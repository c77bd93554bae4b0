package moisture

import "math"

// HailwoodHorrobin is the two-hydrate sorption equation with the constants printed for wood:
//
//	M = 1800/W * [K h/(1-K h) + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2)]  per cent
//
// One curve for all woods. The wood behind it was spruce dried under swinging vapour pressure, so
// it lies about midway between wetting and drying. The equation is evaluated for every RH 0..1 and
// gives a finite value at saturation; [HailwoodHorrobin.InTable] tells where it is backed by the
// printed table.
//
// Source: Glass and Zelinka 2010, Wood Handbook FPL-GTR-190, ch. 4, eq. (4-5), p. 4-3, set for °C.
type HailwoodHorrobin struct{}

// Ends of the printed table 4-2 of the source, as read.
const (
	tableColdest Celsius = -1.1 // 30 °F
	tableHottest Celsius = 93.3 // 200 °F
	tableDriest  RH      = 0.05
	tableDampest RH      = 0.95
)

// InTable says whether the humidity (0..1) and temperature (°C) lie inside the printed table
// (-1.1 to 93.3 °C, 5 to 95 % RH). Outside, the equation is an extrapolation and the caller should
// say so.
func (HailwoodHorrobin) InTable(h RH, t Celsius) bool {
	return h >= tableDriest && h <= tableDampest && t >= tableColdest && t <= tableHottest
}

// MC returns the moisture content in kg/kg at RH 0..1 and t in °C; NaN for RH outside 0..1.
func (HailwoodHorrobin) MC(h RH, t Celsius) MC {
	if !inUnit(h) {
		return MC(math.NaN())
	}
	w, k, k1, k2 := hydrate(float64(t))
	x := k * float64(h)
	num, den := k1*x+2*k1*k2*x*x, 1+k1*x+k1*k2*x*x
	return MC(18 / w * (x/(1-x) + num/den)) // eq. (4-5), p. 4-3; 18 for 1800: fraction, not per cent
}

// Slope returns dM/dh, kg/kg per unit of RH, at RH 0..1 and t in °C; NaN for RH outside 0..1.
func (HailwoodHorrobin) Slope(h RH, t Celsius) float64 {
	if !inUnit(h) {
		return math.NaN()
	}
	w, k, k1, k2 := hydrate(float64(t))
	x := k * float64(h)
	num, den := k1*x+2*k1*k2*x*x, 1+k1*x+k1*k2*x*x
	dnum, dden := k1+4*k1*k2*x, k1+2*k1*k2*x
	return 18 / w * k * (1/((1-x)*(1-x)) + (dnum*den-num*dden)/(den*den))
}

// RH returns the humidity (0..1) that gives the moisture content u (kg/kg) at t in °C, or a
// *tables.RangeError naming the moisture contents the equation can reach.
func (e HailwoodHorrobin) RH(u MC, t Celsius) (RH, error) { return invert(e, u, t) }

// hydrate returns the four temperature-dependent constants of eq. (4-5) for t in °C; a public
// reprint has -2.73e-7 in k, the book -2.73e-6.
func hydrate(t float64) (w, k, k1, k2 float64) {
	return 349 + 1.29*t + 0.0135*t*t,
		0.805 + 0.000736*t - 0.00000273*t*t,
		6.27 - 0.00938*t - 0.000303*t*t,
		1.91 + 0.0407*t - 0.000293*t*t
}

func inUnit(h RH) bool { return h >= 0 && h <= 1 }
