package moisture

import "fmt"

// RH is relative humidity as a fraction, 0 to 1.
type RH float64

// Percent makes an RH from a number in per cent.
func Percent(p float64) RH { return RH(p / 100) }

// Percent returns the humidity in per cent.
func (h RH) Percent() float64 { return 100 * float64(h) }

func (h RH) String() string { return fmt.Sprintf("%.3g %% RH", h.Percent()) }

// MC is moisture content as a fraction of the dry mass, kg/kg.
type MC float64

// Percent returns the moisture content in per cent of the dry mass.
func (u MC) Percent() float64 { return 100 * float64(u) }

func (u MC) String() string { return fmt.Sprintf("%.3g %% MC", u.Percent()) }

// Celsius is a temperature in degrees Celsius.
type Celsius float64

// Kelvin returns the absolute temperature.
func (t Celsius) Kelvin() float64 { return float64(t) + 273.15 }

func (t Celsius) String() string { return fmt.Sprintf("%.3g °C", float64(t)) }

// Isotherm gives the moisture content of wood in balance with air.
type Isotherm interface {
	// MC returns the balance at RH 0..1; NaN outside.
	MC(RH, Celsius) MC
	// Slope returns d MC / d RH, kg/kg per unit of RH.
	Slope(RH, Celsius) float64
	// RH returns the humidity that gives the moisture content, or a *tables.RangeError.
	RH(MC, Celsius) (RH, error)
}
