package restraint

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A member pulled towards the panel in its middle and held at its ends: P L/4 and P L^3/(48 EI); and one
// that is pressed together at its face alone: a constant moment P face, hollow towards the panel, sag M L^2/(8 EI). Beam theory (S. Timoshenko,
// Strength of Materials, part I). Half the depth sags eight times as much.
func TestBarBend(t *testing.T) {
	bar := Bar{E: 10000, Width: 40, Depth: 20}
	at := []float64{0, 250, 500}
	b := bar.Bend(at, []float64{0, 0, 0}, []float64{-50, 100, -50}, 10, nil)
	ei := 10000.0 * 40 * 8000 / 12
	assert.InEpsilon(t, 100*500.0/4, b.Moment, 1e-12)
	assert.InEpsilon(t, 100*500.0*500*500/(48*ei), b.Sag, 1e-12)
	half := Bar{E: 10000, Width: 40, Depth: 10}.Bend(at, []float64{0, 0, 0}, []float64{-50, 100, -50}, 5, nil)
	assert.InEpsilon(t, 8*b.Sag, half.Sag, 1e-12)
	face := bar.Bend(at, []float64{30, 0, -30}, []float64{0, 0, 0}, 10, nil)
	assert.InEpsilon(t, -300, face.Moment, 1e-12)
	assert.InEpsilon(t, -300*500.0*500/(8*ei), face.Sag, 1e-12)
	bar.G = 700
	soft := bar.Bend(at, []float64{0, 0, 0}, []float64{-50, 100, -50}, 10, nil)
	assert.InEpsilon(t, b.Sag+100*500.0/(4*5.0/6*700*800), soft.Sag, 1e-12, "P L/(4 G A 5/6) by shear")
	bar.HoldsFlat = true
	assert.Zero(t, bar.Bend(at, []float64{0, 0, 0}, []float64{-50, 100, -50}, 10, nil).Sag)
}
