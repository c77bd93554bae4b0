package response

import (
	"fmt"
	"math"

	"crossgrain/panel/internal/plan"
	"crossgrain/panel/restraint"
	"crossgrain/species"
	"crossgrain/tables"
)

// hold works out what every member across the grain holds back and adds the demands of it: by elements
// where they are made, by the closed forms beside them. Strains are mechanical strains held for a season,
// so they are compared with slow limits only.
func (c *Case) hold(s *State, m moment, curvature []float64) error {
	tension, compression := make([]float64, len(c.boards)), make([]float64, len(c.boards))
	closed, err := c.closed(m, curvature)
	if err != nil {
		return err
	}
	holders, results := c.holders(), closed
	if c.planned != nil {
		st := m.stood
		if st == nil {
			if st, err = c.balance(m, c.heights(s)); err != nil {
				return err
			}
		}
		results = c.membersOf(st)
		s.stood = st
		c.shape(s, st)
	}
	for k, h := range holders {
		res := &results[k]
		st := RestraintState{
			Part: h.part, What: h.what, Y: h.y, Fixing: res.Force, Slip: res.Slip, Does: res.Does, Force: res.Max, Words: res.Words,
			Held: res.Held, Share: res.Share, Spread: h.spread,
			Bend: c.withheld(res.Free - res.Cup),
		}
		for _, f := range h.fix {
			st.X = append(st.X, f.X)
		}
		if c.planned != nil {
			c.tell(k, s.stood, &st)
			if k < len(closed) {
				q := &closed[k]
				st.Closed = &ClosedHold{Force: q.Max, Share: q.Share, Fixing: size(q.Force), held: q.Held, bend: c.withheld(q.Free - q.Cup)}
			}
		}
		st.Ends = acting(st)
		for i := range c.boards { // bending with a member on one side adds to one face
			for _, e := range [...]float64{res.Held[i], res.Front[i], res.Back[i]} {
				tension[i], compression[i] = math.Max(tension[i], e), math.Max(compression[i], -e)
			}
		}
		s.HeldShare = math.Max(s.HeldShare, res.Share)
		s.Restraints = append(s.Restraints, st)
		c.load(s, &h, res)
	}
	c.splitsOf(s, m, closed, results)
	c.strain(s, tension, compression)
	return nil
}

// closed solves every member by the closed form, each by itself.
func (c *Case) closed(m moment, curvature []float64) ([]restraint.Result, error) {
	out := make([]restraint.Result, len(c.restraints))
	for k := range c.restraints {
		r := &c.restraints[k]
		d := plan.Drive{Curvature: curvature, Strain: make([]float64, len(c.boards))}
		for i := range c.boards {
			b := &c.boards[i]
			d.Strain[i] = b.across(m.mc[i]-r.ref[i]) + m.set[i]
		}
		var err error
		if out[k], err = r.system.Solve(d); err != nil {
			return nil, fmt.Errorf("%s: %w", r.part, err)
		}
	}
	return out, nil
}

// holders lists the members in the order in which they are told.
func (c *Case) holders() []holder {
	if c.planned != nil {
		return c.planned.holders
	}
	out := make([]holder, len(c.restraints))
	for k := range out {
		out[k] = c.restraints[k].holder
	}
	return out
}

// size returns the value of greatest size, without its sign.
func size(v []float64) (most float64) {
	for _, x := range v {
		most = math.Max(most, math.Abs(x))
	}
	return most
}

// acting returns the places of the outermost fixings that carry force.
func acting(res RestraintState) [2]float64 {
	ends := [2]float64{math.Inf(1), math.Inf(-1)}
	var top float64
	for _, f := range res.Fixing {
		top = math.Max(top, math.Abs(f))
	}
	for i, f := range res.Fixing {
		if top > 0 && math.Abs(f) > 0.02*top {
			ends[0], ends[1] = math.Min(ends[0], res.X[i]), math.Max(ends[1], res.X[i])
		}
	}
	return ends
}

