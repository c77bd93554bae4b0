package restraint

import (
	"gonum.org/v1/gonum/floats"
)

// Station is a place of the panel at which what is held back can be read.
type Station struct {
	X, Y  float64
	Board int
	force [2][]float64 // force and moment across the grain, by row
	load  [2][]float64
	// Above is how high the middle of the wood lies above the plane about which moments are told, mm.
	Above float64
}

// Station returns the place at x, y, to the left of a line when left is true.
func (a *Assembly) Station(x, y float64, board int, left bool) Station {
	c := a.states.Short
	p := c.Probe(x, y, left)
	s := Station{X: x, Y: y, Board: board, Above: c.Middle(board), load: p.Load, force: p.Force}
	for i := range s.force {
		for j, by := range a.sign {
			s.force[i][j] *= -by // what resists pushes back
		}
	}
	return s
}

// Read returns the force, N/mm, and the moment, N, for each mm along the grain under the forces that
// resist at the rows and the loads. It is in balance with the fixings whatever the wood has yielded; how
// it is spread is that of short loading.
func (s *Station) Read(force, load []float64) (n, m float64) {
	n, m = floats.Dot(s.force[0], force), floats.Dot(s.force[1], force)
	if load != nil {
		n += floats.Dot(s.load[0], load)
		m += floats.Dot(s.load[1], load)
	}
	return n, m
}
