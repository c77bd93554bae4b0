package restraint

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
)

var inf = math.Inf(1)

func drive(e float64) plan.Drive { return plan.Drive{Strain: []float64{e}} }

func system(t testing.TB, boards []plan.StripBoard, b float64, bar Bar, fix []Fixing) *System {
	t.Helper()
	f, err := plan.Strip(boards, b, Patches(fix))
	require.NoError(t, err)
	s, err := Build(f, bar, fix)
	require.NoError(t, err)
	return s
}

func row(n int, width float64, one Fixing) []Fixing {
	out := make([]Fixing, n)
	for i := range out {
		out[i] = one
		out[i].X = width * (float64(i) + 0.5) / float64(n)
	}
	return out
}

var (
	oneBoard = []plan.StripBoard{{Width: 600, Thickness: 20, E: 693}}
	oakBar   = Bar{E: 11000, Width: 40, Depth: 20, Offset: 20}
	flatBar  = Bar{E: 11000, Width: 40, Depth: 20, HoldsFlat: true}
)

// A glued batten free to bend must give Timoshenko's stack.
func TestGluedFreeToBendIsTheStack(t *testing.T) {
	fix, err := Glued(0, 600, 7, inf, 40)
	require.NoError(t, err)
	r, err := system(t, oneBoard, 300, oakBar, fix).Solve(drive(-0.01))
	require.NoError(t, err)
	panel := Layer{E: 693, Width: 300, Thickness: 20, Strain: -0.01}
	bar := Layer{E: 11000, Width: 40, Thickness: 20, Z: -20}
	c, err := NewComposite([]Layer{panel, bar})
	require.NoError(t, err)
	assert.InEpsilon(t, c.Stress(panel, 0)/693, r.Held[0], 1e-9, "mid-thickness")
	assert.InEpsilon(t, c.Stress(panel, 10)/693, r.Front[0], 1e-9, "painted face")
	assert.InEpsilon(t, c.Stress(panel, -10)/693, r.Back[0], 1e-9, "batten side")
	assert.InEpsilon(t, Sagitta(c.Bow, 600), r.Cup, 1e-9)
	assert.Negative(t, r.Cup, "shrinking panel with a batten behind: painted face hollow")
	top, bot := c.Stress(bar, -10), c.Stress(bar, -30) // moment of the bar = (top - bottom) I/d
	assert.InEpsilon(t, (top-bot)*40*20*20/12, r.Moment, 1e-6)
	assert.Equal(t, 0.0, r.Free)
}

func TestGlueWithSlipIsVolkersen(t *testing.T) {
	for _, flow := range []float64{0.5, 7, 100} {
		fix, err := Glued(0, 600, 15, flow, 40)
		require.NoError(t, err)
		ap, ab := 693.0*20*300, 11000.0*800
		for _, c := range []struct {
			bar Bar
			lag Lag
		}{
			{flatBar, NewLag(flow, ap, ab, 0, 1, 600)},
			{oakBar, NewLag(flow, ap, ab, 20, 693*300*8000/12+oakBar.bending(), 600)},
		} {
			r, err := system(t, oneBoard, 300, c.bar, fix).Solve(drive(-0.01))
			require.NoError(t, err)
			assert.InEpsilon(t, c.lag.N(-0.01, 600.0/28), r.Max, 0.02, "flow %g", flow)
		}
	}
}

