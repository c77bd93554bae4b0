package profile

import "math"

// grading is the ratio exponent of a graded mesh: the last interval is about e^grading times the
// first.
const grading = 3.0

// levels fills z with len(z)-1 intervals over the thickness: even, or finer towards the faces asked
// for.
func levels(z []float64, thickness float64, back, front bool) {
	n := len(z) - 1
	for i := range z {
		z[i] = thickness * spread(float64(i)/float64(n), back, front)
	}
}

// spread maps 0..1 on itself, finer at the ends named.
func spread(s float64, back, front bool) float64 {
	one := func(s float64) float64 { return math.Expm1(grading*s) / math.Expm1(grading) }
	switch {
	case back && front:
		if s <= 0.5 {
			return one(2*s) / 2
		}
		return 1 - one(2-2*s)/2
	case back:
		return one(s)
	case front:
		return 1 - one(1-s)
	}
	return s
}

// mesh is the geometry of the levels.
type mesh struct {
	z    []float64 // mm from the back
	v    []float64 // share of the thickness that a level stands for, m
	dx   []float64 // distance to the next level, m
	lean []float64 // weight of the level in the gradient, 1/mm
}

func newMesh(cells int, thickness float64, back, front bool) mesh {
	n := cells + 1
	m := mesh{z: make([]float64, n), v: make([]float64, n), dx: make([]float64, cells), lean: make([]float64, n)}
	levels(m.z, thickness, back, front)
	half := thickness / 2
	third := 12 / (thickness * thickness * thickness)
	for i := range cells {
		w := m.z[i+1] - m.z[i]
		m.dx[i] = w / 1000
		m.v[i] += w / 2000
		m.v[i+1] += w / 2000
		// 12/h^3 int (z - h/2) u dz, exact for u straight between the levels
		a, b := m.z[i]-half, m.z[i+1]-half
		m.lean[i] += third * w * (2*a + b) / 6
		m.lean[i+1] += third * w * (a + 2*b) / 6
	}
	return m
}
