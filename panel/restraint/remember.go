package restraint

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// settle moves the memory of every line after a step and writes the answers.
func (m *March) settle(st *Situation) {
	copy(st.sp, m.sp)
	copy(st.rp, m.rp)
	copy(st.Motion, m.q)
	for i := range m.mounts {
		st.Press[i] = m.mounts[i].Preload
	}
	for i := range m.lines {
		l, b, x := &m.lines[i], m.now(i), &st.mem[i]
		g, s := m.grip(i), m.sp[i]
		rub := b.sig * g
		st.sig[i] = b.sig
		if b.sticks() {
			rub = min(max(m.rp[i]-l.stop(x.centre, s), -g), g)
		} else if l.mu > 0 {
			x.anchor = s
			st.slid[i] = st.slid[i] || g > 0
		}
		x.centre = l.yielded(x.centre, s)
		k := l.Row
		st.Move[k], st.Friction[k], st.Stop[k], st.Offset[k] = s, rub, m.rp[i]-rub, x.centre
		st.Force[k] = m.rp[i] + l.Spring*s + l.Pull
	}
	for i := range m.lines {
		if l := &m.lines[i]; l.way == lifting {
			n := max(-m.rp[i], 0)
			if l.keeper {
				n = math.Abs(m.rp[i])
			}
			st.Press[l.mount] += n
		}
	}
}

// why puts into words why a step could not be solved.
func (m *March) why(t Trust, err error) error {
	if errors.Is(err, ErrUndetermined) {
		return fmt.Errorf("%w (%d corners passed, misfit %.3g mm)", err, t.Moves, t.Move)
	}
	n, most, at := len(m.lines), 0.0, 0
	for q := range m.body.Motions {
		if v := math.Abs(m.miss[n+q]) / m.unit[q]; v > most {
			most, at = v, q
		}
	}
	return fmt.Errorf("%w: nothing holds panel or member against motion %d under %.3g N (%d fixings)", err, at, most, len(m.mounts))
}

// Does says what a mount is doing in slip, or in lift where it has no slip.
func (m *March) Does(st *Situation, mount int) Bearing {
	x := &m.mounts[mount]
	h := x.Slip
	if h == nil {
		h = x.Lift
	}
	if h == nil || len(st.Move) == 0 {
		return Idle
	}
	grip := x.Friction * st.Press[mount]
	stop, rub := math.Abs(st.Stop[h.Row]), math.Abs(st.Friction[h.Row])
	if h != x.Slip {
		grip = 0
	}
	tiny := 1e-9 * (1 + grip)
	switch {
	case stop > tiny && stop >= h.Yield*(1-1e-9):
		return Yielding
	case stop > tiny:
		return Bears
	case rub > tiny && rub >= grip*(1-1e-9):
		return Sliding
	case rub > tiny:
		return Stuck
	}
	return Idle
}

// Words tells in one phrase what the mounts do, and which forces rest on the start.
func (m *March) Words(st *Situation) string {
	var count [len(bearingWords)]int
	for i := range m.mounts {
		count[m.Does(st, i)]++
	}
	out := []string{words(len(m.mounts), count)}
	for i := range m.lines {
		l := &m.lines[i]
		if l.mu > 0 && len(st.slid) > 0 && !st.slid[i] {
			if g := l.mu * st.Press[l.mount]; g > 0 {
				out = append(out, fmt.Sprintf("friction has held %s ever since it was fixed: its force is undetermined by up to %.3g N either way",
					m.mounts[l.mount].name(), g))
			}
		}
	}
	return strings.Join(out, "; ")
}

// Adjust gives a mount other plays, stiffness, yield loads, friction or preload: a slot that closes
// as the wood swells. Directions, rows and springs must stay. The middle of a play stays where the
// situation has it.
func (m *March) Adjust(mount int, x Mount) error {
	if mount < 0 || mount >= len(m.mounts) {
		return fmt.Errorf("mount must be 0 to %d, got %d", len(m.mounts)-1, mount)
	}
	if err := x.valid(m.body.N); err != nil {
		return err
	}
	old := &m.mounts[mount]
	for _, h := range [...][2]*Hold{{old.Lift, x.Lift}, {old.Slip, x.Slip}, {old.Turn, x.Turn}} {
		a, b := h[0], h[1]
		if (a == nil) != (b == nil) || a != nil && (a.Row != b.Row || a.Spring != b.Spring || a.Pull != b.Pull) {
			return fmt.Errorf("%s must keep its directions, rows and springs", x.name())
		}
	}
	if (x.Friction > 0) != (old.Friction > 0) {
		return fmt.Errorf("%s must keep friction or none", x.name())
	}
	*old = x
	for i := range m.lines {
		l := &m.lines[i]
		if l.mount != mount {
			continue
		}
		l.Hold, l.keeper = *[...]*Hold{x.Lift, x.Slip, x.Turn}[l.way], x.Keeper && l.way == lifting
		if l.way == slipping {
			l.mu, l.preload = x.Friction, x.Preload
		}
		m.shaped[i].done = false
	}
	m.stale = true
	return nil
}

// Bracket answers a step with no friction at all and with friction that never gives, both from the
// given situation, which stays as it was. A force that friction leaves open lies between.
func (m *March) Bracket(in Incoming, st *Situation) (free, held *Situation, err error) {
	if err := m.begin(st); err != nil {
		return nil, nil, err
	}
	free, held = st.clone(), st.clone()
	if _, err := m.step(in, free, frictionless); err != nil {
		return nil, nil, err
	}
	if _, err := m.step(in, held, locked); err != nil {
		return nil, nil, err
	}
	return free, held, nil
}

func (st *Situation) clone() *Situation {
	c := &Situation{}
	c.Copy(st)
	return c
}
