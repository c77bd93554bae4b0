package response

import (
	"math"
	"time"

	"crossgrain/panel/internal/creep"
)

// MemberYear is what one member and its fixings do in the course of a record.
type MemberYear struct {
	Part   string
	X      []float64   // places of its fixings, mm from the left
	Fixing []float64   // greatest force at each along the member, N, without its sign
	At     []time.Time // when
	Slip   []float64   // greatest movement at each against the member, mm, without its sign
	Lift   []float64   // greatest force at each across the thickness, N, without its sign
	Slots  bool        // it has fixings with play
	Bound  []Spell     // while a slot was at its end, or a slider squeezed in its notch
}

// Spell is a time from one balance to another.
type Spell struct{ From, To time.Time }

// stand makes the panel ready to march on its members; nothing where there are none.
func (f *follower) stand() (err error) {
	f.on, f.damp = nil, nil
	if f.c.planned == nil || len(f.c.planned.members) == 0 {
		return nil
	}
	step, layers := f.dt, len(f.strips[0].size)
	if f.on, err = f.c.newMarching(step, layers, (*board).slices); err != nil {
		return err
	}
	f.moment()
	if f.brief {
		f.on.stir *= 2
	} else {
		if f.damp, err = f.c.newMarching(step, layers, func(*board) []creep.MoistureDriven { return creep.Blocks() }); err != nil {
			return err
		}
		f.damp.slow = true
	}
	for _, m := range f.marches() {
		if err := m.begin(&f.now); err != nil {
			return err
		}
	}
	return nil
}

// marches are the panel with as little moisture-driven creep as was measured, which counts for the forces,
// and with as much, which bounds what is stored.
func (f *follower) marches() []*marching {
	switch {
	case f.on == nil:
		return nil
	case f.damp == nil:
		return []*marching{f.on}
	}
	return []*marching{f.on, f.damp}
}

// onMembers takes the members one step on.
func (f *follower) onMembers() error {
	for _, m := range f.marches() {
		for k, l := range f.strips {
			m.move(k, l.in.Moisture)
		}
		if f.c.planned.plays {
			f.airs()
		}
		anew, err := m.pass(&f.now)
		if err != nil {
			return err
		}
		f.fresh = f.fresh || anew && m == f.on
	}
	return nil
}

// airs fills in the humidity with which each board is in balance.
func (f *follower) airs() {
	for k := range f.c.boards {
		b := &f.c.boards[k]
		f.now.rh[k] = f.woods[f.which[k]].sorption(float64(f.now.mc[k]) / (1 + b.SorptionShift))
	}
}

// notes takes the last balance into the year of each member and into the day.
func (f *follower) notes(t time.Time) {
	if f.on == nil {
		return
	}
	w, st := f.c.planned, &f.on.now
	f.now.stood = st
	if f.year.Members == nil {
		f.year.Members = f.c.memberYears()
	}
	d := &f.day
	if d.Hold == nil {
		d.Hold = make([][2]float64, len(w.members))
		for i := range d.Hold {
			d.Hold[i] = nothing()
		}
	}
	for i := range w.members {
		m, y := &w.members[i], &f.year.Members[i]
		most := 0.0
		for k := range m.n {
			row := m.first + 2*k
			if v := math.Abs(st.force[row]); v > y.Fixing[k] {
				y.Fixing[k], y.At[k] = v, t
			}
			y.Slip[k] = max(y.Slip[k], math.Abs(st.st.Move[row]))
			y.Lift[k] = max(y.Lift[k], math.Abs(st.force[row+1]))
			most = max(most, math.Abs(st.force[row]))
		}
		widen(&d.Hold[i], most)
		if y.Slots && f.bound(i) {
			if n := len(y.Bound); n > 0 && t.Sub(y.Bound[n-1].To) <= 2*time.Duration(rests)*time.Second {
				y.Bound[n-1].To = t
			} else {
				y.Bound = append(y.Bound, Spell{t, t})
			}
		}
	}
	f.fresh = false
}

// bound says that a fixing with play is at the end of it.
func (f *follower) bound(i int) bool {
	w, st := f.c.planned, &f.on.now
	m, at := &w.members[i], w.mount(i)
	for k := range m.n {
		x := &w.mounts[at+k]
		if x.Slip != nil && x.Slip.Play > 0 && math.Abs(st.st.Stop[m.first+2*k]) > 1e-9 {
			return true
		}
	}
	return m.play != nil && f.c.notchLeft(f.c.airOf(f.now), f.c.o.Cradle.SliderWidth) < 0
}

