package fracture

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"crossgrain/panel/internal/plan"
)

// PlanRelease is an energy release, N/mm, by the movement that sets it free.
type PlanRelease struct {
	Opening float64 // apart and turning open
	Sliding float64 // along the grain
	Tearing float64 // through the thickness
	Bending float64 // part of all these by turning and through the thickness
}

// Total returns the sum.
func (r PlanRelease) Total() float64 { return r.Opening + r.Sliding + r.Tearing }

// PlanOpening is how far the sides have come apart at a place along the grain, mm, beside any gap at no load.
type PlanOpening struct{ Y, Middle, Front, Back float64 }

// PlanPoint is a line at one length.
type PlanPoint struct {
	Start, End   float64 // of the open stretch, mm
	Slow, Sudden PlanRelease
	Profile      []PlanOpening // from the lower end
	Forces       []float64     // of all rows of what holds, N
}

// PlanRun is one tip that runs on, from the present length to the panel's edge. The last point of one
// that gets there is the panel parted, without energy.
type PlanRun struct {
	State, Stretch int
	Up             bool
	Points         []PlanPoint
	Through        bool // the last point is the panel parted or the line run to the edge
}

// Curve returns the run as the closed form gives it, for [Curve.Run] and the like; the strain is left out.
func (r PlanRun) Curve() Curve {
	var c Curve
	for _, p := range r.Points {
		tip := p.End
		if !r.Up {
			tip = p.Start
		}
		c.Points = append(c.Points, Point{Start: p.Start, End: p.End, Tip: tip, Energy: Energy{Slow: p.Slow.Total(), Sudden: p.Sudden.Total()}})
	}
	return c
}

// planMost is into how many rows the length of the panel is divided on the coarser of two meshes.
const planMost = 64

// FollowPlan leads every tip of a line through the panel, in every state: energy release, opening and the forces
// of the fixings, by elements. yielded is by how much the wood has yielded for the slow answer, as
// [plan.NewModel] takes it; the sudden one is that of forces that stand as they are and wood as stiff
// as under short loading. Runs come tip by tip, from the lower end, and in each by state.
//
// At PlanFine two meshes are extrapolated to cells of no size: within 0.1 % of the sheet with a crack of the tests, edges held
// in two ways. At PlanCoarse one is taken, with the present length and two more: within 2 % of that, the sudden release from
// the moduli at the line alone and up to 6 % off. The sudden release is that of the first step; one that has run far sets
// free up to 7 % less in wood like spruce. Faces that would overlap press, without friction. Out of reach are friction between the
// faces, knots, and grain that slopes (refused beyond a limit). Errors: a line, holding system or state out of range.
func FollowPlan(lay plan.Layout, l PlanLine, hold PlanHold, yielded []float64, states []PlanState, setting PlanSetting) ([]PlanRun, error) {
	if err := l.valid(&lay); err != nil {
		return nil, err
	}
	if err := hold.valid(); err != nil {
		return nil, err
	}
	for i := range states {
		if err := states[i].valid(&hold, &lay); err != nil {
			return nil, fmt.Errorf("state %d: %w", i+1, err)
		}
	}
	f := planFollow{lay: lay, l: &l, hold: &hold, yielded: yielded, states: states, setting: setting}
	if err := f.condense(); err != nil {
		return nil, err
	}
	return f.runs()
}

// planFollow is the work of FollowPlan.
type planFollow struct {
	lay           plan.Layout
	l             *PlanLine
	hold          *PlanHold
	yielded       []float64
	states        []PlanState
	setting       PlanSetting
	slow, short   *planMesh // on the coarse mesh
	fine          *planMesh // nil at PlanCoarse
	ahead         int
	groups        [][]int // states in which the same rows bear
	coarse, fines []*planZip
	shorts        []*planZip
}

