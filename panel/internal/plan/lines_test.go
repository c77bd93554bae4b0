package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// handBoards returns boards without cross-contraction, for hand sums.
func handBoards(thick ...float64) []Plate {
	var out []Plate
	for _, t := range thick {
		p := spruceLike(t)
		p.Width, p.NuLX = 300, 0
		out = append(out, p)
	}
	return out
}

// ends condenses to the mean movement of both ends across the grain.
func ends(t *testing.T, l Layout) *Condensed {
	t.Helper()
	m, err := NewModel(l)
	require.NoError(t, err)
	w := m.Grid.X[len(m.Grid.X)-1]
	both := []Patch{{X: 0, Y: l.Length / 2, Along: l.Length}, {X: w, Y: l.Length / 2, Along: l.Length}}
	targets, err := onPatches(both, U, TurnX)(m)
	require.NoError(t, err)
	c, err := m.Condense(targets)
	require.NoError(t, err)
	assert.Less(t, c.Asymmetry, 1e-11)
	return c
}

// Boards flush at the front, pulled in the plane of that face: each stretches by N/(E t) and, its
// middle t/2 below the pull, bends; at the face this makes 4 N/(E t). Strength of materials.
func TestSteppedThickness(t *testing.T) {
	boards := handBoards(10, 20)
	boards[0].Centre, boards[1].Centre = -5, -10
	for _, live := range []bool{false, true} {
		c := ends(t, Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Live: live}}})
		f := []float64{-500, 500, 0, 0}
		u := c.Movement(f, nil, nil)
		want := 4.0 / 550 * (300.0/10 + 300.0/20)
		assert.InEpsilon(t, want, u[1]-u[0], 1e-4, "a live line yields by two hundredths of a millimetre of wood")
		kappa := 6.0 / 550 * (300.0/100 + 300.0/400) // N (t/2)/(E t^3/12) a board
		assert.InEpsilon(t, kappa, u[3]-u[2], 1e-4)
		if !live {
			assert.InEpsilon(t, want, u[1]-u[0], 1e-9)
			assert.InEpsilon(t, kappa, u[3]-u[2], 1e-9)
		}
	}
}

// One matrix or two: the same when nothing couples them.
func TestCoupledAlike(t *testing.T) {
	boards := handBoards(12, 12)
	boards[0].NuLX, boards[1].NuLX = 0.4, 0.4
	a := ends(t, Layout{Plates: boards, Length: 500})
	b := ends(t, Layout{Plates: boards, Length: 500, Coupled: true})
	for i := range a.F {
		assert.InDelta(t, a.F[i], b.F[i], 1e-9*math.Abs(a.F[i])+1e-20)
	}
}

// A shrinking board with ground that does not: the two-layer strip of S. Timoshenko, Analysis of
// bi-metal thermostats (1925), kappa = 6 e (1+m)^2 / {h [3 (1+m)^2 + (1 + m n)(m^2 + 1/(m n))]}.
func TestGroundBends(t *testing.T) {
	for _, coupled := range []bool{false, true} {
		boards := handBoards(15)
		boards[0].Ground = Ground{Thickness: 1, E: 3000}
		c := ends(t, Layout{Plates: boards, Length: 500, Coupled: coupled})
		load := make([]float64, c.Loads)
		load[StrainX] = -0.01
		u := c.Movement(nil, load, nil)
		m, n, h := 1.0/15, 3000.0/550, 16.0
		want := 6 * 0.01 * (1 + m) * (1 + m) / (h * (3*(1+m)*(1+m) + (1+m*n)*(m*m+1/(m*n))))
		assert.InEpsilon(t, want, (u[3]-u[2])/300, 1e-8, "the painted face is kept long: rounded")
	}
}

func TestOpenLine(t *testing.T) {
	boards := handBoards(15, 15)
	whole := ends(t, Layout{Plates: boards, Length: 500})
	part := ends(t, Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Open: [][2]float64{{0, 250}}}}})
	open := ends(t, Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Open: [][2]float64{{0, 500}}}}})
	pair := func(c *Condensed) float64 { return c.F[0] + c.F[5] - 2*c.F[1] }
	assert.Equal(t, 6, part.Motions)
	assert.Greater(t, pair(part), 1.05*pair(whole))
	assert.Equal(t, 12, open.Motions)
	assert.Zero(t, open.F[1], "two pieces")
	// rigid motions: both ends of the left piece move along, the right one stays
	assert.InDelta(t, 1, open.Rigid[0], 1e-14)
	assert.Equal(t, 0.0, open.Rigid[open.Motions])
	assert.InDelta(t, 1, open.Rigid[open.Motions+6], 1e-14)
	// lying: the weight of each piece works in its own lift
	m := open.model
	w := 0.45 * gravity * 15 * 300 * 500
	assert.InEpsilon(t, -w, open.Lift[3*open.Loads+m.WeightOf(Lying)], 1e-12)
	assert.InEpsilon(t, -w, open.Lift[7*open.Loads+m.WeightOf(Standing)], 1e-12)
}

