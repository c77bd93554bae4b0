package response

import (
	"fmt"
	"math"

	"crossgrain/moisture"
	"crossgrain/panel/internal/creep"
	"crossgrain/panel/restraint"
)

// How the panel is taken through a course on its members, working choices (assumption).
const (
	// stir is the change of free strain of a board after which its balance is found anew: a hundredth of
	// what slow tests call the onset of yielding.
	stir = 4e-5
	// rests is the longest time between two balances.
	rests = 24 * 3600.0
	// The past before a course: so long ago was each member fixed, and so far has the moisture of every
	// board gone since, kg/kg, at 0.06 a year in the middle of a board in a lived-in room.
	past    = 30 * 365 * 24 * 3600.0
	pastWay = 30 * 0.06
)

// marching is a panel on its members on its way through a course: contact, friction and yield of the
// fixings with their memory, the wood creeping under what they hold.
type marching struct {
	c      *Case
	creep  *restraint.Creep
	pace   map[int]*restraint.March // by number of steps since the last balance
	bodies map[int]*restraint.Body
	step   float64                  // s
	steps  int                      // since the last balance
	most   int                      // steps between two balances at most
	stir   float64                  // strain, see stir
	slow   bool                     // balances are found only once in most steps, or as creep asks for
	moist  [][]creep.MoistureDriven // of each board
	ways   [][]creep.Way
	way    []float64    // of each board since the last balance
	gone   []float64    // of each board in the present year of the course
	bends  [][2]float64 // curvature of each board between its edges for a unit of moisture content, drying and damping
	load   []float64    // of the last balance
	height []float64
	now    standing
	open   int
	error  restraint.Trust // largest misfits
}

// newMarching begins before any member was fixed; begin fixes them.
func (c *Case) newMarching(step float64, layers int, moist func(b *board) []creep.MoistureDriven) (*marching, error) {
	n := len(c.boards)
	m := &marching{
		c: c, step: step, most: 1, stir: stir, pace: map[int]*restraint.March{}, bodies: map[int]*restraint.Body{},
		moist: make([][]creep.MoistureDriven, n), ways: make([][]creep.Way, n), way: make([]float64, n), gone: make([]float64, n),
	}
	for float64(2*m.most)*step <= rests {
		m.most *= 2
	}
	wood := make([]restraint.Slowly, len(c.planned.slabs))
	for i, p := range c.planned.slabs {
		b := &c.boards[p.board]
		chain, err := creep.Across(math.Abs(float64(b.Ring)), creep.Tension, 65)
		if err != nil {
			return nil, fmt.Errorf("board %s: %w", b.Name, err)
		}
		wood[i] = restraint.Slowly{Chain: chain, Moist: moist(b)}
	}
	for i := range m.ways {
		m.ways[i], m.moist[i] = make([]creep.Way, layers), moist(&c.boards[i])
	}
	var err error
	if m.creep, err = c.planned.a.NewCreep(wood); err != nil {
		return nil, err
	}
	m.bends = c.unheldPer()
	return m, nil
}

// unheldPer returns the curvature that each board takes unheld for a unit of moisture content, drying and
// damping, from the change of two in a hundred (rings bend nearly in proportion).
func (c *Case) unheldPer() [][2]float64 {
	const du = 0.02
	out := make([][2]float64, len(c.boards))
	for k, d := range [2]float64{-du, du} {
		all := make([]moisture.MC, len(c.boards))
		for i := range all {
			all[i] = moisture.MC(d)
		}
		for i, v := range c.unheld(all) {
			out[i][k] = v / d
		}
	}
	return out
}

// marchFor returns the march for so many steps since the last balance.
func (m *marching) marchFor(steps int, gained []float64) (*restraint.March, *restraint.Body, error) {
	if p := m.pace[steps]; p != nil {
		return p, m.bodies[steps], nil
	}
	b, err := m.c.planned.a.Creeping(gained)
	if err != nil {
		return nil, nil, err
	}
	p, err := restraint.NewMarch(b, m.c.planned.mounts)
	if err != nil {
		return nil, nil, err
	}
	m.pace[steps], m.bodies[steps] = p, &b
	return p, &b, nil
}

