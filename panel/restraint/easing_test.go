package restraint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// eased is an invented poplar panel, 800 x 1200 x 12 mm, with three battens of spruce.
func eased() Easing {
	return Easing{
		Across: 800, Along: 1200, T: 12, E: [2]float64{350, 600}, Left: 0.4, Density: 440, Warp: 12,
		Swing: Swing{Dry: -0.008, Damp: 0.006, Doubt: 0.001}, Battens: 3, EBatten: [2]float64{9000, 12000},
		Fixings: 5, Inset: 40, Fixed: 400, Shank: 4, Play: 1, Share: 0.6, Sag: 0.25,
	}
}

// Halving the depth of a batten leaves an eighth of its stiffness (T. Marchant 1998, in The Structural
// Conservation of Panel Paintings: eight times the deflection).
func TestHalvingTheDepth(t *testing.T) {
	e := eased()
	full, err := e.At(30, 20)
	require.NoError(t, err)
	half, err := e.At(30, 10)
	require.NoError(t, err)
	for i := range 2 {
		assert.InEpsilon(t, 8, odds(full.Held[i])/odds(half.Held[i]), 1e-9, "held R/(1-R) goes with the cube of the depth")
		// 1/sag = 384 n (D + E I)/(5 W L^3): what the battens add goes with the cube
		bare := 1 / e.sag(0, 0)[i]
		assert.InEpsilon(t, 8, (1/full.Sag[i]-bare)/(1/half.Sag[i]-bare), 1e-9)
	}
	none, err := e.At(30, 0)
	require.NoError(t, err)
	assert.Equal(t, [2]float64{}, none.Held)
	assert.Equal(t, e.sag(0, 0), none.Sag)
	assert.Less(t, half.Held[1], full.Held[1])
	assert.Greater(t, half.Sag[1], full.Sag[1])
	wide, err := e.At(60, 20)
	require.NoError(t, err)
	assert.InEpsilon(t, 2, odds(wide.Held[0])/odds(full.Held[0]), 1e-9, "twice the width, twice the stiffness")
}

// The limits come back: a batten of the depth Most holds the share asked, one of the depth Least sags as
// asked, one at the limit of the line stresses it so much.
func TestTableMeetsItsLimits(t *testing.T) {
	e := eased()
	tab, err := e.Table([]float64{20, 30, 40, 60})
	require.NoError(t, err)
	require.Len(t, tab.Rows, 4)
	for i, r := range tab.Rows {
		at, err := e.At(r.Width, r.Most)
		require.NoError(t, err)
		assert.InEpsilon(t, e.Share, at.Held[1], 1e-9)
		at, err = e.At(r.Width, r.Least)
		require.NoError(t, err)
		assert.InEpsilon(t, e.Sag*e.T, at.Sag[1], 1e-9)
		assert.Less(t, math.Abs(r.Depth-r.Least), 0.5)
		if i > 0 {
			assert.Less(t, r.Least, tab.Rows[i-1].Least, "wider, shallower")
		}
		t.Logf("%2.0f wide: depth %4.1f..%4.1f, %4.1f, held %.2f..%.2f, sag %.1f..%.1f, slot %.1f, %.0f N, fits %v",
			r.Width, r.Least, r.Most, r.Depth, r.Held[0], r.Held[1], r.Sag[0], r.Sag[1], r.Slot.Length, r.Force, r.Fits)
	}
	assert.Contains(t, tab.Words, NeverThere)
	line := e
	line.Share, line.Stress, line.Line, line.Grip = 0, 0.4, 6, 20
	b, err := line.Bounds()
	require.NoError(t, err)
	r, err := line.At(30, depthFor(b.Most, line.EBatten[1], 30))
	require.NoError(t, err)
	assert.InEpsilon(t, 0.4, r.Stress[1], 1e-9)
	assert.InEpsilon(t, 20.0*2*3/(1200*6), line.friction(), 1e-9, "two of five fixings outside the middle, three battens")
	line.Stress = line.friction() / 2
	tab, err = line.Table([]float64{30})
	require.NoError(t, err)
	assert.Equal(t, 0.0, tab.Bounds.Most, "friction alone is beyond the limit")
	assert.False(t, tab.Rows[0].Fits)
	assert.Contains(t, tab.Words[len(tab.Words)-2], "press the fixings less")
}

