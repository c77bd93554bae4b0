package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// worst returns the largest difference of two flexibilities over all pairs of opposite forces, as a
// share of the reference.
func worst(got, want []float64, n, upto int) float64 {
	w := 0.0
	pair := func(f []float64, i, j int) float64 { return f[i*n+i] + f[j*n+j] - 2*f[i*n+j] }
	for i := range upto {
		for j := range i {
			w = max(w, math.Abs(pair(got, i, j)/pair(want, i, j)-1))
		}
	}
	return w
}

func onPatches(p []Patch, ways ...Way) func(*Model) ([]Target, error) {
	return func(m *Model) (out []Target, err error) {
		for _, way := range ways {
			for _, q := range p {
				t, err := m.Mean(q, way)
				if err != nil {
					return nil, err
				}
				out = append(out, t)
			}
		}
		return out, nil
	}
}

// The wood yields across the grain only. Between the states a cubic; board by board the
// shares found from the unit forces' own stresses, against a model of just that state.
func TestStates(t *testing.T) {
	l := sheetCaseD(2, 30)
	p := l.Plates[0]
	p.ShearYield = 1
	a, b := p, p
	a.Width, b.Width = 250, 350
	l.Plates = []Plate{a, b}
	s, err := l.Condense(3, onPatches(patchesCaseD(), U))
	require.NoError(t, err)
	for _, v := range []struct {
		s   []float64
		tol float64
	}{{[]float64{1}, 1e-14}, {[]float64{3}, 1e-12}, {[]float64{2}, 0.01}, {[]float64{1.5}, 0.01}, {[]float64{3, 1}, 0.15}, {[]float64{1, 3}, 0.15}, {[]float64{2, 1.3}, 0.023}} {
		f, err := s.At(v.s...)
		require.NoError(t, err)
		m, err := NewModel(l, v.s...)
		require.NoError(t, err)
		targets, err := onPatches(patchesCaseD(), U)(m)
		require.NoError(t, err)
		c, err := m.Condense(targets)
		require.NoError(t, err)
		w := worst(f, c.F, 6, 6)
		t.Logf("yielded %v: %.2f %%", v.s, 100*w)
		assert.LessOrEqual(t, w, v.tol, v.s)
	}
	// the rate in the short state is the slope of F
	m, err := NewModel(l, 1.001, 1)
	require.NoError(t, err)
	targets, _ := onPatches(patchesCaseD(), U)(m)
	c, err := m.Condense(targets)
	require.NoError(t, err)
	r := s.Short.rates(l.Plates, 1)[0]
	for i := range c.F {
		c.F[i] = (c.F[i] - s.Short.F[i]) / 0.001
	}
	t.Logf("rates %.2f %%", 100*worst(r, c.F, 6, 3))
	assert.Less(t, worst(r, c.F, 6, 3), 0.05)
}

// When only E across the grain yields, multiplying the whole flexibility would be wrong by a fifth to
// a half at a factor of 3; the two states are not.
func TestStatesShearStays(t *testing.T) {
	l := sheetCaseD(2, 30)
	s, err := l.Condense(3, onPatches(patchesCaseD(), U))
	require.NoError(t, err)
	yes := append([]float64(nil), s.Short.F...)
	for i := range yes {
		yes[i] *= 3
	}
	t.Logf("multiplied by 3: %.1f %%", 100*worst(yes, s.Yielded.F, 6, 6))
	assert.InDelta(t, 0.47, worst(yes, s.Yielded.F, 6, 6), 0.05)
	f, err := s.At(2)
	require.NoError(t, err)
	m, err := NewModel(l, 2)
	require.NoError(t, err)
	targets, err := onPatches(patchesCaseD(), U)(m)
	require.NoError(t, err)
	c, err := m.Condense(targets)
	require.NoError(t, err)
	t.Logf("between at 2: %.2f %%", 100*worst(f, c.F, 6, 6))
	assert.LessOrEqual(t, worst(f, c.F, 6, 6), 0.01)
	_, err = s.At(1, 2)
	assert.Error(t, err)
	_, err = l.Condense(1, nil)
	assert.Error(t, err)
}

// The fine mesh of three boards, two battens, a split and a live line: forces here and movements there
// agree either way round.
func TestReciprocity(t *testing.T) {
	for _, coupled := range []bool{false, true} {
		l, p := fineLayout(false)
		l.Coupled = coupled
		m, err := NewModel(l, 2)
		require.NoError(t, err)
		targets, err := onPatches(p, U, V, W, TurnX, TurnY)(m)
		require.NoError(t, err)
		c, err := m.Condense(targets)
		require.NoError(t, err)
		t.Logf("coupled %v: %.1e", coupled, c.Asymmetry)
		assert.Less(t, c.Asymmetry, 1e-12)
	}
}