func TestTwoAndOneAndNone(t *testing.T) {
	nail := Fixing{Slip: 700, Yield: inf}
	a, b := nail, nail
	a.X, b.X = 0, 600
	r, err := system(t, oneBoard, 300, flatBar, []Fixing{b, a}).Solve(drive(-0.01))
	require.NoError(t, err)
	want := TwoFasteners(-0.01, 600, 700, checkPanel, checkBar)
	assert.InEpsilon(t, -want, r.Force[1], 1e-9, "left fixing pulls to the left; caller's order kept")
	assert.InEpsilon(t, want, r.Max, 1e-9)
	assert.InEpsilon(t, want/checkPanel/0.01, r.Share, 1e-9)
	assert.Equal(t, 300.0, r.MaxAt)
	damp, err := system(t, oneBoard, 300, flatBar, []Fixing{b, a}).Solve(drive(0.01))
	require.NoError(t, err)
	assert.InEpsilon(t, -r.Max, damp.Max, 1e-12, "swelling presses")

	for _, fix := range [][]Fixing{nil, {a}} {
		r, err := system(t, oneBoard, 300, oakBar, fix).Solve(plan.Drive{Strain: []float64{-0.01}, Curvature: []float64{1e-4}})
		require.NoError(t, err)
		assert.Equal(t, 0.0, r.Max)
		assert.Equal(t, 0.0, r.Share)
		assert.InEpsilon(t, 1e-4*600*600/8, r.Free, 1e-12)
		assert.InEpsilon(t, r.Free, r.Cup, 1e-12)
		assert.Contains(t, r.Words, "panel")
	}
}

func TestBattenHoldsCup(t *testing.T) {
	// No membrane movement, no lever: kappa = D kappa_0/(D + EI).
	bar := oakBar
	bar.Offset = 0
	fix, _ := Glued(0, 600, 5, inf, 40)
	r, err := system(t, oneBoard, 300, bar, fix).Solve(plan.Drive{Curvature: []float64{1e-4}})
	require.NoError(t, err)
	d, ei := 693.0*300*8000/12, bar.bending()
	assert.InEpsilon(t, 1e-4*d/(d+ei)*45000, r.Cup, 1e-9)
	assert.InEpsilon(t, 1e-4*d*ei/(d+ei), r.Moment, 1e-9)
	flat, err := system(t, oneBoard, 300, flatBar, fix).Solve(plan.Drive{Curvature: []float64{1e-4}})
	require.NoError(t, err)
	assert.Equal(t, 0.0, flat.Cup)
	assert.InEpsilon(t, -1e-4*10, flat.Front[0], 1e-12, "rounded face pressed flat is compressed")
	assert.InEpsilon(t, 1e-4*d, flat.Moment, 1e-9)
}

// Two fixings, rigid bar: every corner of the law by hand. Movement of each end 0.5 x 600 x e.
func TestLawByHand(t *testing.T) {
	ap := checkPanel
	two := func(x Fixing) []Fixing {
		l, r := x, x
		l.X, r.X = 0, 600
		return []Fixing{l, r}
	}
	rigid := Bar{E: inf, Width: 1, Depth: 1, HoldsFlat: true}
	for _, c := range []struct {
		name string
		fix  Fixing
		e    float64
		want float64 // N in the panel
		does Bearing
	}{
		{"in its play", Fixing{Slip: 700, Yield: inf, Clearance: 4}, -0.01, 0, Idle},
		{"play used up", Fixing{Slip: 700, Yield: inf, Clearance: 2}, -0.01, (6 - 4) / (2.0/700 + 600/ap), Bears},
		{"play, no slip", Fixing{Slip: inf, Yield: inf, Clearance: 2}, -0.01, (6 - 4) / (600 / ap), Bears},
		{"yields", Fixing{Slip: 700, Yield: 1000}, -0.01, 1000, Yielding},
		{"yields without slip", Fixing{Slip: inf, Yield: 1000}, 0.01, -1000, Yielding},
		{"slides", Fixing{Yield: inf, Friction: 0.5, Preload: 100}, -0.01, 50, Sliding},
		{"sticks", Fixing{Yield: inf, Friction: 2, Preload: 1e5}, -0.01, 0.01 * ap, Stuck},
		{"friction 0", Fixing{Yield: inf, Preload: 100}, -0.01, 0, Idle},
		{"slip 0", Fixing{Yield: 5}, -0.01, 0, Idle},
		{"slides, then bears", Fixing{Slip: 700, Yield: inf, Clearance: 2, Friction: 0.5, Preload: 100}, -0.01,
			// 6 = N 600/A + 2 (2 + (N-50)/700)
			(2 + 2*50/700.0) / (2.0/700 + 600/ap), Bears},
		{"friction beside a nail", Fixing{Slip: 700, Yield: inf, Friction: 0.5, Preload: 100}, -0.01, (6 + 2*50/700.0) / (2.0/700 + 600/ap), Bears},
		{"nothing moves", Fixing{Slip: 700, Yield: inf}, 0, 0, Idle},
	} {
		r, err := system(t, oneBoard, 300, rigid, two(c.fix)).Solve(drive(c.e))
		require.NoError(t, err, c.name)
		assert.InDelta(t, c.want, r.Max, 1e-9*(1+math.Abs(c.want)), c.name)
		assert.Equal(t, c.does, r.Does[0], c.name)
		assert.Less(t, r.Residual.Slip, 1e-9, c.name)
	}
}

