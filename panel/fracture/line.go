package fracture

import (
	"fmt"
	"math"

	"crossgrain/tables"
)

// Line is a split (through), a check (part-through) or an open join that may lengthen along the
// grain. Lengths mm.
type Line struct {
	Start, End float64 // ends along the grain, from the lower or left end of the panel
	Along      float64 // size of the panel along the grain, above 0
	Span       float64 // clear height across the grain between what holds the panel (H); 0 = nothing holds it
	Thickness  float64 // of the panel at the line, above 0
	// DepthShare is depth over thickness, above 0, to 1 = through. A check sets free only its depth's
	// share of the energy of each mm of length, so its energy is scaled by it (estimate: the wood left
	// behind it also holds it shut, which is not counted).
	DepthShare float64
	Edges      Edges
}

// Length returns the length along the grain, mm.
func (l Line) Length() float64 { return l.End - l.Start }

// Tip returns the place along the grain of the end that lies in the panel; of two, the upper one.
func (l Line) Tip() float64 {
	if l.End < l.Along {
		return l.End
	}
	return l.Start
}

// Drive is what drives a crack.
type Drive struct {
	Strain    func(y float64) float64 // held strain at the place y along the grain, pulled positive
	Curvature float64                 // curvature that the panel wants and is not let have, 1/mm
	E0        float64                 // short modulus across the grain, MPa, above 0
	Left      float64                 // stress left after relaxation over elastic stress, above 0, to 1
	Shear     float64                 // short shear modulus in the plane of the panel, MPa; 0 = as the wood of the tables
}

// Energy is the energy release of a crack, N/mm.
type Energy struct {
	Slow   float64 // by slow growth, which follows the relaxed stiffness: Left E0 eps^2 H/2. It decides
	Sudden float64 // by a sudden run, which frees only what unloads at once: (Left E0 eps)^2 H/(2 E0)
}

// energy returns the release for the square of strain e2.
func (d Drive) energy(e2, height float64) Energy {
	slow := d.Left * d.E0 * e2 * height / 2
	return Energy{Slow: slow, Sudden: d.Left * slow}
}

func (l Line) validate() error {
	if err := tables.InRange("size along the grain", l.Along, math.SmallestNonzeroFloat64, math.MaxFloat64, "mm", ""); err != nil {
		return err
	}
	if !(l.Start >= 0 && l.Start <= l.End && l.End <= l.Along) {
		return fmt.Errorf("a crack must lie between 0 and %g mm along the grain, got %g to %g mm", l.Along, l.Start, l.End)
	}
	if err := tables.InRange("height between what holds the panel", l.Span, 0, math.MaxFloat64, "mm", ""); err != nil {
		return err
	}
	if err := tables.InRange("thickness", l.Thickness, math.SmallestNonzeroFloat64, math.MaxFloat64, "mm", ""); err != nil {
		return err
	}
	return tables.InRange("depth of a crack over the thickness", l.DepthShare, math.SmallestNonzeroFloat64, 1, "", "")
}

func (d Drive) validate() error {
	if d.Strain == nil {
		return fmt.Errorf("a crack needs the strain held along it, got none")
	}
	if err := tables.InRange("modulus across the grain", d.E0, math.SmallestNonzeroFloat64, math.MaxFloat64, "MPa", ""); err != nil {
		return err
	}
	if err := tables.InRange("stress left after relaxation", d.Left, math.SmallestNonzeroFloat64, 1, "", ""); err != nil {
		return err
	}
	return tables.InRange("curvature held back", d.Curvature, -1, 1, "1/mm", "")
}
