package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func even(eps float64) func(float64) float64 { return func(float64) float64 { return eps } }

func split() Line {
	return Line{Start: 0, End: 150, Along: 900, Span: 400, Thickness: 15, DepthShare: 1}
}

func TestSlowAndSudden(t *testing.T) {
	d := Drive{Strain: even(0.002), E0: 500, Left: 0.4}
	c, err := Release(split(), d)
	require.NoError(t, err)
	now := c.Now()
	f := Factor(FromEnd, Clamped, 150.0/400)
	assert.InDelta(t, f*0.4*500*0.002*0.002*400/2, now.Slow, 1e-12, "E relaxed eps^2 H/2")
	assert.InDelta(t, f*math.Pow(0.4*500*0.002, 2)*400/(2*500), now.Sudden, 1e-12, "(phi E0 eps)^2 H/(2 E0)")
	assert.InDelta(t, 2.5, now.Slow/now.Sudden, 1e-12, "with 0.4 left they differ two and a half times")
	assert.Equal(t, 150.0, now.Tip)
	assert.Equal(t, 150.0, now.Length())
}

func TestEvenStrainRunsThrough(t *testing.T) {
	c, err := Release(split(), Drive{Strain: even(0.002), E0: 500, Left: 0.4})
	require.NoError(t, err)
	assert.True(t, c.Grows(0.05))
	length, through := c.Stops(0.05)
	assert.True(t, through)
	assert.Equal(t, 900.0, length)
	assert.False(t, c.Grows(10))
	length, through = c.Stops(10)
	assert.False(t, through)
	assert.Equal(t, 150.0, length, "one that does not grow stops where it is")
	start, plateau := c.Runs(Toughness{Start: 0.05, Plateau: 10})
	assert.True(t, start.Through)
	assert.Equal(t, Run{Length: 150}, plateau)
}

// Strain that dies away along the grain: by hand, the crack (long against the span) stops where the
// strain at its tip has fallen to sqrt(2 Gc/(E H)).
func TestStopsWhereTheStrainHasFallen(t *testing.T) {
	l := Line{Start: 0, End: 1000, Along: 5000, Span: 100, Thickness: 15, DepthShare: 1} // a/H 10: factor 0.9982
	d := Drive{Strain: func(y float64) float64 { return 0.004 * math.Exp(-(y-1000)/1000) }, E0: 500, Left: 1}
	c, err := Release(l, d)
	require.NoError(t, err)
	const gc = 0.1
	want := 1000 + 1000*math.Log(0.004/StripLimit(gc/0.9982, 500, 100))
	length, through := c.Stops(gc)
	assert.False(t, through)
	assert.InDelta(t, want, length, 4000.0/steps/10, "within a tenth of a step")
}

func TestFromTheUpperEndIsTheMirror(t *testing.T) {
	rise := func(y float64) float64 { return 0.001 + 1e-6*y }
	l := split()
	up := l
	up.Start, up.End = 900-150, 900
	a, err := Release(l, Drive{Strain: func(y float64) float64 { return rise(900 - y) }, E0: 500, Left: 0.5})
	require.NoError(t, err)
	b, err := Release(up, Drive{Strain: rise, E0: 500, Left: 0.5})
	require.NoError(t, err)
	require.Len(t, b.Points, len(a.Points))
	for i := range a.Points {
		assert.InDelta(t, a.Points[i].Slow, b.Points[i].Slow, 1e-12)
		assert.InDelta(t, a.Points[i].Length(), b.Points[i].Length(), 1e-9)
	}
	assert.Equal(t, 750.0, up.Tip())
}

func TestInsideCrackGoesTowardsTheHarderHeldEnd(t *testing.T) {
	l := Line{Start: 400, End: 500, Along: 900, Span: 400, Thickness: 15, DepthShare: 1}
	c, err := Release(l, Drive{Strain: func(y float64) float64 { return 1e-6 * (1000 - y) }, E0: 500, Left: 1})
	require.NoError(t, err)
	assert.Equal(t, 400.0, c.Now().Tip)
	assert.InDelta(t, Factor(Inside, Clamped, 50.0/400)*500*36e-8*400/2, c.Now().Slow, 1e-12)
	lengths := 0.0
	for _, p := range c.Points {
		assert.GreaterOrEqual(t, p.Start, 0.0)
		assert.LessOrEqual(t, p.End, 900.0)
		assert.GreaterOrEqual(t, p.Length(), lengths)
		lengths = p.Length()
	}
	assert.Equal(t, 900.0, lengths)
	assert.Zero(t, c.Points[len(c.Points)-1].Slow)
}

