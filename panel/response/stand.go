package response

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/moisture"
	"crossgrain/panel/restraint"
)

// standing is how the panel stands on its members at one moment.
type standing struct {
	load    []float64 // of the plan
	free    []float64 // movement of each row if no fixing held
	force   []float64 // that each row resists with
	st      restraint.Situation
	trust   restraint.Trust
	body    *restraint.Body
	march   *restraint.March
	bracket *[2]float64
}

// balance finds the balance at a moment, straight from the moment at which the members hold nothing, over a
// season. height is how high the unheld panel would stand at the rows across the thickness.
func (c *Case) balance(m moment, height []float64) (*standing, error) {
	w := c.planned
	du := make([]moisture.MC, len(c.boards))
	for i := range du {
		du[i] = m.mc[i] - c.boards[i].used
	}
	bend := c.unheld(du)
	for i := range bend {
		bend[i] += m.bend[i]
	}
	s := &standing{load: c.loads(w, du, m.set, bend), body: &w.body, march: w.march}
	s.free = w.rows(s.load, height, 1)
	if err := c.play(w.march, c.airOf(m)); err != nil {
		return nil, err
	}
	var err error
	if s.trust, err = w.march.Step(restraint.Incoming{Free: s.free}, &s.st); err != nil {
		return nil, fmt.Errorf("panel on its members: %w", err)
	}
	s.force = s.st.Force
	if s.trust.Undetermined() {
		s.bracket = w.bracket(s.free)
	}
	return s, nil
}

// bracket returns the greatest force at one fixing if none rubs and if all lock; nil where that cannot be told.
func (w *whole) bracket(free []float64) *[2]float64 {
	var st restraint.Situation
	loose, locked, err := w.march.Bracket(restraint.Incoming{Free: free}, &st)
	if err != nil {
		return nil
	}
	var out [2]float64
	for k, s := range [2]*restraint.Situation{loose, locked} {
		for _, m := range w.members {
			for i := range m.n {
				out[k] = max(out[k], math.Abs(s.Force[m.first+2*i]))
			}
		}
	}
	return &out
}

// rows returns the free movement of every row under loads of the plan, less a share of that at which its member
// holds nothing, 1 = what is left of it after years. Across the thickness it goes by the height given: rings bend a
// board more than they turn its edges, by shear without stress, which no load of a plate brings about.
func (w *whole) rows(load, height []float64, ref float64) []float64 {
	free := w.a.Free(load, nil, w.season...)
	for i, o := range w.out {
		free[o.row] = o.sign * height[i]
	}
	for i, r := range w.ref {
		free[i] -= ref * r
	}
	return free
}

// play gives fixings whose play goes with the humidity the play they have.
func (c *Case) play(m *restraint.March, rh moisture.RH) error {
	w := c.planned
	if !w.plays {
		return nil
	}
	mounts, at := slices.Clone(w.mounts), 0
	for i := range w.members {
		for range w.members[i].n {
			if p := w.members[i].play; p != nil {
				p(c, rh, &mounts[at])
				if err := m.Adjust(at, mounts[at]); err != nil {
					return err
				}
			}
			at++
		}
	}
	return nil
}

// airOf is the mean humidity over the width that a moment stands for.
func (c *Case) airOf(m moment) (rh moisture.RH) {
	for i := range c.boards {
		rh += m.rh[i] * moisture.RH(c.boards[i].Width/c.o.Across)
	}
	return rh
}

// heldStrain is the strain that a force and a moment for each mm along the grain hold in the wood of a
// board over a season: at mid-thickness, at the painted face and at the back.
func (c *Case) heldStrain(at *restraint.Station, n, m float64) (middle, front, back float64) {
	p, g := &c.planned.slabs[at.Board], c.planned.ground
	b := &c.boards[p.board]
	t, above := c.woodAt(at)
	h := (t + g.Thickness) / 2
	ga := g.E * g.Thickness
	s, first := b.stiff*t+ga, ga*h
	stiff := b.stiff*t*t*t/12 + ga*(h*h+g.Thickness*g.Thickness/12) - first*first/s
	e, k := n/(b.left*s), (m-n*(above+first/s))/(b.left*stiff)
	up := -first / s // of mid-thickness over the plane of no strain by bending
	return e + k*up, e + k*(up+t/2), e + k*(up-t/2)
}

