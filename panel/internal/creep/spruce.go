package creep

import (
	"fmt"
	"math"
)

// Direction is the direction of stress across the grain.
type Direction string

// The directions.
const (
	Radial     Direction = "R"
	Tangential Direction = "T"
)

// Sense is pulling or pressing.
type Sense int

// The senses.
const (
	Tension Sense = iota
	Compression
)

const hour = 3600.0

// spruceTau are the retardation times of all chains of the data set, s: 2, 20, 200, 2000 h.
func spruceTau() []float64 { return []float64{2 * hour, 20 * hour, 200 * hour, 2000 * hour} }

// spruceRow is one mean chain of Norway spruce.
type spruceRow struct {
	dir   Direction
	sense Sense
	rh    int // per cent
	g     [4]float64
}

// spruce holds the mean coefficients, axial strain component, of Maas & Wittel, "From Elasticity to
// Creep: Orthotropic moisture-dependent Rheology of Norway Spruce" (Holzforschung, in press), open
// data https://github.com/chesali/wood-rheology, commit 4d9dff1ac191, CC BY 4.0. One tree. The
// scatter of single coefficients is as large as the means.
var spruce = [...]spruceRow{
	{Tangential, Tension, 35, [4]float64{0.5556, 0.0194, 0.0849, 1.3907}},
	{Tangential, Tension, 65, [4]float64{0.6051, 0.2906, 0.3483, 0.7073}},
	{Tangential, Tension, 90, [4]float64{0.8925, 1.2678, 1.3816, 0.0000}},
	{Radial, Tension, 35, [4]float64{0.1740, 0.1068, 0.0000, 0.6404}},
	{Radial, Tension, 65, [4]float64{0.3054, 0.1757, 0.2974, 0.3371}},
	{Radial, Tension, 90, [4]float64{0.8118, 0.9919, 1.2985, 0.0001}},
	{Tangential, Compression, 35, [4]float64{0.3893, 0.8222, 0.6086, 0.7250}},
	{Tangential, Compression, 65, [4]float64{0.4240, 0.2394, 0.5385, 0.9791}},
	{Tangential, Compression, 90, [4]float64{0.7332, 0.5161, 1.2594, 0.1921}},
	{Radial, Compression, 35, [4]float64{0.2208, 0.2585, 0.5189, 0.5765}},
	{Radial, Compression, 65, [4]float64{0.2751, 0.2387, 0.4053, 0.9708}},
	{Radial, Compression, 90, [4]float64{0.4484, 0.3997, 1.6400, 0.0080}},
}

// Spruce returns the mean chain of Norway spruce across the grain at 35, 65 or 90 % RH. Another
// humidity or direction is an error: between them nothing was measured.
//
// Source: Maas & Wittel, open data, see the table in this file.
func Spruce(d Direction, s Sense, rhPct int) (Chain, error) {
	for i := range spruce {
		if r := &spruce[i]; r.dir == d && r.sense == s && r.rh == rhPct {
			return Chain{Tau: spruceTau(), G: r.g[:]}, nil
		}
	}
	return Chain{}, fmt.Errorf("creep chain of spruce must be for R or T, tension or compression, at 35, 65 or 90 %% RH, got %q at %d", d, rhPct)
}

// Left returns the share of an elastic stress that is left after a strain has been held for the
// given seconds: 1 at once, about 0.4 after a month, never below the end of the chain (0.34 in T,
// 0.47 in R). It takes the chain of spruce at 65 % RH for every wood, for want of others
// (assumption). An unknown direction gives NaN.
//
// Source: Maas & Wittel, open data; accuracy of the solution 1e-9.
func Left(d Direction, s Sense, seconds float64) float64 {
	c, err := Spruce(d, s, 65)
	if err != nil {
		return math.NaN()
	}
	return c.Relaxation(seconds)
}
