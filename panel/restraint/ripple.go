package restraint

import (
	"fmt"
	"math"
)

// Bay is the strip of a panel between two members glued along the grain, as in a cradle: its
// plate's side across the grain is the clear distance between the members, its side along the
// grain the height over which nothing stops it from bulging.
type Bay struct {
	Plate
	// Rib is one glued member; when its G is 0, Clamped is used.
	Rib     Rib
	Clamped float64 // 0 hinged .. 1 clamped at the members
}

// Rib is a glued member as far as it keeps the panel from turning.
type Rib struct {
	Width, Depth float64 // mm
	G            float64 // shear modulus of its wood, MPa
}

// Ripples is the answer for one strip.
type Ripples struct {
	Critical float64 // held swelling strain at which it buckles, above 0
	Clamped  float64 // 0 hinged .. 1 clamped, used or worked out
	Waves    int     // half waves across the span
	Share    float64 // held swelling over critical; 0 when it is pulled
	Sign     int     // 1: it ripples; 0: it does not. The height is left open
}

// Ripples returns the held swelling at which the strip buckles and whether a held strain, negative =
// pressed, is beyond it. For m half waves across the span L and one along the height H
//
//	eps_cr = pi^2 t^2/(12 L^2) [m^2 + 2 (D3/Dx) (L/H)^2 + (Dy/Dx) (L/H)^4/m^2]     hinged
//	eps_cr = pi^2 t^2/(12 L^2) [4 + 2 (D3/Dx) (L/H)^2 + 3/4 (Dy/Dx) (L/H)^4]       clamped
//
// Hinged: S. G. Lekhnitskii, Anisotropic Plates (form: memory; for one material it is the factor
// (m b/a + a/(m b))^2 of Timoshenko and Gere 1961, section 9.2). Clamped: energy of one full cosine
// across, derived here, at most a few in 100 above the truth. Between them Clamped is interpolated
// (assumption). A high strip gives [Rippling]. With a member, its twisting holds the two strips beside it,
//
//	k = G J (pi/H)^2/2 for each strip,  tan(u)/u = -2 Dx/(k L),  clamped = [(2u/pi)^2 - 1]/3
//
// from the beam-column with elastic ends; J of a rectangle (W. C. Young and R. G. Budynas, Roark's
// Formulas, torsion of a solid rectangle). Above the limit only the sign is given: the height
// depends on glue, play and set, which a linear model does not hold. Any thickness, span and height
// above 0 mm; errors name what is out of range.
func (b Bay) Ripples(held float64) (Ripples, error) {
	if err := b.valid(); err != nil {
		return Ripples{}, err
	}
	if !(b.Clamped >= 0 && b.Clamped <= 1) || math.IsNaN(held) {
		return Ripples{}, fmt.Errorf("clamping must lie between 0 (hinged) and 1 (clamped), got %g, and the held strain must be a number", b.Clamped)
	}
	if m := b.Rib; m.G < 0 || (m.G > 0 && !(m.Width > 0 && m.Depth > 0)) {
		return Ripples{}, fmt.Errorf("glued member needs a shear modulus, width and depth above 0 MPa and mm, got %g, %g, %g", m.G, m.Width, m.Depth)
	}
	dx, dy, _, d3 := b.rigidity()
	r := Ripples{Clamped: b.Clamped}
	if b.Rib.G > 0 {
		r.Clamped = b.Rib.clamps(dx, b.Across, b.Along)
	}
	twist := 2 * d3 / dx * (b.Across / b.Along) * (b.Across / b.Along)
	along := dy / dx * math.Pow(b.Across/b.Along, 4)
	hinged := math.Inf(1)
	for m := 1; m <= 200; m++ {
		k := float64(m * m)
		if f := k + twist + along/k; f < hinged {
			hinged, r.Waves = f, m
		}
	}
	factor := hinged
	if clamped := 4 + twist + 0.75*along; clamped > hinged {
		factor += r.Clamped * (clamped - hinged)
	}
	q := math.Pi * b.T / b.Across
	r.Critical = factor * q * q / 12
	if held < 0 {
		r.Share = -held / r.Critical
	}
	if r.Share > 1 {
		r.Sign = 1
	}
	return r, nil
}

// clamps returns how far the member clamps the strips beside it, 0 to 1.
func (m Rib) clamps(d, span, height float64) float64 {
	a, b := max(m.Width, m.Depth)/2, min(m.Width, m.Depth)/2
	j := a * cube(b) * (16.0/3 - 3.36*b/a*(1-math.Pow(b/a, 4)/12))
	k := m.G * j * math.Pow(math.Pi/height, 2) / 2
	ratio := 2 * d / (k * span)
	lo, hi := math.Pi/2, math.Pi // tan(u)/u rises from -inf to 0
	for range 60 {
		u := (lo + hi) / 2
		if math.Tan(u)/u < -ratio {
			lo = u
		} else {
			hi = u
		}
	}
	return (math.Pow(2*lo/math.Pi, 2) - 1) / 3
}
