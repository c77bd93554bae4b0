package profile

import (
	"errors"
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/tables"
)

// Transport is how vapour passes through the wood:
//
//	delta(h,T) = delta_air(T)/mu(h),   mu(h) = Mu exp(-Growth (h - 0.5))
type Transport struct {
	Mu     float64 // resistance against still air at 50 % RH, 1..1e5
	Growth float64 // 0..20; 0 is a constant mu
	// Saturation is the formula for saturated vapour.
	Saturation moisture.Saturation
}

func (t Transport) valid() error {
	return errors.Join(
		tables.InRange("mu of the wood", t.Mu, 1, 1e5, "", ""),
		tables.InRange("growth of permeability with humidity", t.Growth, 0, 20, "per unit of RH", ""))
}

// CupTests returns the transport of a wood from its resistance in the dry-cup test (mean of 25 % RH)
// and the wet-cup test (75 %), log-linear between and beyond (assumption). Source of the pair of
// tests: ISO 12572 (memory).
func CupTests(dry, wet float64) (Transport, error) {
	t := Transport{Mu: math.Sqrt(dry * wet), Growth: 2 * math.Log(dry/wet)}
	return t, t.valid()
}

// DeltaAir returns the permeability of still air to vapour, kg/(m s Pa), at t in °C and 101325 Pa:
// 2.306e-5 /(Rv T) (T/273.15)^1.81. Source: Schirmer 1938 (memory); 1.937e-10 at 20 °C.
func DeltaAir(t moisture.Celsius) float64 {
	k := t.Kelvin()
	return 2.306e-5 / (461.5 * k) * math.Pow(k/273.15, 1.81)
}

// Diffusion is a measured coefficient on a gradient of moisture content, with where it was measured.
type Diffusion struct {
	D  float64          // m2/s, 1e-13..1e-8
	RH moisture.RH      // humidity of the measurement, 0.02..0.98
	T  moisture.Celsius // its temperature, °C
}

// Calibrate returns the transport that has the measured coefficient at its humidity and temperature,
//
//	D = delta psat / (rho0 du/dh),
//
// for wood of the dry density (kg/m3) on the mean curve (nil is the handbook's), growing with
// humidity by the given rate. The spread of the coefficient is the caller's: calibrate each end of
// it. The error names what lies out of range.
func Calibrate(d Diffusion, density float64, mean moisture.Isotherm, growth float64) (Transport, error) {
	if mean == nil {
		mean = moisture.HailwoodHorrobin{}
	}
	t := Transport{Growth: growth}
	psat, errT := t.Saturation.Pressure(d.T)
	err := errors.Join(errT,
		tables.InRange("diffusion coefficient", d.D, 1e-13, 1e-8, "m2/s", ""),
		tables.InRange("humidity of the measurement", d.RH.Percent(), 2, 98, "%", ""),
		tables.InRange("dry density", density, 100, 1500, "kg/m3", ""))
	if err != nil {
		return t, err
	}
	mu := DeltaAir(d.T) * psat / (density * mean.Slope(d.RH, d.T) * d.D)
	t.Mu = mu * math.Exp(growth*(float64(d.RH)-0.5))
	if err := t.valid(); err != nil {
		return t, fmt.Errorf("diffusion %.3g m2/s in wood of %.0f kg/m3: %w", d.D, density, err)
	}
	return t, nil
}

// Coefficient returns D (m2/s) that the transport amounts to at the humidity and temperature, in
// wood of the dry density (kg/m3) whose storage has the slope (kg/kg per unit of RH, above 0).
func (t Transport) Coefficient(c Climate, density, slope float64) (float64, error) {
	psat, err := t.Saturation.Pressure(c.T)
	if err != nil {
		return 0, err
	}
	return DeltaAir(c.T) * t.conductivity(float64(c.RH)) * psat / (density * slope), nil
}

// conductivity is 1/mu(h).
func (t Transport) conductivity(h float64) float64 { return math.Exp(t.Growth*(h-0.5)) / t.Mu }

// potential is the integral of 1/mu.
func (t Transport) potential(h float64) float64 {
	if t.Growth < 1e-6 {
		return h / t.Mu
	}
	return math.Exp(t.Growth*(h-0.5)) / (t.Growth * t.Mu)
}