// Bare sag: q L^4 5/(384 D), the beam on two supports, as Weight gives it.
func TestSagIsTheBeams(t *testing.T) {
	e := eased()
	for i := range 2 {
		w, err := Weight{E: e.E[1-i], T: 12, Span: 800, Density: 440}.Bend()
		require.NoError(t, err)
		assert.InEpsilon(t, w.Deflection, e.sag(0, 0)[i], 1e-9)
	}
	e.T, e.Sag = 60, 0.5
	tab, err := e.Table([]float64{30})
	require.NoError(t, err)
	assert.Equal(t, 0.0, tab.Bounds.Least)
	assert.InDelta(t, tab.Rows[0].Most, tab.Rows[0].Depth, 0.5, "the deepest that may stay")
	assert.LessOrEqual(t, tab.Rows[0].Held[1], e.Share)
	assert.Len(t, tab.Words, 2)
	assert.Contains(t, tab.Words[0], "no batten is needed")
}

func TestSlot(t *testing.T) {
	// hand: 360 mm from the fixed point, -0.8 and +0.6 %, doubt 0.1 %, shank 4, 1 mm at each end
	c, err := Swing{Dry: -0.008, Damp: 0.006, Doubt: 0.001}.Slot(360, 4, 1)
	require.NoError(t, err)
	assert.InDelta(t, 2.88+0.36+1, c.Inward, 1e-9)
	assert.InDelta(t, 2.16+0.36+1, c.Outward, 1e-9)
	assert.InDelta(t, 4+4.24+3.52, c.Length, 1e-9)
	at, err := Swing{}.Slot(0, 4, 0)
	require.NoError(t, err)
	assert.Equal(t, 4.0, at.Length, "a hole at the fixed point")
	for _, s := range []Swing{{Dry: 0.1}, {Damp: -0.1}, {Doubt: -1}} {
		_, err := s.Slot(1, 1, 1)
		assert.Error(t, err)
	}
	_, err = Swing{}.Slot(-1, 4, 0)
	assert.Error(t, err)
	e := eased()
	e.Fixed = 40
	r, err := e.At(30, 10)
	require.NoError(t, err)
	want, _ := e.Swing.Slot(720, 4, 1)
	assert.Equal(t, want, r.Slot, "fixed at one edge: the other edge moves twice as far")
}

// Three fixings on a rigid bar: P = 6 D kappa/l at the middle, half of it at each end; 138.6 N for a
// strip of 300 x 20 mm, E 693, kappa 1e-4, 600 mm (row FRIC-CUP-P of the checks, closed form).
func TestSprungThree(t *testing.T) {
	d := 693.0 * 300 * cube(20) / 12
	s := Sprung{Panel: d, Bar: math.Inf(1), At: []float64{0, 300, 600}, Rate: math.Inf(1), Width: 600}
	l, err := s.Bend(1e-4)
	require.NoError(t, err)
	assert.InEpsilon(t, 138.6, -l.Force[1], 1e-9, "pulled to the back in the middle")
	assert.InEpsilon(t, 69.3, l.Force[0], 1e-9)
	assert.InEpsilon(t, 69.3, l.Force[2], 1e-9)
	assert.InDelta(t, 0, l.Warp, 1e-9, "the middle is level with the edges")
	assert.InEpsilon(t, Flatten(d, 1e-4, 600), l.Preload, 1e-9)
	assert.InEpsilon(t, 69.3*300, l.Moment, 1e-9)
	// springs in series, by hand: F = kappa l^2/8/[l^3/(48 D) (1 + D/D_b) + 3/(2 k)]
	s.Rate, s.Bar = 5, 2*d
	l, err = s.Bend(1e-4)
	require.NoError(t, err)
	want := 1e-4 * 600 * 600 / 8 / (cube(600)/(48*d)*1.5 + 1.5/5)
	assert.InEpsilon(t, want, -l.Force[1], 1e-9)
	hollow, err := s.Bend(-1e-4)
	require.NoError(t, err)
	assert.InEpsilon(t, want, hollow.Force[1], 1e-9, "sign")
	assert.InEpsilon(t, -l.Warp, hollow.Warp, 1e-9)
}

