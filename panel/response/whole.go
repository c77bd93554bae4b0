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
	a       *restraint.Assembly
	members []joined
	holders []holder // the same as they are told
	bars    []restraint.Bar
	season  []float64 // yielding of each board over a season
	body    restraint.Body
	march   *restraint.March
	out     []outward
	rise    [][2][]float64 // height at each of out for a unit of moisture content of a board, drying and damping
	curl    [][]float64    // the same for a unit of its curvature by a gradient
	ref     []float64      // free movement of each row, by its member, that is taken out as the movement at which it holds nothing
	looks   [5]int         // rows: height at left, middle and right edge, place of left and right edge
	along   [][]gap
	plays   bool                  // some play goes with the humidity
	lines   [][]restraint.Station // along each line of the case
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
	w := &whole{}
	members := c.joinMembers(w)
	for i := range members {
		w.bars = append(w.bars, members[i].Bar)
	}
	l := plan.Layout{Plates: c.plates(), Length: c.o.Along}
	fine := c.setting == Fine
	if fine {
		l.CellX, l.CellY = c.o.Across/40, c.o.Along/60
	}
	y := c.o.Along / 2
	looks := []restraint.Look{
		{X: 0, Y: y, Out: true}, {X: c.o.Across / 2, Y: y, Out: true}, {X: c.o.Across, Y: y, Out: true}, {X: 0, Y: y}, {X: c.o.Across, Y: y},
	}
	var err error
	if w.a, err = restraint.NewAssembly(l, yieldFactor, fine, members, looks); err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	for i := range w.looks {
		w.looks[i] = w.a.Look(i)
	}
	for i := range c.boards {
		w.season = append(w.season, 1/c.boards[i].left)
	}
	if w.body, err = w.a.Body(w.season...); err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	if w.march, err = restraint.NewMarch(w.body, w.a.Mounts()); err != nil {
		return nil, fmt.Errorf("plan: %w", err)
	}
	w.places(c, members)
	w.outward(c, members, looks)
	c.rises(w)
	w.ref = c.fixedAt(w)
	return w, nil
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

// plates are the boards as the plan takes them, short stiffness.
func (c *Case) plates() []plan.Plate {
	out := make([]plan.Plate, len(c.boards))
	thick, thin := 0.0, math.Inf(1)
	for i := range c.boards {
		thick, thin = max(thick, c.boards[i].Thickness), min(thin, c.boards[i].Thickness)
	}
	for i := range out {
		b := &c.boards[i]
		k := b.StiffnessReduction
		r := math.Pow(math.Cos(b.Ring.Theta()), 2) // share of R across the width
		out[i] = plan.Plate{
			Width: b.Width, Thickness: b.Thickness, EX: b.stiff, EL: b.Wood.EL * k,
			GXL: k * (r*b.Wood.GLR + (1-r)*b.Wood.GLT), GXZ: k * b.Wood.GRT, GLZ: k * (r*b.Wood.GLT + (1-r)*b.Wood.GLR),
			NuLX: b.Wood.NuLT, ShearYield: shearYield, Density: b.Wood.Density * (1 - b.DensityLoss) / 1000,
			Ground: c.groundPlate(),
		}
		if thick-thin > stepped*thick { // flush in front
			out[i].Centre = (thick - b.Thickness) / 2
		}
	}
	return out
}

// stepped is the share of the thickness by which boards must differ for their steps to count: below it
// their middles are taken as flush, which the plan works out several times as fast (assumption).
const stepped = 0.1

// groundPlate is the ground in front as it stiffens the panel. What cracks leave open lies half way
// between pulled and pressed.
func (c *Case) groundPlate() plan.Ground {
	f := &c.o.Front
	if f.Ground == "none" || f.GroundMM == 0 {
		return plan.Ground{}
	}
	e := f.GroundE
	if f.GroundState != "continuous" {
		e = (f.GroundE + f.GroundEIntact) / 2
	}
	if e <= 0 {
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
				at = append(at, c.betweens(w.a, m.At[k-1].X, m.At[k].X, m.Y)...)
			}
		}
		w.along = append(w.along, at)
	}
	for i := range c.lines {
		l := &c.lines[i]
		var at []restraint.Station
		for k := range lineStations {
			y := c.o.Along * (float64(k) + 0.5) / lineStations
			at = append(at, w.a.Station(l.x, y, l.board, l.kind == "join"))
		}
		w.lines = append(w.lines, at)
	}
}

// betweens parts the way from one fixing to the next at the edges of boards and reads each part at its middle.
func (c *Case) betweens(a *restraint.Assembly, from, to, y float64) (out []gap) {
	for i := range c.boards {
		b := &c.boards[i]
		lo, hi := max(from, b.Left), min(to, b.Left+b.Width)
		if hi-lo > 1e-6 {
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
		du, d := make([]moisture.MC, len(c.boards)), make([]float64, len(c.boards))
		for k := range c.boards {
			b := &c.boards[k]
			du[k] = moisture.MC(StoredShare) * (b.mc(fixed, c.o.Temperature) - b.used)
			d[k] = float64(du[k])
		}
		free := w.rows(c.loads(w, du, nil, c.unheld(du)), w.height(d, make([]float64, len(d))), 0)
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
	g := c.groundPlate()
	for i := range c.boards {
		b := &c.boards[i]
		e := b.across(du[i])
		if set != nil {
			e += set[i]
		}
		out[w.a.LoadOf(i, plan.StrainX)] = e
		out[w.a.LoadOf(i, plan.BendX)] = woodAlone(b, g, e, curvature[i])
	}
	return out
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