func TestYieldIsRemembered(t *testing.T) {
	s := system(t, oneBoard, 300, flatBar, []Fixing{{X: 0, Slip: 700, Yield: 1000}, {X: 600, Slip: 700, Yield: 1000}})
	var st State
	_, err := s.Step(1, drive(-0.01), &st)
	require.NoError(t, err)
	_, err = s.Step(1, drive(0), &st)
	require.NoError(t, err)
	r := s.Report(drive(0), &st)
	assert.Negative(t, r.Max, "bent nails press when the panel is back")
	assert.Equal(t, 2.0, st.Time)
	// Unloading is elastic: N falls by the movement over the compliance, unless it yields again.
	want := 1000 - 6/(2.0/700+600/checkPanel+600/checkBar)
	assert.InEpsilon(t, max(want, -1000), r.Max, 1e-9)
	assert.Error(t, system(t, oneBoard, 300, flatBar, nil).mustStep(&st), "a state of another batten is refused")
}

func (s *System) mustStep(st *State) error { _, err := s.Step(1, drive(0), st); return err }

func randomFixings(r *rand.Rand, n int, width float64) []Fixing {
	fix := row(n, width, Fixing{})
	for i := range fix {
		x := &fix[i]
		x.X += (r.Float64() - 0.5) * width / float64(n) * 0.8
		x.Slip = []float64{0, inf, 300, 700, 5000}[r.IntN(5)]
		x.Yield = []float64{inf, 200, 800}[r.IntN(3)]
		x.Clearance = []float64{0, 0.3, 1}[r.IntN(3)]
		x.Friction = []float64{0, 0.3, 2}[r.IntN(3)]
		x.Preload = 200 * r.Float64()
	}
	return fix
}

// obeys holds slip and force against the law without the program's own corners: friction within
// its limit, the stop within its yield load, each on the right side.
func obeys(t *testing.T, x Fixing, before memory, s, f, stop float64) {
	t.Helper()
	rub := f - stop
	assert.LessOrEqual(t, math.Abs(rub), x.cap()*(1+1e-9)+1e-9)
	if math.Abs(s-before.anchor) > 1e-9 {
		assert.InDelta(t, math.Copysign(x.cap(), s-before.anchor), rub, 1e-6*(1+x.cap()), "sliding friction opposes")
	}
	over := math.Abs(s-before.centre) - x.Clearance
	switch {
	case x.Slip == 0 || over < -1e-9:
		assert.InDelta(t, 0, stop, 1e-6)
	case !math.IsInf(x.Slip, 1):
		want := min(max(0, over)*x.Slip, x.Yield)
		assert.InDelta(t, math.Copysign(want, s-before.centre), stop, 1e-6*(1+want))
	case math.IsInf(x.Yield, 1):
		assert.LessOrEqual(t, over, 1e-9)
		assert.GreaterOrEqual(t, stop*(s-before.centre), -1e-6)
	default:
		assert.LessOrEqual(t, math.Abs(stop), x.Yield*(1+1e-9))
	}
}

