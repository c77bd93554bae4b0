package chance

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats"
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
		t.Logf("off by %.4f, %.4f; unexplained %.4f, %d terms", worst(first, p.First), worst(total, p.Total), p.Unexplained, len(p.Terms))
		require.InDeltaSlice(t, first, p.First, 0.01)
		require.InDeltaSlice(t, total, p.Total, 0.01)
		require.InDelta(t, a/2.0, p.Mean, 0.01)
		require.InEpsilon(t, v, p.Variance, 0.01)
	}
}

// The g function: the product of (|4u - 2| + a)/(1 + a), inputs uniform; an input's own variance is
// 1/3/(1+a)^2, the whole is the product of all (1 + own) less 1. Source: A. Saltelli, I. M. Sobol, About the use of
// rank transformation in sensitivity analysis of model output, Reliability Engineering and System Safety 50
// (1995) 225-239.
func TestProductOfBends(t *testing.T) {
	a := []float64{0, 1, 4.5, 9, 99, 99, 99, 99}
	all := 1.0
	for _, v := range a {
		all *= 1 + own(v)
	}
	var first, total []float64
	for _, v := range a {
		first = append(first, own(v)/(all-1))
		total = append(total, own(v)*all/(1+own(v))/(all-1))
	}
	for seed := range uint64(5) {
		x := uniforms(1000, 8, seed)
		y := results(x, func(u []float64) float64 {
			y := 1.0
			for i, v := range a {
				y *= (math.Abs(4*u[i]-2) + v) / (1 + v)
			}
			return y
		})
		p, err := Fit(x, y, Options{Basis: Legendre, Degree: 8}) // two bends in a product need degree 4 at least
		require.NoError(t, err)
		t.Logf("off by %.3f, %.3f; unexplained %.3f", worst(first, p.First), worst(total, p.Total), p.Unexplained)
		require.InDeltaSlice(t, first, p.First, 0.02)
		require.InDeltaSlice(t, total, p.Total, 0.02)
		require.InDelta(t, 1, p.Mean, 0.03)
	}
}

func own(a float64) float64 { return 1.0 / 3 / (1 + a) / (1 + a) }

// worst returns the largest difference between two lists.
func worst(want, got []float64) float64 { return floats.Distance(want, got, math.Inf(1)) }

// A linear function of normals: shares are the coefficients squared over their sum, exactly.
func TestLinearIsExact(t *testing.T) {
	b := []float64{3, -2, 0, 1, 0.5}
	x := Normals(100, 5, 5, 1)
	linear := func(x []float64) float64 { return 1e-6 * (7 + floats.Dot(b, x)) }
	p, err := Fit(x, results(x, linear), Options{})
	require.NoError(t, err)
	for i, v := range b {
		require.InDelta(t, v*v/14.25, p.First[i], 1e-10)
		require.InDelta(t, v*v/14.25, p.Total[i], 1e-10)
		require.InDelta(t, 1-v*v/14.25, p.Known(i), 1e-10)
	}
	require.InDelta(t, 7e-6, p.Mean, 1e-15)
	require.InEpsilon(t, 14.25e-12, p.Variance, 1e-9)
	require.Less(t, p.Unexplained, 1e-12)
	require.Len(t, p.Terms, 4)
	at := []float64{1, 2, 3, 4, 5}
	require.InDelta(t, linear(at), p.At(at), 1e-15)
	require.Panics(t, func() { p.At([]float64{1}) })
}

// additive is a made-up function of 40 inputs of falling strength, each with a straight part and one that
// bends at 0 (which no polynomial follows), and noise of a given variance for what no input explains. Own
// variance of b z + c max(z, 0): b^2 + b c + c^2 (1/2 - 1/(2 pi)), by integration over the normal.
func additive(seed uint64, noise float64) (f func([]float64) float64, shares []float64) {
	r := rand.New(rand.NewPCG(seed, 40))
	b, c := make([]float64, 40), make([]float64, 40)
	shares = make([]float64, 40)
	for i := range b {
		b[i], c[i] = r.NormFloat64()*math.Pow(0.85, float64(i)), r.NormFloat64()*math.Pow(0.85, float64(i))
		shares[i] = b[i]*b[i] + b[i]*c[i] + c[i]*c[i]*(0.5-0.5/math.Pi)
	}
	v := floats.Sum(shares)
	floats.Scale((1-noise)/v, shares)
	return func(x []float64) float64 {
		y := r.NormFloat64() * math.Sqrt(v*noise/(1-noise))
		for i, z := range x {
			y += b[i]*z + c[i]*max(z, 0)
		}
		return y
	}, shares
}

// lognormal is a made-up product of 40 factors exp(b z), so that every input acts in products of every order.
// Own variance of a factor over its mean squared: exp(b^2) - 1 (lognormal distribution).
func lognormal(seed uint64) (f func([]float64) float64, first, total []float64) {
	r := rand.New(rand.NewPCG(seed, 41))
	b := make([]float64, 40)
	for i := range b {
		b[i] = r.NormFloat64() * math.Pow(0.85, float64(i))
	}
	floats.Scale(0.5/floats.Norm(b, 2), b) // a result known to within a factor of 1.65 either way
	all := math.Exp(0.25)
	for _, v := range b {
		first = append(first, (math.Exp(v*v)-1)/(all-1))
		total = append(total, (1-math.Exp(-v*v))*all/(all-1))
	}
	return func(x []float64) float64 { return math.Exp(floats.Dot(b, x)) }, first, total
}

