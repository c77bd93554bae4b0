package profile

// MC fills dst (which may be nil) with the moisture content at the levels, kg/kg, from back to front.
func (s *Solver) MC(dst []float64) []float64 { return append(dst[:0], s.u...) }

// RH fills dst (which may be nil) with the humidity in balance with the wood at the levels.
func (s *Solver) RH(dst []float64) []float64 { return append(dst[:0], s.h...) }

// Cells returns the levels, mm from the back, the first and the last on the faces, and the thickness
// each stands for, mm; the levels at the faces stand for half an interval.
func (s *Solver) Cells() (z, dz []float64) {
	z, dz = append(z, s.z...), make([]float64, len(s.v))
	for i, v := range s.v {
		dz[i] = 1000 * v
	}
	return z, dz
}

// Mean returns the mean moisture content through the thickness, kg/kg.
func (s *Solver) Mean() float64 {
	m := 0.0
	for i, v := range s.v {
		m += v * s.u[i]
	}
	return 1000 * m / s.wall.Thickness
}

// Skin returns the moisture content of the back face, kg/kg.
func (s *Solver) Skin() float64 { return s.u[0] }

// Painted returns the moisture content of the painted face, kg/kg.
func (s *Solver) Painted() float64 { return s.u[len(s.u)-1] }

// Moments returns the mean moisture content (kg/kg) and its gradient towards the front (1/mm),
//
//	m1 = 12/h^3 int (z - h/2) u dz,
//
// that is the slope of the straight line with the same moment: for swelling alpha the board wants the
// strain alpha (m0 - start) and the curvature alpha m1, positive with the painted face rounded.
func (s *Solver) Moments() (m0, m1 float64) {
	for i, w := range s.lean {
		m1 += w * s.u[i]
	}
	return s.Mean(), m1
}
