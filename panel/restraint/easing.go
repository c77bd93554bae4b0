package restraint

import (
	"fmt"
	"math"
)

// NeverThere is the sentence that belongs under every table of battens.
const NeverThere = "A batten that was never there may not be needed."

// Easing is a panel with battens across its grain that are to hold it less, and the limits set.
type Easing struct {
	Across, Along float64    // of the panel across and along the grain, mm, above 0
	T             float64    // thickness, mm, 0.5 to 300
	E             [2]float64 // across the grain, MPa, short, low and high end
	Left          float64    // part of E left while a warp is held for a season, above 0 to 1 (about 0.4: relaxation of the wood)
	Density       float64    // kg/m3, above 0
	Warp          float64    // largest warp over the width that the panel wants in its range of humidity, mm, either sign
	Swing         Swing      // its change of width in that range

	Battens int        // 0 to 100, each holding its share of the height
	EBatten [2]float64 // along the batten's grain, MPa, low and high end
	Fixings int        // on each batten, evenly spread, 1 to 100
	Inset   float64    // of the outermost from the edges, mm
	Fixed   float64    // where panel and batten are fixed to each other, mm from the left edge
	Shank   float64    // of a fixing, mm
	Play    float64    // workshop's margin at each end of a slot, mm
	Grip    float64    // friction coefficient x pressing force at each slotted fixing, N, 0 or more

	Share  float64 // upper limit of the share of the warp that is held, 0 to 1; 0 = not asked
	Stress float64 // upper limit of the stress at the weakest line, MPa; 0 = not asked
	Line   float64 // thickness that bears at that line, mm; 0 = the whole
	Sag    float64 // upper limit of the sag when carried level on two edges, as a share of the thickness; 0 = not asked
	Load   float64 // upper limit of the force at a fixing, N; 0 = not asked
}

// Bounds are the limits of the bending stiffness E I of one batten.
type Bounds struct {
	Least float64 // for weight and handling, N mm2; 0 = the panel carries itself
	Most  float64 // for the upper limits of restraint, N mm2; +Inf = none; 0 = no batten at all
	Bare  [2]float64
	// Bare is the sag of the panel without battens carried on two edges, mm, stiffest and softest.
	Reach Reach // of the softest
}

// Bounds returns between which limits the stiffness E I of one batten may lie. With D = E t^3 H/(12 n) the
// panel's share of one batten, panel and batten taking one curvature,
//
//	held share    R = E I/(E I + D)                    upper limit, D at its lowest and relaxed
//	weakest line  6 D R kappa/(H/n t_l^2) + friction   upper limit, D at its highest and relaxed
//	sag           5 W L^3/[384 n (D + E I)]            lower limit, D at its lowest, short
//
// W being the panel's weight. Beams side by side, with the restraining effect as Cocchi et al. 2017
// define it (1 - with/without); that the batten is chosen from what it has to carry is the rule of Marchant
// 1998. Without battens Least and Most are those of a single one. Errors name what is out of range.
func (e Easing) Bounds() (Bounds, error) {
	if err := e.valid(); err != nil {
		return Bounds{}, err
	}
	b := Bounds{Most: math.Inf(1), Bare: e.sag(0, 0)}
	b.Reach = ReachOf(b.Bare[1], e.T)
	n := float64(max(e.Battens, 1))
	if e.Sag > 0 {
		need := 5 * e.weight() * cube(e.Across) / (384 * e.Sag * e.T)
		b.Least = max(0, need/n-e.panel(0))
	}
	if e.Share > 0 {
		b.Most = odds(e.Share) * e.panel(0) * e.Left
	}
	if e.Stress > 0 {
		r := 1.0
		if full := e.lineStress(1, 1) - e.friction(); full > 0 {
			r = (e.Stress - e.friction()) / full
		} else if e.friction() > e.Stress {
			r = 0
		}
		b.Most = min(b.Most, odds(max(r, 0))*e.panel(1)*e.Left)
	}
	return b, nil
}

// odds returns r/(1-r), infinite from 1 on.
func odds(r float64) float64 {
	if r >= 1 {
		return math.Inf(1)
	}
	return r / (1 - r)
}

// panel returns D, N mm2, of the strip that one batten holds, short, at the low (0) or high (1) modulus.
func (e Easing) panel(end int) float64 {
	return e.E[end] * cube(e.T) / 12 * e.Along / float64(max(e.Battens, 1))
}