// The five largest totals of 40 inputs from 1,000 points are off by 0.05 at most in nine of ten functions, half of them
// by less than 0.03, and the first two are the right ones wherever they are 0.02 apart.
func TestFortyInputs(t *testing.T) {
	for _, kind := range []struct {
		name string
		make func(seed uint64) (func([]float64) float64, []float64)
	}{
		{"additive", func(s uint64) (func([]float64) float64, []float64) { return additive(s, 0) }},
		{"additive, a fifth noise", func(s uint64) (func([]float64) float64, []float64) { return additive(s, 0.2) }},
		{"product", func(s uint64) (func([]float64) float64, []float64) { f, _, total := lognormal(s); return f, total }},
	} {
		var off []float64
		for seed := range uint64(40) {
			f, total := kind.make(seed)
			x := Normals(1000, 40, 10, seed)
			p, err := Fit(x, results(x, f), Options{})
			require.NoError(t, err)
			five := order(total)[:5]
			var most float64
			for _, i := range five {
				most = max(most, math.Abs(total[i]-p.Total[i]))
			}
			off = append(off, most)
			if total[five[0]]-total[five[1]] > 0.02 && total[five[1]]-total[five[2]] > 0.02 {
				require.Equal(t, five[:2], order(p.Total)[:2], "%s %d", kind.name, seed)
			}
		}
		t.Logf("%s: median %.4f, 90 %% %.4f", kind.name, Quantile(off, nil, 0.5), Quantile(off, nil, 0.9))
		require.Less(t, Quantile(off, nil, 0.5), 0.03)
		require.Less(t, Quantile(off, nil, 0.9), 0.05)
	}
}

// What nothing explains is told: of pure noise (nearly) all, of noise that is a fifth of the variance a fifth.
func TestUnexplained(t *testing.T) {
	x := Normals(1000, 40, 10, 1)
	r := rand.New(rand.NewPCG(1, 1))
	var noise, half []float64
	for seed := range uint64(20) {
		p, err := Fit(x, results(x, func([]float64) float64 { return r.NormFloat64() }), Options{})
		require.NoError(t, err)
		noise = append(noise, p.Unexplained)
		require.Less(t, floats.Max(p.Total), 0.05)
		f, _ := additive(seed, 0.2)
		p, err = Fit(x, results(x, f), Options{})
		require.NoError(t, err)
		half = append(half, p.Unexplained)
		require.InDelta(t, 1, floats.Sum(p.First)+p.Unexplained, 0.06) // the rest are products that are not there
	}
	t.Logf("noise %.3f, a fifth of noise %.3f", Quantile(noise, nil, 0.5), Quantile(half, nil, 0.5))
	require.Greater(t, Quantile(noise, nil, 0.5), 0.95)
	require.InDelta(t, 0.2, Quantile(half, nil, 0.5), 0.03)
}

// Observing the sum of two normals ties them together. With an exact observation of a + b, a result of a
// alone loses all variance when a becomes known, and as much when b does; one of a + c keeps half with a
// (Var a is 1/2, c 1/2). Errors of 0.1 of the observation move that by a hundredth.
func TestWeightsTieInputs(t *testing.T) {
	x := Normals(20000, 3, 3, 5)
	logL := results(x, func(x []float64) float64 { return -0.5 * math.Pow((x[0]+x[1]-1)/0.1, 2) })
	w, err := Weights(logL)
	require.NoError(t, err)
	p, err := Fit(x, results(x, func(x []float64) float64 { return x[0] + math.Sqrt(0.5)*x[2] }), Options{Weights: w})
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{0.5, 0.5, 0.5}, p.First, 0.03)
	require.InDeltaSlice(t, []float64{0.5, 0, 0.5}, p.Total, 0.03)
	require.InDelta(t, 0.5, p.Mean, 0.04)
	require.InDelta(t, 1, p.Variance, 0.06)
	b, err := Bootstrap(x, results(x, func(x []float64) float64 { return x[0] + math.Sqrt(0.5)*x[2] }), Options{Weights: w}, 20, 1)
	require.NoError(t, err)
	for i := range p.Total {
		require.True(t, b.Low[i] <= p.Total[i] && p.Total[i] <= b.High[i], "input %d", i)
	}
}