// meshes returns the mesh lines of the coarse mesh.
func (f *planFollow) meshes() (x, y []float64) {
	width := 0.0
	var ax, ay, tips []float64
	for _, p := range f.lay.Plates {
		width += p.Width
		ax = append(ax, width)
	}
	for _, m := range f.lay.AcrossX {
		ax = append(ax, m.At)
	}
	for _, q := range f.lay.Lines {
		ax = append(ax, q.X)
		for _, o := range q.Open {
			ay = append(ay, o[0], o[1])
		}
	}
	for _, q := range f.lay.Channels {
		ax, ay = append(ax, q.From, q.To), append(ay, q.Y-q.Width/2, q.Y+q.Width/2)
	}
	for _, m := range f.lay.AlongY {
		ay = append(ay, m.At)
	}
	for _, o := range f.l.Open {
		tips = append(tips, o.From, o.To)
	}
	for _, o := range f.hold.Open {
		ay = append(ay, o.From, o.To)
	}
	length := f.lay.Length
	cell, wide := length/planMost, width/20
	if f.setting == PlanCoarse {
		cell, wide = length/8, width/8
	}
	near := f.near(cell)
	for _, t := range tips { // even cells on both sides of a tip
		ay = append(ay, t)
		for _, v := range [2]float64{t - planEven*near, t + planEven*near} {
			if v > near && v < length-near {
				ay = append(ay, v)
			}
		}
	}
	y = planCells(length, cell, ay, func(v float64) float64 {
		s := planSize(cell, f.lay.AlongY, v)
		for _, t := range tips {
			if t > planNear && t < length-planNear {
				s = math.Min(s, near+planGrowth*math.Max(math.Abs(v-t)-planEven*near, 0))
			}
		}
		return s
	})
	x = planCells(width, wide, append(ax, f.l.X), func(v float64) float64 {
		return math.Min(planSize(wide, f.lay.AcrossX, v), near+planGrowth*math.Abs(v-f.l.X))
	})
	return x, y
}

// planSize is the size of cells at v, finer beside marks that ask for it.
func planSize(cell float64, marks []plan.Mark, v float64) float64 {
	for _, m := range marks {
		if m.Size > 0 {
			cell = math.Min(cell, m.Size+planGrowth*math.Abs(v-m.At))
		}
	}
	return cell
}

// planEven is how many cells on either side of a tip are alike.
const planEven = 4

// planGrowth is how fast cells grow away from a finer place, mm per mm.
const planGrowth = 0.5

// near is the size of the cells at the present tips: an eighth of the shortest open stretch, if that is
// finer than elsewhere.
func (f *planFollow) near(cell float64) float64 {
	s := cell
	if f.setting == PlanCoarse {
		s = f.lay.Length / 40
	}
	for _, o := range f.l.Open {
		if a := o.To - o.From; a > 0 {
			s = math.Min(s, math.Max(a/8, f.lay.Length/400))
		}
	}
	return s
}

func (f *planFollow) condense() error {
	x, y := f.meshes()
	f.ahead = len(y)
	if f.setting == PlanCoarse {
		f.ahead = 3
	}
	rows := f.l.rowsOf(y, planBack, f.ahead, f.hold)
	rows.fine = 1
	var errs [3]error
	var wg sync.WaitGroup
	if f.setting == PlanFine {
		wg.Go(func() {
			fx := planHalved(x, func(a, b float64) bool { return math.Abs((a+b)/2-f.l.X) < planZone*f.lay.Length })
			fy := planHalved(y, func(_, _ float64) bool { return true })
			rows := f.l.rowsOf(fy, 2*planBack, 2*f.ahead, f.hold)
			rows.fine = 2
			f.fine, errs[0] = f.l.newPlanMesh(f.lay, f.hold, f.yielded, fx, rows)
		})
	}
	wg.Go(func() { // the fine one takes longer than both, and memory is for two at a time
		f.slow, errs[1] = f.l.newPlanMesh(f.lay, f.hold, f.yielded, x, rows)
		if f.setting == PlanFine && errs[1] == nil {
			f.short, errs[2] = f.l.newPlanMesh(f.lay, f.hold, nil, x, rows)
		}
	})
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	if f.short != nil {
		f.short.short = true
	}
	f.group()
	for _, g := range f.groups {
		for _, m := range [3]*planMesh{f.slow, f.short, f.fine} {
			if m == nil {
				continue
			}
			h, err := m.hold(f.hold, f.of(g))
			if err != nil {
				return err
			}
			switch m {
			case f.slow:
				f.coarse = append(f.coarse, m.zip(h))
			case f.short:
				f.shorts = append(f.shorts, m.zip(h))
			default:
				f.fines = append(f.fines, m.zip(h))
			}
		}
	}
	return nil
}

