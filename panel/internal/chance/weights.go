package chance

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

// Weights turns log likelihoods, known but for a constant, into weights with mean 1. A point of -Inf gets
// no weight. It refuses an empty list, NaN, +Inf, and a list in which every point is impossible.
func Weights(logL []float64) ([]float64, error) {
	if len(logL) == 0 {
		return nil, errors.New("no points to weigh")
	}
	for i, l := range logL {
		if math.IsNaN(l) || math.IsInf(l, 1) {
			return nil, fmt.Errorf("log likelihood of point %d is %v", i, l)
		}
	}
	most := floats.Max(logL)
	if math.IsInf(most, -1) {
		return nil, errors.New("none of the points agrees with what was observed")
	}
	w := make([]float64, len(logL))
	for i, l := range logL {
		w[i] = math.Exp(l - most) // the likeliest point first becomes 1, so that the sum is neither 0 nor infinite
	}
	floats.Scale(float64(len(w))/floats.Sum(w), w)
	return w, nil
}
