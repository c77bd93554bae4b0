package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// One row of cells bent in its plane: E. L. Wilson's inner modes make the rectangle exact, turn =
// M L/(E I). Without them it would be many times too stiff.
func TestBentInItsPlane(t *testing.T) {
	p := spruceLike(10)
	m, err := NewModel(Layout{Plates: []Plate{p}, Length: 60, CellX: 100, CellY: 60})
	require.NoError(t, err)
	targets, err := onPatches([]Patch{{X: 0, Y: 0}, {X: 0, Y: 60}, {X: 600, Y: 0}, {X: 600, Y: 60}}, U)(m)
	require.NoError(t, err)
	c, err := m.Condense(targets)
	require.NoError(t, err)
	u := c.Movement([]float64{1, -1, -1, 1}, nil, nil)
	turn := ((u[3] - u[1]) - (u[2] - u[0])) / 60
	assert.InEpsilon(t, 60.0*600/(550*10*60*60*60/12), turn, 1e-10)
}

// A free motion strains nothing.
func TestRigidMotion(t *testing.T) {
	boards := handBoards(10, 20)
	boards[0].Centre, boards[1].Centre = -5, -10
	m, err := NewModel(Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Live: true}, {X: 450}}})
	require.NoError(t, err)
	targets, err := onPatches([]Patch{{X: 77, Y: 33, Length: 20}}, U, V, W, TurnX, TurnY)(m)
	require.NoError(t, err)
	c, err := m.Condense(targets)
	require.NoError(t, err)
	motions := []float64{1, -2, 0.01, 3, -0.02, 0.03}
	s, err := c.Shape(nil, nil, motions)
	require.NoError(t, err)
	for cc, b := range m.Grid.Board {
		for r := range len(m.Grid.Y) - 1 {
			if b < 0 {
				continue
			}
			v := s.middle(cc, r)
			for i := range 3 {
				assert.InDelta(t, 0, v.N[i], 1e-8)
				assert.InDelta(t, 0, v.M[i], 1e-6)
			}
		}
	}
	// the shear through the thickness: w,x = -bx
	assert.InDelta(t, 0.02*100, s.Move(200, 100, false)[2]-s.Move(100, 100, false)[2], 1e-12)
	got, want := c.Movement(nil, nil, motions), s.Move(77, 33, false)
	for i := range got {
		assert.InDelta(t, want[i], got[i], 1e-12)
	}
}

// Lying on two edges along the grain: 5 q L^4/(384 D) and the shear q L^2/(8 S), strength of materials.
func TestLyingOnTwoEdges(t *testing.T) {
	boards := handBoards(15, 15)
	m, err := NewModel(Layout{Plates: boards, Length: 500, CellX: 12.5, CellY: 100})
	require.NoError(t, err)
	lines := []Patch{{X: 0, Y: 250, Along: 500}, {X: 600, Y: 250, Along: 500}, {X: 300, Y: 250, Along: 500}}
	targets, err := onPatches(lines, W)(m)
	require.NoError(t, err)
	c, err := m.Condense(targets)
	require.NoError(t, err)
	load := make([]float64, c.Loads)
	load[m.WeightOf(Lying)] = 1
	q := 0.45 * gravity * 15
	half := q * 600 * 500 / 2
	for k := range c.Motions { // both edges carry half: everything balances
		balance := c.Lift[k*c.Loads+m.WeightOf(Lying)] + half*(c.Rigid[k]+c.Rigid[c.Motions+k])
		assert.InDelta(t, 0, balance, 1e-9*half*600)
	}
	u := c.Movement([]float64{half, half, 0}, load, nil)
	d, s := 550*15*15*15/12.0, shearShare*60*15
	want := 5*q*600*600*600*600/(384*d) + q*600*600/(8*s)
	assert.InEpsilon(t, want, (u[0]+u[1])/2-u[2], 2e-3)
	// standing, the weight of each board acts at its own mid-thickness
	boards[0].Centre, boards[1].Centre = -5, -10
	m, err = NewModel(Layout{Plates: boards, Length: 500})
	require.NoError(t, err)
	targets, err = onPatches(lines, W)(m)
	require.NoError(t, err)
	c, err = m.Condense(targets)
	require.NoError(t, err)
	assert.InEpsilon(t, q*300*500*(5+10), c.Lift[5*c.Loads+m.WeightOf(Standing)], 1e-12)
	assert.InEpsilon(t, -q*600*500, c.Lift[1*c.Loads+m.WeightOf(Standing)], 1e-12)
}

// Too few holds are refused, whatever rounding leaves.
func TestLoosePanel(t *testing.T) {
	for name, fix := range map[string]func(x, y float64, way Way) bool{
		"turns in its face": func(x, y float64, way Way) bool { return way > V || x == 0 && y == 0 },
		"tips":              func(x, _ float64, way Way) bool { return way < W || way == W && x == 0 },
		"slides":            func(x, _ float64, way Way) bool { return way > V || way == U && x == 0 },
	} {
		l := Layout{Plates: []Plate{spruceLike(15)}, Length: 800}
		m := &Model{}
		require.NoError(t, m.take(&l, nil))
		require.NoError(t, m.mesh(&l))
		require.NoError(t, m.assemble(m.split()))
		m.holdWhere(fix)
		assert.Error(t, m.factor(), name)
	}
}
