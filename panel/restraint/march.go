package restraint

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// Body is a panel with its members, condensed to the movements in which fixings act:
//
//	move = free - C force + R motion,   R^T force = load
//
// force is what the fixings resist with, load what pushes towards positive movement (a weight: its
// force times what one unit of the motion moves it). C must be symmetric and positive, at least on forces that
// balance.
type Body struct {
	N       int
	C       []float64 // N x N, row by row, mm/N
	Motions int       // free motions of the panel and of each member
	R       []float64 // N x Motions: the movements that one unit of each motion makes
}

// March leads a condensed body and its mounts through a history step by step: contact, play,
// friction under the force that presses in the same step, yield that stays. It owns its working
// memory: one goroutine at a time; a step allocates nothing.
//
// Every step is a linear complementarity problem in which the laws hold at its end. It is solved by
// following the answer from the last state through every corner of the laws (J. Katzenelson 1965),
// lifts before slips where both come to a corner at once, each corner one principal pivot of the
// inverse. Where friction makes a pivot negative the path turns round, as in the scheme of C. E.
// Lemke (1965; both by name and idea from memory). When the path does not arrive, friction is made to
// grow from none; that path has only one end. With small friction the answer is unique; with
// large friction that its own force presses there may be more than one ([Trust.Undetermined],
// [March.Bracket]).
//
// Forces at the end of a step times its movement are never less than the energy stored and lost, so
// no closed loop of free movements gains energy, whatever the steps.
type March struct {
	mounts []Mount
	lines  []line
	body   Body
	soften []float64 // M = (1 + C K)^-1 of the springs, m x m; nil without springs
	c, r   []float64 // flexibility and motions seen by the stops, with the springs in
	pull   []float64 // movement made by the pull of the springs
	held   []float64 // R^T K M, motions x m
	s      []float64 // stiffness of the springs against the motions
	load0  []float64 // of the pull on the motions
	unit   []float64 // largest movement that one unit of each motion makes
	weak   []float64 // what stands for a motion that nothing holds, on the way only
	gamma  float64   // size of the flexibility, mm/N
	own    []float64 // the same of each line, by which its equation is scaled: slips give a thousandth of what lifts do
	trace
}

// way is a direction of a mount.
type way int8

const (
	lifting way = iota
	slipping
	turning
)

// line is one direction of one mount.
type line struct {
	Hold
	mount   int // place in the caller's list
	way     way
	mu      float64
	preload float64
	keeper  bool
	lift    int // line whose force presses; -1 = none
	slip    int // line that this one presses; -1 = none
}

// NewMarch joins a condensed body and its mounts. No mount at all is allowed.
func NewMarch(b Body, mounts []Mount) (*March, error) {
	if len(b.C) != b.N*b.N || len(b.R) != b.N*b.Motions {
		return nil, fmt.Errorf("flexibility must be %d x %d and motions %d x %d, got %d and %d numbers", b.N, b.N, b.N, b.Motions, len(b.C), len(b.R))
	}
	m := &March{}
	for i := range mounts {
		if err := mounts[i].valid(b.N); err != nil {
			return nil, err
		}
	}
	m.order(mounts)
	if err := m.distinct(); err != nil {
		return nil, err
	}
	m.allocate(len(m.lines), b.Motions)
	return m, m.Refit(b)
}

// order lists the directions of the mounts by place: all lifts, then slips, then turns.
func (m *March) order(mounts []Mount) {
	m.mounts = slices.Clone(mounts)
	from := make([]int, len(mounts))
	for i := range from {
		from[i] = i
	}
	slices.SortStableFunc(from, func(a, b int) int {
		p, q := &mounts[a], &mounts[b]
		return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
	})
	lift := make([]int, len(mounts))
	for _, i := range from {
		lift[i] = -1
		if h := mounts[i].Lift; h != nil {
			lift[i] = len(m.lines)
			m.lines = append(m.lines, line{Hold: *h, mount: i, way: lifting, lift: -1, slip: -1, keeper: mounts[i].Keeper})
		}
	}
	for _, i := range from {
		x := &mounts[i]
		if x.Slip == nil {
			continue
		}
		if x.Friction > 0 && lift[i] >= 0 {
			m.lines[lift[i]].slip = len(m.lines)
		}
		m.lines = append(m.lines, line{Hold: *x.Slip, mount: i, way: slipping, mu: x.Friction, preload: x.Preload, lift: lift[i], slip: -1})
	}
	for _, i := range from {
		if h := mounts[i].Turn; h != nil {
			m.lines = append(m.lines, line{Hold: *h, mount: i, way: turning, lift: -1, slip: -1})
		}
	}
}

// distinct refuses two holds on one row.
func (m *March) distinct() error {
	seen := map[int]int{}
	for i, l := range m.lines {
		if j, ok := seen[l.Row]; ok {
			return fmt.Errorf("%s and %s act on the same row %d", m.mounts[m.lines[j].mount].name(), m.mounts[l.mount].name(), l.Row)
		}
		seen[l.Row] = i
	}
	return nil
}