func TestRandomHistories(t *testing.T) {
	const seed = 7
	r := rand.New(rand.NewPCG(seed, 1))
	boards := []plan.StripBoard{{Width: 210, Thickness: 22, E: 500}, {Width: 190, Thickness: 18, E: 1200}, {Width: 300, Thickness: 20, E: 650}}
	for trial := range 300 {
		n := []int{1, 2, 3, 7, 10, 30}[trial%6]
		fix := randomFixings(r, n, 700)
		bar := []Bar{oakBar, flatBar}[trial%2]
		s := system(t, boards, 250, bar, fix)
		// The same fixings in another order.
		perm := r.Perm(n)
		mixed := make([]Fixing, n)
		for i, p := range perm {
			mixed[i] = fix[p]
		}
		s2 := system(t, boards, 250, bar, mixed)
		var st, st2 State
		for range 12 {
			d := plan.Drive{Strain: []float64{r.NormFloat64() * 0.01, r.NormFloat64() * 0.01, r.NormFloat64() * 0.01},
				Curvature: []float64{r.NormFloat64() * 1e-4}}
			var old []memory
			old = append(old, st.mem...)
			if old == nil {
				old = make([]memory, n)
			}
			res, err := s.Step(3600, d, &st)
			require.NoError(t, err, "seed %d trial %d", seed, trial)
			require.Less(t, res.Slip, 1e-9, "trial %d", trial)
			require.Less(t, res.Force, 1e-6, "trial %d", trial)
			for i := range n {
				obeys(t, fix[i], old[i], st.Slip[i], st.Force[i], st.Stop[i])
			}
			_, err = s2.Step(3600, d, &st2)
			require.NoError(t, err)
			a, b := s.Report(d, &st), s2.Report(d, &st2)
			for i, p := range perm {
				require.InDelta(t, a.Force[p], b.Force[i], 1e-9*(1+math.Abs(a.Force[p])), "order of fixings")
			}
			require.False(t, t.Failed(), "seed %d trial %d n %d", seed, trial, n)
		}
	}
}

// Over a closed cycle the movement cannot gain energy: sum of force times change of free movement.
func TestClosedLoopCostsEnergy(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for trial := range 40 {
		n := 2 + trial%9
		s := system(t, oneBoard, 300, oakBar, randomFixings(r, n, 600))
		var st State
		work, scale := 0.0, 0.0
		const steps = 400
		last, force := make([]float64, n), make([]float64, n)
		for k := 0; k <= 3*steps; k++ {
			_, err := s.Step(1, drive(-0.01*math.Sin(2*math.Pi*float64(k)/steps)), &st)
			require.NoError(t, err)
			for i := range n {
				if k > steps { // second and third cycle: the loop is closed
					w := (st.Force[i] + force[i]) / 2 * (s.free[i] - last[i])
					work += w
					scale += math.Abs(w)
				}
				last[i], force[i] = s.free[i], st.Force[i]
			}
		}
		assert.GreaterOrEqual(t, work, -1e-3*scale-1e-9, "trial %d", trial)
	}
}

func TestMirror(t *testing.T) {
	fix := row(6, 600, Fixing{Slip: 700, Yield: 900, Clearance: 0.4, Friction: 0.4, Preload: 80})
	r, err := system(t, oneBoard, 300, oakBar, fix).Solve(drive(-0.012))
	require.NoError(t, err)
	for i := range 3 {
		assert.InDelta(t, r.Force[i], -r.Force[5-i], 1e-9)
		assert.InDelta(t, r.Slip[i], -r.Slip[5-i], 1e-9)
	}
}

func TestSofterPanelPullsLess(t *testing.T) {
	fix := row(7, 600, Fixing{Slip: inf, Yield: inf})
	s := system(t, oneBoard, 300, flatBar, fix)
	a, err := s.Solve(drive(-0.01))
	require.NoError(t, err)
	soft := []plan.StripBoard{{Width: 600, Thickness: 20, E: 693 * 0.34}}
	f, err := plan.Strip(soft, 300, Patches(fix))
	require.NoError(t, err)
	require.NoError(t, s.Refit(f))
	b, err := s.Solve(drive(-0.01))
	require.NoError(t, err)
	assert.InEpsilon(t, GluedFlat(-0.01, 0.34*checkPanel, checkBar), b.Max, 1e-9)
	assert.Less(t, b.Max, a.Max)
}

