package restraint

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/panel/internal/plan"
)

// chain is a system's panel and bar as a body: the slip of its fixings and the shift of the bar.
func chain(s *System) Body {
	n := len(s.fix)
	b := Body{N: n, C: s.c, Motions: 1, R: make([]float64, n)}
	for i := range b.R {
		b.R[i] = 1
	}
	return b
}

func slips(fix []Fixing) []Mount {
	out := make([]Mount, len(fix))
	for i, f := range fix {
		out[i] = Mount{X: f.X, Slip: &Hold{Row: i, Stiff: f.Slip, Play: f.Clearance, Yield: f.Yield}, Friction: f.Friction, Preload: f.Preload}
	}
	return out
}

func march(t testing.TB, b Body, m []Mount) *March {
	t.Helper()
	s, err := NewMarch(b, m)
	require.NoError(t, err)
	return s
}

// The chain of fixings is solved by another program path in System: both must agree along a whole
// history of slots, friction under a constant load, yield and slip without end.
func TestMarchAgainstChain(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	for trial := range 60 {
		n := 2 + trial%12
		fix := randomFixings(r, n, 600)
		s := system(t, oneBoard, 300, oakBar, fix)
		m := march(t, chain(s), slips(s.fix))
		var st State
		var sit Situation
		for k := range 20 {
			_, err := s.Step(1, drive(0.01*r.NormFloat64()), &st)
			require.NoError(t, err)
			tr, err := m.Step(Incoming{Free: s.free}, &sit)
			require.NoError(t, err, "trial %d step %d", trial, k)
			assert.Zero(t, tr.Reversals)
			for i := range n {
				require.InDelta(t, st.Force[i], sit.Force[i], 1e-7*(1+math.Abs(st.Force[i])), "trial %d step %d fixing %d of %d", trial, k, i, n)
			}
		}
	}
}

// Two fixings held flat: F = e L / (2/K + L/A_p + L/A_b), springs in series.
func TestMarchTwoFixings(t *testing.T) {
	fix := []Fixing{{X: 0, Slip: 700, Yield: inf}, {X: 600, Slip: 700, Yield: inf}}
	f, err := plan.Strip(oneBoard, 300, Patches(fix))
	require.NoError(t, err)
	s, err := Build(f, flatBar, fix)
	require.NoError(t, err)
	s.movement(drive(-0.01))
	m := march(t, chain(s), slips(s.fix))
	var sit Situation
	_, err = m.Step(Incoming{Free: s.free}, &sit)
	require.NoError(t, err)
	want := TwoFasteners(-0.01, 600, 700, checkPanel, checkBar)
	assert.InEpsilon(t, want, -sit.Force[1], 1e-11)
	assert.InEpsilon(t, want, sit.Force[0], 1e-11)
}
