package restraint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Beam on two supports, 5 q L^4/(384 D) and q L^2/8, each way of the grain (S. Timoshenko, Strength of
// Materials, part I).
func TestCarried(t *testing.T) {
	p := wood(800, 1200, 12)
	q := 440 * Gravity * 1e-9 * 12
	sides, err := p.Carried(440, ByTheSides, 0)
	require.NoError(t, err)
	assert.InEpsilon(t, 5*q*math.Pow(800, 4)/(384*490*1728/12), sides.Deflection, 1e-9)
	assert.InEpsilon(t, 6*q*800*800/8/144, sides.Stress, 1e-9)
	ends, err := p.Carried(440, ByTheEnds, 0)
	require.NoError(t, err)
	assert.InEpsilon(t, sides.Deflection*math.Pow(1.5, 4)/20, ends.Deflection, 1e-9, "longer, but twenty times as stiff")
	// battens as stiff as the panel halve the sag and its stress
	own := 490.0 * 1728 / 12 * 1200
	half, err := p.Carried(440, ByTheSides, own)
	require.NoError(t, err)
	assert.InEpsilon(t, sides.Deflection/2, half.Deflection, 1e-9)
	assert.InEpsilon(t, sides.Stress/2, half.Stress, 1e-9)
	e := eased()
	e.E = [2]float64{490, 490}
	assert.InEpsilon(t, half.Deflection, e.sag(own/3, own/3)[0], 1e-9, "three battens, the same answer by the design")
	p.T = 5
	thin, err := p.Carried(440, ByTheSides, 0)
	require.NoError(t, err)
	assert.Equal(t, Outside, thin.Reach)
	for _, bad := range []func() error{
		func() error { _, err := (Plate{}).Carried(440, ByTheSides, 0); return err },
		func() error { _, err := p.Carried(0, ByTheSides, 0); return err },
		func() error { _, err := p.Carried(440, 2, 0); return err },
		func() error { _, err := p.Carried(440, ByTheEnds, -1); return err },
	} {
		assert.Error(t, bad())
	}
}

func TestLain(t *testing.T) {
	w := Weight{E: 490, T: 10, Span: 900, Density: 440}
	l, err := w.Lain([]float64{150, 750}, [2]float64{2, 3})
	require.NoError(t, err)
	assert.InEpsilon(t, 2*l.Short.Deflection, l.Sag[0], 1e-12)
	soft := w
	soft.E /= 3
	b, err := soft.On([]float64{150, 750})
	require.NoError(t, err)
	assert.InEpsilon(t, b.Deflection, l.Sag[1], 1e-9, "a third of the modulus")
	assert.InEpsilon(t, b.Stress, l.Short.Stress, 1e-9, "the stress stays")
	_, err = w.Lain([]float64{150, 750}, [2]float64{0.5, 1})
	assert.Error(t, err)
	_, err = w.Lain(nil, [2]float64{1, 1})
	assert.Error(t, err)
}

func TestRoomInTheFrame(t *testing.T) {
	s := Swing{Dry: -0.01, Damp: 0.008, Doubt: 0.001}
	r, err := s.Frame(600, 12, [2]float64{-3, 5}, 1)
	require.NoError(t, err)
	assert.InDelta(t, 600+4.8+0.6+2, r.Width, 1e-9, "hand")
	assert.InDelta(t, 12+5+1, r.Depth, 1e-9, "hand")
	assert.InDelta(t, 607.4-(600-6-0.6), r.Cover, 1e-9, "hand")
	// the frame so made does not bind at the damp end, and has play left
	f := Fit{Clear: r.Width, Width: 600, E: 490, T: 12, FrameSide: math.Inf(1)}
	b, err := f.At(s.Damp + s.Doubt)
	require.NoError(t, err)
	assert.Equal(t, 0.0, b.Force)
	assert.InDelta(t, 2, b.Clearance, 1e-9)
	_, err = s.Frame(0, 12, [2]float64{}, 0)
	assert.Error(t, err)
	_, err = Swing{Dry: 1}.Frame(600, 12, [2]float64{}, 0)
	assert.Error(t, err)
}
