package fe

import "math"

// Cook returns the rise of the middle of the right side of Cook's membrane by n x n elements: corners (0, 0), (48, 44),
// (48, 60), (0, 44), E = 1, nu = 1/3, plane stress, a shear of 1 in all on the right side, the left side held. The
// common test of elements out of shape (Cook 1974); the limit is 23.96.
func Cook(n int) (float64, error) {
	m := Block(n, n, func(u, v float64) (x, z float64) { return 48 * u, 44*u + v*(44-28*u) })
	var held []int
	for i, x := range m.X {
		if x == 0 {
			held = append(held, 2*i, 2*i+1)
		}
	}
	d, err := Isotropic(1, 1./3).Stiffness()
	if err != nil {
		return math.NaN(), err
	}
	d = d.PlaneStress()
	b, err := NewBody(m, func(_ int, _, _ float64, out *Stiffness) { *out = d }, held)
	if err != nil {
		return math.NaN(), err
	}
	u := make([]float64, 2*len(m.X))
	for k := range n {
		el := m.El[(n-1)*n+k]
		for i, w := range [3]float64{1. / 6, 4. / 6, 1. / 6} {
			u[2*[3]int{el[1], el[5], el[2]}[i]+1] += w / float64(n)
		}
	}
	if err := b.Solve(u, 1); err != nil {
		return math.NaN(), err
	}
	return u[2*m.Nearest(48, 52)+1], nil
}

// Block meshes the unit square by nx x nz elements, numbered upwards and then across, and moves its nodes by place.
func Block(nx, nz int, place func(u, v float64) (x, z float64)) *Mesh {
	m := new(Mesh)
	id := make([][]int, 2*nx+1)
	for i := range id {
		id[i] = make([]int, 2*nz+1)
		for k := range id[i] {
			if i%2 == 1 && k%2 == 1 {
				continue
			}
			id[i][k] = len(m.X)
			x, z := place(float64(i)/float64(2*nx), float64(k)/float64(2*nz))
			m.X, m.Z = append(m.X, x), append(m.Z, z)
		}
	}
	for i := 0; i < 2*nx; i += 2 {
		for k := 0; k < 2*nz; k += 2 {
			m.El = append(m.El, [8]int{id[i][k], id[i+2][k], id[i+2][k+2], id[i][k+2], id[i+1][k], id[i+2][k+1], id[i+1][k+2], id[i][k+1]})
		}
	}
	return m
}

// Nearest returns the node nearest to x, z.
func (m *Mesh) Nearest(x, z float64) int {
	best := 0
	for i := range m.X {
		if math.Hypot(m.X[i]-x, m.Z[i]-z) < math.Hypot(m.X[best]-x, m.Z[best]-z) {
			best = i
		}
	}
	return best
}
