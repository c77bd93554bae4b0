package response

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"crossgrain/moisture"
	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
)

// whole is the panel seen from the front on all its members at once, by finite elements: what one
// member holds, its neighbours need not.
type whole struct {
	a        *restraint.Assembly
	layout   plan.Layout
	looked   []restraint.Look
	slabs    []slab
	ground   plan.Ground
	mounts   []restraint.Mount
	members  []joined
	holders  []holder // the same as they are told
	bars     []restraint.Bar
	season   []float64 // yielding of each board over a season
	body     restraint.Body
	march    *restraint.March
	out      []outward
	rise     [][2][]float64 // height at each of out for a unit of moisture content of a board, drying and damping
	curl     [][]float64    // the same for a unit of its curvature by a gradient
	ref      []float64      // free movement of each row, by its member, that is taken out as the movement at which it holds nothing
	looks    [5]int         // rows: height at left, middle and right edge, place of left and right edge
	along    [][]gap
	clear    []moisture.RH         // of each mount: humidity at which its play was measured; 0 = not recorded
	plays    bool                  // some play goes with the humidity
	elements []*lineElements       // of each line, once asked for
	lines    [][]restraint.Station // along each line of the case
}

// joined is one member of the whole.
type joined struct {
	part  string
	first int // row of its first fixing's slip
	n     int
	play  func(c *Case, rh moisture.RH, x *restraint.Mount) // what humidity changes of its fixings; nil = nothing
}

// gap is a length of a member between two fixings, in one board, and the place that stands for it.
type gap struct {
	restraint.Station
	width float64
}

// yieldFactor is the factor by which the wood has yielded in the second of the two states between which a plan is taken.
const yieldFactor = 3

// shearYield is the share that shear has in the yielding across the grain, and nuPlane what a board
// narrows for a stretch along the grain where nothing is known; see plan.Plate.
const shearYield = 0.3

// newWhole condenses panel and members. It fails where they lie outside what the elements can do.
func (c *Case) newWhole() (*whole, error) {
	w := &whole{slabs: c.slabs(), ground: c.groundPlate()}
	members := c.joinMembers(w)
	for i := range members {
		w.bars = append(w.bars, members[i].Bar)
	}
	l := plan.Layout{Plates: c.plates(w), Length: c.o.Along}
	fine := c.setting == Fine
	if fine {
		l.CellX, l.CellY = c.o.Across/40, c.o.Along/60
	}
	y := c.o.Along / 2
	looks := []restraint.Look{
		{X: 0, Y: y, Out: true}, {X: c.o.Across / 2, Y: y, Out: true}, {X: c.o.Across, Y: y, Out: true}, {X: 0, Y: y}, {X: c.o.Across, Y: y},
	}
	w.layout, w.looked = l, looks
	var err error
	if w.a, err = restraint.NewAssembly(l, yieldFactor, fine, members, looks); err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	for i := range w.looks {
		w.looks[i] = w.a.Look(i)
	}
	for _, p := range w.slabs {
		w.season = append(w.season, 1/c.boards[p.board].left)
	}
	if w.body, err = w.a.Body(w.season...); err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	w.places(c, members)
	w.outward(c, members, looks)
	c.rises(w)
	w.ref = c.fixedAt(w)
	w.mounts = c.measuredAt(w)
	if w.march, err = restraint.NewMarch(w.body, w.mounts); err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	return w, nil
}

// measuredAt are the mounts with the middle of each play where the panel stood when the play was measured.
func (c *Case) measuredAt(w *whole) []restraint.Mount {
	mounts := w.a.Mounts()
	free := map[moisture.RH][]float64{}
	for i := range mounts {
		x := &mounts[i]
		rh := w.clear[i]
		if x.Slip == nil || x.Slip.Play == 0 || rh == 0 || rh == c.o.UsedTo {
			continue
		}
		if free[rh] == nil {
			free[rh] = c.freeAt(w, rh, 1)
		}
		x.Slip.Centre = free[rh][x.Slip.Row] - w.ref[x.Slip.Row]
	}
	return mounts
}

// freeAt is the free movement of every row at a share of the change of moisture content from the used-to humidity to
// another.
func (c *Case) freeAt(w *whole, rh moisture.RH, share float64) []float64 {
	du, d := make([]moisture.MC, len(c.boards)), make([]float64, len(c.boards))
	for k := range c.boards {
		b := &c.boards[k]
		du[k] = moisture.MC(share) * (b.mc(rh, c.o.Temperature) - b.used)
		d[k] = float64(du[k])
	}
	return w.rows(c.loads(w, du, nil, c.unheld(du)), w.height(d, make([]float64, len(d))), 0)
}

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

// outward is a row across the thickness and its place across the panel.
type outward struct {
	row  int
	x    float64
	sign float64 // -1 where it goes towards the back
}

