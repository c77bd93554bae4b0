package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
)

// planWood is the wood of the reference of the sheet with a crack.
func planWood(width, thick float64) plan.Plate {
	return plan.Plate{Width: width, Thickness: thick, EX: 700, EL: 11000, GXL: 700, GXZ: 60, GLZ: 700, NuLX: 0.4}
}

// planEdges holds both long edges at n points each, in the ways given.
func planEdges(width, length float64, n int, ways ...plan.Way) (h PlanHold) {
	for _, x := range [2]float64{0, width} {
		for i := range n {
			for _, w := range ways {
				h.Rows = append(h.Rows, PlanRow{Patch: plan.Patch{X: x, Y: length * float64(i) / float64(n-1)}, Way: w})
			}
		}
	}
	return h
}

// planLoad is a state in which all rows bear, with one kind of load on every board.
func planLoad(h PlanHold, boards int, l plan.Load, v float64) PlanState {
	s := PlanState{Load: make([]float64, 4*boards+2), Grips: make([]PlanGrip, len(h.Rows))}
	for i := range s.Grips {
		s.Grips[i].Bears = true
	}
	for b := range boards {
		s.Load[4*b+int(l)] = v
	}
	return s
}

// planAt is the point of a run at a length.
func planAt(t *testing.T, r PlanRun, length float64) PlanPoint {
	t.Helper()
	for _, p := range r.Points {
		if math.Abs(p.End-p.Start-length) < 1e-6 {
			return p
		}
	}
	require.Fail(t, "no such length", "%g", length)
	return PlanPoint{}
}

// planOne follows one open stretch in one state.
func planOne(t *testing.T, lay plan.Layout, o PlanStretch, h PlanHold, yielded []float64, s PlanState) []PlanRun {
	t.Helper()
	runs, err := FollowPlan(lay, PlanLine{X: lay.Plates[0].Width / 2, Open: []PlanStretch{o}}, h, yielded, []PlanState{s}, PlanFine)
	require.NoError(t, err)
	return runs
}

// A long strip between rigid edges: the slow release is that of the yielded modulus, E e^2 H/2 (Rivlin & Thomas 1953), the
// sudden one less by what is left of it. Poisson's effect along the held strip is nil here.
func planModeOne(e1, e2, g float64) float64 { return ModeOneModulus(e1, e2, 0, g) }

func TestPlanLongStrip(t *testing.T) {
	w := planWood(200, 12)
	w.NuLX, w.ShearYield = 0, 1
	lay := plan.Layout{Plates: []plan.Plate{w}, Length: 1000}
	h := planEdges(200, 1000, 129, plan.U, plan.V)
	dry, damp := planLoad(h, 1, plan.StrainX, -0.004), planLoad(h, 1, plan.StrainX, 0.004)
	runs, err := FollowPlan(lay, PlanLine{X: 100, Open: []PlanStretch{{To: 500}}}, h, []float64{2.5}, []PlanState{dry, damp}, PlanFine)
	require.NoError(t, err)
	p, wet := planAt(t, runs[0], 500), planAt(t, runs[1], 500)
	want := StripRelease(0.004, 700/2.5, 200)
	assert.InEpsilon(t, want, p.Slow.Total(), 0.005)
	// the stress at the tip is the relaxed one: K^2/E* of short wood (Sih, Paris & Irwin 1965), somewhat above the
	// s^2 H/(2 E) of a run that has gone far
	long, tip := want/2.5, want*planModeOne(11000, 280, 280)/planModeOne(11000, 700, 700)
	t.Logf("sudden %.4f, far run %.4f, first step %.4f", p.Sudden.Total(), long, tip)
	assert.Greater(t, p.Sudden.Total(), 0.99*long)
	assert.Less(t, p.Sudden.Total(), 1.01*tip)
	assert.InEpsilon(t, p.Slow.Total(), p.Slow.Opening, 1e-3)
	assert.Zero(t, p.Slow.Bending)
	assert.InEpsilon(t, 0.004*200, p.Profile[0].Middle, 0.03, "the mouth opens by all that was held")
	assert.Less(t, wet.Slow.Total(), 1e-9*want, "pressed wood releases nothing")
	assert.Less(t, wet.Sudden.Total(), 1e-3*want)
	for _, o := range wet.Profile {
		assert.InDelta(t, 0, o.Front, 1e-3, "closed faces stay closed")
		assert.InDelta(t, 0, o.Back, 1e-3)
	}
}

// A panel that wants to be round but is held flat sets all of D kappa^2 H/2 free when its halves can slide
// outwards ([FlattenedRelease]). When its edges are held in the face too, the halves lean on one another at the
// closed face: turning by phi parts their middles by phi t/2, three times as stiff as bending (E t phi^2 t^2/4 to
// D phi^2), and a quarter is left. Derived here.
func TestPlanFlattened(t *testing.T) {
	w := planWood(200, 12)
	w.NuLX, w.GXZ, w.GLZ = 0, 6000, 6000
	lay := plan.Layout{Plates: []plan.Plate{w}, Length: 1000}
	want := FlattenedRelease(1e-4, 700, 12, 200)
	for _, c := range []struct {
		ways  []plan.Way
		share float64
	}{{[]plan.Way{plan.W, plan.TurnX}, 1}, {[]plan.Way{plan.U, plan.W, plan.TurnX}, 0.25}} {
		h := planEdges(200, 1000, 129, c.ways...)
		p := planAt(t, planOne(t, lay, PlanStretch{To: 500}, h, nil, planLoad(h, 1, plan.BendX, 1e-4))[0], 500)
		assert.InEpsilon(t, c.share*want, p.Slow.Total(), 0.01, "%v", c.ways)
		assert.InEpsilon(t, c.share*want, p.Sudden.Total(), 0.01, "%v", c.ways)
		if shut := min(p.Profile[0].Front, p.Profile[0].Back); c.share < 1 {
			assert.InDelta(t, 0, shut, 1e-3, "a hinge at one face")
		} else {
			assert.Greater(t, shut, -1e-3)
		}
		assert.Positive(t, max(p.Profile[0].Front, p.Profile[0].Back))
	}
}

