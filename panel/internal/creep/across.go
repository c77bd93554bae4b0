package creep

import (
	"fmt"
	"math"
)

// Across returns the chain across the strip of wood whose rings stand at ringAngle degrees to the
// face (90 quarter-sawn: the strain runs radially; 0 flat-sawn: tangentially), from the chains of
// spruce at 35, 65 or 90 % RH:
//
//	g = g_R sin^2(ring angle) + g_T cos^2(ring angle)
//
// The rule between the two is an assumption: rolling shear, which softens wood at 45 degrees, creeps
// less (sum of g 0.5 to 0.65 at 65 % RH in the same data, against 1.1 and 2.0).
func Across(ringAngle float64, s Sense, rhPct int) (Chain, error) {
	if !(ringAngle >= 0 && ringAngle <= 90) {
		return Chain{}, fmt.Errorf("ring angle must be 0 to 90 degrees, got %g", ringAngle)
	}
	r, err := Spruce(Radial, s, rhPct)
	if err != nil {
		return Chain{}, err
	}
	t, err := Spruce(Tangential, s, rhPct)
	if err != nil {
		return Chain{}, err
	}
	w := math.Pow(math.Sin(ringAngle*math.Pi/180), 2)
	g := make([]float64, len(r.G))
	for k := range g {
		g[k] = w*r.G[k] + (1-w)*t.G[k]
	}
	return Chain{Tau: spruceTau(), G: g}, nil
}

// Slices returns the moisture-driven elements of thin slices of spruce, the low end of what was
// seen: one slow element and two small quick ones, as ratios to the elastic strain at 12 % moisture
// content. At half the strength, R creeps more than in proportion; the values are those at 30 % in R
// and 40 % in T.
//
// Source: means over specimens, worked out here from Ferrara & Wittel 2025 (open data, MIT,
// https://github.com/alessiafe/Mesoscale-Creep-Evaluation-Routines, commit 0863aafdba82):
// compliances of 0.00, 0.33, 2.86 (R, five of 30 %) and 0.52, 1.45, 19.82 1/GPa (T, four), elastic 2.347 and 3.393 1/GPa
// at 65 % RH.
func Slices(d Direction) []MoistureDriven {
	c, j0 := [3]float64{0.52, 1.45, 19.82}, 3.393
	if d == Radial {
		c, j0 = [3]float64{0.00, 0.33, 2.86}, 2.347
	}
	return []MoistureDriven{{c[0] / j0, 0.01}, {c[1] / j0, 0.10}, {c[2] / j0, 1.00}}
}

// Blocks returns the moisture-driven element of small clear blocks, the high end of what was seen:
// 10 times the elastic strain after many cycles of humidity (Svensson & Toratti 2002), for both
// directions. The path was not printed: 0.1 kg/kg is an assumption, with which 5 times is reached
// after a way of 0.07 kg/kg.
func Blocks() []MoistureDriven { return []MoistureDriven{{M: 10, Path: 0.1}} }
