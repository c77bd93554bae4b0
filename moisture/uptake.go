package moisture

import (
	"fmt"
	"math"

	"crossgrain/tables"
)

// Faces are the Biot numbers S h/D of the two faces of a board of full thickness h, S (m/s) being
// the surface coefficient on a difference of moisture content: 0 is a sealed face, +Inf a bare one
// without film. Back is the unpainted face (z = 0), Front the painted one (z = h).
//
// The methods answer in dimensionless form: fo is the Fourier number D t/h^2 (>= 0), results are
// shares of the change of moisture content after a step of the air on both faces, for constant
// diffusion. Negative or NaN arguments give NaN; two sealed faces give no change.
//
// Source: Crank 1975, The Mathematics of Diffusion, ch. 4; Carslaw and Jaeger 1959, ch. 3.
type Faces struct{ Back, Front float64 }

// modes is how many terms of the series are kept; at earlyFo and later the next one is below 1e-17.
const (
	modes   = 32
	earlyFo = 0.005 // below, both faces act like half spaces (to exp(-50))
)

// mode is one term: cos(b y - a) with y = z/h, weights of its mean and first moment.
type mode struct{ b, a, mean, moment, shape float64 }

func (f Faces) bad() bool  { return !(f.Back >= 0 && f.Front >= 0) }
func (f Faces) shut() bool { return f.Back == 0 && f.Front == 0 }

// solve finds the terms of the series from b = (n-1) pi + atan(Back/b) + atan(Front/b), the root
// condition tan b = b (B1+B2)/(b^2 - B1 B2) freed of its branches.
func (f Faces) solve() (m [modes]mode) {
	for i := range m {
		base := float64(i) * math.Pi
		b := root(base, base+math.Pi, func(b float64) (v, slope float64) {
			return b - base - math.Atan(f.Back/b) - math.Atan(f.Front/b),
				1 + turnRate(f.Back, b) + turnRate(f.Front, b)
		})
		a1, a2 := math.Atan(f.Back/b), math.Atan(f.Front/b)
		end := base + a2 // b - a1
		in := (math.Sin(end) + math.Sin(a1)) / b
		norm := 0.5 + (math.Sin(2*a2)+math.Sin(2*a1))/(4*b)
		first := math.Sin(end)/b + (math.Cos(end)-math.Cos(a1))/(b*b) - in/2
		m[i] = mode{b: b, a: a1, mean: in * in / norm, moment: in * first / norm, shape: in / norm}
	}
	return m
}

func turnRate(bi, b float64) float64 {
	if math.IsInf(bi, 1) {
		return 0
	}
	return bi / (b*b + bi*bi)
}

// sum adds weight(term) exp(-b^2 fo) over the terms.
func sum(m *[modes]mode, fo float64, weight func(*mode) float64) float64 {
	total := 0.0
	for i := range m {
		total += weight(&m[i]) * math.Exp(-m[i].b*m[i].b*fo)
	}
	return total
}

// Uptake returns the share of the change of the mean moisture content, 0 at fo = 0, 1 at the end.
func (f Faces) Uptake(fo float64) float64 {
	switch {
	case f.bad() || !(fo >= 0):
		return math.NaN()
	case f.shut():
		return 0
	case fo < earlyFo:
		return halfSpace(f.Back, fo) + halfSpace(f.Front, fo)
	}
	m := f.solve()
	return uptake(&m, fo)
}

func uptake(m *[modes]mode, fo float64) float64 {
	return 1 - sum(m, fo, func(t *mode) float64 { return t.mean })
}

// Local returns the share of the change at the depth z/h = y (0 back, 1 front; NaN outside).
func (f Faces) Local(y, fo float64) float64 {
	switch {
	case f.bad() || !(fo >= 0) || !(y >= 0 && y <= 1):
		return math.NaN()
	case f.shut():
		return 0
	case fo < earlyFo:
		return halfSpaceAt(f.Back, y, fo) + halfSpaceAt(f.Front, 1-y, fo)
	}
	m := f.solve()
	return 1 - sum(&m, fo, func(t *mode) float64 { return t.shape * math.Cos(t.b*y-t.a) })
}

// Moment returns the first moment of the change over the thickness, the factor of free cupping:
//
//	12 int_0^1 theta (y - 1/2) dy,   free curvature = swelling * change of moisture * Moment / h
//
// Positive when the front is ahead (wetting through the front: painted face rounded).
func (f Faces) Moment(fo float64) float64 {
	switch {
	case f.bad() || !(fo >= 0):
		return math.NaN()
	case f.shut():
		return 0
	case fo < earlyFo:
		return 12 * (lean(f.Front, fo) - lean(f.Back, fo))
	}
	m := f.solve()
	return -12 * sum(&m, fo, func(t *mode) float64 { return t.moment })
}

// Ramp returns the share of the change of the mean when the air goes over in a straight line during
// the Fourier number over (> 0) instead of in a step.
func (f Faces) Ramp(fo, over float64) float64 {
	if f.bad() || !(fo >= 0) || !(over > 0) {
		return math.NaN()
	}
	if f.shut() {
		return 0
	}
	m := f.solve()
	return (uptakeSum(&m, fo) - uptakeSum(&m, max(fo-over, 0))) / over
}

// uptakeSum is the integral of the uptake from 0 to fo.
func uptakeSum(m *[modes]mode, fo float64) float64 {
	total := fo
	for i := range m {
		b2 := m[i].b * m[i].b
		total -= m[i].mean / b2 * -math.Expm1(-b2*fo)
	}
	return total
}

// Fourier returns the Fourier number at which the mean has made the given share (0 to below 1) of
// its change, or an error when it never does or the share is out of range.
func (f Faces) Fourier(share float64) (float64, error) {
	if err := tables.InRange("share of the change", share, 0, math.Nextafter(1, 0), "", ""); err != nil {
		return 0, err
	}
	if err := f.valid(); err != nil {
		return 0, err
	}
	m := f.solve()
	// Long after the start one term is left; it bounds the answer from above, as the others only help.
	hi := max(-math.Log1p(-share)/(m[0].b*m[0].b), earlyFo)
	return root(0, hi, func(fo float64) (v, slope float64) {
		if fo < earlyFo {
			return halfSpace(f.Back, fo) + halfSpace(f.Front, fo) - share,
				halfSpaceRate(f.Back, fo) + halfSpaceRate(f.Front, fo)
		}
		return uptake(&m, fo) - share, sum(&m, fo, func(t *mode) float64 { return t.mean * t.b * t.b })
	}), nil
}

// Peak returns the largest Moment (by size, with its sign) of a board with one face sealed, or with
// one face more open than the other, and the Fourier number at which it occurs. Faces alike do not
// cup and give 0, 0.
func (f Faces) Peak() (moment, fo float64, err error) {
	if err := f.valid(); err != nil {
		return 0, 0, err
	}
	if f.Back == f.Front {
		return 0, 0, nil
	}
	m := f.solve()
	at := func(fo float64) float64 {
		if fo < earlyFo {
			return 12 * math.Abs(lean(f.Front, fo)-lean(f.Back, fo))
		}
		return 12 * math.Abs(sum(&m, fo, func(t *mode) float64 { return t.moment }))
	}
	fo = highest(1e-6, 1, at)
	return f.Moment(fo), fo, nil
}

func (f Faces) valid() error {
	if f.bad() {
		return fmt.Errorf("biot numbers must be 0 or more, got %g (back) and %g (front)", f.Back, f.Front)
	}
	if f.shut() {
		return fmt.Errorf("both faces are sealed: the board takes up no moisture")
	}
	return nil
}