// Double cantilever, G = 12 P^2 a^2/(E b^2 h^3) for stiff roots; with the yielding of wood at the root the arms count as longer
// by chi h (J. G. Williams 1989, as in ISO 15024 and 25217).
func TestPlanDoubleCantilever(t *testing.T) {
	const P, a, b, half = 10.0, 400.0, 20.0, 10.0
	for _, c := range []struct{ ex, g, tol float64 }{{1e6, 1e6, 0.01}, {700, 700, 0.01}} {
		w := plan.Plate{Width: 2 * half, Thickness: b, EX: c.ex, EL: 12000, GXL: c.g, GXZ: 60, GLZ: 700}
		lay := plan.Layout{Plates: []plan.Plate{w}, Length: 700}
		h := PlanHold{Rows: []PlanRow{{Patch: plan.Patch{X: half / 2}}, {Patch: plan.Patch{X: 1.5 * half}}}}
		s := PlanState{Load: make([]float64, 6), Grips: []PlanGrip{{Force: P}, {Force: -P}}}
		p := planAt(t, planOne(t, lay, PlanStretch{To: a}, h, nil, s)[0], a)
		gamma := 1.18 * math.Sqrt(12000*c.ex) / c.g
		chi := math.Sqrt(12000 / (11 * c.g) * (3 - 2*math.Pow(gamma/(1+gamma), 2)))
		want := Cantilevers(P, a+chi*half, 12000, b, half)
		if c.ex == 1e6 {
			want = Cantilevers(P, a, 12000, b, half)
		}
		t.Logf("E across %g: %.6f, beam %.6f, long arms %.6f", c.ex, p.Slow.Total(), Cantilevers(P, a, 12000, b, half), want)
		assert.InEpsilon(t, want, p.Slow.Total(), c.tol)
	}
}

func TestPlanRefuses(t *testing.T) {
	h := planEdges(600, 800, 5, plan.U)
	ok := func() (plan.Layout, PlanLine, PlanHold, PlanState) {
		lay := plan.Layout{Plates: []plan.Plate{planWood(600, 15)}, Length: 800}
		return lay, PlanLine{X: 300, Open: []PlanStretch{{To: 400}}}, h, planLoad(h, 1, plan.StrainX, -0.003)
	}
	for want, change := range map[string]func(*plan.Layout, *PlanLine, *PlanHold, *PlanState){
		"within the panel": func(_ *plan.Layout, l *PlanLine, _ *PlanHold, _ *PlanState) { l.Open[0].To = 801 },
		"lie on the panel": func(_ *plan.Layout, l *PlanLine, _ *PlanHold, _ *PlanState) { l.X = 600 },
		"two lines":        func(l *plan.Layout, _ *PlanLine, _ *PlanHold, _ *PlanState) { l.Lines = []plan.Line{{X: 300}} },
		"3 degrees":        func(_ *plan.Layout, l *PlanLine, _ *PlanHold, _ *PlanState) { l.Slope = -3.5 },
		"open somewhere":   func(_ *plan.Layout, l *PlanLine, _ *PlanHold, _ *PlanState) { l.Open = nil },
		"follow one another": func(_ *plan.Layout, l *PlanLine, _ *PlanHold, _ *PlanState) {
			l.Open = append(l.Open, PlanStretch{From: 390, To: 500})
		},
		"gap":         func(_ *plan.Layout, l *PlanLine, _ *PlanHold, _ *PlanState) { l.Open[0].Gap = -1 },
		"flexibility": func(_ *plan.Layout, _ *PlanLine, h *PlanHold, _ *PlanState) { h.H = []float64{1} },
		"6 loads":     func(_ *plan.Layout, _ *PlanLine, _ *PlanHold, s *PlanState) { s.Load = nil },
		"finite":      func(_ *plan.Layout, _ *PlanLine, _ *PlanHold, s *PlanState) { s.Load[0] = math.NaN() },
		"grip":        func(_ *plan.Layout, _ *PlanLine, _ *PlanHold, s *PlanState) { s.Grips[0].Soft = -1 },
		"balance": func(_ *plan.Layout, _ *PlanLine, _ *PlanHold, s *PlanState) {
			for i := range s.Grips {
				s.Grips[i] = PlanGrip{Force: 10}
			}
		},
		"yielding": nil,
	} {
		lay, l, hold, s := ok()
		var yielded []float64
		if change == nil {
			yielded = []float64{0.5}
		} else {
			change(&lay, &l, &hold, &s)
		}
		_, err := FollowPlan(lay, l, hold, yielded, []PlanState{s}, PlanCoarse)
		require.Error(t, err, want)
		assert.Contains(t, err.Error(), want)
	}
	lay, l, hold, s := ok()
	l.Slope, l.Open[0].To = 5, 200
	_, err := FollowPlan(lay, l, hold, nil, []PlanState{s}, PlanCoarse)
	assert.NoError(t, err, "short enough")
}
