package restraint

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/panel/internal/plan"

	"gonum.org/v1/gonum/floats"
)

// Member is a straight piece of wood across the panel's grain and what joins it to the panel.
type Member struct {
	Name  string
	Bar   Bar // its Offset is not used
	Y     float64
	Front bool    // it lies on the painted side
	Sunk  float64 // how deep the face that touches lies below the panel's surface, mm
	// Within says that it is held about its own middle, as a slider in a notch, not by a face.
	Within bool
	// Around says that it is the two sides of a frame along the grain: two attachments, at the left and at the right
	// edge, whose slip is positive inwards; it neither bends nor stretches. Its Bar is not used.
	Around bool
	At     []Attachment
}

// Attachment is one fixing of a member. The rows of its mount are given by the assembly, its place too;
// directions that are nil stay free. Slip is along the member, Lift off it.
type Attachment struct {
	X                float64 // mm from the left
	Footprint, Along float64 // across and along the panel's grain, mm; Along 0 = as Footprint
	Mount            Mount
}

// Look is a movement of the panel that is to be told although nothing is fixed there: across the grain
// at mid-thickness, or towards the painted face.
type Look struct {
	X, Y float64
	Out  bool // towards the painted face
}

// Assembly is a panel with all its members, condensed together to the places where they meet and to
// those where it is looked at. Rows: for each attachment of each member slip, then lift; then for each
// place of each seam how far its sides have come apart, face by face; then the looks. Slip is positive to the right, lift where the panel moves off the member.
type Assembly struct {
	members []Member
	states  *plan.States
	seams   []Seam
	looks   int
	rows    int
	boards  int
	sign    []float64 // of each row against the panel's movement
	mounts  []Mount
}

// NewAssembly condenses the panel twice, with its wood as under short loading and yielded by factor (see
// [plan.States]; 3 for creep across the grain), with the members and looks given. The mesh follows the
// members; fine also follows every footprint, in two cells.
func NewAssembly(l plan.Layout, factor float64, fine bool, members []Member, seams []Seam, looks []Look) (*Assembly, error) {
	return newAssembly(l, fine, members, seams, looks, func(l plan.Layout, targets func(*plan.Model) ([]plan.Target, error)) (*plan.States, error) {
		return l.Condense(factor, targets)
	})
}

// Like is [NewAssembly] for a panel like that of a, condensed once: how its wood yields is taken over in proportion (see
// [plan.Layout.CondenseLike]).
func (a *Assembly) Like(l plan.Layout, fine bool, members []Member, seams []Seam, looks []Look) (*Assembly, error) {
	return newAssembly(l, fine, members, seams, looks, func(l plan.Layout, targets func(*plan.Model) ([]plan.Target, error)) (*plan.States, error) {
		return l.CondenseLike(a.states, targets)
	})
}

func newAssembly(l plan.Layout, fine bool, members []Member, seams []Seam, looks []Look,
	condense func(plan.Layout, func(*plan.Model) ([]plan.Target, error)) (*plan.States, error),
) (*Assembly, error) {
	a := &Assembly{members: members, seams: seams, looks: len(looks), boards: len(l.Plates)}
	l.AcrossX, l.AlongY = slices.Clone(l.AcrossX), slices.Clone(l.AlongY)
	for i := range members {
		m := &members[i]
		if err := m.valid(); err != nil {
			return nil, fmt.Errorf("%s: %w", m.Name, err)
		}
		l.AlongY = append(l.AlongY, plan.Mark{At: m.Y})
		if fine {
			l.Follow(m.patches(), 2)
		}
		a.number(m)
	}
	for i := range seams {
		for _, y := range seams[i].At {
			l.AlongY = append(l.AlongY, plan.Mark{At: y})
		}
		a.pins(&seams[i])
	}
	l.Lines = append(slices.Clone(l.Lines), SeamLines(seams)...)
	a.rows += len(looks)
	for range looks {
		a.sign = append(a.sign, 1)
	}
	var err error
	a.states, err = condense(l, func(m *plan.Model) ([]plan.Target, error) {
		return a.targets(m, looks)
	})
	return a, err
}

func (m *Member) valid() error {
	if m.Around {
		if len(m.At) != 2 {
			return fmt.Errorf("a frame touches at two edges, got %d", len(m.At))
		}
		return nil
	}
	return m.Bar.valid()
}

