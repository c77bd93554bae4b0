package restraint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/tables/verify"
)

const soft = 1e-3 // mm/N, of every hand case

// single is one row of flexibility soft that nothing moves with.
var single = Body{N: 1, C: []float64{soft}}

// lead marches one row through free movements and returns the forces.
func lead(t *testing.T, m *March, st *Situation, free ...float64) (force []float64) {
	t.Helper()
	for _, f := range free {
		_, err := m.Step(Incoming{Free: []float64{f}}, st)
		require.NoError(t, err)
		force = append(force, st.Force[0])
	}
	return force
}

// One fixing by hand: springs in series, F = (free - play)/(soft + 1/K), up to the yield load; a
// slot that has yielded bears again only after the whole play and what has given.
func TestMarchGapYieldReversal(t *testing.T) {
	m := march(t, single, []Mount{{Slip: &Hold{Stiff: 1000, Play: 0.5, Yield: 400}}})
	var st Situation
	got := lead(t, m, &st, 0.4, 0.5, 0.9, 1.3, 2, 1.5, 0.6, 0, -0.1, -0.5)
	// 2 mm: F = 400, movement 2 - 0.4 = 1.6, play and spring end at 0.9, so the middle went to 0.7.
	// Back: free of force at 0.7 + 0.5 = 1.2, bearing again at 0.7 - 0.5 = 0.2.
	want := []float64{0, 0, 200, 400, 400, 150, 0, -100, -150, -350}
	for i := range want {
		assert.InDelta(t, want[i], got[i], 1e-9, "step %d", i)
	}
	assert.InDelta(t, 0.7, st.Offset[0], 1e-12)
}

// Friction by hand: it holds up to mu N = 0.5 x 100 N; after sliding it takes twice that to slide back.
func TestMarchFrictionReversal(t *testing.T) {
	m := march(t, single, []Mount{{Slip: &Hold{Yield: inf}, Friction: 0.5, Preload: 100}})
	var st Situation
	got := lead(t, m, &st, 0.03, 0.05, 1, 0.98, 0.9, 0.5, 0.52)
	want := []float64{30, 50, 50, 30, -50, -50, -30}
	for i := range want {
		assert.InDelta(t, want[i], got[i], 1e-9, "step %d", i)
	}
	assert.InDelta(t, 0.52+0.03, st.Move[0], 1e-12)
}

func TestMarchFrictionNoneAndTwo(t *testing.T) {
	for mu, want := range map[float64]float64{0: 0, 2: 200} {
		m := march(t, single, []Mount{{Slip: &Hold{Yield: inf}, Friction: mu, Preload: 100}})
		var st Situation
		assert.InDelta(t, want, lead(t, m, &st, 5)[0], 1e-9)
	}
}

// A slot of no length holds like a fixing without one; a rigid one wholly: F = free/soft.
func TestMarchSlotOfNoLength(t *testing.T) {
	m := march(t, single, []Mount{{Slip: &Hold{Stiff: inf, Yield: inf}, Friction: 0.3, Preload: 50}})
	var st Situation
	for i, f := range []float64{0.4, -0.4, 0} {
		assert.InDelta(t, f/soft, lead(t, m, &st, f)[0], 1e-9, "step %d", i)
		assert.Zero(t, st.Move[0])
	}
}

// A spring beside the stop, F = (K free + pull)/(1 + soft K), and one-sided contact that lifts off.
func TestMarchSpringAndContact(t *testing.T) {
	m := march(t, single, []Mount{{Lift: &Hold{Stiff: inf, Yield: inf, Presses: true, Spring: 250, Pull: 100}}})
	var st Situation
	got := lead(t, m, &st, -0.3, 0.1, 0.3)
	assert.InDelta(t, -300, got[0], 1e-9)
	assert.InDelta(t, 100, got[1], 1e-9, "closed until the panel takes the spring's pull off")
	assert.InDelta(t, (250*0.3+100)/1.25, got[2], 1e-9)
	lead(t, m, &st, 0.05)
	assert.InDelta(t, 50, st.Press[0], 1e-9, "100 N of spring less 50 N of lift")
}

// Friction under a contact: the force at which a clamped fixing slides is mu times what presses it
// in the same step, not before.
func TestMarchFrictionFollowsPress(t *testing.T) {
	b := Body{N: 2, C: []float64{soft, 0, 0, soft}}
	m := march(t, b, []Mount{{Slip: &Hold{Yield: inf}, Lift: &Hold{Row: 1, Stiff: inf, Yield: inf, Presses: true}, Friction: 0.5}})
	var st Situation
	for i, c := range []struct{ slip, lift, want float64 }{{1, -0.2, 100}, {1, -0.4, 100}, {1.3, -0.4, 200}, {1.3, -0.1, 50}, {1.3, 0.1, 0}, {1.3, -0.1, 0}, {0, -0.1, -50}} {
		_, err := m.Step(Incoming{Free: []float64{c.slip, c.lift}}, &st)
		require.NoError(t, err)
		assert.InDelta(t, c.want, st.Friction[0], 1e-9, "step %d", i)
	}
}

