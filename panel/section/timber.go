package section

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/fe"
	"crossgrain/tables"
)

// Elastic is the stiffness of wood in its own axes, MPa, of the duration and at the moisture content in
// question. NuIJ is the shortening in J for a stress in I over the stretch in I.
type Elastic struct {
	ER, ET, EL, GRT  float64
	NuRT, NuLR, NuLT float64
}

// Coat is a layer that is stiff alike in all directions: ground, paint, a glued veneer of filler.
type Coat struct {
	Thickness float64 // mm, above 0
	E         float64 // MPa, as it acts with its cracks, above 0; leave out a coat that carries nothing
	Nu        float64 // Poisson's number, 0 to below 0.5
}

// Bevel is a back face planed down towards an edge. The zero Bevel is none.
type Bevel struct {
	Width float64 // mm from the edge
	Edge  float64 // thickness left at the edge, mm
}

// Timber is a board with all that a section by finite elements needs. Board.Thickness is that at
// mid-width.
type Timber struct {
	Board
	ThicknessLeft, ThicknessRight float64 // of a wedge, mm; 0 = Board.Thickness
	BevelLeft, BevelRight         Bevel
	Proud                         float64 // front face (back face when flush at the back) above that of the panel, mm
	Wood                          Elastic
	Back, Front                   []Coat  // from the wood outwards
	GrainSlope                    float64 // radians, positive when the grain leans to the right going up; used for the twist alone
}

// Flush says which faces of the boards lie in one plane.
type Flush int

// The two.
const (
	FlushFront Flush = iota
	FlushBack
)

// Fineness is the one setting of accuracy.
type Fineness int

// Coarse has 30 x 4 elements a board: warp to about 1e-5 of itself for ring movement. Fine has 60 x 8 or
// more, thin at the faces and at the joins.
const (
	Coarse Fineness = iota
	Fine
)

// Link is the join between a board and the next. The zero Link is a sound join.
type Link struct {
	// OpenFrom and OpenTo bound the part of the joint height that is open, as shares from the back (0)
	// to the front (1); equal = closed all over.
	OpenFrom, OpenTo float64
	// Normal and Shear are the stiffness of the glue line, MPa/mm; 0 = rigid.
	Normal, Shear float64
	// Gap is how far the open part stands apart in the state of reference, mm.
	Gap float64
}

// Options say how a section is built. The zero Options are a coarse section of boards flush at the front,
// with sound joins, free to bow.
type Options struct {
	Fineness  Fineness
	Flush     Flush
	Joins     []Link // between neighbours, from the left; empty = all sound
	HeldAlong bool   // strain along the grain kept at nil (plane strain); the zero value bows freely
	// Across and Through replace the numbers of elements across a board and through its wood, for
	// studies of accuracy; 0 = by Fineness. Even puts them at even distances.
	Across, Through int
	Even            bool
}

// thick returns the thickness of the wood at x from the left edge.
func (t *Timber) thick(x float64) float64 {
	l, r := t.ends()
	h := l + (r-l)*x/t.Width
	if b := t.BevelLeft; b.Width > 0 && x < b.Width {
		h = math.Min(h, b.Edge+(t.whole(b.Width)-b.Edge)*x/b.Width)
	}
	if b := t.BevelRight; b.Width > 0 && t.Width-x < b.Width {
		h = math.Min(h, b.Edge+(t.whole(t.Width-b.Width)-b.Edge)*(t.Width-x)/b.Width)
	}
	return h
}

func (t *Timber) whole(x float64) float64 {
	l, r := t.ends()
	return l + (r-l)*x/t.Width
}

func (t *Timber) ends() (l, r float64) {
	l, r = t.ThicknessLeft, t.ThicknessRight
	if l == 0 {
		l = t.Thickness
	}
	if r == 0 {
		r = t.Thickness
	}
	return l, r
}

// Limits of the model, mm.
const (
	minWidth, maxWidth         = 5, 2000
	minThickness, maxThickness = 0.5, 300
	minEdge                    = 0.5
	maxTimbers                 = 60
)

