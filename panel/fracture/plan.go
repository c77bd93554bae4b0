package fracture

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/plan"
)

// PlanStretch is a part of a line whose sides have come apart, mm along the grain from the lower end.
type PlanStretch struct {
	From, To float64
	// Gap is how far the faces can close before they press, mm, at no load; a filled join has none.
	Gap float64
	// Depth is that of a part-through opening, mm; 0 = through. Its sides hang together as by a hinge in the
	// middle of what is left: near the truth for a thin rest, and too much release for a shallow check.
	Depth float64
	Back  bool // a part-through opening is open at the back, not at the painted face
	// Hinge is what a part-through opening passes on, better than the hinge in the middle; nil = that. Its From and To are not used.
	Hinge *plan.Hinge
}

// PlanLine is a join, split or sound line on the panel seen from the front.
type PlanLine struct {
	X    float64       // mm from the left
	Bond plan.Bond     // what ties it where it is closed; the zero Bond is sound wood
	Open []PlanStretch // one or more, from the lower end; one of no length is a place to begin
	// Slope is the angle between grain and line, degrees: above 3 a line longer than 300 mm leaves the
	// grain by more than a board is thick (refused; both numbers are working choices).
	Slope float64
}

// PlanRow is a movement of the panel at which something holds it.
type PlanRow struct {
	Patch  plan.Patch
	Way    plan.Way
	Height float64 // of a slip (plan.U) above the middle of the wood, mm
	Sign   float64 // 1 or -1: which way the row counts against the panel's movement; 0 = 1
}

// PlanHold is what can hold the panel: places and the members behind them, linear.
//
//	move = free - (F + H) force + R q,   R^T force = push
//
// F and the panel's own motions belong to the panel and are added here. A fixing that is small against the cells
// of the mesh is held too stiffly by it (the release came out by a fifth too large with rigid fixings of 15 mm): give the
// flexibility of a mesh that follows the fixings by Whole. Where that holds the line open as it is (Open), what the opening adds
// is worked out on the mesh of the line and taken off first.
type PlanHold struct {
	Rows  []PlanRow
	H     []float64 // flexibility of members and fixings, rows x rows, mm/N; nil = rigid
	Short []float64 // the same as under short loading; nil = H
	Whole bool      // H and Short hold F as well, of the panel with this line closed but for Open
	// Open is where H and Short hold this line open, as stretches of the line do now; none = nowhere.
	Open    []PlanStretch
	Motions int       // free motions of the members
	R       []float64 // rows x Motions
}

// PlanGrip is what one row does in a state: it bears, with a force that goes with the movement, or
// acts with a force that stays.
type PlanGrip struct {
	Bears bool
	Rest  float64 // movement at which it bears nothing, mm
	Soft  float64 // its own flexibility, mm/N, besides H
	Force float64 // that it resists with when it does not bear, N: friction, yielding, a spring; 0 = it is free
}

// PlanState is one humidity.
type PlanState struct {
	Load  []float64  // free strain and curvature by board, weights, as plan counts its loads
	Grips []PlanGrip // of every row
	Push  []float64  // on the members' motions, N; nil = none
}

// PlanSetting is how finely a line is followed.
type PlanSetting int

// Settings: every length of the line on two meshes carried on to cells of no size, or the present tips
// and three lengths on one.
const (
	PlanFine PlanSetting = iota
	PlanCoarse
)

// Limits of the grain's slope; working choices.
const (
	planSlope  = 3.0   // degrees
	planSloped = 300.0 // mm
)

func (l *PlanLine) valid(lay *plan.Layout) error {
	width := 0.0
	for _, p := range lay.Plates {
		width += p.Width
	}
	if !(l.X > 0 && l.X < width) {
		return fmt.Errorf("line must lie on the panel, between 0 and %g mm across it, got %g", width, l.X)
	}
	if len(l.Open) == 0 {
		return fmt.Errorf("line at %g mm must be open somewhere or have a place to begin, got none", l.X)
	}
	same := 0
	for _, q := range lay.Lines {
		if math.Abs(q.X-l.X) < planNear {
			same++
		}
	}
	if same > 0 {
		return fmt.Errorf("two lines at %g mm across the panel: each place can have one", l.X)
	}
	long, last := 0.0, math.Inf(-1)
	for _, o := range l.Open {
		if !(o.From >= 0 && o.From <= o.To && o.To <= lay.Length) {
			return fmt.Errorf("line at %g mm must be open within the panel, 0 to %g mm along the grain, got %g to %g", l.X, lay.Length, o.From, o.To)
		}
		if !(o.From > last) {
			return fmt.Errorf("open parts of the line at %g mm must follow one another upwards and apart, got one from %g after one to %g mm", l.X, o.From, last)
		}
		if !(o.Gap >= 0) || math.IsInf(o.Gap, 0) || !(o.Depth >= 0) {
			return fmt.Errorf("gap and depth of the line at %g mm must be 0 mm or more, got %g and %g", l.X, o.Gap, o.Depth)
		}
		last = o.To
		long = math.Max(long, o.To-o.From)
	}
	if s := math.Abs(l.Slope); !(s <= planSlope) && (long > planSloped || math.IsNaN(s)) {
		return fmt.Errorf("grain runs at %g degrees to the line at %g mm: above %g degrees lines up to %g mm can be followed, got %g mm",
			l.Slope, l.X, planSlope, planSloped, long)
	}
	return nil
}

// planNear is the distance below which two lines are at one place, mm.
const planNear = 1e-3

func (h *PlanHold) valid() error {
	n := len(h.Rows)
	if h.Whole && h.H == nil {
		return fmt.Errorf("the flexibility of panel and members together must be given, got none")
	}
	if h.H != nil && len(h.H) != n*n || h.Short != nil && len(h.Short) != n*n || len(h.R) != n*h.Motions {
		return fmt.Errorf("what holds the panel must have a flexibility of %d x %d and motions of %d x %d, got %d and %d numbers", n, n, n, h.Motions, len(h.H), len(h.R))
	}
	return nil
}

func (s *PlanState) valid(h *PlanHold, lay *plan.Layout) error {
	if n := 4*len(lay.Plates) + 2; len(s.Load) != n || len(s.Grips) != len(h.Rows) || s.Push != nil && len(s.Push) != h.Motions {
		return fmt.Errorf("state must have %d loads, %d grips and a push for each of %d motions or none, got %d, %d and %d",
			n, len(h.Rows), h.Motions, len(s.Load), len(s.Grips), len(s.Push))
	}
	for _, v := range s.Load {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("loads must be finite, got %g", v)
		}
	}
	for i, g := range s.Grips {
		if !(g.Soft >= 0) || math.IsNaN(g.Rest+g.Force) || math.IsInf(g.Rest+g.Force+g.Soft, 0) {
			return fmt.Errorf("grip %d must have finite numbers and a flexibility of 0 mm/N or more, got %+v", i+1, g)
		}
	}
	return nil
}
