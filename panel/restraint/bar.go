package restraint

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/plan"
)

// Bar is a batten or a slider: a straight member across the panel's grain.
type Bar struct {
	E            float64 // along its grain, MPa; it does not relax; +Inf = rigid
	G            float64 // in shear along its grain, MPa; 0 = it does not give in shear. Wood gives about a fourteenth of E
	Width, Depth float64 // along the panel's grain and away from the panel, mm
	// Offset is the distance of its centroid behind the panel's mid-thickness, mm; negative for a
	// bar on the painted side; 0 leaves bending out.
	Offset float64
	// HoldsFlat says that panel and bar are kept flat, by the bar itself or by what carries it.
	HoldsFlat bool
}

// axial returns 1/(E A), 1/N.
func (b Bar) soft() float64 { return 1 / (b.E * b.Width * b.Depth) }

// bending returns E I, N mm2.
func (b Bar) bending() float64 { return b.E * b.Width * b.Depth * b.Depth * b.Depth / 12 }

// shear returns 1/(5/6 G A), 1/N, of a rectangle (S. Timoshenko, Strength of Materials, part I: form memory); 0
// for a bar that is kept flat or does not give.
func (b Bar) shear() float64 {
	if b.G == 0 || b.HoldsFlat {
		return 0
	}
	return 1 / (5.0 / 6 * b.G * b.Width * b.Depth)
}

func (b Bar) valid() error {
	if !(b.G >= 0) {
		return fmt.Errorf("batten's shear modulus must be 0 MPa or more, got %g", b.G)
	}
	if !(b.E > 0 && b.Width > 0 && b.Depth > 0) {
		return fmt.Errorf("batten's modulus, width and depth must be above 0 MPa and mm, got %g, %g, %g", b.E, b.Width, b.Depth)
	}
	if math.IsInf(b.Width+b.Depth+b.Offset, 0) || math.IsNaN(b.Offset) {
		return fmt.Errorf("batten's width, depth and offset must be finite, got %g, %g, %g mm", b.Width, b.Depth, b.Offset)
	}
	if math.IsInf(b.E, 1) && !b.HoldsFlat && b.Offset != 0 {
		return fmt.Errorf("a rigid batten holds the panel flat, or needs an offset of 0 mm, got %g", b.Offset)
	}
	return nil
}

// Fixing is one fixing of a bar: a nail, a screw in a slot, a keeper, a patch of glue.
type Fixing struct {
	X         float64 // across the panel, mm
	Footprint float64 // length it acts over across the grain, mm; 0 = a point (a strip only)
	Along     float64 // the same along the grain, mm; 0 = as Footprint
	Slip      float64 // slip modulus, N/mm; 0 = carries nothing; +Inf = no slip
	Yield     float64 // yield load, N, above 0; +Inf = none
	Clearance float64 // free play each way, mm
	Friction  float64 // coefficient, 0..5
	Preload   float64 // force pressing panel and bar together here, N
}

func (f Fixing) valid() error {
	for _, q := range []struct {
		name, unit string
		v          float64
	}{{"slip modulus", "N/mm", f.Slip}, {"clearance", "mm", f.Clearance}, {"friction", "", f.Friction}, {"preload", "N", f.Preload}} {
		if !(q.v >= 0) {
			return fmt.Errorf("%s of the fixing at %g mm must be 0 %s or more, got %g", q.name, f.X, q.unit, q.v)
		}
	}
	if f.Friction > 5 || math.IsInf(f.Preload, 0) || math.IsInf(f.Clearance, 0) {
		return fmt.Errorf("friction of the fixing at %g mm must be at most 5, preload and clearance finite, got %g, %g N, %g mm",
			f.X, f.Friction, f.Preload, f.Clearance)
	}
	if !(f.Yield > 0) {
		return fmt.Errorf("yield load of the fixing at %g mm must be above 0 N, got %g (infinite when it never yields)", f.X, f.Yield)
	}
	return nil
}

// Patches returns the places through which the fixings act, for plan.Strip and plan.Sheet.
func Patches(fix []Fixing) []plan.Patch {
	out := make([]plan.Patch, len(fix))
	for i, f := range fix {
		out[i] = plan.Patch{X: f.X, Length: f.Footprint, Along: f.Along}
	}
	return out
}

// Glued returns n points that stand for a line of glue from one place to another, mm, both ends
// among them (each end for half a spacing). flow is its shear stiffness K/s = G_g b/t_g, N/mm per
// mm of length (+Inf = no slip), along the width of the glue along the panel's grain, mm. With no
// slip any n >= 2 gives the exact force; with slip 15 points are within 2 % of [Lag].
func Glued(from, to float64, n int, flow, along float64) ([]Fixing, error) {
	if n < 2 || !(to > from) || !(flow > 0) {
		return nil, fmt.Errorf("glue needs 2 or more points, a length and a stiffness above 0, got %d, %g mm, %g N/mm2", n, to-from, flow)
	}
	h := (to - from) / float64(n-1)
	out := make([]Fixing, n)
	for i := range out {
		out[i] = Fixing{X: from + h*float64(i), Along: along, Slip: flow * h, Yield: math.Inf(1)}
	}
	out[0].Slip /= 2
	out[n-1].Slip /= 2
	out[n-1].X = to
	return out, nil
}