// Equal weights of any size are no weights; a point of double weight is two points.
func TestWeightsAsCounts(t *testing.T) {
	x := Normals(200, 4, 4, 5)
	f, _, _ := lognormal(3)
	y := results(x, func(x []float64) float64 { return f(append(x[:4:4], make([]float64, 36)...)) })
	w := slices.Repeat([]float64{1}, 200)
	twiceX, twiceY := slices.Clone(x), slices.Clone(y)
	for i := range 50 {
		w[i] = 2
		twiceX, twiceY = append(twiceX, x[i]), append(twiceY, y[i])
	}
	o := Options{Terms: 8, Weights: w}
	a, err := Fit(x, y, o)
	require.NoError(t, err)
	b, err := Fit(twiceX, twiceY, Options{Terms: 8, Weights: slices.Repeat([]float64{1e-9}, 250)})
	require.NoError(t, err)
	require.Equal(t, len(a.Terms), len(b.Terms))
	for i := range a.Terms {
		require.InDelta(t, a.Terms[i].Coef, b.Terms[i].Coef, 1e-9)
	}
}

func TestFitRefuses(t *testing.T) {
	x := Normals(20, 3, 3, 1)
	y := columnOf(x, 0)
	bad := func(change func(x [][]float64, y []float64)) ([][]float64, []float64) {
		a, b := make([][]float64, len(x)), slices.Clone(y)
		for i := range x {
			a[i] = slices.Clone(x[i])
		}
		change(a, b)
		return a, b
	}
	refused := func(words string, x [][]float64, y []float64, o Options) {
		t.Helper()
		_, err := Fit(x, y, o)
		require.ErrorContains(t, err, words)
		_, err = Bootstrap(x, y, o, 5, 1)
		require.ErrorContains(t, err, words)
	}
	nan, bent := bad(func(_ [][]float64, y []float64) { y[7] = math.NaN() })
	refused("result of point 7 is NaN", nan, bent, Options{})
	nan, bent = bad(func(x [][]float64, _ []float64) { x[4][2] = math.Inf(-1) })
	refused("input 2 of point 4 is -Inf", nan, bent, Options{})
	nan, bent = bad(func(x [][]float64, _ []float64) { x[4] = x[4][:2] })
	refused("point 4 has 2 inputs", nan, bent, Options{})
	refused("outside 0..1", x, y, Options{Basis: Legendre})
	refused("0 points; at least 10", nil, nil, Options{})
	refused("1 points; at least 10", x[:1], y[:1], Options{})
	refused("20 points with 19 results", x, y[:19], Options{})
	refused("no inputs", Normals(20, 0, 0, 1), y, Options{})
	refused("basis 7", x, y, Options{Basis: 7})
	refused("degree -1", x, y, Options{Degree: -1})
	refused("3 weights for 20 points", x, y, Options{Weights: []float64{1, 1, 1}})
	refused("effective points", x, y, Options{Weights: make([]float64, 20)})
	w := slices.Repeat([]float64{1}, 20)
	w[3] = -1
	refused("weight of point 3 is -1", x, y, Options{Weights: w})
	_, err := Bootstrap(x, y, Options{}, 1, 1)
	require.ErrorContains(t, err, "resamples")
}

func TestFitConstantAndFew(t *testing.T) {
	x := Normals(10, 30, 5, 1)
	p, err := Fit(x, slices.Repeat([]float64{0.1}, 10), Options{})
	require.NoError(t, err)
	require.InDelta(t, 0.1, p.Mean, 1e-15)
	require.InDelta(t, 0.1, p.At(x[0]), 1e-15)
	require.Zero(t, p.Variance)
	require.Zero(t, p.Unexplained)
	require.Equal(t, make([]float64, 30), p.Total)
	require.Equal(t, 1.0, p.Known(3))
	b, err := Bootstrap(x, slices.Repeat([]float64{0.1}, 10), Options{}, 5, 1)
	require.NoError(t, err)
	require.Equal(t, 1.0, b.SameOrder)
	// Ten points, thirty inputs: something comes out, and it does not pretend.
	r := rand.New(rand.NewPCG(1, 1))
	p, err = Fit(x, results(x, func([]float64) float64 { return r.NormFloat64() }), Options{Terms: 99})
	require.NoError(t, err)
	require.LessOrEqual(t, len(p.Terms), 5)
	// An input that never changes, and one that is another's double.
	x = Normals(100, 3, 3, 1)
	for i := range x {
		x[i][1], x[i][2] = 0.3, x[i][0]
	}
	y := columnOf(x, 0)
	p, err = Fit(x, y, Options{})
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{1, 0, 0}, p.Total, 1e-9)
	_, err = Bootstrap(x, y, Options{}, 5, 1)
	require.NoError(t, err)
}

func TestSameBitsOnAnyCores(t *testing.T) {
	x := Normals(1000, 40, 10, 1)
	f, _ := additive(1, 0.1)
	y := results(x, f)
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	one, err := Fit(x, y, Options{})
	require.NoError(t, err)
	bands, err := Bootstrap(x, y, Options{}, 5, 1)
	require.NoError(t, err)
	for _, cores := range []int{2, 8} {
		runtime.GOMAXPROCS(cores)
		again, err := Fit(x, y, Options{})
		require.NoError(t, err)
		require.Equal(t, one, again)
		same, err := Bootstrap(x, y, Options{}, 5, 1)
		require.NoError(t, err)
		require.Equal(t, bands, same)
	}
}