// Taking the ties out of a live line, by the matrix of its jumps, is the panel split there.
func TestReleaseALiveLine(t *testing.T) {
	boards := handBoards(15)
	boards[0].Width = 600
	base := Layout{Plates: boards, Length: 500, CellX: 60, CellY: 50, Lines: []Line{{X: 300, Live: true}}}
	patches := []Patch{{X: 150, Y: 100, Length: 30}, {X: 450, Y: 100, Length: 30}}
	m, err := NewModel(base)
	require.NoError(t, err)
	targets, err := onPatches(patches, U, W)(m)
	require.NoError(t, err)
	var k []float64
	for r, y := range m.Grid.Y {
		tie, z := m.Tie(0, r)
		assert.Zero(t, z)
		if y > 199 {
			continue
		}
		for way := U; way <= TurnY; way++ {
			j, err := m.Jump(0, r, way)
			require.NoError(t, err)
			targets, k = append(targets, j), append(k, tie[way])
		}
	}
	c, err := m.Condense(targets)
	require.NoError(t, err)
	// K - r k r^T: F - F_r (F_rr - 1/k)^-1 F_r^T
	n := len(k)
	a, b := mat.NewDense(n, n, nil), mat.NewDense(n, 4, nil)
	for i := range n {
		for j := range n {
			a.Set(i, j, c.F[(4+i)*c.N+4+j])
		}
		a.Set(i, i, a.At(i, i)-1/k[i])
		for j := range 4 {
			b.Set(i, j, c.F[(4+i)*c.N+j])
		}
	}
	var x mat.Dense
	require.NoError(t, x.Solve(a, b))
	base.Lines[0].Open = [][2]float64{{0, 200}}
	m, err = NewModel(base)
	require.NoError(t, err)
	targets, err = onPatches(patches, U, W)(m)
	require.NoError(t, err)
	direct, err := m.Condense(targets)
	require.NoError(t, err)
	for i := range 4 {
		for j := range 4 {
			v := c.F[i*c.N+j]
			for q := range n {
				v -= b.At(q, i) * x.At(q, j)
			}
			size := math.Sqrt(direct.F[i*5] * direct.F[j*5])
			assert.InDelta(t, direct.F[i*4+j], v, 1e-6*size, "%d %d", i, j)
		}
	}
	// and opening it changes what is asked for
	assert.Greater(t, direct.F[0]+direct.F[5]-2*direct.F[1], 1.02*(c.F[0]+c.F[c.N+1]-2*c.F[1]))
}

// A glue film from thin to thick: the gap's own yielding is all that is added, and the equations stay
// good where it is a thousandth of a cell's thousandth.
func TestThinTies(t *testing.T) {
	boards := handBoards(15, 15)
	whole := ends(t, Layout{Plates: boards, Length: 500})
	pair := func(c *Condensed) float64 { return c.F[0] + c.F[5] - 2*c.F[1] }
	for _, gap := range []float64{1e-4, 1e-3, 0.02, 0.5} {
		bond := Bond{Across: 550 / gap, Along: 700 / gap, Through: 60 / gap}
		c := ends(t, Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Bond: bond}}})
		assert.InEpsilon(t, gap/(550*15*500), pair(c)-pair(whole), 1e-10/gap+1e-9, "%g mm", gap)
		turn := func(c *Condensed) float64 { return c.F[10] + c.F[15] - 2*c.F[11] }
		assert.InDelta(t, 12*gap/(550*15*15*15*500), turn(c)-turn(whole), 1e-7*turn(whole), "%g mm", gap)
	}
}