// number gives the attachments of a member their rows.
func (a *Assembly) number(m *Member) {
	lift := 1.0
	if m.Front {
		lift = -1
	}
	for k := range m.At {
		x := m.At[k].Mount
		x.X, x.Y = m.At[k].X, m.Y
		if x.Name == "" {
			x.Name = fmt.Sprintf("fixing %d of %s", k+1, m.Name)
		}
		if x.Slip != nil {
			h := *x.Slip
			h.Row = a.rows
			x.Slip = &h
		}
		if x.Lift != nil {
			h := *x.Lift
			h.Row = a.rows + 1
			x.Lift = &h
		}
		a.mounts = append(a.mounts, x)
		slip := 1.0
		if m.Around && k == 1 {
			slip = -1
		}
		a.sign = append(a.sign, slip, lift)
		a.rows += 2
	}
}

// patches are the footprints of a member's attachments.
func (m *Member) patches() []plan.Patch {
	out := make([]plan.Patch, len(m.At))
	for i, f := range m.At {
		out[i] = plan.Patch{X: f.X, Y: m.Y, Length: f.Footprint, Along: f.Along}
	}
	return out
}

func (a *Assembly) targets(m *plan.Model, looks []Look) ([]plan.Target, error) {
	var out []plan.Target
	for i := range a.members {
		b := &a.members[i]
		for _, p := range b.patches() {
			slip, err := m.MeanAt(p, m.Surface(p.X, b.Front, b.Sunk))
			if b.Around { // both sides at one height, or they would turn the panel over
				slip, err = m.Mean(p, plan.U)
			}
			if err != nil {
				return nil, fmt.Errorf("%s: %w", b.Name, err)
			}
			lift, err := m.Mean(p, plan.W)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", b.Name, err)
			}
			out = append(out, slip, lift)
		}
	}
	for i := range a.seams {
		t, err := a.seams[i].targets(m)
		if err != nil {
			return nil, err
		}
		out = append(out, t...)
	}
	for _, q := range looks {
		p := plan.Patch{X: q.X, Y: q.Y}
		t, err := m.MeanAt(p, 0)
		if q.Out {
			t, err = m.Mean(p, plan.W)
		}
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("nothing is fixed to the panel and nothing looked at")
	}
	return out, nil
}

// Place is where a row of an attachment lies.
type Place struct {
	Patch plan.Patch
	Lift  bool
	// Slips are taken Sunk mm below the painted face or the back; across both edges of a frame in the plane of the panel.
	Front, Around bool
	Sunk          float64
}

// Places returns the rows of all attachments, in order.
func (a *Assembly) Places() (out []Place) {
	for i := range a.members {
		m := &a.members[i]
		for _, p := range m.patches() {
			q := Place{Patch: p, Front: m.Front, Around: m.Around, Sunk: m.Sunk}
			out = append(out, q)
			q.Lift = true
			out = append(out, q)
		}
	}
	return out
}

// Rows returns the number of rows, Row that of an attachment's slip (its lift is the next) and Look that
// of a look.
func (a *Assembly) Rows() int { return a.rows }

// Row returns the row of the slip of an attachment of a member; that of its lift is the next.
func (a *Assembly) Row(member, at int) int {
	n := 0
	for i := range member {
		n += len(a.members[i].At)
	}
	return 2 * (n + at)
}

// Sign returns 1, or -1 for a row whose movement is counted against that of the panel.
func (a *Assembly) Sign(row int) float64 { return a.sign[row] }

// Look returns the row of a look.
func (a *Assembly) Look(i int) int { return a.rows - a.looks + i }

// Mounts returns the mounts of all attachments, member by member, with their rows.
func (a *Assembly) Mounts() []Mount { return slices.Clone(a.mounts) }

// Body returns panel and members with the wood of every board yielded by its own factor, 1 = short
// loading.
func (a *Assembly) Body(yielded ...float64) (Body, error) {
	f, err := a.states.At(yielded...)
	if err != nil {
		return Body{}, err
	}
	return a.body(f)
}

// Creeping returns panel and members whose boards have gained so many times their short compliance in
// the present step, on the straight line between the two states.
func (a *Assembly) Creeping(gained []float64) (Body, error) {
	f := slices.Clone(a.states.Short.F)
	for b, g := range gained {
		floats.AddScaled(f, g, a.states.Gain(b))
	}
	return a.body(f)
}

