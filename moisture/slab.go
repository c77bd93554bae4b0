package moisture

import (
	"fmt"
	"math"
	"math/cmplx"

	"crossgrain/tables"
)

// Slab is a board of constant diffusion in changing air: the quick answer, in days and millimetres,
// that the profile through the thickness refines.
type Slab struct {
	Thickness float64 // mm, > 0
	Diffusion float64 // across the thickness, on a gradient of moisture content, m2/s, > 0
	Faces     Faces
}

// Fourier returns D t/h^2 for a time in seconds.
func (s Slab) Fourier(seconds float64) float64 {
	h := s.Thickness / 1000
	return s.Diffusion * seconds / (h * h)
}

// seconds is the inverse of Fourier.
func (s Slab) seconds(fo float64) float64 {
	h := s.Thickness / 1000
	return fo * h * h / s.Diffusion
}

// Uptake returns the share of the change of the mean moisture content (0 to 1) made so many seconds
// after a step of the air; NaN for values out of range. See [Faces.Uptake].
func (s Slab) Uptake(seconds float64) float64 { return s.Faces.Uptake(s.Fourier(seconds)) }

// Moment returns the factor of free cupping so many seconds after a step of the air. See
// [Faces.Moment].
func (s Slab) Moment(seconds float64) float64 { return s.Faces.Moment(s.Fourier(seconds)) }

// Time returns the seconds until the mean has made the given share (0 to below 1) of its change.
// Errors name thickness, diffusion, share or faces out of range.
func (s Slab) Time(share float64) (float64, error) {
	if err := s.valid(); err != nil {
		return 0, err
	}
	fo, err := s.Faces.Fourier(share)
	return s.seconds(fo), err
}

// Peak returns the largest cupping factor after a step (signed as [Faces.Moment]) and the seconds
// until it occurs.
func (s Slab) Peak() (moment, seconds float64, err error) {
	if err := s.valid(); err != nil {
		return 0, 0, err
	}
	moment, fo, err := s.Faces.Peak()
	return moment, s.seconds(fo), err
}

// Swing returns how a sinusoidal swing of the air of the given period (s, > 0) arrives in the mean
// moisture content: the share of the amplitude (0 to 1) and the lag in seconds.
//
//	u" = z^2 u,   z = (1+i) h/d,   d = sqrt(D P/pi)
//	u = A exp(-z x) + C exp(-z (1-x)),   mean = (A + C)(1 - e)/z,   e = exp(-z)
//	A + r_b e C = g_b,   C + r_f e A = g_f,   r = (Bi - z)/(Bi + z),   g = Bi/(Bi + z)
//
// with a face at either end that exchanges with the air. Source of the waves: Carslaw and Jaeger
// 1959, ch. 3; the two faces and the mean worked out from it. With one face sealed it is
// tanh z/(z (1 + z tanh z/Bi)).
func (s Slab) Swing(period float64) (share, lag float64, err error) {
	if err := s.valid(); err != nil {
		return 0, 0, err
	}
	if err := s.Faces.valid(); err != nil {
		return 0, 0, err
	}
	if !(period > 0) {
		return 0, 0, fmt.Errorf("period must be above 0 s, got %g", period)
	}
	x := s.Thickness / AttenuationDepth(s.Diffusion, period)
	z := complex(x, x)
	e := cmplx.Exp(-z)
	rb, gb := face(s.Faces.Back, z)
	rf, gf := face(s.Faces.Front, z)
	mean := (gb + gf - e*(rb*gf+rf*gb)) / (1 - e*e*rb*rf) * (1 - e) / z
	return cmplx.Abs(mean), -cmplx.Phase(mean) / (2 * math.Pi) * period, nil
}

// face returns r and g of a face of the given Biot number.
func face(bi float64, z complex128) (r, g complex128) {
	if math.IsInf(bi, 1) {
		return 1, 1
	}
	b := complex(bi, 0)
	return (b - z) / (b + z), b / (b + z)
}

func (s Slab) valid() error {
	if err := tables.InRange("thickness", s.Thickness, 0.1, 1000, "mm", ""); err != nil {
		return err
	}
	return tables.InRange("diffusion coefficient", s.Diffusion, 1e-14, 1e-6, "m2/s", "")
}

// AttenuationDepth returns the depth in mm at which a swing of the given period (s) has fallen to
// 1/e in wood of diffusion D (m2/s): sqrt(D P/pi). Both must be above 0, else NaN. Source: Carslaw
// and Jaeger 1959, 2.6.
func AttenuationDepth(diffusion, period float64) float64 {
	if !(diffusion > 0 && period > 0) {
		return math.NaN()
	}
	return 1000 * math.Sqrt(diffusion*period/math.Pi)
}

// ResponseTime returns the seconds until the mean moisture content of a board of the given
// thickness (mm) and diffusion (m2/s) has made the given share (0 to below 1) of its change, one
// face bare without film and the other sealed. See [Slab.Time] for errors and for films.
func ResponseTime(thickness, diffusion, share float64) (seconds float64, err error) {
	return Slab{Thickness: thickness, Diffusion: diffusion, Faces: Faces{Back: math.Inf(1)}}.Time(share)
}
