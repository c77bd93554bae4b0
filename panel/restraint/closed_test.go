package restraint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestClosedForms(t *testing.T) {
	hinged, _ := Rippling(4, 80, 0)
	clamped, _ := Rippling(4, 80, 1)
	sag := func(tk, span float64) Sag {
		// Poplar, E 490 MPa; 440 kg/m3 is the assumption under which the three sags were printed.
		s, err := Weight{E: 490, T: tk, Span: span, Density: 440}.Bend()
		require.NoError(t, err)
		return s
	}
	for _, c := range []struct {
		name           string
		got, want, tol float64
		source         string
	}{
		{"screw d 6, C24 to D50", SlipScrew(MeanDensity(420, 750), 6), 3469, 0.5, "Dlubal knowledge base 000873, printed 3469 kN/m"},
		{"EN 1995 nail is not the DIN one", SlipNailDriven(420, 4), 869.8, 0.05, "hand: 420^1.5 4^0.8/30"},
		{"two thirds", SlipUltimate(900), 600, 1e-9, "EN 1995-1-1 (memory)"},
		{"share, rigid support", SupportShare(400, math.Inf(1), 1e6), 1, 1e-12, "limit"},
		{"share, no support", SupportShare(400, 0, 1e6), 0, 0, "limit"},
		{"force, no support", Support(-0.01, 400, 0, 1e6), 0, 0, "limit"},
		{"swelling presses", Rigid(500, 0.01), -5, 1e-12, "sign"},
		{"friction limit", FrictionLimit(0.5, 278, 693*20*300), 139 / 4.158e6, 1e-12, "hand"},
		{"clamped ripples at four times", clamped / hinged, 4, 1e-12, "Euler, hinged to clamped"},
		{"bulge, span 90, 0.3 % over", Bulge(90, 0.004, 0.001), 3.14, 0.005, "hand: 180/pi sqrt(0.003)"},
		{"no bulge below", Bulge(90, 0.0009, 0.001), 0, 0, "definition"},
		{"own weight, 25 mm over 1.2 m", sag(25, 1200).Deflection, 4.6, 0.06, "hand: 5 q L^4/(384 D)"},
		{"own weight, 10 mm over 1.0 m", sag(10, 1000).Deflection, 14, 0.5, "hand"},
		{"own weight, 5 mm over 1.0 m", sag(5, 1000).Deflection, 55, 0.5, "hand"},
		{"its face strain", sag(5, 1000).Strain, 0.0013, 5e-5, "hand: 0.75 rho g L^2/(t E)"},
		{"inertia is weight times G", Topple(700, 40, 1000, 25.4) / (40 * 0.75 * 700 * 9.81e-9 * 1e6 / 25.4), 1, 1e-9, "hand"},
		{"standing 1 m of 700 kg/m3", Standing(700, 1000), 700 * 9.80665e-6, 1e-12, "rho g h"},
		{"groove", GrooveLeft(8, 600, -0.01), 5, 1e-12, "hand"},
		{"depth", DepthNeeded(12, -5), 17, 0, "hand"},
		{"cantilever is sixteen times the span", EndLoad(1, 100, 1, 1, 1) / MidLoad(1, 100, 1, 1, 1), 16, 1e-12, "48/3"},
		{"restraining effect", RestrainingEffect(9.3, 10), 0.07, 1e-12, "definition, Cocchi et al. 2017"},
		{"nothing to restrain", RestrainingEffect(0, 0), 0, 0, "definition"},
		{"two nails, nails gone", TwoFasteners(-0.01, 600, 0, 1, 1), 0, 0, "limit"},
		{"two nails, no slip", TwoFasteners(-0.01, 600, math.Inf(1), 3e6, 7e6), GluedFlat(-0.01, 3e6, 7e6), 1e-6, "limit"},
		{"lag without slip", NewLag(math.Inf(1), 3e6, 7e6, 0, 1, 600).N(-0.01, 100), GluedFlat(-0.01, 3e6, 7e6), 1e-6, "limit"},
		{"short soft glue is nearly free", NewLag(1e-3, 3e6, 7e6, 0, 1, 600).N(-0.01, 0), 1e-3 * 0.01 * 9e4 / 2, 1e-4, "kq e l^2/2"},
	} {
		assert.InDelta(t, c.want, c.got, c.tol, "%s (%s)", c.name, c.source)
	}
	for _, bad := range []func() error{
		func() error { _, err := Rippling(0, 1, 0); return err },
		func() error { _, err := Rippling(1, 1, 2); return err },
		func() error { _, err := Weight{}.Bend(); return err },
		func() error { _, err := Weight{E: 1, T: 1, Span: 1, Density: 1, Lie: 9}.Bend(); return err },
		func() error { _, err := NewComposite(nil); return err },
		func() error { _, err := NewComposite([]Layer{{}}); return err },
		func() error { _, err := Fit{}.At(0); return err },
		func() error { _, err := Glued(0, 10, 1, 1, 1); return err },
	} {
		assert.Error(t, bad())
	}
}

