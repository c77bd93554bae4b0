package response

import (
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel/internal/plan"
)

// yieldFactor is the factor by which the wood has yielded in the second of the two states between which a plan is taken.
const yieldFactor = 3

// shearYield is the share that shear has in the yielding across the grain; see plan.Plate.
const shearYield = 0.3

// slab is a length across the panel of one thickness: a board, or a part of one with a glued member of a cradle behind it.
type slab struct {
	board    int
	from, to float64
	rib      float64 // thickness that the member adds, mm
	centre   float64 // height of its middle above the plane of the plan, mm
}

// slabs cuts the boards at the glued members of a cradle.
func (c *Case) slabs() (out []slab) {
	for i := range c.boards {
		b := &c.boards[i]
		at, end := b.Left, b.Left+b.Width
		if k := c.o.Cradle; k != nil && k.FixedDepth > 0 && k.FixedWidth > 0 {
			for _, x := range k.FixedX {
				lo, hi := max(x-k.FixedWidth/2, at), min(x+k.FixedWidth/2, end)
				if hi-lo < thinSlab {
					continue
				}
				if lo-at >= thinSlab {
					out = append(out, slab{board: i, from: at, to: lo})
				} else {
					lo = at
				}
				out = append(out, slab{board: i, from: lo, to: hi, rib: k.FixedDepth})
				at = hi
			}
		}
		if end-at >= thinSlab || len(out) == 0 || out[len(out)-1].board != i {
			out = append(out, slab{board: i, from: at, to: end})
		} else {
			out[len(out)-1].to = end
		}
	}
	return out
}

// thinSlab is the width below which a slab is joined to its neighbour, mm.
const thinSlab = 2

// slabAt returns the slab that holds x.
func (w *whole) slabAt(x float64) int {
	for i, p := range w.slabs {
		if x < p.to {
			return i
		}
	}
	return len(w.slabs) - 1
}

// plates are the slabs as the plan takes them, short stiffness, flush in front. Members of a cradle are taken to be of
// the panel's wood, their grain along its own.
func (c *Case) plates(w *whole) []plan.Plate {
	slabs := w.slabs
	out := make([]plan.Plate, len(slabs))
	thick, thin := 0.0, math.Inf(1)
	for _, p := range slabs {
		t := c.boards[p.board].Thickness
		thick, thin = max(thick, t+p.rib), min(thin, t+p.rib)
	}
	for i, p := range slabs {
		b := &c.boards[p.board]
		k := b.StiffnessReduction
		r := math.Pow(math.Cos(b.Ring.Theta()), 2) // share of R across the width
		out[i] = plan.Plate{
			Width: p.to - p.from, Thickness: b.Thickness + p.rib, EX: b.stiff, EL: b.Wood.EL * k,
			GXL: k * (r*b.Wood.GLR + (1-r)*b.Wood.GLT), GXZ: k * b.Wood.GRT, GLZ: k * (r*b.Wood.GLT + (1-r)*b.Wood.GLR),
			NuLX: b.Wood.NuLT, ShearYield: shearYield, Density: b.Wood.Density * (1 - b.DensityLoss) / 1000,
			Ground: w.ground,
		}
		if thick-thin > stepped*thick {
			slabs[i].centre = (thick - b.Thickness - p.rib) / 2
			out[i].Centre = slabs[i].centre
		}
	}
	return out
}

// stepped is the share of the thickness by which boards must differ for their steps to count: below it
// their middles are taken as flush, which the plan works out several times as fast (assumption).
const stepped = 0.1

// groundPlate is the ground in front as it stiffens the panel: as far between none and one without a crack as it bends
// the boards by the layered strip, in the middle of drying and damping.
func (c *Case) groundPlate() plan.Ground {
	f := &c.o.Front
	if f.Ground == "none" || f.GroundMM == 0 {
		return plan.Ground{}
	}
	var share float64
	for _, d := range [2]moisture.MC{-0.02, 0.02} {
		du := make([]moisture.MC, len(c.boards))
		for i := range du {
			du[i] = d
		}
		m, _, _ := c.held(du, c.ground(du))
		share += m / 2
	}
	e := f.GroundEIntact * share
	if !(e > 0) {
		return plan.Ground{}
	}
	return plan.Ground{Thickness: f.GroundMM, E: e, Nu: 0.3, Yields: true}
}

// unheld returns the curvature of each board between its edges, with its ground, that comes with a change
// of moisture content.
func (c *Case) unheld(du []moisture.MC) []float64 {
	g := c.ground(du)
	out := slices.Clone(g.boards)
	for i := range c.boards {
		if b := &c.boards[i]; b.HeartKnown {
			out[i] += c.free(b, du[i], b.heartUp).Bend
		}
	}
	return out
}

// loads returns what moves the plan: the free strain of the wood of each board, with what crushing has
// left, and the curvature of its wood alone that together with the ground of the plan gives the curvature
// it would take unheld.
func (c *Case) loads(w *whole, du []moisture.MC, set, curvature []float64) []float64 {
	out := make([]float64, w.a.Loads())
	g := w.ground
	for i, p := range w.slabs {
		b := &c.boards[p.board]
		e := b.across(du[p.board])
		if set != nil {
			e += set[p.board]
		}
		w.load(out, i, e, p.bends(b, woodAlone(b, g, e, curvature[p.board])))
	}
	return out
}

// load sets the free strain at the middle of a slab and its curvature; the plan counts heights from its own plane.
func (w *whole) load(out []float64, i int, e, k float64) {
	out[w.a.LoadOf(i, plan.StrainX)] = e - k*w.slabs[i].centre
	out[w.a.LoadOf(i, plan.BendX)] = k
}

// wants is the free strain at the middle of a slab.
func (w *whole) wants(load []float64, i int) float64 {
	return load[w.a.LoadOf(i, plan.StrainX)] + load[w.a.LoadOf(i, plan.BendX)]*w.slabs[i].centre
}

// bends is the curvature that a board wants once a member lies behind it, both of one wood that moves alike: k t^3/(t + d)^3.
func (p *slab) bends(b *board, k float64) float64 {
	f := b.Thickness / (b.Thickness + p.rib)
	return k * f * f * f
}

// woodAlone returns the free curvature k that the wood needs so that with its ground it takes the
// curvature wanted: of a beam of both, A, B and D about the middle of the wood,
//
//	wanted = [A (E I k) - B (E t e)] / (A D - B^2)
func woodAlone(b *board, g plan.Ground, e, wanted float64) float64 {
	if g.Thickness == 0 {
		return wanted
	}
	t, h := b.Thickness, (b.Thickness+g.Thickness)/2
	wa, wi := b.stiff*t, b.stiff*t*t*t/12
	ga := g.E * g.Thickness
	s, first, second := wa+ga, ga*h, wi+ga*(h*h+g.Thickness*g.Thickness/12)
	return (wanted*(s*second-first*first) + first*wa*e) / (s * wi)
}
