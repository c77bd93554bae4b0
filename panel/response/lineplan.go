package response

import (
	"errors"
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/fracture"
	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
)

// lineElements is what the elements say of one line at one humidity; at others all of it goes with what the strip formula says
// of its tip today, since energy goes with the square of what is held.
type lineElements struct {
	curve fracture.Curve // empty: it cannot be told
	strip float64        // slow energy release of the strip formula at that humidity
	open  float64        // opening today, beside any gap at no load, mm
	why   string         // why not
}

// refDrier is how much drier than it is used to the panel is when a line is followed by elements.
const refDrier = 0.20

// byElements returns what the elements say of line i, worked out once.
func (c *Case) byElements(i int) *lineElements {
	w := c.planned
	if w.elements == nil {
		w.elements = make([]*lineElements, len(c.lines))
	}
	if e := w.elements[i]; e != nil {
		return e
	}
	e := &lineElements{}
	w.elements[i] = e // while it is worked out the strip formula stands alone
	if err := c.followLine(i, e); err != nil {
		*e = lineElements{why: err.Error()}
	}
	return e
}

func (c *Case) followLine(i int, e *lineElements) error {
	if len(c.planned.seams) > 0 {
		return errors.New("the panel is in pieces, open from end to end elsewhere, in which lines are not followed")
	}
	by := make([]moisture.RH, len(c.boards))
	for k := range by {
		by[k] = max(0.05, c.o.UsedTo-refDrier)
	}
	s, err := c.settle(by)
	if err != nil {
		return err
	}
	closed := s.Lines[i].curve
	if s.Lines[i].Span == 0 || !(closed.Now().Slow > 0) {
		return nil
	}
	m := c.settled(by)
	var free State
	c.move(&free, m)
	st, err := c.balance(m, c.heights(&free))
	if err != nil {
		return err
	}
	hold, state, err := c.holding(st)
	if err != nil {
		return err
	}
	l := &c.lines[i]
	line := fracture.PlanLine{X: l.x, Slope: c.boards[l.board].GrainSlope}
	follow := func(from, to float64, set fracture.PlanSetting) ([]fracture.PlanRun, error) {
		open := fracture.PlanStretch{From: from, To: to}
		if l.depth < 1 {
			open.Depth, open.Back = l.depth*c.boards[l.board].Thickness, l.back
		}
		line.Open = []fracture.PlanStretch{open}
		return fracture.FollowPlan(c.planned.layout, line, hold, c.planned.season, []fracture.PlanState{state}, set)
	}
	if c.setting == Fine {
		runs, err := follow(l.start, l.end, fracture.PlanFine)
		if best := hardest(runs); best != nil {
			e.curve = best.Curve()
			e.opens(best)
		}
		e.strip = closed.Now().Slow
		return err
	}
	// a few lengths, the tip that is driven hardest going on
	from, to := l.start, l.end
	for range coarseLengths {
		runs, err := follow(from, to, fracture.PlanCoarse)
		if err != nil {
			return err
		}
		best := hardest(runs)
		if best == nil {
			break
		}
		if len(e.curve.Points) == 0 {
			e.opens(best)
		}
		p := best.Curve().Points[0]
		e.curve.Points = append(e.curve.Points, p)
		step := (c.o.Along - (l.end - l.start)) / coarseLengths
		if best.Up {
			to = min(to+step, c.o.Along)
		} else {
			from = max(from-step, 0)
		}
		if from <= 0 && to >= c.o.Along {
			break
		}
	}
	e.curve.Points = append(e.curve.Points, fracture.Point{End: c.o.Along})
	e.strip = closed.Now().Slow
	return nil
}

// opens notes the widest opening of the line as it is.
func (e *lineElements) opens(r *fracture.PlanRun) {
	for _, q := range r.Points[0].Profile {
		e.open = max(e.open, q.Middle, q.Front, q.Back)
	}
}

// coarseLengths is at how many lengths of a line the energy is worked out at setting Coarse.
const coarseLengths = 5

