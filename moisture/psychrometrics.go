package moisture

import (
	"fmt"
	"math"

	"crossgrain/tables"
)

// Saturation is a formula for the pressure of water vapour saturated over liquid water, by author.
// The zero value, Sonntag1994, is the one to use wherever two temperatures are compared; the Magnus
// form lies up to 0.3 % below it between 20 and 30 °C.
type Saturation int

// The formulas, with the temperatures for which they are stated.
const (
	// Sonntag1994: -100 to 100 °C. Source: Sonntag 1994, coefficients after Helten et al. 1999.
	Sonntag1994 Saturation = iota
	// MagnusWMO: -45 to 60 °C. Source: WMO Guide to Instruments (CIMO) 2008, annex 4.B.
	MagnusWMO
	// HylandWexler: 0 to 200 °C. Source: Hyland and Wexler 1983 as in ASHRAE Fundamentals, ch. 1,
	// eq. (6) (memory; agrees with the printed table of ASHRAE 2017 within 1.5e-4).
	HylandWexler
)

// Constants of humid air.
const (
	vapourRatio    = 0.621945 // molar mass of water / dry air; ASHRAE 2017, ch. 1
	vapourConstant = 2.16679  // g K/J; Vaisala, humidity conversion formulas
)

// String returns the author.
func (s Saturation) String() string {
	switch s {
	case Sonntag1994:
		return "Sonntag 1994"
	case MagnusWMO:
		return "Magnus, WMO 2008"
	case HylandWexler:
		return "Hyland and Wexler 1983"
	}
	return fmt.Sprintf("Saturation(%d)", int(s))
}

// Range returns the temperatures (°C) for which the formula is stated.
func (s Saturation) Range() (low, high Celsius) {
	switch s {
	case MagnusWMO:
		return -45, 60
	case HylandWexler:
		return 0, 200
	}
	return -100, 100
}

// Pressure returns the saturation pressure in Pa at t in °C, or a *tables.RangeError.
func (s Saturation) Pressure(t Celsius) (float64, error) {
	lo, hi := s.Range()
	if err := tables.InRange("temperature", float64(t), float64(lo), float64(hi), "°C", s.String()); err != nil {
		return 0, err
	}
	return s.pressure(t), nil
}

func (s Saturation) pressure(t Celsius) float64 {
	k := t.Kelvin()
	switch s {
	case MagnusWMO:
		return 611.2 * math.Exp(17.62*float64(t)/(243.12+float64(t)))
	case HylandWexler:
		return math.Exp(-5800.2206/k + 1.3914993 - 4.8640239e-2*k + 4.1764768e-5*k*k -
			1.4452093e-8*k*k*k + 6.5459673*math.Log(k))
	}
	return math.Exp(-6096.9385/k + 21.2409642 - 2.711193e-2*k + 1.673952e-5*k*k + 2.433502*math.Log(k))
}

// Vapour returns the vapour pressure in Pa of air at RH 0..1 and t in °C, or a *tables.RangeError.
func (s Saturation) Vapour(h RH, t Celsius) (float64, error) {
	if err := rangeRH(h); err != nil {
		return 0, err
	}
	p, err := s.Pressure(t)
	return float64(h) * p, err
}

// DewPoint returns the temperature in °C at which air of RH 0..1 and t in °C would be saturated
// over liquid water, or a *tables.RangeError, also where it would lie below the formula's range.
func (s Saturation) DewPoint(h RH, t Celsius) (Celsius, error) {
	e, err := s.Vapour(h, t)
	if err != nil {
		return 0, err
	}
	lo, _ := s.Range()
	least := s.pressure(lo)
	if err := tables.InRange("vapour pressure", e, least, s.pressure(t), "Pa", s.String()); err != nil {
		return 0, err
	}
	if s == MagnusWMO { // its inverse is known
		g := math.Log(e / 611.2)
		return Celsius(243.12 * g / (17.62 - g)), nil
	}
	const d = 1e-3 // °C, for the slope of ln p
	return Celsius(root(float64(lo), float64(t), func(x float64) (v, slope float64) {
		ln := math.Log(s.pressure(Celsius(x)))
		return ln - math.Log(e), (math.Log(s.pressure(Celsius(x+d))) - ln) / d
	})), nil
}

// RHAt returns the humidity at a surface of another temperature than the room (°C both, room air at
// RH 0..1), the vapour pressure being the same:
//
//	h psat(room) / psat(surface)
//
// A surface below the dew point gives a *tables.RangeError (water would condense).
func (s Saturation) RHAt(h RH, room, surface Celsius) (RH, error) {
	e, err := s.Vapour(h, room)
	if err != nil {
		return 0, err
	}
	p, err := s.Pressure(surface)
	if err != nil {
		return 0, err
	}
	if over := e/p - 1; over > 0 && over < 1e-12 { // rounding
		return 1, nil
	}
	return RH(e / p), tables.InRange("relative humidity at the surface", 100*e/p, 0, 100, "%",
		"above 100 % water condenses")
}

// MixingRatioWet returns the water in the air, kg per kg of dry air, from a dry and a wet bulb (°C,
// 0 °C or above) at pressure p in Pa, or a *tables.RangeError.
//
// Source: ASHRAE Fundamentals 2017, ch. 1, eq. (33) (constants from memory; worked example 1 agrees).
func (s Saturation) MixingRatioWet(dry, wet Celsius, p float64) (float64, error) {
	e, err := s.Pressure(wet)
	if err != nil {
		return 0, err
	}
	if err := tables.InRange("wet bulb", float64(wet), 0, float64(dry), "°C", "dry bulb above, ice below"); err != nil {
		return 0, err
	}
	ws, err := MixingRatio(e, p)
	if err != nil {
		return 0, err
	}
	td, tw := float64(dry), float64(wet)
	w := ((2501-2.326*tw)*ws - 1.006*(td-tw)) / (2501 + 1.86*td - 4.186*tw)
	return w, tables.InRange("mixing ratio", w, 0, ws, "kg/kg", "the bulbs contradict each other")
}

// MixingRatio returns the water in the air, kg per kg of dry air, for the vapour pressure e and the
// pressure p of the air in Pa (0 <= e < p), or a *tables.RangeError:
//
//	0.621945 e / (p - e)
//
// The enhancement factor of moist air is left out: up to 1 % low at 50 °C. Source: ASHRAE
// Fundamentals 2017, ch. 1.
func MixingRatio(e, p float64) (float64, error) {
	if err := tables.InRange("vapour pressure", e, 0, math.Nextafter(p, 0), "Pa", "below the pressure of the air"); err != nil {
		return 0, err
	}
	return vapourRatio * e / (p - e), nil
}

// AbsoluteHumidity returns the water in the air in g/m3 for the vapour pressure e in Pa (>= 0) at t
// in °C (above absolute zero): 2.16679 e/T. Source: Vaisala, humidity conversion formulas.
func AbsoluteHumidity(e float64, t Celsius) float64 { return vapourConstant * e / t.Kelvin() }

func rangeRH(h RH) error {
	return tables.InRange("relative humidity", h.Percent(), 0, 100, "%", "")
}
