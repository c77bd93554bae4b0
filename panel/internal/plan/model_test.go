package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// spruceLike has E_L/E_T 20 and rolling shear 60 MPa.
func spruceLike(t float64) Plate {
	return Plate{Width: 600, Thickness: t, EX: 550, EL: 11000, GXL: 700, GXZ: 60, GLZ: 650, NuLX: 0.4, Density: 0.45}
}

// uneven is a mesh of unlike cells, one join, one candidate line, and unlike boards when other is set.
func uneven(coupled, live bool) Layout {
	a, b := spruceLike(15), spruceLike(15)
	a.Width, b.Width = 270, 330
	return Layout{
		Plates: []Plate{a, b}, Length: 800, Lines: []Line{{X: 420, Live: live}}, Coupled: coupled,
		AcrossX: []Mark{{At: 31, Size: 3}, {At: 500}}, AlongY: []Mark{{At: 111, Size: 4}, {At: 640}}, CellX: 90, CellY: 130,
	}
}

// held builds the model with the listed movements held instead of the six.
func held(t *testing.T, l Layout, fix func(x, y float64, way Way) bool) *Model {
	t.Helper()
	m := &Model{}
	require.NoError(t, m.take(&l, nil))
	require.NoError(t, m.mesh(&l))
	require.NoError(t, m.assemble(m.split()))
	m.holdWhere(fix)
	require.NoError(t, m.factor())
	return m
}

// holdWhere holds the movements that fix says.
func (m *Model) holdWhere(fix func(x, y float64, way Way) bool) {
	for c, x := range m.Grid.X {
		for r, y := range m.Grid.Y {
			for way := U; way <= TurnY; way++ {
				for _, p := range m.parts {
					if fix(x, y, way) {
						p.holdAt(p.index(m.Grid.Node(c, r), int(way)))
					}
				}
			}
		}
	}
}

// Any even free strain and curvature must be taken without stress, through ties and unlike cells.
func TestFreePatch(t *testing.T) {
	for _, coupled := range []bool{false, true} {
		m, err := NewModel(uneven(coupled, false))
		require.NoError(t, err)
		one, err := m.Mean(Patch{X: 100, Y: 100}, U)
		require.NoError(t, err)
		c, err := m.Condense([]Target{one})
		require.NoError(t, err)
		load := make([]float64, c.Loads)
		unit := [4]float64{-0.007, 0.001, 2e-5, -3e-6}
		for b := range 2 {
			for q := range perBoard {
				load[m.LoadOf(b, q)] = unit[q]
			}
		}
		s, err := c.Shape(nil, load, nil)
		require.NoError(t, err)
		a, b := s.Move(600, 800, false), s.Move(0, 0, false)
		assert.InDelta(t, -0.007*600, a[0]-b[0], 1e-9)
		assert.InDelta(t, 0.001*800, a[1]-b[1], 1e-9)
		assert.InDelta(t, 2e-5*600, a[3]-b[3], 1e-10)
		assert.InDelta(t, -3e-6*800, a[4]-b[4], 1e-10)
		chord := s.Move(0, 400, false)[2]*0.3 + s.Move(600, 400, false)[2]*0.7
		assert.InDelta(t, 2e-5*420*180/2, s.Move(420, 400, true)[2]-chord, 1e-9, "rounded: the edges fall back")
		for cc, board := range m.Grid.Board {
			if board < 0 {
				continue
			}
			for r := range len(m.Grid.Y) - 1 {
				v := s.middle(cc, r)
				for i := range 3 {
					assert.InDelta(t, 0, v.N[i], 1e-10*0.007*11000*15)
					assert.InDelta(t, 0, v.M[i], 1e-10*2e-5*11000*15*15*15/12)
				}
			}
		}
		assert.Less(t, c.Asymmetry, 1e-12)
	}
}

// Prescribed linear movement at the rim: even strain and curvature inside.
func TestPatchUnderEvenStress(t *testing.T) {
	l := uneven(false, false)
	m, err := NewModel(l)
	require.NoError(t, err)
	// pull both ends across with an even line force and bend them with an even line moment
	var targets []Target
	for _, x := range []float64{0, 600} {
		for _, way := range []Way{U, TurnX} {
			v, err := m.Mean(Patch{X: x, Y: 400, Along: 800}, way)
			require.NoError(t, err)
			targets = append(targets, v)
		}
	}
	c, err := m.Condense(targets)
	require.NoError(t, err)
	f := []float64{-800, -5e4, 800, 5e4}
	s, err := c.Shape(f, nil, nil)
	require.NoError(t, err)
	for cc, board := range m.Grid.Board {
		for r := range len(m.Grid.Y) - 1 {
			if board < 0 {
				continue
			}
			v := s.middle(cc, r)
			assert.InDelta(t, 1, v.N[0], 1e-10)
			assert.InDelta(t, 62.5, v.M[0], 62.5e-10)
			assert.InDelta(t, 0, v.N[1], 1e-10)
			assert.InDelta(t, 0, v.M[1], 62.5e-10)
			assert.InDelta(t, 0, v.N[2], 1e-10)
			assert.InDelta(t, 0, v.M[2], 62.5e-10)
		}
	}
	u := c.Movement(f, nil, nil)
	// N L/(E t)
	assert.InEpsilon(t, 600/(550.0*15), u[2]-u[0], 1e-9)
	assert.InEpsilon(t, 62.5*600*12/(550.0*15*15*15), u[3]-u[1], 1e-9)
}

