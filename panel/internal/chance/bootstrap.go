package chance

import (
	"cmp"
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// Bands says how well the shares of [Fit] are known from the points it had.
type Bands struct {
	Low, High []float64 // 5 % and 95 % of Total over the resamples, by input
	SameOrder float64   // share of the resamples in which the first three inputs by Total keep their order
}

// Bootstrap draws as many points as there are, with replacement, and finds the shares anew, so many times.
// The terms are those of the first fit and only their coefficients are fitted again, so an input without
// a term has a band of 0, and the doubt of choosing terms is not inside. Same seed, same bits. Errors are
// those of [Fit]; fewer than 2 times are refused.
//
// Source: B. Efron, R. Tibshirani, An Introduction to the Bootstrap, Chapman and Hall 1993, chapter 9.
func Bootstrap(x [][]float64, y []float64, o Options, times int, seed uint64) (*Bands, error) {
	if times < 2 {
		return nil, errors.New("at least 2 resamples are needed")
	}
	f, err := newForward(x, y, o)
	if err != nil {
		return nil, err
	}
	d := len(x[0])
	b := &Bands{Low: make([]float64, d), High: make([]float64, d)}
	if f.constant {
		b.SameOrder = 1
		return b, nil
	}
	want := firstThree(f.poly().Total)
	same := make([]bool, times)
	totals := make([][]float64, d) // [input][resample]
	a := f.design()
	for r := range times {
		total := f.resampled(a, rand.New(rand.NewPCG(seed, uint64(r))))
		for i, v := range total {
			totals[i] = append(totals[i], v)
		}
		same[r] = slices.Equal(firstThree(total), want)
	}
	for i := range d {
		b.Low[i], b.High[i] = Quantile(totals[i], nil, 0.05), Quantile(totals[i], nil, 0.95)
	}
	b.SameOrder, _ = Share(nil, same)
	return b, nil
}

// resampled returns Total by input of one resample. A point drawn k times is a point of k times the weight.
func (f *forward) resampled(a *mat.Dense, src *rand.Rand) []float64 {
	n := len(f.y)
	w := make([]float64, n)
	for range n {
		i := src.IntN(n)
		w[i] += f.root[i] * f.root[i]
	}
	floats.Scale(float64(n)/floats.Sum(w), w)
	again := *f
	again.root = w
	for i, v := range w {
		again.root[i] = math.Sqrt(v)
	}
	c := solve(a, f.y, again.root)
	var fitted mat.VecDense
	fitted.MulVec(a, mat.NewVecDense(len(c), c))
	var missed float64
	for i, r := range again.root {
		e := r * (f.y[i] - fitted.AtVec(i))
		missed += e * e
	}
	// As leave-one-out does on average, the share of the points that the coefficients take is given back.
	free := 1 - float64(len(c))/f.n
	return again.shares(a, c, missed/float64(n)/(free*free)).total
}

// firstThree returns the three largest (or as many as there are), largest first.
func firstThree(total []float64) []int { return order(total)[:min(3, len(total))] }

// order returns the places of v from the largest to the smallest.
func order(v []float64) []int {
	places := make([]int, len(v))
	for i := range places {
		places[i] = i
	}
	slices.SortStableFunc(places, func(a, b int) int { return cmp.Compare(v[b], v[a]) })
	return places
}