func TestWhatAsksNothing(t *testing.T) {
	for name, c := range map[string]struct {
		l Line
		d Drive
	}{
		"nothing holds": {Line{End: 100, Along: 900, Thickness: 15, DepthShare: 1}, Drive{Strain: even(0.01), E0: 500, Left: 1}},
		"damp":          {split(), Drive{Strain: even(-0.01), E0: 500, Left: 1}},
		"no strain":     {split(), Drive{Strain: even(0), E0: 500, Left: 1}},
		"no length":     {Line{Along: 900, Span: 400, Thickness: 15, DepthShare: 1}, Drive{Strain: even(0.01), E0: 500, Left: 1}},
	} {
		curve, err := Release(c.l, c.d)
		require.NoError(t, err, name)
		assert.Zero(t, curve.Now().Slow, name)
		assert.False(t, curve.Grows(1e-9), name)
	}
	through := split()
	through.End = 900
	c, err := Release(through, Drive{Strain: even(0.01), E0: 500, Left: 1})
	require.NoError(t, err)
	assert.False(t, c.Grows(1e-9), "already through")
	length, ran := c.Stops(1e-9)
	assert.Equal(t, 900.0, length)
	assert.False(t, ran)
	assert.False(t, Curve{}.Grows(0))
}

func TestCheckAndFlattenedWarp(t *testing.T) {
	d := Drive{Strain: even(0.001), E0: 500, Left: 0.4}
	whole, err := Release(split(), d)
	require.NoError(t, err)
	check := split()
	check.DepthShare = 0.5
	half, err := Release(check, d)
	require.NoError(t, err)
	assert.InDelta(t, whole.Now().Slow/2, half.Now().Slow, 1e-15)
	d.Curvature = 1.0 / 3000
	bent, err := Release(split(), d)
	require.NoError(t, err)
	f := Factor(FromEnd, Clamped, 150.0/400)
	assert.InDelta(t, f*FlattenedRelease(1.0/3000, 0.4*500, 15, 400), bent.Now().Slow-whole.Now().Slow, 1e-12)
}

func TestReleaseRefuses(t *testing.T) {
	good := Drive{Strain: even(0.001), E0: 500, Left: 0.4}
	for name, change := range map[string]func(*Line, *Drive){
		"backwards":    func(l *Line, _ *Drive) { l.Start = 200 },
		"off the end":  func(l *Line, _ *Drive) { l.End = 901 },
		"nan":          func(l *Line, _ *Drive) { l.Start = math.NaN() },
		"no panel":     func(l *Line, _ *Drive) { l.Along = 0 },
		"span":         func(l *Line, _ *Drive) { l.Span = -1 },
		"endless span": func(l *Line, _ *Drive) { l.Span = math.Inf(1) },
		"thin":         func(l *Line, _ *Drive) { l.Thickness = 0 },
		"depth":        func(l *Line, _ *Drive) { l.DepthShare = 0 },
		"too deep":     func(l *Line, _ *Drive) { l.DepthShare = 1.1 },
		"soft":         func(_ *Line, d *Drive) { d.E0 = 0 },
		"left":         func(_ *Line, d *Drive) { d.Left = 0 },
		"no strain":    func(_ *Line, d *Drive) { d.Strain = nil },
		"strain nan":   func(_ *Line, d *Drive) { d.Strain = even(math.NaN()) },
		"curvature":    func(_ *Line, d *Drive) { d.Curvature = math.NaN() },
	} {
		l, d := split(), good
		change(&l, &d)
		_, err := Release(l, d)
		assert.Error(t, err, name)
	}
}

func BenchmarkRelease(b *testing.B) {
	l := Line{Start: 300, End: 400, Along: 900, Span: 400, Thickness: 15, DepthShare: 1}
	d := Drive{Strain: func(y float64) float64 { return 0.002 * math.Exp(-y/900) }, Curvature: 1e-4, E0: 500, Left: 0.4, Shear: 700}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Release(l, d); err != nil {
			b.Fatal(err)
		}
	}
}
