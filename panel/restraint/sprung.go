package restraint

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Sprung is a panel strip held to one batten by fixings that give only away from the panel's face:
// springs, or keepers that do not give at all. Across the grain the panel slides.
type Sprung struct {
	Panel float64   // bending stiffness across the grain of the strip that one batten holds, N mm2
	Bar   float64   // of the batten along its grain, N mm2; +Inf = rigid
	At    []float64 // places of the fixings, mm from the left edge, rising
	Rate  float64   // of each spring, N/mm; +Inf = a keeper
	Width float64   // of the panel across the grain, mm
}

// Lifting is what fixings and batten do at one free curvature.
type Lifting struct {
	Force   []float64 // on the panel at each fixing, N, positive towards the painted face
	Preload float64   // force each spring needs at rest to stay in touch, N
	Moment  float64   // in the panel strip, N mm, largest
	Share   float64   // of the warp over the width that is held back, 0 to 1
	Warp    float64   // left over the width, mm, positive = painted face rounded
}

// Bend returns what the fixings carry and how much of the warp is held when the panel would take
// the curvature kappa, 1/mm, positive = painted face rounded. With the outermost fixings as supports
// and f the deflection of a beam on two supports, the forces F of the others follow from
//
//	Sum_j [(1/D_p + 1/D_b) f_ij + (delta_ij + a_i a_j + b_i b_j)/k] F_j = kappa x_i (l - x_i)/2
//
// a and b being the lever shares of the outermost. Beams on springs, the arrangement of Marcon et al.
// 2012 (J. Cult. Herit.); derived here. One fixing, or two, hold no warp. With three on a rigid bar it
// is [Flatten]; with many, close together, D_b/(D_p + D_b) of the warp is held. That the panel may press on the batten
// between fixings is left out. Errors name what is out of range.
func (s Sprung) Bend(kappa float64) (Lifting, error) {
	if err := s.valid(kappa); err != nil {
		return Lifting{}, err
	}
	n := len(s.At)
	r := Lifting{Force: make([]float64, n), Warp: Sagitta(kappa, s.Width)}
	if n < 3 || s.Rate == 0 || s.Bar == 0 {
		return r, nil
	}
	inner, err := s.inner(kappa)
	if err != nil {
		return Lifting{}, err
	}
	l := s.At[n-1] - s.At[0]
	for i, f := range inner {
		x := (s.At[i+1] - s.At[0]) / l
		r.Force[i+1] = -f
		r.Force[0] += f * (1 - x)
		r.Force[n-1] += f * x
	}
	r.Warp -= s.straightened(r.Force)
	for i := range r.Force {
		r.Preload = max(r.Preload, math.Abs(r.Force[i]))
	}
	for i := 1; i < n-1; i++ {
		m := 0.0
		for j := range i {
			m += r.Force[j] * (s.At[i] - s.At[j])
		}
		r.Moment = max(r.Moment, math.Abs(m))
	}
	if kappa != 0 {
		r.Share = 1 - r.Warp/Sagitta(kappa, s.Width)
	}
	return r, nil
}

// inner returns the forces of the fixings between the outermost, towards the back for a rounded panel.
func (s Sprung) inner(kappa float64) ([]float64, error) {
	n := len(s.At) - 2
	l, soft := s.At[n+1]-s.At[0], 1/s.Panel+1/s.Bar
	a, b := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for i := range n {
		x := s.At[i+1] - s.At[0]
		b.SetVec(i, kappa*x*(l-x)/2)
		for j := i; j < n; j++ {
			y := s.At[j+1] - s.At[0]
			v := soft*onTwo(x, y, l) + ((1-x/l)*(1-y/l)+x*y/(l*l))/s.Rate
			if i == j {
				v += 1 / s.Rate
			}
			a.SetSym(i, j, v)
		}
	}
	var ch mat.Cholesky
	if !ch.Factorize(a) {
		return nil, fmt.Errorf("fixings stand too close together to be told apart (%d over %g mm)", n+2, l)
	}
	var x mat.VecDense
	if err := ch.SolveVecTo(&x, b); err != nil {
		return nil, fmt.Errorf("forces of %d fixings: %w", n+2, err)
	}
	return x.RawVector().Data, nil
}

// onTwo is the deflection at x of a beam of stiffness 1 on two supports l apart under a unit load at y.
func onTwo(x, y, l float64) float64 {
	if x > y {
		x, y = y, x
	}
	b := l - y
	return b * x * (l*l - b*b - x*x) / (6 * l)
}

// straightened returns by how much the forces lower the middle of the width against its edges, mm:
// the deflection under them less the mean of the edges', by moment areas.
func (s Sprung) straightened(force []float64) float64 {
	// a unit load at the middle, borne at the edges, against the moment of the forces
	mid, w := s.Width/2, 0.0
	for i, f := range force {
		w += f * onTwo(s.At[i], mid, s.Width)
	}
	return -w / s.Panel
}

func (s Sprung) valid(kappa float64) error {
	if !(s.Panel > 0) || !(s.Bar >= 0) || !(s.Rate >= 0) || !(s.Width > 0) || math.IsInf(s.Panel+s.Width, 0) {
		return fmt.Errorf("stiffness of the panel and its width must be above 0 N mm2 and mm, of batten and springs 0 or more, got %g, %g mm, %g N mm2, %g N/mm", s.Panel, s.Width, s.Bar, s.Rate)
	}
	if math.IsNaN(kappa) || math.IsInf(kappa, 0) {
		return fmt.Errorf("free curvature must be finite, got %g 1/mm", kappa)
	}
	for i, x := range s.At {
		if !(x >= 0 && x <= s.Width) || (i > 0 && x <= s.At[i-1]) {
			return fmt.Errorf("fixings must stand in rising order between 0 and %g mm, got %g as number %d", s.Width, x, i+1)
		}
	}
	return nil
}