// Many keepers: panel and batten take one curvature, D_b/(D_p + D_b) of the warp is held.
func TestSprungManyIsTheCompositeBeam(t *testing.T) {
	at, err := EvenBearers(41, 600, 0)
	require.NoError(t, err)
	s := Sprung{Panel: 1e8, Bar: 2.5e7, At: at, Rate: math.Inf(1), Width: 600}
	l, err := s.Bend(2e-4)
	require.NoError(t, err)
	assert.InDelta(t, 0.2, l.Share, 0.002)
	var sum, moment float64
	for i, f := range l.Force {
		sum += f
		moment += f * at[i]
	}
	assert.InDelta(t, 0, sum, 1e-6)
	assert.InDelta(t, 0, moment, 1e-3)
	for _, n := range []int{1, 2} {
		s.At, _ = EvenBearers(n, 600, 50)
		l, err := s.Bend(2e-4)
		require.NoError(t, err)
		assert.Equal(t, 0.0, l.Share, "two fixings hold no warp")
		assert.InEpsilon(t, 2e-4*600*600/8, l.Warp, 1e-12)
	}
	for _, bad := range []Sprung{{}, {Panel: 1, Width: 1, Rate: -1}, {Panel: 1, Width: 1, At: []float64{0.5, 0.5}}} {
		_, err := bad.Bend(1)
		assert.Error(t, err)
	}
	_, err = s.Bend(math.NaN())
	assert.Error(t, err)
}

func TestSprings(t *testing.T) {
	e := eased()
	rows, err := e.Springs(40, 30, []int{1, 2, 3, 5, 7, 9})
	require.NoError(t, err)
	for _, r := range rows {
		t.Logf("%d springs: %.3g..%.3g N/mm, at %.3g: held %.2f, preload %.0f N, settles %.1f mm", r.Count, r.Least, r.Most, r.Rate, r.Share, r.Preload, r.Settle)
		assert.InEpsilon(t, e.weight()/float64(3*r.Count)/3, r.Least, 1e-9, "settles by a quarter of the thickness")
		assert.InEpsilon(t, 3, r.Settle, 1e-9)
		if r.Count < 3 {
			assert.True(t, math.IsInf(r.Most, 1))
			continue
		}
		l, err := e.sprung(r.Count, e.bar(1, 40, 30), r.Most, 0).Bend(e.curvature())
		require.NoError(t, err)
		assert.InEpsilon(t, 0.6, l.Share, 1e-6, "the largest rate holds the share asked")
		assert.GreaterOrEqual(t, r.Preload, e.weight()/float64(3*r.Count))
	}
	e.Sag, e.Share, e.Stress, e.Grip = 0, 0, 1e-9, 50
	rows, err = e.Springs(40, 30, []int{5})
	require.NoError(t, err)
	assert.Equal(t, 0.0, rows[0].Most, "friction alone is beyond the limit")
	assert.Equal(t, 0.0, rows[0].Rate)
	_, err = e.Springs(40, 30, []int{0})
	assert.Error(t, err)
	e.Battens = 0
	_, err = e.Springs(40, 30, []int{3})
	assert.Error(t, err)
}

func TestFixingsNeeded(t *testing.T) {
	e := eased()
	e.Sag, e.Load = 0.05, 0
	n, ok, err := e.FixingsNeeded(30, 15)
	require.NoError(t, err)
	require.True(t, ok)
	at := func(n int) float64 {
		b, err := Weight{E: 350, T: 12, Span: 800, Density: 440}.On(e.at(n))
		require.NoError(t, err)
		return math.Abs(b.Deflection)
	}
	assert.LessOrEqual(t, at(n), 0.6)
	assert.Greater(t, at(n-1), 0.6)
	e.Load = 1
	_, ok, err = e.FixingsNeeded(30, 15)
	require.NoError(t, err)
	assert.False(t, ok)
	e.Load, e.Sag = 0, 0
	_, _, err = e.FixingsNeeded(30, 15)
	assert.Error(t, err)
}