func TestBadInput(t *testing.T) {
	f, err := plan.Strip(oneBoard, 300, []plan.Patch{{X: 10}})
	require.NoError(t, err)
	good := Fixing{X: 10, Slip: 1, Yield: inf}
	with := func(g func(*Fixing)) []Fixing { x := good; g(&x); return []Fixing{x} }
	for name, fix := range map[string][]Fixing{
		"two for one patch": {good, good}, "elsewhere": with(func(x *Fixing) { x.X = 11 }),
		"slip": with(func(x *Fixing) { x.Slip = -1 }), "slip NaN": with(func(x *Fixing) { x.Slip = math.NaN() }),
		"yield": with(func(x *Fixing) { x.Yield = 0 }), "friction": with(func(x *Fixing) { x.Friction = 6 }),
		"preload": with(func(x *Fixing) { x.Preload = inf }), "clearance": with(func(x *Fixing) { x.Clearance = -1 }),
	} {
		_, err := Build(f, oakBar, fix)
		assert.Error(t, err, name)
	}
	for _, bar := range []Bar{{}, {E: 1, Width: 1, Depth: math.NaN()}, {E: inf, Width: 1, Depth: 1, Offset: 3}, {E: 1, Width: inf, Depth: 1}} {
		_, err := Build(f, bar, []Fixing{good})
		assert.Error(t, err, "%+v", bar)
	}
	s, err := Build(f, oakBar, []Fixing{good})
	require.NoError(t, err)
	_, err = s.Solve(drive(math.NaN()))
	assert.Error(t, err)
	_, err = s.Step(-1, drive(0), &State{})
	assert.Error(t, err)
}

func BenchmarkSolve(b *testing.B) {
	for _, c := range []struct {
		name string
		n    int
		fix  Fixing
	}{
		{"fixings=7/nails", 7, Fixing{Slip: 700, Yield: 800}},
		{"fixings=10/slots", 10, Fixing{Slip: 700, Yield: 800, Clearance: 0.3, Friction: 0.4, Preload: 100}},
		{"fixings=15/glue", 15, Fixing{Slip: 1e5, Yield: inf}},
		{"fixings=30/slots", 30, Fixing{Slip: 700, Yield: 800, Clearance: 0.3, Friction: 0.4, Preload: 100}},
	} {
		b.Run(c.name, func(b *testing.B) {
			s := system(b, oneBoard, 300, oakBar, row(c.n, 600, c.fix))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.Solve(drive(-0.01)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkBuild(b *testing.B) {
	fix := row(10, 600, Fixing{Slip: 700, Yield: 800})
	for b.Loop() {
		f, _ := plan.Strip(oneBoard, 300, Patches(fix))
		_, _ = Build(f, oakBar, fix)
	}
}

// Free curvature and an eccentric bar: a panel of two glued halves, the front one swollen, on a
// glued bar, against the three-layer stack; and a bar that moves by itself.
func TestFreeCurvatureWithLever(t *testing.T) {
	const e = 0.002
	fix, err := Glued(0, 600, 5, inf, 40)
	require.NoError(t, err)
	s := system(t, oneBoard, 300, oakBar, fix)
	for _, own := range []float64{0, 0.0004} {
		r, err := s.Solve(plan.Drive{Curvature: []float64{3 * e / 20}, BarStrain: own})
		require.NoError(t, err)
		back := Layer{E: 693, Width: 300, Thickness: 10, Z: -5, Strain: -e}
		front := Layer{E: 693, Width: 300, Thickness: 10, Z: 5, Strain: e}
		bar := Layer{E: 11000, Width: 40, Thickness: 20, Z: -20, Strain: own}
		c, err := NewComposite([]Layer{back, front, bar})
		require.NoError(t, err)
		assert.InEpsilon(t, Sagitta(c.Bow, 600), r.Cup, 1e-9)
		assert.InEpsilon(t, c.Strain+c.Bow*(0-c.Centre), r.Held[0], 1e-9, "panel's mid-thickness is moved by nothing but the hold")
	}
}