// begin fixes the members at the humidity at which each was fixed and lets the past go by at the used-to
// humidity.
func (m *marching) begin(mo *moment) error {
	m.loads(mo)
	for i := range m.way {
		m.way[i] = pastWay
	}
	gained := m.creep.Ahead(past, m.bySlab(m.way), true)
	b, err := m.c.planned.a.Creeping(gained)
	if err != nil {
		return err
	}
	p, err := restraint.NewMarch(b, m.c.planned.mounts)
	if err != nil {
		return err
	}
	return m.balance(p, &b)
}

// loads fills in what moves the plan at a moment.
func (m *marching) loads(mo *moment) {
	c, w := m.c, m.c.planned
	if m.load == nil {
		m.load = make([]float64, w.a.Loads())
	}
	g := w.ground
	change := make([]float64, len(c.boards))
	for i := range c.boards {
		change[i] = float64(mo.mc[i] - c.boards[i].used)
	}
	for i, p := range w.slabs {
		b, d := &c.boards[p.board], change[p.board]
		k := 0
		if d > 0 {
			k = 1
		}
		e := b.across(moisture.MC(d)) + mo.set[p.board]
		w.load(m.load, i, e, p.bends(b, woodAlone(b, g, e, m.bends[p.board][k]*d+mo.bend[p.board])))
	}
	m.height = w.height(change, mo.bend)
}

// move takes the moisture of the layers of a board one step on.
func (m *marching) move(board int, layers []float64) {
	var way float64
	for k, u := range layers {
		way += m.ways[board][k].Move(u)
	}
	way /= float64(len(layers))
	m.way[board] += way
	m.gone[board] += way
}

// bySlab gives every slab the value of its board.
func (m *marching) bySlab(v []float64) []float64 {
	out := make([]float64, len(m.c.planned.slabs))
	for i, p := range m.c.planned.slabs {
		out[i] = v[p.board]
	}
	return out
}

// pass lets one step go by and finds the balance anew when enough has happened since the last.
func (m *marching) pass(mo *moment) (anew bool, err error) {
	m.steps++
	if m.steps&(m.steps-1) != 0 || m.steps < m.most && !m.crept() && (m.slow || !m.stirred(mo)) {
		return false, nil
	}
	m.loads(mo)
	gained := m.creep.Ahead(float64(m.steps)*m.step, m.bySlab(m.way), false)
	p, b, err := m.marchFor(m.steps, gained)
	if err != nil {
		return false, err
	}
	if err := m.c.play(p, m.c.airOf(*mo)); err != nil {
		return false, err
	}
	return true, m.balance(p, b)
}

// crept says that the moisture has gone so far since the last balance that creep by it, which goes on with the force of that
// balance, would take up a tenth of what the wood gives at once.
func (m *marching) crept() bool {
	for i, list := range m.moist {
		var adds float64
		for _, e := range list {
			adds -= e.M * math.Expm1(-m.way[i]/e.Path)
		}
		if adds > 0.1 {
			return true
		}
	}
	return false
}

// stirred says that some board wants to move otherwise than at the last balance.
func (m *marching) stirred(mo *moment) bool {
	for i, p := range m.c.planned.slabs {
		b := &m.c.boards[p.board]
		e := b.across(mo.mc[p.board]-b.used) + mo.set[p.board]
		if math.Abs(e-m.c.planned.wants(m.load, i)) > m.stir {
			return true
		}
	}
	return false
}

// balance finds the forces for the present loads.
func (m *marching) balance(p *restraint.March, b *restraint.Body) error {
	w := m.c.planned
	free := w.rows(m.load, m.height, 1/StoredShare) // the whole of it: the wood has crept for itself
	m.creep.Withhold(free)
	t, err := p.Step(restraint.Incoming{Free: free}, &m.now.st)
	if err != nil {
		return fmt.Errorf("panel on its members: %w", err)
	}
	m.creep.Take(m.now.st.Force)
	m.error.Move, m.error.Load = max(m.error.Move, t.Move), max(m.error.Load, t.Load)
	if t.Undetermined() {
		m.open++
	}
	m.now.load, m.now.free, m.now.force, m.now.body, m.now.trust, m.now.march = m.load, free, m.now.st.Force, b, t, p
	m.steps = 0
	clear(m.way)
	return nil
}

// keep copies a standing.
func (s *standing) keep(from *standing) {
	s.load, s.free = append(s.load[:0], from.load...), append(s.free[:0], from.free...)
	s.st.Copy(&from.st)
	s.force, s.body, s.trust, s.march = s.st.Force, from.body, from.trust, from.march
}