// memberOf fills in what one member does, in the words of the closed forms.
func (c *Case) memberOf(i int, s *standing) restraint.Result {
	w, nb := c.planned, len(c.boards)
	m := &w.members[i]
	r := restraint.Result{
		Held: make([]float64, nb), Front: make([]float64, nb), Back: make([]float64, nb),
	}
	sum, at := 0.0, w.mount(i)
	for k := range m.n {
		row := m.first + 2*k
		sign := w.a.Sign(row)
		r.Force = append(r.Force, -sign*s.force[row])
		r.Slip = append(r.Slip, sign*s.st.Move[row])
		r.Does = append(r.Does, s.march.Does(&s.st, at+k))
		if sum += sign * s.force[row]; math.Abs(sum) > math.Abs(r.Max) {
			r.Max = sum
		}
	}
	r.Words = restraint.Phrase(r.Does)
	var held, wants, bend, width float64
	for k := range w.along[i] {
		p := &w.along[i][k]
		n, moment := p.Read(s.force, s.load)
		b := w.slabs[p.Board].board
		mid, front, back := c.heldStrain(&p.Station, n, moment)
		larger(&r.Held[b], mid)
		larger(&r.Front[b], front)
		larger(&r.Back[b], back)
		held -= mid * p.width
		wants += w.wants(s.load, p.Board) * p.width
		thick, _ := c.woodAt(&p.Station)
		bend += (front - back) / thick * p.width
		width += p.width
	}
	if wants != 0 && math.Abs(r.Max) > 1 { // what others hold is not told of a member that holds nothing
		r.Share = min(max(held/wants, 0), 1)
	}
	if width > 0 { // told as the warp of a strip of that curvature
		r.Free = -bend / width * c.o.Across * c.o.Across / 8
	}
	return r
}

// mount returns the number of a member's first mount.
func (w *whole) mount(i int) (n int) {
	for k := range i {
		n += w.members[k].n
	}
	return n
}

// larger keeps the value of greater size.
func larger(v *float64, x float64) {
	if math.Abs(x) > math.Abs(*v) {
		*v = x
	}
}

// membersOf tells what every member does.
func (c *Case) membersOf(s *standing) []restraint.Result {
	out := make([]restraint.Result, len(c.planned.members))
	for i := range out {
		out[i] = c.memberOf(i, s)
	}
	return out
}

// tell adds what only the elements know of a member.
func (c *Case) tell(i int, s *standing, st *RestraintState) {
	w := c.planned
	m := &w.members[i]
	st.mean = make([]float64, len(c.boards))
	width := make([]float64, len(c.boards))
	for k := range w.along[i] {
		p := &w.along[i][k]
		n, moment := p.Read(s.force, s.load)
		mid, _, _ := c.heldStrain(&p.Station, n, moment)
		b := w.slabs[p.Board].board
		st.mean[b] += mid * p.width
		width[b] += p.width
	}
	for b, v := range width {
		if v > 0 {
			st.mean[b] /= v
		}
	}
	lift, slip := make([]float64, m.n), make([]float64, m.n)
	st.Lift = make([]float64, m.n)
	for k := range m.n {
		slip[k], lift[k] = s.force[m.first+2*k], s.force[m.first+2*k+1]
		st.Lift[k] = -lift[k]
	}
	b := w.bars[i].Bend(st.X, slip, lift, w.bars[i].Depth/2, w.a.Steps(i))
	st.Moment, st.Sag = b.Moment, b.Sag
}

// shape fills in the panel as it stands at mid-length.
func (c *Case) shape(s *State, st *standing) {
	w := c.planned
	var at [5]float64
	for i, row := range w.looks {
		at[i] = st.body.Move(row, st.free, st.force, st.st.Motion)
	}
	f := func(i int) float64 { return st.free[w.looks[i]] }
	s.Shape = &Shape{
		Warp: at[1] - (at[0]+at[2])/2, Width: at[4] - at[3],
		FreeWarp: f(1) - (f(0)+f(2))/2, Free: f(4) - f(3), Open: st.trust.Open, Misfit: [2]float64{st.trust.Move, st.trust.Load},
		Bracket: st.bracket,
	}
	if w.parted() { // pieces have no width in common
		s.Shape.Free, s.Shape.FreeWarp = s.Width, s.Cup
	}
}

// slim keeps of a standing what the pull in the wood is read from.
func (s *standing) slim() *standing {
	if s == nil {
		return nil
	}
	return &standing{load: slices.Clone(s.load), force: slices.Clone(s.force)}
}

// PullMap is the pull across the grain in the wood, seen from the front: of the two faces that which is
// pulled more, MPa, over a season at that state. Nothing in a panel whose members are worked out by closed
// forms, or without any.
type PullMap struct {
	X, Y []float64   // mm from the left edge and from the lower or left end, rising
	MPa  [][]float64 // a row for each Y
}

// Pull reads the map at so many places across and along, in the middles of even fields.
func (c *Case) Pull(s *State, across, along int) (out PullMap) {
	if s.stood == nil || c.planned == nil || len(c.planned.members) == 0 {
		return out
	}
	for i := range across {
		out.X = append(out.X, c.o.Across*(float64(i)+0.5)/float64(across))
	}
	for k := range along {
		y := c.o.Along * (float64(k) + 0.5) / float64(along)
		out.Y = append(out.Y, y)
		row := make([]float64, across)
		for i, x := range out.X {
			b := c.boardAt(x)
			at := c.planned.a.Station(x, y, c.planned.slabAt(x), false)
			n, m := at.Read(s.stood.force, s.stood.load)
			_, front, back := c.heldStrain(&at, n, m)
			row[i] = max(front, back) * c.boards[b].stiff * c.boards[b].left
		}
		out.MPa = append(out.MPa, row)
	}
	return out
}
