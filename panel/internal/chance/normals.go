package chance

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// mostLead is the number of columns a Halton sequence still fills better than chance: with 25 columns
// and 1,000 points its worst pair is as correlated as that of plain random points.
const mostLead = 10

// Normals returns n points of d independent standard normals, point by point. The first lead columns
// (at most 10 and at most d; the important inputs, put first by the caller) form an Owen-scrambled
// Halton sequence, the rest a Latin hypercube in random order.
//
// Any first part of the points may be used alone; the lead columns of a first part are the same
// whatever n is. Same n, d, lead and seed, same bits. n or d of 0 or less gives no points, or points
// without columns.
//
// Halton: A. B. Owen, A randomized Halton algorithm in R, arXiv 1706.02808 (2017). Latin hypercube:
// McKay, Beckman and Conover, Technometrics 21 (1979) 239-245.
func Normals(n, d, lead int, seed uint64) [][]float64 {
	n, d = max(0, n), max(0, d)
	lead = min(max(0, lead), mostLead, d)
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, 0, d)
	}
	fill := func(s samplemv.Sampler, columns int) {
		if n == 0 || columns == 0 {
			return
		}
		batch := mat.NewDense(n, columns, nil)
		s.Sample(batch)
		for i := range points {
			points[i] = append(points[i], batch.RawRowView(i)...)
		}
	}
	fill(samplemv.Halton{Kind: samplemv.Owen, Q: normal{}, Src: rand.NewPCG(seed, 1)}, lead)
	fill(samplemv.LatinHypercube{Q: normal{}, Src: rand.NewPCG(seed, 2)}, d-lead)
	return points
}

// normal turns uniforms into standard normals.
type normal struct{}

// Quantile keeps p off 0 and 1, which a sequence may round to, so that every normal is finite.
func (normal) Quantile(x, p []float64) []float64 {
	if x == nil {
		x = make([]float64, len(p))
	}
	for i, u := range p {
		x[i] = distuv.UnitNormal.Quantile(min(max(u, 0x1p-53), 1-0x1p-53))
	}
	return x
}