// Two derivations of the same stiffness: gamma method and partial interaction under a half-sine.
func TestGammaIsExactForAHalfSine(t *testing.T) {
	b := checkBeam()
	for _, k := range []float64{1, 100, 1000, 1e6} {
		b.Slip = k
		assert.InEpsilon(t, b.Exact(), b.WithGamma(b.Gamma()), 1e-12, "K = %g", k)
	}
}

func TestJoinStressUnderOwnWeight(t *testing.T) {
	w := Weight{E: 490, T: 10, Span: 1000, Density: 440}
	s, err := w.Bend()
	require.NoError(t, err)
	assert.InEpsilon(t, s.Stress, w.JoinStress(500, 10), 1e-12, "at mid-span the panel's own")
	assert.InEpsilon(t, 4*s.Stress, w.JoinStress(500, 5), 1e-12, "half open: four times")
	assert.Equal(t, 0.0, w.JoinStress(0, 10))
	assert.InEpsilon(t, w.JoinStress(300, 10), w.JoinStress(700, 10), 1e-12)
	w.G = 2
	assert.InEpsilon(t, 2*s.Stress, w.JoinStress(500, 10), 1e-12)
	for _, lie := range []Lie{OnMiddle, OneEdge} {
		v := Weight{E: 490, T: 10, Span: 1000, Density: 440, Lie: lie}
		m, err := v.Bend()
		require.NoError(t, err)
		assert.InEpsilon(t, m.Stress, v.JoinStress(m.At, 10), 1e-12)
	}
	flat, err := Weight{E: 490, T: 5, Span: 1000, Density: 440}.Presses(20)
	require.NoError(t, err)
	assert.Equal(t, 1.0, flat, "a thin panel lies flat under its own weight")
}

func TestFrame(t *testing.T) {
	f := Fit{Clear: 603, Width: 600, E: 500, T: 20, FrameSide: math.Inf(1)}
	dry, err := f.At(-0.01)
	require.NoError(t, err)
	assert.InDelta(t, 9, dry.Clearance, 1e-9)
	assert.Equal(t, 0.0, dry.Force)
	assert.Equal(t, 0.0, dry.Share)
	half, _ := f.At(0.0025)
	assert.InDelta(t, 0.5, half.Share, 1e-9)
	damp, _ := f.At(0.01) // 6 mm growth, 3 held back: strain 0.005, stress 2.5 MPa
	assert.InDelta(t, 2.5*20, damp.Force, 1e-9)
	assert.InDelta(t, -0.005, damp.Held, 1e-12)
	assert.Equal(t, 1.0, damp.Share)
	f.FrameSide = 500 * 20 / 600.0 // as stiff as the panel: half of it
	soft, _ := f.At(0.01)
	assert.InEpsilon(t, damp.Force/2, soft.Force, 1e-12)
	tight := Fit{Clear: 600, Width: 600, E: 500, T: 20, FrameSide: 1}
	b, _ := tight.At(0)
	assert.Equal(t, 0.0, b.Share)
	b, _ = tight.At(1e-6)
	assert.Equal(t, 1.0, b.Share)
}

func TestSliderSwellsInItsNotch(t *testing.T) {
	// 25 mm slider, +3 % MC, 0.17 to 0.30 % per % MC across the grain: 0.13 to 0.22 mm.
	left, share := NotchPlay(0.2, 25, 0.17, 0.03)
	assert.InDelta(t, 0.2-0.1275, left, 1e-9)
	assert.InDelta(t, 0.6375, share, 1e-9)
	left, share = NotchPlay(0.2, 25, 0.30, 0.03)
	assert.InDelta(t, -0.025, left, 1e-9)
	assert.Equal(t, 1.0, share)
	left, share = NotchPlay(0.2, 25, 0.30, -0.03)
	assert.InDelta(t, 0.425, left, 1e-9)
	assert.Equal(t, 0.0, share)
}