// atOnce is the sudden release over the slow one by the stress at the tip, which is the relaxed one: K^2/E* of
// short wood over that of yielded wood, on the mean of both sides ([ModeOneModulus]).
func (f *planFollow) atOnce() float64 {
	var share float64
	for _, x := range [2]float64{f.l.X - planNear, f.l.X + planNear} {
		i := 0
		for to := f.lay.Plates[0].Width; i < len(f.lay.Plates)-1 && x > to; to += f.lay.Plates[i].Width {
			i++
		}
		s := 1.0
		if k := len(f.yielded); k == 1 {
			s = f.yielded[0]
		} else if k > 1 {
			s = f.yielded[i]
		}
		p := &f.lay.Plates[i]
		g := p.GXL / (1 + (s-1)*p.ShearYield)
		share += ModeOneModulus(p.EL, p.EX/s, p.NuLX, g) / ModeOneModulus(p.EL, p.EX, p.NuLX, p.GXL) / 2
	}
	return share
}

// planZone is how far from the line, of the panel's length, cells are halved on the finer mesh.
const planZone = 0.1

func (f *planFollow) of(group []int) []*PlanState {
	var out []*PlanState
	for _, i := range group {
		out = append(out, &f.states[i])
	}
	return out
}

// group puts states together in which the same rows bear, as softly.
func (f *planFollow) group() {
next:
	for i := range f.states {
		for k, g := range f.groups {
			if slices.EqualFunc(f.states[i].Grips, f.states[g[0]].Grips, func(a, b PlanGrip) bool { return a.Bears == b.Bears && a.Soft == b.Soft }) {
				f.groups[k] = append(g, i)
				continue next
			}
		}
		f.groups = append(f.groups, []int{i})
	}
}

func (f *planFollow) runs() ([]PlanRun, error) {
	var out []PlanRun
	for t := range f.slow.tips {
		at := len(out)
		out = append(out, make([]PlanRun, len(f.states))...)
		for g, group := range f.groups {
			runs, err := f.tip(t, g)
			if err != nil {
				return nil, err
			}
			for k, s := range group {
				runs[k].State = s
				out[at+s] = runs[k]
			}
		}
	}
	return out, nil
}

// tip leads tip t through the panel in the states of group g.
func (f *planFollow) tip(t, g int) ([]PlanRun, error) {
	var fine *planFront
	var short *planZip
	if f.short != nil {
		short = f.shorts[g].clone()
	}
	a, ok := newFront(f.l, f.slow.tips[t], f.coarse[g].clone(), short, f.ahead)
	if !ok {
		return nil, fmt.Errorf("line at %g mm: nothing holds the panel together at its present length", f.l.X)
	}
	var wg sync.WaitGroup
	if f.fine != nil {
		if fine, ok = newFront(f.l, f.fine.tips[t], f.fines[g].clone(), nil, 2*f.ahead); !ok {
			return nil, fmt.Errorf("line at %g mm: nothing holds the panel together at its present length", f.l.X)
		}
		wg.Go(fine.run)
	}
	a.run()
	wg.Wait()
	out := make([]PlanRun, len(f.groups[g]))
	for s := range out {
		out[s] = f.points(a, fine, s)
	}
	return out, nil
}