// strain adds what the held strain asks of wood and joins.
func (c *Case) strain(s *State, tension, compression []float64) {
	if len(s.Restraints) == 0 {
		return
	}
	for i := range c.boards {
		b := &c.boards[i]
		part := "board." + b.Name
		set := species.CompressionSlow()
		n, by := &s.Splits[i], b.breaksBy
		if n.At != SplitMiddle {
			by = tables.Estimate
		}
		s.Demands = append(s.Demands,
			Demand{WoodSplit, part, n.Strain, n.Bears, "strain", by},
			Demand{CompressionSet, part, compression[i], set.Value, "strain", set.Grade})
		s.MaxHeldStrain = math.Max(s.MaxHeldStrain, tension[i])
	}
	for _, j := range c.o.Joins {
		l, r := &c.boards[j.Left], &c.boards[j.Right]
		d := Demand{JoinTension, "join." + j.Name, tension[j.Left], l.breaks, "strain", tables.Estimate}
		if tension[j.Right]/r.breaks > d.Share() {
			d.Value, d.Capacity = tension[j.Right], r.breaks
		}
		d.Capacity *= math.Max(j.StrengthOfSound, 1e-3)
		s.Demands = append(s.Demands, d)
	}
}

// load adds what the fixings of one member have to bear, and the play they have used up.
func (c *Case) load(s *State, r *holder, res *restraint.Result) {
	if r.glued {
		s.Demands = append(s.Demands, c.glueLineDemand(r, res))
		return
	}
	over, play := Demand{}, Demand{}
	for i, f := range r.fix {
		// A fixing at its yield load slips on: what it is asked to bear is the force it would
		// carry if it did not give, so that the share goes on rising past its limit.
		asked := math.Abs(res.Force[i])
		if !math.IsInf(f.Slip, 1) {
			asked = math.Max(asked, f.Slip*positive(math.Abs(res.Slip[i])-f.Clearance))
		}
		if d := (Demand{FixingOverload, r.part, asked, f.Yield, "N", tables.Estimate}); over.Part == "" || d.Share() > over.Share() {
			over = d
		}
		if f.Clearance > 0 {
			d := Demand{SlotExhausted, r.part, math.Abs(res.Slip[i]), f.Clearance, "mm", tables.Estimate}
			if play.Part == "" || d.Share() > play.Share() {
				play = d
			}
		}
	}
	if r.what == "slider" {
		over.Capacity = math.Inf(1) // a slider that gives is a slider that slides
	}
	if over.Part != "" {
		s.Demands = append(s.Demands, over)
	}
	if play.Part != "" {
		s.Demands = append(s.Demands, play)
	}
	c.ripple(s, r, res)
}

// glueLineDemand compares the shear of a glue line, its end force spread over a tenth of its length,
// with the rolling shear strength of the panel's weakest wood. No strength of an aged glue line was
// found.
func (c *Case) glueLineDemand(r *holder, res *restraint.Result) Demand {
	last := len(r.fix) - 1
	length := (r.fix[last].X - r.fix[0].X) / 10
	stress := math.Max(math.Abs(res.Force[0]), math.Abs(res.Force[last])) / (length * r.width)
	strength := math.Inf(1)
	for i := range c.boards {
		if v := c.boards[i].Wood.Rolling * c.boards[i].StiffnessReduction; v > 0 {
			strength = math.Min(strength, v)
		}
	}
	return Demand{FixingOverload, r.part, stress, strength, "MPa", tables.Estimate}
}

// ripple compares the swelling held back between two neighbouring fixings with the strain at which
// a strip of the panel's thickness would buckle between them, ends between hinged and clamped.
func (c *Case) ripple(s *State, r *holder, res *restraint.Result) {
	if r.part == "frame" {
		return // bound, it bows as a whole: the room it has is what is told
	}
	worst := Demand{Mode: Rippling, Part: r.part, Capacity: math.Inf(1), Unit: "strain", Grade: tables.Estimate}
	for i := 1; i < len(r.fix); i++ {
		b := c.boardAt((r.fix[i-1].X + r.fix[i].X) / 2)
		limit, err := restraint.Rippling(c.boards[b].Thickness, r.fix[i].X-r.fix[i-1].X, ripplingClamp)
		if err != nil {
			continue // two fixings at one place hold no span
		}
		d := Demand{Rippling, r.part, positive(-res.Held[b]), limit, "strain", tables.Estimate}
		if worst.Unlimited() || d.Share() > worst.Share() {
			worst = d
		}
	}
	if !worst.Unlimited() {
		s.Demands = append(s.Demands, worst)
	}
}

// ripplingClamp stands between hinged (0) and clamped (1) edges.
const ripplingClamp = 1.0 / 3

// boardAt returns the board that holds x.
func (c *Case) boardAt(x float64) int {
	for i := range c.boards {
		if x < c.boards[i].Left+c.boards[i].Width {
			return i
		}
	}
	return len(c.boards) - 1
}

// withheld is the curvature of a warp over the whole width, 1/mm.
func (c *Case) withheld(warp float64) float64 { return 8 * warp / (c.o.Across * c.o.Across) }