// wedge is a fixing whose slip presses it: with mu C_nt > C_nn it locks by itself (A. Klarbring's
// two-variable example, 1990: name from memory; worked out here).
func wedge(t *testing.T, mu float64) *March {
	b := Body{N: 2, C: []float64{soft, 0.8 * soft, 0.8 * soft, soft}}
	return march(t, b, []Mount{{Slip: &Hold{Yield: inf}, Lift: &Hold{Row: 1, Stiff: inf, Yield: inf, Presses: true}, Friction: mu}})
}

// At mu = 2 the wedge pressed home and pulled sideways stays locked although nothing presses it any
// more; both it and the open state satisfy every law. Bracket shows the two ends. At mu = 0.5 it
// lets go.
func TestMarchWedge(t *testing.T) {
	for _, c := range []struct {
		mu   float64
		held bool
	}{{2, true}, {0.5, false}} {
		m := wedge(t, c.mu)
		var st Situation
		for _, f := range [][]float64{{0, -0.1}, {0.1, 0}, {0.1, 0.01}} {
			_, err := m.Step(Incoming{Free: f}, &st)
			require.NoError(t, err)
		}
		assert.Equal(t, c.held, st.Press[0] > 1, "mu %g press %g", c.mu, st.Press[0])
		if !c.held {
			continue
		}
		// Locked: C r = free - (anchor, 0), anchor 0: r_t = (0.1 - 0.8 x 0.01)/0.36/soft
		assert.InDelta(t, (0.1-0.8*0.01)/0.36/soft, st.Force[0], 1e-9)
		free, held, err := m.Bracket(Incoming{Free: []float64{0.1, 0.01}}, &st)
		require.NoError(t, err)
		assert.Zero(t, free.Force[0])
		assert.InDelta(t, st.Force[0], held.Force[0], 1e-9)
		assert.Contains(t, m.Words(&st), "undetermined")
	}
}

// Lifted until its friction is overcome, C r = (0.1, f) with r_t = -2 r_n, so at f = 0.05, the wedge
// has no state nearby: it springs open, back over the load and on again, and the step says so.
func TestMarchWedgeSprings(t *testing.T) {
	m := wedge(t, 2)
	var st Situation
	for _, f := range [][]float64{{0, -0.1}, {0.1, 0}, {0.1, 0.049}} {
		tr, err := m.Step(Incoming{Free: f}, &st)
		require.NoError(t, err)
		assert.Zero(t, tr.Reversals)
	}
	require.Positive(t, st.Press[0])
	tr, err := m.Step(Incoming{Free: []float64{0.1, 0.051}}, &st)
	require.NoError(t, err)
	assert.Equal(t, 2, tr.Reversals)
	assert.False(t, tr.Sprang)
	assert.True(t, tr.Undetermined())
	assert.Zero(t, st.Press[0])
	assert.InDelta(t, 0.1, st.Move[0], 1e-12)
}

func TestMarchWithoutMounts(t *testing.T) {
	m := march(t, Body{N: 1, C: []float64{soft}, Motions: 1, R: []float64{1}}, nil)
	var st Situation
	_, err := m.Step(Incoming{Free: []float64{1}}, &st)
	require.NoError(t, err)
	assert.Zero(t, st.Force[0])
	assert.Contains(t, m.Words(&st), "no fixing")
}

// A weight on slots: it sinks to the end of the play and stands there; with nothing but friction
// that it overcomes, or nothing at all, the answer is a mechanism in words and the state stays.
func TestMarchMechanism(t *testing.T) {
	hung := Body{N: 2, C: []float64{soft, 0, 0, soft}, Motions: 1, R: []float64{1, 1}}
	in := Incoming{Free: []float64{0, 0}, Load: []float64{100}}
	m := march(t, hung, []Mount{{X: 0, Slip: &Hold{Row: 0, Stiff: 500, Play: 3, Yield: inf}}, {X: 1, Slip: &Hold{Row: 1, Stiff: inf, Play: 8, Yield: inf}}})
	var st Situation
	_, err := m.Step(in, &st)
	require.NoError(t, err)
	assert.InDelta(t, 3.2, st.Move[0], 1e-9)
	assert.InDelta(t, 100, st.Force[0], 1e-9)
	for name, mounts := range map[string][]Mount{
		"nothing":  nil,
		"friction": {{Name: "upper nail", Slip: &Hold{Yield: inf}, Friction: 0.5, Preload: 100}},
		"crushed":  {{Name: "upper nail", Slip: &Hold{Stiff: 500, Yield: 60}}},
	} {
		m := march(t, hung, mounts)
		var st Situation
		_, err := m.Step(in, &st)
		require.ErrorIs(t, err, ErrMechanism, name)
		assert.Contains(t, err.Error(), "nothing holds")
		for _, f := range st.Force {
			assert.Zero(t, f)
		}
	}
}