func TestEasingExtremes(t *testing.T) {
	for _, tk := range []float64{0.5, 3, 300} {
		for _, n := range []int{0, 1, 30} {
			e := eased()
			e.T, e.Battens = tk, n
			tab, err := e.Table([]float64{10, 100})
			require.NoError(t, err)
			assert.Contains(t, tab.Words, NeverThere)
			if n == 0 {
				assert.Empty(t, tab.Rows)
				r, err := e.At(30, 20)
				require.NoError(t, err)
				assert.Equal(t, [2]float64{}, r.Held, "no battens hold nothing")
				continue
			}
			for _, r := range tab.Rows {
				for _, v := range []float64{r.Held[1], r.Sag[0], r.Sag[1], r.Stress[1], r.Slot.Length, r.Force} {
					assert.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%g mm, %d battens", tk, n)
				}
			}
		}
	}
	e := eased()
	e.T = 3
	b, err := e.Bounds()
	require.NoError(t, err)
	assert.Equal(t, Outside, b.Reach)
	e.Share = 1
	b, err = e.Bounds()
	require.NoError(t, err)
	assert.True(t, math.IsInf(b.Most, 1), "all may be held: no upper limit")
	for _, bad := range []func(*Easing){
		func(e *Easing) { e.T = 0.4 }, func(e *Easing) { e.T = 301 }, func(e *Easing) { e.Battens = -1 },
		func(e *Easing) { e.Across = 0 }, func(e *Easing) { e.E[1] = 1 }, func(e *Easing) { e.Left = 0 },
		func(e *Easing) { e.Share = 1.1 }, func(e *Easing) { e.Inset = 400 }, func(e *Easing) { e.Swing.Dry = 1 },
		func(e *Easing) { e.Warp = math.NaN() }, func(e *Easing) { e.Fixings = 0 },
	} {
		e := eased()
		bad(&e)
		_, err := e.Table([]float64{30})
		assert.Error(t, err)
	}
	_, err = eased().Table([]float64{0})
	assert.Error(t, err)
}

// One row by hand: E I = 9000..12000 x 30 x 10^3/12 against 0.4 E t^3 H/36.
func TestRowByHand(t *testing.T) {
	e := eased()
	r, err := e.At(30, 10)
	require.NoError(t, err)
	soft, stiff := 9000.0*30*1000/12, 12000.0*30*1000/12
	low, high := 0.4*350*1728/12*400, 0.4*600*1728/12*400
	assert.InEpsilon(t, soft/(soft+high), r.Held[0], 1e-9)
	assert.InEpsilon(t, stiff/(stiff+low), r.Held[1], 1e-9)
	kappa := 8 * 12.0 / (800 * 800)
	assert.InEpsilon(t, 0.4*600*6*kappa*stiff/(stiff+high), r.Stress[1], 1e-9, "E kappa t/2 of the held part")
	e.Warp = 0
	r, err = e.At(30, 10)
	require.NoError(t, err)
	assert.InEpsilon(t, 440*Gravity*1e-9*12*800*1200/15, r.Force, 1e-9, "a fifteenth of the weight")
	e.Share, e.Sag = 0, 0
	tab, err := e.Table([]float64{30})
	require.NoError(t, err)
	assert.Equal(t, 0.0, tab.Rows[0].Depth, "no limit asked: nothing to choose by")
	for _, bad := range [][2]float64{{0, 1}, {1, -1}, {math.Inf(1), 1}} {
		_, err := e.At(bad[0], bad[1])
		assert.Error(t, err)
		_, err = e.Springs(bad[0], bad[1], []int{3})
		assert.Error(t, err)
		_, _, err = e.FixingsNeeded(bad[0], bad[1])
		assert.Error(t, err)
	}
}
