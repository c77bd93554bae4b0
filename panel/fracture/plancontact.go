package fracture

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// planPin is a place of an open row where its sides can touch, or hang together.
type planPin struct {
	row  int
	way  int     // of the movement there: 0 across, 1 along, 2 through, 3 turning open
	z    float64 // its height
	gap  float64 // how far it can close, mm
	soft float64 // mm/N, of the wood there
	both bool    // it holds both ways: a hinge
}

// pins are the places where open row r touches at both faces, or hangs together in what is left.
func (z *planZip) pins(l *PlanLine, r int) []planPin {
	p := z.p
	k := p.tieOf(r)
	s := p.state[r].stretch
	gap := 0.0
	if s >= 0 {
		o := &l.Open[s]
		gap = o.Gap
	}
	out := []planPin{
		{row: r, z: p.face[0], gap: gap, soft: 2 * k[0]},
		{row: r, z: p.face[1], gap: gap, soft: 2 * k[0]},
	}
	return append(out, z.hinge(l, r)...)
}

// hinge is what is left of a part-through opening.
func (z *planZip) hinge(l *PlanLine, r int) []planPin {
	p, o := z.p, z.part(l, r)
	if o == nil {
		return nil
	}
	left := p.depth - o.Depth
	height := p.face[1] + left/2
	if o.Back {
		height = p.face[0] - left/2
	}
	k, share := p.tieOf(r), p.depth/left
	if o.Hinge != nil {
		open, up, turn := o.Hinge.Springs(p.across, p.depth)
		height = (p.face[0]+p.face[1])/2 + up
		return []planPin{
			{row: r, way: 0, z: height, soft: 1 / (open * p.span(r)), both: true},
			{row: r, way: 1, z: height, soft: k[1] * share, both: true},
			{row: r, way: 2, soft: k[2] * share, both: true},
			{row: r, way: 3, soft: 1 / (turn * p.span(r)), both: true},
		}
	}
	return []planPin{
		{row: r, way: 0, z: height, soft: k[0] * share, both: true},
		{row: r, way: 1, z: height, soft: k[1] * share, both: true},
		{row: r, way: 2, z: height, soft: k[2] * share, both: true},
	}
}

// part is the part-through stretch that row r belongs to or that grows into it.
func (z *planZip) part(l *PlanLine, r int) *PlanStretch {
	s := z.p.state[r].stretch
	if s < 0 {
		if s = z.grown; s < 0 {
			return nil
		}
	}
	if o := &l.Open[s]; o.Depth > 0 && o.Depth < z.p.depth {
		return o
	}
	return nil
}

// value is the movement at a pin for movements of the jumps, of which column s of w is taken.
func (z *planZip) value(q *planPin, v []float64, s, w int) float64 {
	at := &z.p.at[q.row]
	out := v[at[q.way]*w+s]
	if q.way < 2 && at[q.way+3] >= 0 {
		out += q.z * v[at[q.way+3]*w+s]
	}
	return out
}

// flex is the movement at pin a for a unit force on pin b.
func (z *planZip) flex(a, b *planPin) float64 {
	at := &z.p.at[b.row]
	out := z.value(a, z.f, at[b.way], z.n)
	if b.way < 2 && at[b.way+3] >= 0 {
		out += b.z * z.value(a, z.f, at[b.way+3], z.n)
	}
	return out
}

// planTouch is what the pins of a state carry.
type planTouch struct {
	pins   []planPin
	on     []bool
	force  []float64 // pushing apart
	energy float64   // what closing them costs, N mm
}

// touch finds the forces of the pins for jumps v (column s of w): faces only press, and only where
// they meet. on says which did before; it may be nil.
//
// Pivots in blocks, one at a time when that does not come on (J. Judice & F. Pires 1994, idea from memory).
func (z *planZip) touch(pins []planPin, on []bool, v []float64, s, w int) planTouch {
	n := len(pins)
	t := planTouch{pins: pins, on: make([]bool, n), force: make([]float64, n)}
	copy(t.on, on)
	start := make([]float64, n)
	tiny := 0.0
	for i := range pins {
		start[i] = z.value(&pins[i], v, s, w) + pins[i].gap
		t.on[i] = t.on[i] || pins[i].both
		tiny = math.Max(tiny, 1e-12*math.Abs(start[i]))
	}
	least, patience := n+1, planPatience
	for range planTurns {
		move := z.press(&t, start)
		var wrong []int
		for i := range pins {
			if !pins[i].both && (t.on[i] && t.force[i] < 0 || !t.on[i] && move[i] < -tiny) {
				wrong = append(wrong, i)
			}
		}
		if len(wrong) == 0 {
			break
		}
		if len(wrong) < least {
			least, patience = len(wrong), planPatience
		} else if patience > 0 {
			patience--
		} else {
			wrong = wrong[len(wrong)-1:]
		}
		for _, i := range wrong {
			t.on[i] = !t.on[i]
		}
	}
	return t
}

const (
	planPatience = 4   // turns in blocks that may bring nothing
	planTurns    = 400 // turns in all
)

// press solves for the forces of the pins that are on and returns the movements of all.
func (z *planZip) press(t *planTouch, start []float64) []float64 {
	var on []int
	for i, b := range t.on {
		t.force[i] = 0
		if b {
			on = append(on, i)
		}
	}
	move := append([]float64(nil), start...)
	t.energy = 0
	if len(on) == 0 {
		return move
	}
	a, b := mat.NewSymDense(len(on), nil), mat.NewVecDense(len(on), nil)
	for i, p := range on {
		for j := i; j < len(on); j++ {
			a.SetSym(i, j, z.flex(&t.pins[p], &t.pins[on[j]]))
		}
		a.SetSym(i, i, a.At(i, i)+t.pins[p].soft)
		b.SetVec(i, -start[p])
	}
	var ch mat.Cholesky
	var x mat.VecDense
	if !ch.Factorize(a) {
		return move
	}
	if err := ch.SolveVecTo(&x, b); err != nil {
		if _, ill := err.(mat.Condition); !ill {
			return move
		}
	}
	for i, p := range on {
		t.force[p] = x.AtVec(i)
		t.energy -= x.AtVec(i) * start[p] / 2
	}
	for i := range move {
		if t.on[i] {
			continue
		}
		for _, p := range on {
			move[i] += z.flex(&t.pins[i], &t.pins[p]) * t.force[p]
		}
	}
	return move
}

// with returns the value of row i (a jump or a fixing) in state s with the forces of the pins.
func (z *planZip) with(t *planTouch, i, s int) float64 {
	v := z.v[i*z.states+s]
	row := z.f[i*z.n:][:z.n]
	for k := range t.pins {
		f := t.force[k]
		if f == 0 {
			continue
		}
		q := &t.pins[k]
		at := &z.p.at[q.row]
		g := row[at[q.way]]
		if q.way < 2 && at[q.way+3] >= 0 {
			g += q.z * row[at[q.way+3]]
		}
		v += g * f
	}
	return v
}