// Friction that was never overcome rests on the start; once it slid the answer is its own.
func TestMarchOpenUntilItSlides(t *testing.T) {
	m := march(t, single, []Mount{{Name: "keeper", Slip: &Hold{Yield: inf}, Friction: 0.5, Preload: 100}})
	var st Situation
	tr, err := m.Step(Incoming{Free: []float64{0.01}}, &st)
	require.NoError(t, err)
	assert.Equal(t, 1, tr.Open)
	assert.Contains(t, m.Words(&st), "keeper")
	assert.Equal(t, Stuck, m.Does(&st, 0))
	tr, err = m.Step(Incoming{Free: []float64{1}}, &st)
	require.NoError(t, err)
	assert.Zero(t, tr.Open)
	assert.Equal(t, Sliding, m.Does(&st, 0))
}

// A turn held with play: M = (rotation - play)/(soft + 1/K).
func TestMarchTurn(t *testing.T) {
	m := march(t, Body{N: 1, C: []float64{1e-6}}, []Mount{{Turn: &Hold{Stiff: 1e5, Play: 0.01, Yield: inf}}})
	var st Situation
	assert.InDelta(t, 0.02/1.1e-5, lead(t, m, &st, 0.03)[0], 1e-9)
}

// A slot that closes on a panel that stands off its middle pushes it back.
func TestMarchAdjust(t *testing.T) {
	x := Mount{Slip: &Hold{Stiff: inf, Play: 1, Yield: inf}}
	m := march(t, single, []Mount{x})
	var st Situation
	lead(t, m, &st, 0.8)
	x.Slip = &Hold{Stiff: inf, Play: 0.5, Yield: inf}
	require.NoError(t, m.Adjust(0, x))
	assert.InDelta(t, 300, lead(t, m, &st, 0.8)[0], 1e-9)
	x.Slip = &Hold{Stiff: inf, Yield: inf, Spring: 3}
	assert.Error(t, m.Adjust(0, x))
	assert.Error(t, m.Adjust(1, x))
}

// A strip with a cup pressed flat by three keepers that rub on a batten: P = 6 D kappa/l at the
// middle, half at each end; pushed along, all of it rubs (row FRIC-CUP-P, and Coulomb).
func TestMarchFlattensACup(t *testing.T) {
	const l, kappa, mu = 600.0, 1e-4, 0.5
	d := 693 * 300 * cube(20) / 12
	b := Body{N: 6, C: make([]float64, 36), Motions: 2, R: make([]float64, 12)}
	for i := range 3 { // 0..2 lift, 3..5 slip
		b.R[i*2], b.R[i*2+1] = 1, float64(i)-1
		b.C[(3+i)*6+3+i] = 1e-6
	}
	b.C[7] = l * l * l / (48 * d)
	mounts := make([]Mount, 3)
	for i := range mounts {
		mounts[i] = Mount{X: l / 2 * float64(i), Lift: &Hold{Row: i, Stiff: inf, Yield: inf}, Slip: &Hold{Row: 3 + i, Yield: inf}, Friction: mu, Keeper: true}
	}
	m := march(t, b, mounts)
	var st Situation
	sag := kappa * l * l / 8
	_, err := m.Step(Incoming{Free: []float64{0, sag, 0, 1, 1, 1}}, &st)
	require.NoError(t, err)
	p := Flatten(d, kappa, l)
	assert.InEpsilon(t, p, st.Press[1], 1e-9)
	assert.InEpsilon(t, p/2, st.Press[0], 1e-9)
	assert.InEpsilon(t, 2*mu*p, st.Friction[3]+st.Friction[4]+st.Friction[5], 1e-9)
	assert.InDelta(t, expected(t, "FRIC-CUP-P"), st.Press[1], 1e-4)
}

// expected reads a published or independent value from the registry.
func expected(t *testing.T, id string) float64 {
	t.Helper()
	rows, err := Checks()
	require.NoError(t, err)
	for _, r := range verify.Run(rows) {
		if r.Row.ID == id {
			return r.Row.Want
		}
	}
	require.Fail(t, "no row", id)
	return math.NaN()
}