// outward lists the rows across the thickness.
func (w *whole) outward(c *Case, members []restraint.Member, looks []restraint.Look) {
	for i := range members {
		sign := 1.0
		if members[i].Front {
			sign = -1
		}
		for k, f := range members[i].At {
			w.out = append(w.out, outward{w.a.Row(i, k) + 1, f.X, sign})
		}
	}
	for i, q := range looks {
		if q.Out {
			w.out = append(w.out, outward{w.looks[i], q.X, 1})
		}
	}
}

// rises works out how high the unheld panel stands for units of what moves it.
func (c *Case) rises(w *whole) {
	const du, bend = 0.02, 1e-5
	at := func(m moment, unit float64) []float64 {
		var s State
		c.move(&s, m)
		h := heights(&s, w.out)
		for i := range h {
			h[i] /= unit
		}
		return h
	}
	for i := range c.boards {
		var rise [2][]float64
		for k, d := range [2]float64{-du, du} {
			m := c.rest()
			m.mc[i] += moisture.MC(d)
			rise[k] = at(m, d)
		}
		w.rise = append(w.rise, rise)
		m := c.rest()
		m.bend[i] = bend
		w.curl = append(w.curl, at(m, bend))
	}
}

// rest is the panel at the humidity it is used to.
func (c *Case) rest() moment {
	m := c.still()
	for i := range c.boards {
		m.rh[i], m.mc[i], m.loop[i] = c.o.UsedTo, c.boards[i].used, c.boards[i].used
	}
	return m
}

// heights reads the profile of an unheld state at the rows across the thickness.
func (c *Case) heights(s *State) []float64 { return heights(s, c.planned.out) }

func heights(s *State, out []outward) []float64 {
	h := make([]float64, len(out))
	for i, o := range out {
		k := 1
		for k < len(s.Stations)-1 && s.Stations[k] < o.x {
			k++
		}
		a, b := s.Stations[k-1], s.Stations[k]
		h[i] = s.Profile[k]
		if b > a {
			h[i] += (s.Profile[k-1] - s.Profile[k]) * min(max((b-o.x)/(b-a), 0), 1)
		}
	}
	return h
}

// height adds up how high the unheld panel stands.
func (w *whole) height(du, bend []float64) []float64 {
	h := make([]float64, len(w.out))
	for i, d := range du {
		k := 0
		if d > 0 {
			k = 1
		}
		for j := range h {
			h[j] += w.rise[i][k][j]*d + w.curl[i][j]*bend[i]
		}
	}
	return h
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

// places sets the stations: between the fixings of each member, where the pull of a single fixing has
// spread, and along each line.
func (w *whole) places(c *Case, members []restraint.Member) {
	for i := range members {
		m := &members[i]
		var at []gap
		for k := 1; k < len(m.At); k++ {
			if m.At[k].Mount.Slip != nil && m.At[k-1].Mount.Slip != nil {
				at = append(at, betweens(w.a, w.slabs, m.At[k-1].X, m.At[k].X, m.Y)...)
			}
		}
		w.along = append(w.along, at)
	}
	for i := range c.lines {
		l := &c.lines[i]
		var at []restraint.Station
		for k := range lineStations {
			y := c.o.Along * (float64(k) + 0.5) / lineStations
			at = append(at, w.a.Station(l.x, y, w.slabAt(l.x-1e-3), l.kind == "join"))
		}
		w.lines = append(w.lines, at)
	}
}

// betweens parts the way from one fixing to the next at the edges of boards and reads each part at its middle, members
// of a cradle left out.
func betweens(a *restraint.Assembly, slabs []slab, from, to, y float64) (out []gap) {
	for i, p := range slabs {
		lo, hi := max(from, p.from), min(to, p.to)
		if p.rib == 0 && hi-lo > 1e-6 {
			out = append(out, gap{a.Station((lo+hi)/2, y, i, false), hi - lo})
		}
	}
	return out
}

// lineStations is how many places along a line are read.
const lineStations = 40

// fixedAt returns for every row the part of the movement, from where its member was fixed to the used-to
// humidity, that is still held back.
func (c *Case) fixedAt(w *whole) []float64 {
	ref := make([]float64, w.a.Rows())
	for i := range w.members {
		m := &w.members[i]
		fixed := c.fixed(m.part)
		if fixed == 0 || fixed == c.o.UsedTo {
			continue
		}
		free := c.freeAt(w, fixed, StoredShare)
		copy(ref[m.first:m.first+2*m.n], free[m.first:])
	}
	return ref
}

// fixed returns the humidity at which a member was fixed; 0 = as it is used to.
func (c *Case) fixed(part string) moisture.RH {
	for i := range c.o.Battens {
		if part == "batten."+c.o.Battens[i].Name {
			return c.o.Battens[i].Fixed
		}
	}
	for i := range c.o.Inserts {
		if part == "insert."+c.o.Inserts[i].Name {
			return c.o.Inserts[i].Fixed
		}
	}
	if c.o.Cradle != nil && strings.HasPrefix(part, "cradle.") {
		return c.o.Cradle.Fixed
	}
	return 0
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