// validate says in words what keeps a board from being modelled.
func (t *Timber) validate() error {
	if err := t.Board.Validate(); err != nil {
		return err
	}
	l, r := t.ends()
	for _, v := range [...]struct {
		what           string
		v, least, most float64
	}{
		{"board width", t.Width, minWidth, maxWidth},
		{"board thickness", t.Thickness, minThickness, maxThickness},
		{"board thickness at the left", l, minThickness, maxThickness},
		{"board thickness at the right", r, minThickness, maxThickness},
		{"board standing proud", t.Proud, -maxThickness, maxThickness},
	} {
		if err := tables.InRange(v.what, v.v, v.least, v.most, "mm", ""); err != nil {
			return err
		}
	}
	if math.Abs((l+r)/2-t.Thickness) > 1e-6*t.Thickness {
		return fmt.Errorf("thickness at mid-width must be the mean of %g mm left and %g mm right, got %g mm", l, r, t.Thickness)
	}
	if err := tables.InRange("grain slope", t.GrainSlope, -math.Pi/4, math.Pi/4, "radians", ""); err != nil {
		return err
	}
	for _, b := range [...]Bevel{t.BevelLeft, t.BevelRight} {
		if b == (Bevel{}) {
			continue
		}
		if !(b.Width > 0 && b.Width < t.Width/2) || !(b.Edge >= minEdge && b.Edge <= t.Thickness) {
			return fmt.Errorf("bevel must be above 0 and under half of %g mm wide, and leave %g to %g mm at the edge, got %g and %g mm",
				t.Width, float64(minEdge), t.Thickness, b.Width, b.Edge)
		}
	}
	if err := t.pithOutside(); err != nil {
		return err
	}
	return t.coats()
}

// pithOutside refuses a pith in or on the true outline.
func (t *Timber) pithOutside() error {
	x, z, ok := t.Pith()
	if !ok || x < 0 || x > t.Width {
		return nil
	}
	lo, hi := t.Thickness-t.thick(x), t.Thickness
	if z >= math.Min(lo, 0) && z <= math.Max(hi, t.thick(x)) {
		return &PithInsideError{X: x, Z: z, Width: t.Width, Thickness: t.Thickness}
	}
	return nil
}

func (t *Timber) coats() error {
	l, r := t.ends()
	for _, side := range [...]struct {
		name  string
		coats []Coat
	}{{"back", t.Back}, {"front", t.Front}} {
		sum := 0.0
		for _, c := range side.coats {
			if !(c.Thickness > 0) || !(c.E > 0) || !(c.Nu >= 0 && c.Nu < 0.5) || math.IsInf(c.Thickness+c.E, 0) {
				return fmt.Errorf("coat on the %s must have a thickness above 0 mm, a modulus above 0 MPa and a Poisson number of 0 to 0.49, got %g, %g, %g",
					side.name, c.Thickness, c.E, c.Nu)
			}
			sum += c.Thickness
		}
		if sum >= math.Min(math.Min(l, r), t.Thickness) {
			return fmt.Errorf("ground and paint on the %s are %.4g mm, thicker than the wood of %.4g mm: is the unit right", side.name, sum, t.Thickness)
		}
	}
	return nil
}

// radial returns the direction of the rays at x, z in the board's own frame: x from its left edge, z
// from its back face at mid-width.
type rays struct {
	straight bool
	c, s     float64
	px, pz   float64
}

func (b Board) rays() rays {
	px, pz, ok := b.Pith()
	if !ok {
		// rings run along (cos a, sin a), so the rays along (-sin a, cos a)
		s, c := math.Sincos(float64(b.Ring) * math.Pi / 180)
		return rays{straight: true, c: -s, s: c}
	}
	return rays{px: px, pz: pz}
}

func (r *rays) at(x, z float64) (c, s float64) {
	if r.straight {
		return r.c, r.s
	}
	dx, dz := x-r.px, z-r.pz
	h := 1 / math.Sqrt(dx*dx+dz*dz)
	return dx * h, dz * h
}

func (e Elastic) stiffness() (fe.Stiffness, error) {
	return fe.Ortho{ER: e.ER, ET: e.ET, EL: e.EL, GRT: e.GRT, NuRT: e.NuRT, NuLR: e.NuLR, NuLT: e.NuLT}.Stiffness()
}