// body adds the members to the flexibility f of the panel.
func (a *Assembly) body(f []float64) (Body, error) {
	c := a.states.Short
	b := Body{N: a.rows, C: f, Motions: c.Motions, R: make([]float64, a.rows*c.Motions)}
	for i, s := range a.sign {
		for j, t := range a.sign {
			f[i*a.rows+j] *= s * t
		}
		for k := range c.Motions {
			b.R[i*c.Motions+k] = s * c.Rigid[i*c.Motions+k]
		}
	}
	row := 0
	for i := range a.members {
		m := &a.members[i]
		touches := make([]Touch, len(m.At))
		for k, f := range m.At {
			touches[k] = Touch{X: f.X, Slip: row, Lift: row + 1, Turn: -1}
			row += 2
		}
		for k, s := range a.Steps(i) {
			touches[k].Step = s
		}
		if len(touches) == 0 {
			continue
		}
		if m.Around {
			b = b.withFrame(touches)
			continue
		}
		face := m.Bar.Depth / 2
		if m.Within {
			face = 0
		}
		var err error
		if b, err = b.WithBar(m.Bar, face, touches); err != nil {
			return Body{}, fmt.Errorf("%s: %w", m.Name, err)
		}
	}
	return b, nil
}

// Steps returns how much farther than its own face each attachment of a member meets the panel: the member lies on the board that comes
// out most. Without it a member would turn against a panel that is stepped, at no cost. A slider that is held about its middle lies at
// the mean height.
func (a *Assembly) Steps(i int) []float64 {
	m, c := &a.members[i], a.states.Short
	z := make([]float64, len(m.At))
	for k := range m.At {
		for piece := 0; piece < c.Motions; piece += 6 { // of the pieces it lies on one
			z[k] += c.Rigid[a.Row(i, k)*c.Motions+piece+aboutGrain]
		}
		if m.Front {
			z[k] = -z[k]
		}
	}
	if len(z) == 0 {
		return z
	}
	least := slices.Min(z)
	if m.Within {
		least = floats.Sum(z) / float64(len(z))
	}
	for k := range z {
		z[k] -= least
	}
	return z
}

// aboutGrain is the motion, of the six of a panel or of a piece of it, in which it turns about the direction of its grain and heights
// move across it.
const aboutGrain = 4

// withFrame adds a rigid frame that slides across the grain, its sides at two touches.
func (b Body) withFrame(t []Touch) Body {
	out := Body{N: b.N, C: b.C, Motions: b.Motions + 1, R: make([]float64, b.N*(b.Motions+1))}
	for i := range b.N {
		copy(out.R[i*out.Motions:], b.R[i*b.Motions:][:b.Motions])
	}
	out.R[t[0].Slip*out.Motions+b.Motions] = -1
	out.R[t[1].Slip*out.Motions+b.Motions] = 1
	return out
}

// Free returns the movement of every row if no fixing held, for loads of the panel as [plan.Condensed]
// counts them ([plan.StrainX] and so on, board by board), its boards yielded by the factors given, and for
// a free strain along each member (an empty list is nil).
func (a *Assembly) Free(load, along []float64, yielded ...float64) []float64 {
	free, n := a.states.FreeAt(yielded...), a.states.Short.Loads
	out := make([]float64, a.rows)
	for i := range out {
		out[i] = a.sign[i] * floats.Dot(free[i*n:][:n], load)
	}
	row := 0
	for i := range a.members {
		from := math.Inf(1)
		for _, f := range a.members[i].At {
			from = min(from, f.X)
		}
		for _, f := range a.members[i].At {
			if len(along) > 0 && !a.members[i].Around {
				out[row] -= along[i] * (f.X - from)
			}
			row += 2
		}
	}
	return out
}

// Loads returns the number of loads, LoadOf the place of one of a board.
func (a *Assembly) Loads() int { return a.states.Short.Loads }

// LoadOf returns the place of a load of a board.
func (a *Assembly) LoadOf(board int, l plan.Load) int { return 4*board + int(l) }

// Boards returns the number of boards.
func (a *Assembly) Boards() int { return a.boards }

// Move returns the movement of a row for free movements, forces that resist and motions.
func (b Body) Move(row int, free, force, motion []float64) float64 {
	return free[row] - floats.Dot(b.C[row*b.N:][:b.N], force) + floats.Dot(b.R[row*b.Motions:][:b.Motions], motion)
}