// In less memory the same comes out, whether all columns are solved for at once or not.
func TestCondenseLast(t *testing.T) {
	for _, coupled := range []bool{false, true} {
		boards := handBoards(10, 20)
		boards[0].Centre, boards[1].Centre = -5, -10
		l := Layout{Plates: boards, Length: 500, Coupled: coupled, Lines: []Line{{X: 300, Live: true}}}
		var got [2]*Condensed
		for i := range got {
			m, err := NewModel(l)
			require.NoError(t, err)
			var targets []Target
			for r := range m.Grid.Y {
				for way := U; way <= TurnY; way++ {
					j, err := m.Jump(0, r, way)
					require.NoError(t, err)
					targets = append(targets, j)
				}
			}
			for len(targets) < 2*atOnce+7 {
				p, err := m.Mean(Patch{X: float64(len(targets)), Y: 123}, W)
				require.NoError(t, err)
				targets = append(targets, p)
			}
			condense := m.Condense
			if i == 1 {
				condense = m.CondenseLast
			}
			got[i], err = condense(targets)
			require.NoError(t, err)
		}
		assert.InDeltaSlice(t, got[0].F, got[1].F, 1e-12)
		assert.InDeltaSlice(t, got[0].Free, got[1].Free, 1e-9)
		assert.Equal(t, got[0].Rigid, got[1].Rigid)
		assert.InDeltaSlice(t, got[0].Lift, got[1].Lift, 1e-12)
		assert.Empty(t, got[1].fields)
	}
}

// A panel condensed once takes over how a like one yields: exactly where all its wood is stiffer alike, within an
// eighth where one board is by a third or thicker by a tenth. Against the same panel condensed in both states.
func TestStatesOfALikePanel(t *testing.T) {
	l := sheetCaseD(2, 30)
	p := l.Plates[0]
	p.ShearYield = 1
	a, b := p, p
	a.Width, b.Width = 250, 350
	l.Plates = []Plate{a, b}
	ways := onPatches(patchesCaseD(), U, W)
	o, err := l.Condense(3, ways)
	require.NoError(t, err)
	stiffer := func(by float64, boards ...int) Layout {
		q := l
		q.Plates = []Plate{a, b}
		for _, k := range boards {
			p := &q.Plates[k]
			p.EX, p.EL, p.GXL, p.GXZ, p.GLZ = by*p.EX, by*p.EL, by*p.GXL, by*p.GXZ, by*p.GLZ
		}
		return q
	}
	thicker := l
	thicker.Plates = []Plate{a, b}
	thicker.Plates[1].Thickness *= 1.1
	for _, v := range []struct {
		name string
		l    Layout
		tol  float64
	}{{"as it is", l, 1e-12}, {"all stiffer", stiffer(1.33, 0, 1), 1e-9}, {"one stiffer", stiffer(1.33, 0), 0.12}, {"one thicker", thicker, 0.07}} {
		like, err := v.l.CondenseLike(o, ways)
		require.NoError(t, err)
		own, err := v.l.Condense(3, ways)
		require.NoError(t, err)
		assert.Equal(t, own.Short.F, like.Short.F, v.name)
		n := own.Short.N
		for _, s := range []float64{1.5, 3} {
			f, err := like.At(s)
			require.NoError(t, err)
			g, err := own.At(s)
			require.NoError(t, err)
			for _, half := range [][2]int{{0, n / 2}, {n / 2, n}} { // U and W by themselves: their units differ
				for i := half[0]; i < half[1]; i++ {
					for j := half[0]; j < i; j++ {
						pair := func(f []float64) float64 { return f[i*n+i] + f[j*n+j] - 2*f[i*n+j] }
						assert.InDelta(t, 1, pair(f)/pair(g), v.tol, "%s, yielded %g, %d %d", v.name, s, i, j)
					}
				}
			}
		}
	}
	fewer, err := l.CondenseLike(o, onPatches(patchesCaseD(), U))
	require.NoError(t, err, "other movements are condensed in both states")
	assert.Equal(t, o.Short.N/2, fewer.Yielded.N)
	_, err = l.CondenseLike(nil, ways)
	assert.Error(t, err)
}
