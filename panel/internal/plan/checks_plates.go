package plan

import "fmt"

// edges says which movements of a plate's nodes are held.
type edges func(x, y float64, way Way) bool

// The plate of the rows PLAN-SS and PLAN-CL: 600 x 800 mm, E_L/E_T 20.
const checkWide, checkLong = 600.0, 800.0

// addPlateChecks adds the deflection of the middle of plates under an even pressure of 1 MPa: on four simple
// supports, and clamped.
func addPlateChecks(got map[string]func() (float64, error)) {
	p := Plate{Width: checkWide, EX: 550, EL: 11000, GXL: 700, GXZ: 60, GLZ: 650, NuLX: 0.4}
	for _, t := range []float64{3, 15, 60} {
		p.Thickness = t
		got[fmt.Sprintf("PLAN-SS-%g", t)] = middleOf(p, 12, simplySupported)
	}
	p.Thickness, p.GXZ, p.GLZ = 3, 6000, 6000
	got["PLAN-CL-3"] = middleOf(p, 24, clampedEdges)
}

func onEdge(x, y float64) (side, end bool) {
	return x == 0 || x == checkWide, y == 0 || y == checkLong
}

// simplySupported holds the edges from deflecting and from turning along themselves.
func simplySupported(x, y float64, way Way) bool {
	side, end := onEdge(x, y)
	return way < W || way == W && (side || end) || way == TurnX && end || way == TurnY && side
}

func clampedEdges(x, y float64, way Way) bool {
	side, end := onEdge(x, y)
	return way < W || side || end
}

// middleOf returns how far the middle of a plate of n by 4 n/3 cells gives, mm per MPa.
func middleOf(p Plate, n float64, hold edges) func() (float64, error) {
	return func() (float64, error) {
		p.Density = 0.5
		m, err := newHeld(Layout{Plates: []Plate{p}, Length: checkLong, CellX: checkWide / n, CellY: checkLong / (n * 4 / 3)}, hold)
		if err != nil {
			return 0, err
		}
		mid, err := m.Mean(Patch{X: checkWide / 2, Y: checkLong / 2}, W)
		if err != nil {
			return 0, err
		}
		c, err := m.Condense([]Target{mid})
		if err != nil {
			return 0, err
		}
		return -c.Free[m.WeightOf(Lying)] / (p.Density * gravity * p.Thickness), nil
	}
}

// newHeld is [NewModel] with the movements held that are told, in place of the six.
func newHeld(l Layout, hold edges) (*Model, error) {
	m := &Model{}
	if err := m.take(&l, nil); err != nil {
		return nil, err
	}
	if err := m.mesh(&l); err != nil {
		return nil, err
	}
	if err := m.assemble(m.split()); err != nil {
		return nil, err
	}
	for c, x := range m.Grid.X {
		for r, y := range m.Grid.Y {
			for way := U; way <= TurnY; way++ {
				if hold(x, y, way) {
					m.holdWay(m.Grid.Node(c, r), way)
				}
			}
		}
	}
	return m, m.factor()
}
