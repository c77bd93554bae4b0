package chance

import (
	"math/rand/v2"
	"testing"
)

// hard returns 1,000 points of 40 inputs and a result that keeps the selection busy: skew, with noise.
func hard() ([][]float64, []float64) {
	x := Normals(1000, 40, 10, 1)
	f, _, _ := lognormal(1)
	r := rand.New(rand.NewPCG(1, 1))
	return x, results(x, func(x []float64) float64 { return f(x) + 0.01*r.NormFloat64() })
}

func BenchmarkFit(b *testing.B) {
	x, y := hard()
	terms := 0
	for b.Loop() {
		p, err := Fit(x, y, Options{})
		if err != nil {
			b.Fatal(err)
		}
		terms = len(p.Terms)
	}
	b.ReportMetric(float64(terms), "terms")
}

func BenchmarkBootstrap(b *testing.B) {
	x, y := hard()
	for b.Loop() {
		if _, err := Bootstrap(x, y, Options{}, 50, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNormals(b *testing.B) {
	for b.Loop() {
		Normals(1000, 40, 10, 1)
	}
}