func TestModelRefusals(t *testing.T) {
	ok := func() Layout { return Layout{Plates: handBoards(15, 15), Length: 500} }
	for name, change := range map[string]func(l *Layout){
		"no board":       func(l *Layout) { l.Plates = nil },
		"no length":      func(l *Layout) { l.Length = 0 },
		"NaN length":     func(l *Layout) { l.Length = math.NaN() },
		"no modulus":     func(l *Layout) { l.Plates[1].GXZ = 0 },
		"shear":          func(l *Layout) { l.Plates[1].ShearYield = 2 },
		"poisson":        func(l *Layout) { l.Plates[1].NuLX = 9 },
		"bad ground":     func(l *Layout) { l.Plates[0].Ground = Ground{Thickness: 1} },
		"line off":       func(l *Layout) { l.Lines = []Line{{X: 600}} },
		"line twice":     func(l *Layout) { l.Lines = []Line{{X: 100}, {X: 100}} },
		"open downwards": func(l *Layout) { l.Lines = []Line{{X: 100, Open: [][2]float64{{50, 20}}}} },
		"half a bond":    func(l *Layout) { l.Lines = []Line{{X: 100, Bond: Bond{Across: 1}}} },
		"too fine":       func(l *Layout) { l.CellX, l.CellY = 0.5, 0.5 },
		"negative cell":  func(l *Layout) { l.CellX = -1 },
	} {
		l := ok()
		change(&l)
		_, err := NewModel(l)
		assert.Error(t, err, name)
	}
	_, err := NewModel(ok(), 1, 2, 3)
	assert.Error(t, err)
	_, err = NewModel(ok(), 0.5)
	assert.Error(t, err)
	m, err := NewModel(ok())
	require.NoError(t, err)
	_, err = m.Mean(Patch{X: 700, Y: 1}, U)
	assert.Error(t, err)
	_, err = m.Jump(3, 0, U)
	assert.Error(t, err)
	_, err = m.Condense(nil)
	assert.Error(t, err)
}

// A strip hinged at its middle stretches and bends by itself and by the hinge: N/(E t) and M/(E I) over its length, and what the
// hinge gives for a force and a moment. Strength of materials; the moment of a force at mid-thickness is nil everywhere.
func TestHinge(t *testing.T) {
	boards := handBoards(10, 10)
	h := Hinge{To: 500, Across: 3.05, Both: 11.0, Turn: 40.5, Left: 0.5}
	l := Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Hinges: []Hinge{h}}}}
	c := ends(t, l)
	const e, thick, n, moment = 550.0, 10.0, 500.0, 2000.0 // all along the grain
	u := c.Movement([]float64{-n, n, 0, 0}, nil, nil)
	assert.InEpsilon(t, n/500/e*(600/thick+h.Across), u[1]-u[0], 1e-9)
	assert.InEpsilon(t, n/500/(e*thick)*h.Both, u[3]-u[2], 1e-9, "open in front, a pull turns it open")
	u = c.Movement([]float64{0, 0, -moment, moment}, nil, nil)
	assert.InEpsilon(t, moment/500/(e*thick)*h.Both, u[1]-u[0], 1e-9)
	assert.InEpsilon(t, moment/500/(e*thick)*(600*12/(thick*thick)+h.Turn/thick), u[3]-u[2], 1e-9)

	// on one half of the length it gives less than half, on none nothing; mirrored from face to face it is the same
	both := func(c *Condensed) float64 { return c.F[2*4+2] + c.F[3*4+3] - 2*c.F[2*4+3] }
	none, all := both(ends(t, Layout{Plates: boards, Length: 500})), both(c)
	h.To = 250
	half := both(ends(t, Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Hinges: []Hinge{h}}}}))
	assert.Greater(t, half, none*1.01)
	assert.Less(t, half, (none+all)/2)
	h.To, h.Both = 500, -h.Both
	back := ends(t, Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Hinges: []Hinge{h}}}})
	assert.InEpsilon(t, all, both(back), 1e-9)
	assert.InDelta(t, -c.F[2]+c.F[3], back.F[2]-back.F[3], 1e-9*math.Abs(c.F[3]))
	h.Across = 1
	_, err := NewModel(Layout{Plates: boards, Length: 500, Lines: []Line{{X: 300, Hinges: []Hinge{h}}}})
	assert.ErrorContains(t, err, "give in every way")
}

// A panel of unlike boards that turns as one piece opens no line: both sides are read at one height.
func TestTurningOpensNothing(t *testing.T) {
	for _, coupled := range []bool{false, true} {
		boards := handBoards(10, 20)
		boards[0].Centre, boards[1].Centre = -5, -10
		m, err := NewModel(Layout{Plates: boards, Length: 500, Coupled: coupled, Lines: []Line{{X: 300, Open: [][2]float64{{0, 500}}}}})
		require.NoError(t, err)
		for _, h := range []float64{-5, 0, 5} {
			at, err := m.JumpAt(300, 250, h)
			require.NoError(t, err)
			move, turn := 0.0, 0.0
			for _, x := range at.terms {
				if x.part == int(TurnX) {
					turn += x.by
				} else {
					move += x.by
				}
			}
			assert.InDelta(t, 0, move, 1e-12)
			assert.InDelta(t, 0, turn, 1e-12)
		}
	}
}
