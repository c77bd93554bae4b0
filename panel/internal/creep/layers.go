package creep

import (
	"fmt"
	"math"
)

// Even cuts a thickness (mm) into n layers alike, from the back to the painted face.
func Even(thickness float64, n int) []float64 { return Graded(thickness, n, 1) }

// Graded cuts a thickness (mm) into n layers that grow by the given ratio from each face to the
// middle, where most of what humidity does to wood happens near the faces. Ratio 1 gives layers
// alike. A count below 1 gives none.
func Graded(thickness float64, n int, ratio float64) []float64 {
	if n < 1 {
		return nil
	}
	t := make([]float64, n)
	sum := 0.0
	for i := range t {
		t[i] = math.Pow(ratio, float64(min(i, n-1-i)))
		sum += t[i]
	}
	for i := range t {
		t[i] *= thickness / sum
	}
	return t
}

// arms returns the thickness of all layers and the distance of each layer's point from mid
// thickness. The points are the middles, moved outwards by a common factor (0.5 % for ten layers
// alike), so that the bending stiffness of the points is that of the whole board, h^3/12: a strain
// that is linear through the thickness is then exact.
func arms(t []float64) (h float64, a []float64) {
	for _, v := range t {
		h += v
	}
	a = make([]float64, len(t))
	z, sum := -h/2, 0.0
	for i, v := range t {
		a[i] = z + v/2
		z += v
		sum += v * a[i] * a[i]
	}
	if sum > 0 {
		f := math.Sqrt(h * h * h / 12 / sum)
		for i := range a {
			a[i] *= f
		}
	}
	return h, a
}

func validLayers(t []float64) error {
	if len(t) < 1 || len(t) > 64 {
		return fmt.Errorf("strip must have 1 to 64 layers, got %d", len(t))
	}
	for i, v := range t {
		if !(v > 0) || math.IsInf(v, 1) {
			return fmt.Errorf("layer %d must be above 0 mm thick and finite, got %g", i+1, v)
		}
	}
	return nil
}