// series is the middle deflection of a simply supported Mindlin plate under an even pressure of 1.
// Navier's double series, each wave solved for w, bx, by.
func series(p Plate, length float64) float64 {
	l := p.laminate()
	w := 0.0
	for i := 1; i < 80; i += 2 {
		for j := 1; j < 80; j += 2 {
			a, b := float64(i)*math.Pi/p.Width, float64(j)*math.Pi/length
			// w sin sin, bx cos sin, by sin cos
			k := mat.NewDense(3, 3, []float64{
				l.sx*a*a + l.sy*b*b, l.sx * a, l.sy * b,
				l.sx * a, l.d[0][0]*a*a + l.d[2][2]*b*b + l.sx, (l.d[0][1] + l.d[2][2]) * a * b,
				l.sy * b, (l.d[0][1] + l.d[2][2]) * a * b, l.d[2][2]*a*a + l.d[1][1]*b*b + l.sy,
			})
			q := 16 / (math.Pi * math.Pi * float64(i) * float64(j))
			var x mat.VecDense
			if err := x.SolveVec(k, mat.NewVecDense(3, []float64{q, 0, 0})); err != nil {
				panic(err)
			}
			s := 1.0
			if (i+j)/2%2 == 0 {
				s = -1
			}
			w += s * x.AtVec(0)
		}
	}
	return w
}

func middleUnderPressure(t *testing.T, m *Model, p Plate) float64 {
	t.Helper()
	mid, err := m.Mean(Patch{X: 300, Y: 400}, W)
	require.NoError(t, err)
	c, err := m.Condense([]Target{mid})
	require.NoError(t, err)
	return -c.Free[m.WeightOf(Lying)] / (p.Density * gravity * p.Thickness)
}

func TestSimplySupported(t *testing.T) {
	for _, thick := range []float64{3, 15, 60} {
		p := spruceLike(thick)
		l := Layout{Plates: []Plate{p}, Length: 800, CellX: 50, CellY: 50}
		m := held(t, l, func(x, y float64, way Way) bool {
			onX, onY := x == 0 || x == 600, y == 0 || y == 800
			return way < W || way == W && (onX || onY) || way == TurnX && onY || way == TurnY && onX
		})
		nx, ny := m.Grid.Cells()
		assert.Equal(t, [2]int{12, 16}, [2]int{nx, ny})
		got, want := middleUnderPressure(t, m, p), series(p, 800)
		t.Logf("t %g: %+.4f %%", thick, 100*(got/want-1))
		assert.InEpsilon(t, want, got, 1e-3)
	}
}

// clamped is the middle deflection of a thin clamped plate under an even pressure of 1, by Ritz with
// (1-x^2)^2 x^2i (1-y^2)^2 y^2j.
func clamped(d m3, a, b float64) float64 {
	const n = 7
	// coefficients of polynomials in x, their second derivatives, and integrals over -1..1
	base := func(i int) []float64 {
		c := make([]float64, 2*i+5)
		c[2*i], c[2*i+2], c[2*i+4] = 1, -2, 1
		return c
	}
	diff := func(c []float64) []float64 {
		out := make([]float64, max(1, len(c)-1))
		for k := 1; k < len(c); k++ {
			out[k-1] = float64(k) * c[k]
		}
		return out
	}
	in := func(p, q []float64) float64 {
		s := 0.0
		for i, u := range p {
			for j, v := range q {
				if (i+j)%2 == 0 {
					s += 2 * u * v / float64(i+j+1)
				}
			}
		}
		return s
	}
	k, f := mat.NewSymDense(n*n, nil), mat.NewVecDense(n*n, nil)
	ha, hb := a/2, b/2
	for i := range n * n {
		xi, yi := base(i/n), base(i%n)
		f.SetVec(i, in(xi, []float64{1})*in(yi, []float64{1}))
		for j := range i + 1 {
			xj, yj := base(j/n), base(j%n)
			x1, x2, y1, y2 := diff(xi), diff(diff(xi)), diff(yi), diff(diff(yi))
			u1, u2, v1, v2 := diff(xj), diff(diff(xj)), diff(yj), diff(diff(yj))
			v := d[0][0]/math.Pow(ha, 4)*in(x2, u2)*in(yi, yj) + d[1][1]/math.Pow(hb, 4)*in(xi, xj)*in(y2, v2) +
				d[0][1]/(ha*ha*hb*hb)*(in(x2, xj)*in(yi, v2)+in(xi, u2)*in(y2, yj)) +
				4*d[2][2]/(ha*ha*hb*hb)*in(x1, u1)*in(y1, v1)
			k.SetSym(i, j, v)
		}
	}
	var c mat.VecDense
	if err := c.SolveVec(k, f); err != nil {
		panic(err)
	}
	return c.AtVec(0) // at the middle only i = j = 0 is not nil
}

func TestClamped(t *testing.T) {
	// the isotropic square by the same Ritz: 0.001265 q a^4/D
	iso := plane(1, 1, 0.3, 1/2.6)
	assert.InDelta(t, 0.001265, clamped(iso, 1, 1)*iso[0][0], 1e-6)
	for _, n := range []float64{12, 24} {
		p := spruceLike(3)
		p.GXZ, p.GLZ = 6000, 6000
		m := held(t, Layout{Plates: []Plate{p}, Length: 800, CellX: 600 / n, CellY: 800 / (n * 4 / 3)}, func(x, y float64, way Way) bool {
			return way < W || x == 0 || x == 600 || y == 0 || y == 800
		})
		l := p.laminate()
		got, want := middleUnderPressure(t, m, p), clamped(l.d, 600, 800)
		t.Logf("n %g: %+.3f %%", n, 100*(got/want-1))
		if n == 24 {
			assert.InEpsilon(t, want, got, 5e-3)
		}
	}
}