// memberYears makes the year of every member, empty.
func (c *Case) memberYears() []MemberYear {
	w := c.planned
	out := make([]MemberYear, len(w.members))
	for i := range out {
		m, at := &w.members[i], w.mount(i)
		y := MemberYear{
			Part: m.part, Fixing: make([]float64, m.n), At: make([]time.Time, m.n), Lift: make([]float64, m.n), Slip: make([]float64, m.n), Slots: m.play != nil,
		}
		for k := range m.n {
			x := &w.mounts[at+k]
			y.X = append(y.X, x.X)
			y.Slots = y.Slots || x.Slip != nil && x.Slip.Play > 0
		}
		out[i] = y
	}
	return out
}

// slices is the moisture-driven creep of slices of spruce by the ring angle of the board.
func (b *board) slices() []creep.MoistureDriven {
	w := math.Pow(math.Sin(float64(b.Ring)*math.Pi/180), 2)
	r, t := creep.Slices(creep.Radial), creep.Slices(creep.Tangential)
	out := make([]creep.MoistureDriven, len(r))
	for i := range out {
		out[i] = creep.MoistureDriven{M: w*r[i].M + (1-w)*t[i].M, Path: r[i].Path}
	}
	return out
}

// LetGo is what the panel does when everything that lies across its grain comes off at the end of a
// course, at the moisture of that moment: how its warp and its width at mid-length stand by then, from the
// used-to state, and what each later time brings.
type LetGo struct {
	Held   Stands
	AtOnce Stands    // after the elastic part has come back
	Hours  [2]Stands // after two days, with little and with much creep by moisture
	Weeks  [2]Stands // after half a year in an even climate
	Year   [2]Stands // after as much coming and going of the moisture as in the last year
	Fresh  Stands    // as if it had never been held, but for what has been crushed
	Set    float64   // change of width that crushing has left for good, mm
}

// Stands is a warp, painted face rounded positive, and a change of width, mm.
type Stands struct{ Warp, Width float64 }

// letGo tells what would come back.
func (f *follower) letGo() *LetGo {
	if f.on == nil {
		return nil
	}
	w := f.c.planned
	out := &LetGo{Set: 0}
	for i := range f.c.boards {
		out.Set += f.now.set[i] * f.c.boards[i].Width
	}
	at := func(v [5]float64) Stands { return Stands{v[1] - (v[0]+v[2])/2, v[4] - v[3]} }
	for k, m := range f.marches() {
		var held, loose, hours, weeks, year, fresh [5]float64
		for i, row := range w.looks {
			held[i] = m.now.body.Move(row, m.now.free, m.now.force, m.now.st.Motion)
			back := m.creep.Back(row, m.bySlab(m.gone))
			loose[i] = m.now.free[row] - m.creep.Last(row)
			hours[i] = loose[i] + back.Hours
			weeks[i] = hours[i] + back.Weeks
			year[i] = weeks[i] + back.Year
			fresh[i] = weeks[i] + back.Cycles
		}
		out.Hours[k], out.Weeks[k], out.Year[k] = at(hours), at(weeks), at(year)
		if k == 0 {
			out.Held, out.AtOnce, out.Fresh = at(held), at(loose), at(fresh)
		}
	}
	return out
}

// heldOver returns the share of what is held at the lines of the members that is held in the mean over each board.
func (c *Case) heldOver() []float64 {
	out := make([]float64, len(c.boards))
	w := c.planned
	if w == nil || len(w.members) == 0 {
		return out
	}
	m := c.rest()
	for i := range m.mc {
		m.mc[i] -= 0.02
	}
	var free State
	c.move(&free, m)
	s, err := c.balance(m, c.heights(&free))
	if err != nil {
		for i := range out {
			out[i] = 1
		}
		return out
	}
	for i := range c.boards {
		b := &c.boards[i]
		var line, all float64
		for k := range w.along {
			for j := range w.along[k] {
				if p := &w.along[k][j]; w.slabs[p.Board].board == i {
					n, _ := p.Read(s.force, s.load)
					line = max(line, n)
				}
			}
		}
		const rows = 24
		for k := range rows {
			x := b.Left + b.Width/2
			p := w.a.Station(x, c.o.Along*(float64(k)+0.5)/rows, w.slabAt(x), false)
			n, _ := p.Read(s.force, s.load)
			all += n / rows
		}
		out[i] = 1
		if line > 0 {
			out[i] = min(max(all/line, 0), 1)
		}
	}
	return out
}
