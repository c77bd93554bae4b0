package plan

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

// Unzipped is a condensed panel whose ties are taken out one after the other, all states from one
// elimination.
type Unzipped struct {
	from *Condensed
	y    [][]float64 // one row for each tie taken out: by the targets
	z    [][]float64 // and by the loads
}

// Unzip takes ties out in the order given: jump[i] is the place, among the targets, of a [Model.Jump]
// and tie[i] its stiffness from [Model.Tie].
//
//	F after n = F + sum of y_i^T y_i, i < n,    y = L^-1 F_r,   L L^T = 1/tie - F_rr
//
// The leading parts of L are the factors of all the shorter openings (Schur complement of the ties,
// in order).
func (c *Condensed) Unzip(jump []int, tie []float64) (*Unzipped, error) {
	n := len(jump)
	if n == 0 || len(tie) != n {
		return nil, fmt.Errorf("ties must be one for each of 1 or more jumps, got %d and %d", len(tie), n)
	}
	u := &Unzipped{from: c}
	for i, j := range jump {
		if j < 0 || j >= c.N || !(tie[i] > 0) || math.IsInf(tie[i], 0) {
			return nil, fmt.Errorf("jump must be 0 to %d with a tie above 0, got %d and %g", c.N-1, j, tie[i])
		}
		y, z := append([]float64(nil), c.F[j*c.N:][:c.N]...), append([]float64(nil), c.Free[j*c.Loads:][:c.Loads]...)
		// what is left of row j after the ties before it
		for k := range u.y {
			w := u.y[k][j]
			floats.AddScaled(y, w, u.y[k])
			floats.AddScaled(z, w, u.z[k])
		}
		d := 1/tie[i] - y[j]
		if !(d > 0) {
			return nil, fmt.Errorf("tie %d cannot be taken out: the panel would come apart or the tie is too stiff for it", i+1)
		}
		r := 1 / math.Sqrt(d)
		floats.Scale(r, y)
		floats.Scale(r, z)
		u.y, u.z = append(u.y, y), append(u.z, z)
	}
	return u, nil
}

// Steps returns the number of ties taken out.
func (u *Unzipped) Steps() int { return len(u.y) }

// After returns F and Free when the first n ties are out.
func (u *Unzipped) After(n int) (f, free []float64) {
	c := u.from
	f, free = append([]float64(nil), c.F...), append([]float64(nil), c.Free...)
	for k := range min(n, len(u.y)) {
		for i, w := range u.y[k] {
			floats.AddScaled(f[i*c.N:][:c.N], w, u.y[k])
			floats.AddScaled(free[i*c.Loads:][:c.Loads], w, u.z[k])
		}
	}
	return f, free
}

// Release returns the energy, N mm, set free when tie n (from 0) goes while the forces and loads stay
// as they are:
//
//	(y_n force + z_n load)^2/2
//
// The sum over the ties of one row over the length it stands for is the energy release of a front that
// passes it; U and TurnX give the opening part of it, V the sliding one, W and TurnY the tearing one.
func (u *Unzipped) Release(n int, force, load []float64) float64 {
	v := 0.0
	if force != nil {
		v += floats.Dot(u.y[n], force)
	}
	if load != nil {
		v += floats.Dot(u.z[n], load)
	}
	return v * v / 2
}