// Six equal slots, all ties: the answer mirrors as the panel does.
func TestMarchMirror(t *testing.T) {
	const n = 6
	b := Body{N: 2 * n, C: make([]float64, 4*n*n), Motions: 3, R: make([]float64, 6*n)}
	mounts := make([]Mount, n)
	in := Incoming{Free: make([]float64, 2*n)}
	for i := range n {
		x := 100 * (float64(i) - 2.5)
		for j := range n {
			b.C[2*i*2*n+2*j] = 4e-7 * float64(min(i, j)+1) * float64(n-max(i, j))
			b.C[(2*i+1)*2*n+2*j+1] = 1e-4 * math.Exp(-math.Abs(float64(i-j)))
		}
		b.R[2*i*3], b.R[(2*i+1)*3+1], b.R[(2*i+1)*3+2] = 1, 1, x
		mounts[i] = Mount{X: x, Slip: &Hold{Row: 2 * i, Stiff: 700, Play: 0.2, Yield: 300}, Friction: 0.4,
			Lift: &Hold{Row: 2*i + 1, Stiff: inf, Play: 0.05, Yield: inf, Presses: true, Spring: 10, Pull: 80}}
		in.Free[2*i], in.Free[2*i+1] = 0.006*x, -1e-6*x*x
	}
	m := march(t, b, mounts)
	var st Situation
	for _, f := range []float64{1, 0.3, -0.5, 0} {
		step := Incoming{Free: make([]float64, 2*n)}
		for i := range step.Free {
			step.Free[i] = f * in.Free[i]
		}
		tr, err := m.Step(step, &st)
		require.NoError(t, err)
		assert.Less(t, tr.Move, 1e-10)
		assert.Less(t, tr.Load, 1e-8)
		for i := range n {
			assert.InDelta(t, 0, st.Force[2*i]+st.Force[2*(n-1-i)], 1e-7, "slip of %d at %g", i, f)
			assert.InDelta(t, st.Force[2*i+1], st.Force[2*(n-1-i)+1], 1e-7, "lift of %d at %g", i, f)
		}
	}
}

func TestMarchBadInput(t *testing.T) {
	two := Body{N: 2, C: []float64{soft, 0, 0, soft}}
	good := Hold{Stiff: 1, Yield: inf}
	with := func(f func(*Mount)) []Mount { h := good; m := Mount{Slip: &h}; f(&m); return []Mount{m} }
	for name, mounts := range map[string][]Mount{
		"row":       with(func(m *Mount) { m.Slip.Row = 2 }),
		"same row":  with(func(m *Mount) { m.Lift = &good }),
		"stiffness": with(func(m *Mount) { m.Slip.Stiff = -1 }),
		"play":      with(func(m *Mount) { m.Slip.Play = math.NaN() }),
		"yield":     with(func(m *Mount) { m.Slip.Yield = 0 }),
		"spring":    with(func(m *Mount) { m.Slip.Spring = inf }),
		"pull":      with(func(m *Mount) { m.Slip.Pull = inf }),
		"friction":  with(func(m *Mount) { m.Friction = 6 }),
		"preload":   with(func(m *Mount) { m.Preload = -1 }),
		"no slip":   with(func(m *Mount) { m.Slip, m.Friction = nil, 0.3 }),
	} {
		_, err := NewMarch(two, mounts)
		assert.Error(t, err, name)
	}
	for name, b := range map[string]Body{
		"size": {N: 2, C: []float64{1}}, "motions": {N: 1, C: []float64{1}, Motions: 1},
		"negative": {N: 2, C: []float64{soft, 2 * soft, 2 * soft, soft}},
		"skew":     {N: 2, C: []float64{soft, soft / 2, 0, soft}}, "NaN": {N: 2, C: []float64{math.NaN(), 0, 0, soft}},
	} {
		_, err := NewMarch(b, []Mount{{Slip: &Hold{Yield: inf}, Lift: &Hold{Row: 1, Yield: inf}}})
		assert.Error(t, err, name)
	}
	m := march(t, single, with(func(*Mount) {}))
	for _, in := range []Incoming{{}, {Free: []float64{math.NaN()}}, {Free: []float64{0}, Load: []float64{1}}} {
		_, err := m.Step(in, &Situation{})
		assert.Error(t, err)
	}
	other := march(t, two, nil)
	var st Situation
	_, err := other.Step(Incoming{Free: []float64{0, 0}}, &st)
	require.NoError(t, err)
	_, err = m.Step(Incoming{Free: []float64{0}}, &st)
	assert.Error(t, err, "situation of another march")
	assert.Error(t, m.Refit(two))
}
