package fracture

import (
	"fmt"
	"math"
)

// steps is the number of lengths between today's and the whole panel's at which energy is computed.
const steps = 48

// Point is a crack at one length.
type Point struct {
	Start, End float64 // mm along the grain
	Tip        float64 // place of the end that is driven hardest, mm
	Strain     float64 // held strain there
	Energy             // there
}

// Length returns the length of the crack, mm.
func (p Point) Length() float64 { return p.End - p.Start }

// Curve is energy release against length, from today's length to that of the panel. The last point
// is the crack through the whole panel, with no tip left and no energy.
type Curve struct{ Points []Point }

// Release follows a crack from today's length until it has run through the panel. At each length the
// energy is that of [StripRelease] with the strain held at the place of the tip, plus
// [FlattenedRelease], times [Factor], times the share of depth; of two tips the harder driven one
// goes on, and a tip that has reached the end of the panel makes the crack one from the end.
//
// A line or drive out of range, or a strain that is not finite, gives an error. A Span of 0 gives a
// curve without energy. Accuracy: 8 % for through cracks longer than a sixth of the span between rigid
// edges, 11 % below that, when Shear is given (28 % and 34 % when not, for wood soft in shear); see the
// tests.
func Release(l Line, d Drive) (Curve, error) {
	if err := l.validate(); err != nil {
		return Curve{}, err
	}
	if err := d.validate(); err != nil {
		return Curve{}, err
	}
	c := Curve{Points: make([]Point, 0, steps+3)}
	scale := LengthScale(d.E0, d.Shear)
	step := (l.Along - l.Length()) / steps
	lo, hi := l.Start, l.End
	for lo > 0 || hi < l.Along {
		p := l.hardest(d, scale, lo, hi)
		if math.IsNaN(p.Slow) || math.IsInf(p.Slow, 0) {
			return Curve{}, fmt.Errorf("held strain must be finite, got %g at %g mm along the grain", p.Strain, p.Tip)
		}
		c.Points = append(c.Points, p)
		lo, hi = l.advance(p, step)
	}
	c.Points = append(c.Points, Point{End: l.Along})
	return c, nil
}

// advance moves the tip of p on by a step; what would be left shorter than a hundredth of a step is
// taken along.
func (l Line) advance(p Point, step float64) (lo, hi float64) {
	lo, hi = p.Start, p.End
	if p.Tip == hi && hi < l.Along {
		if hi += step; hi > l.Along-step/100 {
			hi = l.Along
		}
		return lo, hi
	}
	if lo -= step; lo < step/100 {
		lo = 0
	}
	return lo, hi
}

// hardest returns the point for a crack from lo to hi at the tip with the greater energy; of two
// alike the upper one.
func (l Line) hardest(d Drive, scale, lo, hi float64) Point {
	a, place := hi-lo, FromEnd
	if lo > 0 && hi < l.Along {
		a, place = a/2, Inside
	}
	height := l.Span * l.DepthShare
	if l.Span > 0 {
		height *= Factor(place, l.Edges, a*scale/l.Span)
	}
	best := Point{Start: lo, End: hi}
	for i, y := range [2]float64{hi, lo} {
		if i == 0 && hi >= l.Along || i == 1 && lo <= 0 {
			continue
		}
		e := d.Strain(y)
		g := d.energy(loading(e, d.Curvature, l.Thickness), height)
		if best.Tip == 0 || g.Slow > best.Slow || math.IsNaN(g.Slow) {
			best.Tip, best.Strain, best.Energy = y, e, g
		}
	}
	return best
}

// Now returns the crack as it is today; of an empty curve the zero Point.
func (c Curve) Now() Point {
	if len(c.Points) == 0 {
		return Point{}
	}
	return c.Points[0]
}

// Grows says whether the crack as it is grows slowly at the toughness gc, N/mm.
func (c Curve) Grows(gc float64) bool {
	return len(c.Points) > 1 && c.Points[0].Slow >= gc
}

// Stops returns the length (mm) at which a crack that grows slowly comes to rest because the energy
// has fallen below the toughness gc (N/mm), and whether it would go through the panel instead. A
// crack that does not grow stops where it is.
func (c Curve) Stops(gc float64) (length float64, through bool) {
	for i, p := range c.Points {
		if i == len(c.Points)-1 {
			return p.Length(), i > 0
		}
		if p.Slow >= gc {
			continue
		}
		if i == 0 {
			return p.Length(), false
		}
		q := c.Points[i-1] // at or above gc: the straight line between crosses it
		return q.Length() + (p.Length()-q.Length())*(q.Slow-gc)/(q.Slow-p.Slow), false
	}
	return 0, false
}

// Toughness of a crack along the grain, N/mm: where growth starts, and where it levels off once a
// zone of bridging fibres (20 to 27 mm in spruce: Kunecky and others 2025) stands behind the tip.
// They differ four- to tenfold; both are told.
type Toughness struct{ Start, Plateau float64 }

// Run is what a crack does at one toughness.
type Run struct {
	Grows   bool
	Length  float64 // where it comes to rest, mm
	Through bool    // it would go through the panel
}

// Run follows the crack at one toughness, N/mm.
func (c Curve) Run(gc float64) Run {
	r := Run{Grows: c.Grows(gc)}
	r.Length, r.Through = c.Stops(gc)
	return r
}

// Runs follows the crack at the toughness at the start of growth and at the plateau: the harmful and
// the mild end.
func (c Curve) Runs(t Toughness) (start, plateau Run) { return c.Run(t.Start), c.Run(t.Plateau) }

// Opening returns by how much the mouth of a crack from the end opens when the strain eps is held in
// a strip of height H (mm) and the crack is a mm long, mm; negative = it closes:
//
//	eps H f(a/H)
//
// f is [Factor] for clamped edges. Estimate: 7 to 13 % too small in the independent case of the tests.
// Add it to the gap measured, at the humidity where it was measured.
func Opening(eps, H, a float64) float64 {
	if !(H > 0) {
		return 0
	}
	return eps * H * Factor(FromEnd, Clamped, a/H)
}