// Refit gives the march a body of other stiffness with the same rows. Situations carry over. After an
// error the march waits for a good body.
func (m *March) Refit(b Body) error {
	if len(b.C) != b.N*b.N || len(b.R) != b.N*b.Motions || m.body.N != 0 && (b.N != m.body.N || b.Motions != m.body.Motions) {
		return fmt.Errorf("body must keep its %d rows and %d motions, got %d and %d", m.body.N, m.body.Motions, b.N, b.Motions)
	}
	n, k := len(m.lines), b.Motions
	for i, l := range m.lines {
		for j, q := range m.lines {
			u, v := b.C[l.Row*b.N+q.Row], b.C[q.Row*b.N+l.Row]
			if size := math.Sqrt(math.Abs(b.C[l.Row*b.N+l.Row] * b.C[q.Row*b.N+q.Row])); !(math.Abs(u-v) <= 1e-9*size) && u != v {
				return fmt.Errorf("flexibility must be symmetric, got %g and %g in rows %d and %d", u, v, l.Row, q.Row)
			}
			m.c[i*n+j] = (u + v) / 2
		}
		copy(m.r[i*k:][:k], b.R[l.Row*b.Motions:][:k])
	}
	m.body = b
	m.size()
	if err := m.springs(); err != nil {
		return err
	}
	m.weaken()
	m.stale = true
	return m.positive()
}

// positive refuses a flexibility that is negative for some forces that balance.
func (m *March) positive() error {
	n, k := len(m.lines), m.body.Motions
	a := m.jac[:n*n]
	for i := range n {
		for j := range n {
			v := m.c[i*n+j] / m.gamma
			for q := range k {
				v += 1e3 * m.r[i*k+q] * m.r[j*k+q] / (m.unit[q] * m.unit[q])
			}
			a[i*n+j] = v
		}
	}
	for j := range n { // Gauss, the pivots are those of L D L^T
		d := a[j*n+j]
		if !(d > -1e-8*float64(1+k)) {
			return fmt.Errorf("flexibility must be positive, got a negative one at %s", m.mounts[m.lines[j].mount].name())
		}
		if d < 1e-10 {
			continue
		}
		for i := j + 1; i < n; i++ {
			floats.AddScaled(a[i*n+j:i*n+n], -a[i*n+j]/d, a[j*n+j:j*n+n])
		}
	}
	return nil
}

// size finds the scale of the flexibility.
func (m *March) size() {
	n := len(m.lines)
	m.gamma = 0
	for i := range n {
		m.gamma += math.Abs(m.c[i*n+i]) / float64(n)
	}
	if !(m.gamma > 0) {
		m.gamma = 1
	}
	for i := range n {
		m.own[i] = max(math.Abs(m.c[i*n+i]), 1e-9*m.gamma)
	}
}

// weaken sets the stiffness that stands for a free motion on the way: far below all others, and
// taken out again by going over the step once more.
func (m *March) weaken() {
	n, k := len(m.lines), m.body.Motions
	for q := range k {
		sum := 0.0
		m.unit[q] = 0
		for i := range n {
			sum += m.r[i*k+q] * m.r[i*k+q]
			m.unit[q] = max(m.unit[q], math.Abs(m.r[i*k+q]))
		}
		m.weak[q] = 1e-10 * sum / m.gamma
		if sum == 0 { // no fixing feels it
			m.weak[q], m.unit[q] = 1, 1
		}
	}
}

// springs condenses the springs into what the stops see:
//
//	d = M (free - C pull) - M C r + M R q,   M = (1 + C K)^-1
func (m *March) springs() error {
	n, k := len(m.lines), m.body.Motions
	any := false
	for i := range m.lines {
		any = any || m.lines[i].Spring > 0 || m.lines[i].Pull != 0
	}
	m.soften = nil
	clear(m.pull)
	clear(m.held)
	clear(m.s)
	clear(m.load0)
	if !any {
		return nil
	}
	a := make([]float64, n*n)
	for i := range n {
		for j := range n {
			a[i*n+j] = m.c[i*n+j] * m.lines[j].Spring
		}
		a[i*n+i]++
	}
	inv := make([]float64, n*n)
	if _, ok := invert(a, inv, n, make([]int, n)); !ok {
		return fmt.Errorf("flexibility with its springs is singular")
	}
	m.soften = inv
	r := slices.Clone(m.r)
	product(m.c, inv, slices.Clone(m.c), n, n)
	product(m.r, inv, r, n, k)
	for i := range n {
		for j := range i {
			v := (m.c[i*n+j] + m.c[j*n+i]) / 2
			m.c[i*n+j], m.c[j*n+i] = v, v
		}
	}
	for i := range n {
		for j := range n {
			m.pull[i] -= m.c[i*n+j] * m.lines[j].Pull
		}
	}
	m.springsHold(r)
	return nil
}

// springsHold fills what the springs put into the balance of the motions; r are the motions as
// they are without springs.
func (m *March) springsHold(r []float64) {
	n, k := len(m.lines), m.body.Motions
	for q := range k {
		for i := range n {
			m.load0[q] += m.r[i*k+q] * m.lines[i].Pull // R^T (pull - K M C pull)
			floats.AddScaled(m.held[q*n:q*n+n], r[i*k+q]*m.lines[i].Spring, m.soften[i*n:i*n+n])
		}
		for l := range k {
			for j := range n {
				m.s[q*k+l] += m.held[q*n+j] * r[j*k+l]
			}
		}
	}
}

// product writes a b into dst: a n x n, b n x k.
func product(dst, a, b []float64, n, k int) {
	for i := range n {
		for j := range k {
			v := 0.0
			for l := range n {
				v += a[i*n+l] * b[l*k+j]
			}
			dst[i*k+j] = v
		}
	}
}