// hardest returns the run that is driven hardest from where it stands; nil where none runs.
func hardest(runs []fracture.PlanRun) (best *fracture.PlanRun) {
	for k := range runs {
		if r := &runs[k]; len(r.Points) > 0 && (best == nil || r.Points[0].Slow.Total() > best.Points[0].Slow.Total()) {
			best = r
		}
	}
	return best
}

// apply gives the curve of the elements in the proportion of the strip formula at today's tip.
func (e *lineElements) apply(strip fracture.Curve) fracture.Curve {
	var out fracture.Curve
	now := strip.Now()
	f := now.Slow / e.strip
	for _, p := range e.curve.Points {
		p.Slow, p.Sudden, p.Strain = f*p.Slow, f*p.Sudden, now.Strain
		out.Points = append(out.Points, p)
	}
	return out
}

// holding is what holds the panel at a moment, as it would go on if a line ran. A line that runs lets the wood draw back, so
// fixings that slide or have yielded give way with the stiffness with which they came on.
func (c *Case) holding(st *standing) (fracture.PlanHold, fracture.PlanState, error) {
	w := c.planned
	short, err := w.a.Body()
	if err != nil {
		return fracture.PlanHold{}, fracture.PlanState{}, err
	}
	// the panel as it stands on the footprints of its fixings, which a mesh laid for the line does not follow
	slow, own := &w.body, 6 // motions of the panel, in one piece
	h := fracture.PlanHold{H: slow.C, Short: short.C, Whole: true, Motions: slow.Motions - own}
	for i := range slow.N {
		h.R = append(h.R, slow.R[i*slow.Motions+own:(i+1)*slow.Motions]...)
	}
	for i, p := range w.a.Places() {
		h.Rows = append(h.Rows, c.planRow(p, w.a.Sign(i)))
	}
	for _, q := range w.looked {
		row := fracture.PlanRow{Patch: plan.Patch{X: q.X, Y: q.Y}, Way: plan.U}
		if q.Out {
			row.Way = plan.W
		}
		h.Rows = append(h.Rows, row)
	}
	plain := w.a.Free(st.load, nil, w.season...)
	state := fracture.PlanState{Load: st.load, Grips: make([]fracture.PlanGrip, slow.N)}
	for k := range w.mounts {
		x := &w.mounts[k]
		for _, hold := range [2]*restraint.Hold{x.Slip, x.Lift} {
			if hold == nil {
				continue
			}
			r := hold.Row
			state.Grips[r] = grip(hold, &st.st, r, plain[r]-st.free[r])
		}
	}
	return h, state, nil
}

// planRow is a row as fracture takes it.
func (c *Case) planRow(p restraint.Place, sign float64) fracture.PlanRow {
	row := fracture.PlanRow{Patch: p.Patch, Way: plan.U, Sign: sign}
	slab := &c.planned.slabs[c.planned.slabAt(p.Patch.X)]
	half := (c.boards[slab.board].Thickness + slab.rib) / 2
	switch {
	case p.Lift:
		row.Way = plan.W
	case p.Around:
	case p.Front:
		row.Height = half - p.Sunk
	default:
		row.Height = p.Sunk - half
	}
	return row
}

// grip is what one direction of a fixing does; by is how much more the plan alone would move there.
func grip(h *restraint.Hold, st *restraint.Situation, row int, by float64) fracture.PlanGrip {
	force := st.Force[row]
	const tiny = 1e-6
	if math.Abs(force) <= tiny || h.Spring == slack && st.Stop[row] == 0 && st.Friction[row] == 0 {
		return fracture.PlanGrip{}
	}
	soft := 0.0
	switch {
	case st.Stop[row] == 0 && st.Friction[row] == 0:
		soft = 1 / h.Spring
	case h.Stiff > 0 && !math.IsInf(h.Stiff, 1):
		soft = 1 / h.Stiff
	}
	return fracture.PlanGrip{Bears: true, Soft: soft, Rest: st.Move[row] + by - soft*force}
}