// weight returns the panel's weight, N.
func (e Easing) weight() float64 {
	return Weight{Density: e.Density, T: e.T}.load() * e.Across * e.Along
}

// curvature returns the largest free curvature, 1/mm.
func (e Easing) curvature() float64 { return 8 * math.Abs(e.Warp) / (e.Across * e.Across) }

// friction returns the stress at the weakest line that slots holding by friction can put there at
// the middle of the width, MPa: half the fixings lie outside it. It never exceeds the rigid hold.
func (e Easing) friction() float64 {
	t := e.bears()
	hold := e.Grip * float64(e.Fixings/2*e.Battens) / (e.Along * t)
	rigid := e.E[1] * e.Left * max(-e.Swing.Dry, e.Swing.Damp) * e.T / t
	return min(hold, rigid)
}

func (e Easing) bears() float64 {
	if e.Line > 0 {
		return e.Line
	}
	return e.T
}

// lineStress returns the stress at the weakest line for the held share r at one end of the modulus, MPa.
func (e Easing) lineStress(r float64, end int) float64 {
	m := e.E[end] * e.Left * cube(e.T) / 12 * r * e.curvature()
	return 6*m/(e.bears()*e.bears()) + e.friction()
}

// sag returns the sag of panel and battens side by side, stiffest and softest, mm, for the stiffness
// of one batten at the low and high end of its wood.
func (e Easing) sag(low, high float64) [2]float64 {
	n := float64(max(e.Battens, 1))
	f := func(d float64) float64 { return 5 * e.weight() * cube(e.Across) / (384 * n * d) }
	return [2]float64{f(e.panel(1) + high), f(e.panel(0) + low)}
}

func (e Easing) valid() error {
	if !(e.T >= 0.5 && e.T <= 300) {
		return fmt.Errorf("thickness must lie between 0.5 and 300 mm, got %g", e.T)
	}
	if e.Battens < 0 || e.Battens > 100 || e.Fixings < 1 || e.Fixings > 100 {
		return fmt.Errorf("battens must be 0 to 100 and fixings on each 1 to 100, got %d and %d", e.Battens, e.Fixings)
	}
	for _, q := range []struct {
		name, unit string
		v          float64
	}{{"width across the grain", "mm", e.Across}, {"height along the grain", "mm", e.Along}, {"density", "kg/m3", e.Density},
		{"lower modulus across the grain", "MPa", e.E[0]}, {"lower modulus of the batten", "MPa", e.EBatten[0]}, {"shank", "mm", e.Shank}} {
		if !(q.v > 0) || math.IsInf(q.v, 1) {
			return fmt.Errorf("%s must be above 0 %s and finite, got %g", q.name, q.unit, q.v)
		}
	}
	for _, q := range []struct {
		name, unit string
		v, max     float64
	}{{"inset", "mm", e.Inset, math.Nextafter(e.Across/2, 0)}, {"fixed point", "mm", e.Fixed, e.Across}, {"play", "mm", e.Play, math.MaxFloat64},
		{"grip", "N", e.Grip, math.MaxFloat64}, {"share held", "", e.Share, 1}, {"stress", "MPa", e.Stress, math.MaxFloat64},
		{"thickness at the line", "mm", e.Line, e.T}, {"sag", "of the thickness", e.Sag, math.MaxFloat64}, {"load", "N", e.Load, math.MaxFloat64}} {
		if !(q.v >= 0 && q.v <= q.max) {
			return fmt.Errorf("%s must lie between 0 and %.4g %s, got %g", q.name, q.max, q.unit, q.v)
		}
	}
	if !(e.E[1] >= e.E[0]) || !(e.EBatten[1] >= e.EBatten[0]) || math.IsInf(e.E[1]+e.EBatten[1], 0) {
		return fmt.Errorf("moduli must be given low and high in this order, MPa, got %g and %g", e.E, e.EBatten)
	}
	if !(e.Left > 0 && e.Left <= 1) || math.IsNaN(e.Warp) || math.IsInf(e.Warp, 0) {
		return fmt.Errorf("part of the modulus left must lie above 0 and up to 1, warp be finite, got %g and %g mm", e.Left, e.Warp)
	}
	return e.Swing.valid()
}
