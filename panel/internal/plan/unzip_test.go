package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// All lengths of a split from one elimination, against the panel meshed anew at three of them.
func TestUnzip(t *testing.T) {
	boards := handBoards(15)
	boards[0].Width = 600
	base := Layout{Plates: boards, Length: 500, CellX: 60, CellY: 25, Lines: []Line{{X: 300, Live: true}}}
	patches := []Patch{{X: 150, Y: 100, Length: 30}, {X: 450, Y: 100, Length: 30}}
	m, err := NewModel(base)
	require.NoError(t, err)
	targets, err := onPatches(patches, U, W)(m)
	require.NoError(t, err)
	var jump []int
	var tie []float64
	for r, y := range m.Grid.Y[:len(m.Grid.Y)-2] {
		k, _ := m.Tie(0, r)
		for way := U; way <= TurnY; way++ {
			j, err := m.Jump(0, r, way)
			require.NoError(t, err)
			jump, tie = append(jump, len(targets)), append(tie, k[way])
			targets = append(targets, j)
		}
		_ = y
	}
	c, err := m.Condense(targets)
	require.NoError(t, err)
	u, err := c.Unzip(jump, tie)
	require.NoError(t, err)
	assert.Equal(t, len(jump), u.Steps())
	force := make([]float64, c.N)
	force[0], force[1], force[2], force[3] = -100, 100, 7, -7
	load := make([]float64, c.Loads)
	load[m.LoadOf(0, StrainX)] = -0.004
	load[m.LoadOf(0, BendX)] = 1e-5
	short := append([]float64(nil), force[:4]...)
	var last []float64
	for _, a := range []float64{100, 200, 400} {
		base.Lines[0].Open = [][2]float64{{0, a}}
		n, err := NewModel(base)
		require.NoError(t, err)
		targets, err := onPatches(patches, U, W)(n)
		require.NoError(t, err)
		d, err := n.Condense(targets)
		require.NoError(t, err)
		rows := int(math.Round(a/25)) * 5
		f, free := u.After(rows)
		pair := func(f []float64, n, i, j int) float64 { return f[i*n+i] + f[j*n+j] - 2*f[i*n+j] }
		for _, p := range [][2]int{{0, 1}, {2, 3}} {
			assert.InEpsilon(t, pair(d.F, 4, p[0], p[1]), pair(f, c.N, p[0], p[1]), 1e-6, "a %g", a)
			for q := range d.Loads {
				want := d.Free[p[1]*d.Loads+q] - d.Free[p[0]*d.Loads+q]
				assert.InDelta(t, want, free[p[1]*c.Loads+q]-free[p[0]*c.Loads+q], 1e-6*math.Abs(want)+1e-5)
			}
		}
		// the energy set free between two lengths is the growth of the flexibility under the forces
		work := func(f []float64, n int) float64 {
			s := 0.0
			for i, p := range short {
				for j, q := range short {
					s += p * q * f[i*n+j] / 2
				}
			}
			return s
		}
		sum := 0.0
		for k := range rows {
			sum += u.Release(k, force, nil)
		}
		assert.InEpsilon(t, work(f, c.N)-work(c.F, c.N), sum, 1e-9)
		assert.InEpsilon(t, work(d.F, 4)-work(c.F, c.N), sum, 1e-5)
		last = f
	}
	assert.NotEmpty(t, last)
	assert.NotZero(t, u.Release(0, force, load))
	_, err = c.Unzip(jump, tie[1:])
	assert.Error(t, err)
	_, err = c.Unzip([]int{-1}, []float64{1})
	assert.Error(t, err)
	_, err = c.Unzip(jump[:1], []float64{1e30})
	assert.Error(t, err)
}

// A strip gripped along both long edges and shrinking across: the energy per length of a long split
// along its middle is what the strip stores, E e^2 H t/2 with E held along the grain, H its width.
func TestUnzipLongSplit(t *testing.T) {
	p := Plate{Width: 200, Thickness: 10, EX: 700, EL: 14000, GXL: 800, GXZ: 60, GLZ: 700, NuLX: 0}
	l := Layout{Plates: []Plate{p}, Length: 1200, CellX: 10, CellY: 20, Lines: []Line{{X: 100, Live: true}}}
	m := held(t, l, func(x, _ float64, way Way) bool {
		return way > V || x == 0 || x == 200
	})
	var targets []Target
	var jump []int
	var tie []float64
	for r := range m.Grid.Y[:len(m.Grid.Y)-1] {
		k, _ := m.Tie(0, r)
		for _, way := range []Way{U, V} {
			j, err := m.Jump(0, r, way)
			require.NoError(t, err)
			jump, tie = append(jump, len(targets)), append(tie, k[way])
			targets = append(targets, j)
		}
	}
	c, err := m.Condense(targets)
	require.NoError(t, err)
	u, err := c.Unzip(jump, tie)
	require.NoError(t, err)
	load := make([]float64, c.Loads)
	load[m.LoadOf(0, StrainX)] = -0.01
	r := len(m.Grid.Y) / 2
	g := (u.Release(2*r, nil, load) + u.Release(2*r+1, nil, load)) / (20 * 10)
	assert.InEpsilon(t, 700*0.01*0.01*200/2, g, 0.01)
}
