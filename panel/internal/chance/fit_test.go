package chance

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// uniforms returns the points of Normals turned into uniforms on [0, 1].
func uniforms(n, d int, seed uint64) [][]float64 {
	x := Normals(n, d, d, seed)
	for _, row := range x {
		for j, v := range row {
			row[j] = distuv.UnitNormal.CDF(v)
		}
	}
	return x
}

func results(x [][]float64, f func([]float64) float64) []float64 {
	y := make([]float64, len(x))
	for i := range x {
		y[i] = f(x[i])
	}
	return y
}

// The function of T. Ishigami and T. Homma, An importance quantification technique in uncertainty analysis
// for computer models, Proceedings ISUMA (1990) 398-403: sin a + 7 sin^2 b + 0.1 c^4 sin a, inputs uniform
// on -pi..pi. Its variances are integrals done by hand below.
func TestIshigami(t *testing.T) {
	const a, b = 7, 0.1
	pi4 := math.Pow(math.Pi, 4)
	v1 := 0.5 * math.Pow(1+b*pi4/5, 2)
	v2 := a * a / 8.0
	v13 := b * b * pi4 * pi4 * (1.0/18 - 1.0/50)
	v := v1 + v2 + v13
	first, total := []float64{v1 / v, v2 / v, 0}, []float64{(v1 + v13) / v, v2 / v, v13 / v}
	for seed := range uint64(5) {
		x := uniforms(1000, 3, seed)
		y := results(x, func(u []float64) float64 {
			p, q, r := math.Pi*(2*u[0]-1), math.Pi*(2*u[1]-1), math.Pi*(2*u[2]-1)
			return math.Sin(p) + a*math.Pow(math.Sin(q), 2) + b*math.Pow(r, 4)*math.Sin(p)
		})
		p, err := Fit(x, y, Options{Basis: Legendre, Degree: 9})
		require.NoError(t, err)
		t.Log(p.First, p.Total, p.Unexplained, p.Mean, p.Variance, len(p.Terms))
		require.InDeltaSlice(t, first, p.First, 0.05)
		require.InDeltaSlice(t, total, p.Total, 0.05)
		require.InDelta(t, a/2.0, p.Mean, 0.05)
		require.InEpsilon(t, v, p.Variance, 0.05)
	}
}

// made40 is the kind of function a described panel is, made up: 40 inputs, the first ones strong, each with a
// straight and a bent part (in y = b x + c (x^2 - 1)/sqrt 2), a few products.
func made40(seed uint64) (f func([]float64) float64, first []float64) {
	r := rand.New(rand.NewPCG(seed, 40))
	b, c := make([]float64, 40), make([]float64, 40)
	first = make([]float64, 40)
	var v float64
	for i := range b {
		b[i] = r.NormFloat64() * math.Pow(0.8, float64(i))
		c[i] = 0.3 * r.NormFloat64() * math.Pow(0.8, float64(i))
		first[i] = b[i]*b[i] + c[i]*c[i]
		v += first[i]
	}
	for i := range first {
		first[i] /= v
	}
	return func(x []float64) float64 {
		var y float64
		for i, z := range x {
			y += b[i]*z + c[i]*(z*z-1)/math.Sqrt2
		}
		return y
	}, first
}

func BenchmarkFit(b *testing.B) {
	x := Normals(1000, 40, 10, 1)
	f, _ := made40(1)
	r := rand.New(rand.NewPCG(1, 1))
	y := results(x, func(x []float64) float64 { return math.Exp(f(x)/4) + 0.1*r.NormFloat64() })
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
	x := Normals(1000, 40, 10, 1)
	f, _ := made40(1)
	r := rand.New(rand.NewPCG(1, 1))
	y := results(x, func(x []float64) float64 { return math.Exp(f(x)/4) + 0.1*r.NormFloat64() })
	for b.Loop() {
		if _, err := Bootstrap(x, y, Options{}, 50, 1); err != nil {
			b.Fatal(err)
		}
	}
}
