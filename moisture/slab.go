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
//	tanh z / (z (1 + z tanh z/Bi)),   z = (1+i) L/d,   d = sqrt(D P/pi)
//
// with L the depth to the plane without flow. Only one face sealed or both alike are answered; other
// faces give an error. Source: Carslaw and Jaeger 1959, ch. 3; form of the mean worked out from it.
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
	depth, bi := s.Thickness, max(s.Faces.Back, s.Faces.Front)
	switch {
	case s.Faces.Back == s.Faces.Front:
		depth, bi = depth/2, bi/2
	case s.Faces.Back > 0 && s.Faces.Front > 0:
		return 0, 0, fmt.Errorf("the closed form of a swing needs one sealed face or two alike, got %g (back) and %g (front)",
			s.Faces.Back, s.Faces.Front)
	}
	x := depth / AttenuationDepth(s.Diffusion, period)
	z := complex(x, x)
	th := complex(1, 0)
	if x < 20 {
		th = cmplx.Tanh(z)
	}
	r := th / (z * (1 + z*th/complex(bi, 0)))
	if math.IsInf(bi, 1) {
		r = th / z
	}
	return cmplx.Abs(r), -cmplx.Phase(r) / (2 * math.Pi) * period, nil
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
