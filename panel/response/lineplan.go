package response

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel/fracture"
	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
)

// lineElements is what the elements say of one line at one humidity; at others all of it goes with the square of how far the line
// stands open on the panel's members, or, where it is not open there, with what the strip formula says of its tip today: energy
// goes with the square of what is held.
type lineElements struct {
	curve fracture.Curve // empty: it cannot be told
	strip float64        // slow energy release of the strip formula at that humidity
	wide  float64        // how far it had come apart on the panel's members, mm
	long  float64        // how long it was, mm
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
	if c.planned.parted() {
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
	if wide, ok := c.comeApart(i, st); ok {
		if e.wide, e.long = wide, s.Lines[i].Length; wide == 0 {
			return nil // what holds the panel presses it together
		}
	}
	hold, state, err := c.holding(st)
	if err != nil {
		return err
	}
	l := &c.lines[i]
	line := fracture.PlanLine{X: l.x, Slope: c.boards[l.board].GrainSlope}
	own := fracture.PlanStretch{From: l.start, To: l.end}
	if l.depth < 1 {
		own.Depth, own.Back = l.depth*c.boards[l.board].Thickness, l.back
	}
	lay, others := c.planned.besides(i, &line, &own, &hold)
	follow := func(from, to float64, set fracture.PlanSetting) ([]fracture.PlanRun, error) {
		open := own
		open.From, open.To = from, to
		line.Open = append([]fracture.PlanStretch{open}, others...)
		slices.SortFunc(line.Open, func(a, b fracture.PlanStretch) int { return cmp.Compare(a.From, b.From) })
		runs, err := fracture.FollowPlan(lay, line, hold, c.planned.season, []fracture.PlanState{state}, set)
		return slices.DeleteFunc(runs, func(r fracture.PlanRun) bool { return line.Open[r.Stretch].From != from }), err
	}
	if c.setting == Fine {
		runs, err := follow(l.start, l.end, fracture.PlanFine)
		if best := hardest(runs); best != nil {
			e.curve = best.Curve()
			e.opens(best)
		} else if err == nil {
			err = errNoRun
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
		if from <= 0 && to >= c.o.Along || slices.ContainsFunc(others, func(o fracture.PlanStretch) bool { return o.From <= to && o.To >= from }) {
			break // through, or into another opening of the same line
		}
	}
	if len(e.curve.Points) == 0 {
		return errNoRun
	}
	e.curve.Points = append(e.curve.Points, fracture.Point{End: c.o.Along})
	e.strip = closed.Now().Slow
	return nil
}

// errNoRun is that the ties along a line are too stiff for what holds the panel to be told from nothing.
var errNoRun = errors.New("the panel is held too stiffly beside it for the elements to open it further")

// as is what the energies at the reference are to be multiplied by when a line that long has come apart so far, mm. Where they are
// lent by a line of another length, energy goes with the square of the opening over the length to the power of 1.5, between a short
// crack (the length) and boards that turn about its tip (its square): fitted, and within a fifth from 200 to 450 mm, where 300 mm was
// followed, of a join of two nailed boards of 800 mm.
func (e *lineElements) as(wide, long float64) float64 {
	return wide * wide / (e.wide * e.wide) * math.Pow(e.long/long, 1.5)
}

// besides returns the panel with what is open beside line i, and the other open stretches of the same line; it tells line and
// hold what of the line stands open.
func (w *whole) besides(i int, line *fracture.PlanLine, own *fracture.PlanStretch, hold *fracture.PlanHold) (lay plan.Layout, others []fracture.PlanStretch) {
	lay = w.layout
	k, ok := w.seamOf(i)
	if ok {
		q := &w.seams[k]
		line.X, own.From, own.To, own.Hinge = q.X, q.From, q.To, q.Hinge
		if q.Hinge != nil {
			own.Depth, own.Back = 2*q.Face*(1-q.Hinge.Left), q.Hinge.Both < 0
		}
		hold.Open = append(hold.Open, *own)
	}
	var apart []restraint.Seam
	for j := range w.seams {
		q := &w.seams[j]
		switch {
		case ok && j == k:
		case q.X != line.X:
			apart = append(apart, q.Seam)
		default:
			o := fracture.PlanStretch{From: q.From, To: q.To, Gap: q.Gap, Hinge: q.Hinge}
			if q.Hinge != nil {
				o.Depth, o.Back = 2*q.Face*(1-q.Hinge.Left), q.Hinge.Both < 0
			}
			others = append(others, o)
		}
	}
	lay.Lines = append(slices.Clone(lay.Lines), restraint.SeamLines(apart)...)
	hold.Open = append(hold.Open, others...)
	return lay, others
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

// apply gives the curve of the elements, its energies times f, with the strain of today.
func (e *lineElements) apply(f, strain float64) fracture.Curve {
	var out fracture.Curve
	for _, p := range e.curve.Points {
		p.Slow, p.Sudden, p.Strain = f*p.Slow, f*p.Sudden, strain
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
	// the panel as it stands on the footprints of its fixings, which a mesh laid for the line does not follow; where open lines
	// press is left out
	slow, own := &w.body, 6 // motions of the panel, in one piece
	h := fracture.PlanHold{Whole: true, Motions: slow.Motions - own}
	var rows []int
	for i, p := range w.a.Places() {
		rows = append(rows, i)
		h.Rows = append(h.Rows, c.planRow(p, w.a.Sign(i)))
	}
	for i, q := range w.looked {
		row := fracture.PlanRow{Patch: plan.Patch{X: q.X, Y: q.Y}, Way: plan.U}
		if q.Out {
			row.Way = plan.W
		}
		rows = append(rows, w.looks[i])
		h.Rows = append(h.Rows, row)
	}
	for _, i := range rows {
		h.R = append(h.R, slow.R[i*slow.Motions+own:(i+1)*slow.Motions]...)
		for _, k := range rows {
			h.H, h.Short = append(h.H, slow.C[i*slow.N+k]), append(h.Short, short.C[i*slow.N+k])
		}
	}
	plain := w.a.Free(st.load, nil, w.season...)
	state := fracture.PlanState{Load: st.load, Grips: make([]fracture.PlanGrip, len(rows))}
	for k := range w.mounts {
		x := &w.mounts[k]
		for _, hold := range [2]*restraint.Hold{x.Slip, x.Lift} {
			if hold == nil {
				continue
			}
			r := hold.Row
			if r >= 2*len(w.clear) { // of a line
				continue
			}
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
