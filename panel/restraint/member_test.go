package restraint

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stack is a panel strip and a batten as two members on n points from 0 to l, mm, that let nothing
// move; slip, lift and turn in rows 3i, 3i+1, 3i+2.
func stack(t *testing.T, n int, l float64, panel, batten Bar) (Body, []Mount) {
	t.Helper()
	touches, mounts := make([]Touch, n), make([]Mount, n)
	for i := range n {
		x := l * float64(i) / float64(n-1)
		touches[i] = Touch{X: x, Slip: 3 * i, Lift: 3*i + 1, Turn: 3*i + 2}
		rigid := func(row int) *Hold { return &Hold{Row: row, Stiff: inf, Yield: inf} }
		mounts[i] = Mount{X: x, Slip: rigid(3 * i), Lift: rigid(3*i + 1), Turn: rigid(3*i + 2)}
	}
	b := Body{N: 3 * n, C: make([]float64, 9*n*n)}
	b, err := b.WithBar(panel, -panel.Depth/2, touches) // by its back
	require.NoError(t, err)
	b, err = b.WithBar(batten, batten.Depth/2, touches)
	require.NoError(t, err)
	return b, mounts
}

// A panel strip glued to a batten, shrinking 1 %: free to bend, the axial force is that of the stack
// of layers; held flat it is A_p A_b e/(A_p + A_b). Forces at the ends only.
func TestMemberGlued(t *testing.T) {
	const n = 5
	for _, depth := range []float64{10, 20, 40} {
		for _, flat := range []bool{false, true} {
			panel, batten := Bar{E: 693, Width: 300, Depth: 20, HoldsFlat: flat}, Bar{E: 11000, Width: 40, Depth: depth, HoldsFlat: flat}
			b, mounts := stack(t, n, 600, panel, batten)
			if flat { // nothing is left to bend: turns and lifts are free
				for i := range mounts {
					mounts[i].Turn, mounts[i].Lift = nil, nil
				}
			}
			m := march(t, b, mounts)
			var st Situation
			in := Incoming{Free: make([]float64, b.N)}
			for i := range n {
				in.Free[3*i] = -0.01 * 150 * float64(i)
			}
			_, err := m.Step(in, &st)
			require.NoError(t, err)
			strip := Layer{E: 693, Width: 300, Thickness: 20, Z: 10, Strain: -0.01}
			c, err := NewComposite([]Layer{strip, {E: 11000, Width: 40, Thickness: depth, Z: -depth / 2}})
			require.NoError(t, err)
			want := c.Stress(strip, 10) * 20 * 300
			if flat {
				want = GluedFlat(-0.01, checkPanel, 11000*40*depth)
			}
			assert.InEpsilon(t, want, st.Force[0], 1e-8, "depth %g flat %t", depth, flat)
			assert.InEpsilon(t, -want, st.Force[3*n-3], 1e-8)
			for i := 1; i < n-1; i++ {
				assert.InDelta(t, 0, st.Force[3*i], 1e-8*want)
				assert.InDelta(t, 0, st.Force[3*i+1], 1e-8*want, "nothing lifts")
			}
		}
	}
}

// A batten on two keepers at the ends and pressed at the middle: its stiffness is 48 EI/L^3, so
// half the depth gives an eighth of the force.
func TestMemberHalfTheDepth(t *testing.T) {
	var force [2]float64
	for k, depth := range []float64{30, 15} {
		bar := Bar{E: 11000, Width: 40, Depth: depth}
		touches := []Touch{{X: 0, Slip: -1, Lift: 0, Turn: -1}, {X: 250, Slip: -1, Lift: 1, Turn: -1}, {X: 500, Slip: -1, Lift: 2, Turn: -1}}
		b, err := Body{N: 3, C: make([]float64, 9)}.WithBar(bar, 0, touches)
		require.NoError(t, err)
		mounts := make([]Mount, 3)
		for i := range mounts {
			mounts[i] = Mount{X: touches[i].X, Lift: &Hold{Row: i, Stiff: inf, Yield: inf}}
		}
		m := march(t, b, mounts)
		var st Situation
		_, err = m.Step(Incoming{Free: []float64{0, 2, 0}}, &st)
		require.NoError(t, err)
		assert.InEpsilon(t, 2.0, MidLoad(st.Force[1], 500, 11000, 40, depth), 1e-9)
		assert.InEpsilon(t, -st.Force[1]/2, st.Force[0], 1e-9)
		force[k] = st.Force[1]
	}
	assert.InEpsilon(t, 8.0, force[0]/force[1], 1e-9)
}

func TestMemberBadInput(t *testing.T) {
	b := Body{N: 1, C: []float64{1}}
	for name, c := range map[string]struct {
		bar  Bar
		face float64
		at   Touch
	}{
		"bar": {Bar{}, 0, Touch{}}, "face": {oakBar, math.NaN(), Touch{}},
		"row": {oakBar, 0, Touch{Slip: 1}}, "place": {oakBar, 0, Touch{X: inf}},
	} {
		_, err := b.WithBar(c.bar, c.face, []Touch{c.at})
		assert.Error(t, err, name)
	}
}
