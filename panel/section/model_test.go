package section

import (
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/species"
)

// caseWood is the synthetic wood of the reference cases.
var caseWood = Elastic{ER: 1000, ET: 500, EL: 10000, GRT: 60, NuRT: 0.6, NuLR: 0.4, NuLT: 0.5}

func timber(w, h, px, pz float64) Timber {
	return Timber{Board: Board{Width: w, Thickness: h, PithKnown: true, PithX: px, PithZ: pz}, Wood: caseWood}
}

func caseBoard(name string) []Timber {
	p := map[string][2]float64{"flat": {150, -60}, "quarter": {-50, 10}, "deg45": {50, -90}}[name]
	return []Timber{timber(300, 20, p[0], p[1])}
}

func caseC() []Timber {
	return []Timber{timber(200, 18, 100, -50), timber(200, 18, -50, 9), timber(200, 18, 100, 68)}
}

func fill(t testing.TB, m *Model, f Movement) [][]float64 {
	t.Helper()
	loads := make([][]float64, m.Boards())
	for i := range loads {
		loads[i] = make([]float64, m.Loads(i))
		_, err := m.Fill(loads[i], i, &f)
		require.NoError(t, err)
	}
	return loads
}

func even(r, tt float64) Movement {
	return Movement{At: []float64{0, 1}, R: []float64{r, r}, T: []float64{tt, tt}}
}

func run(t testing.TB, b []Timber, o Options, f Movement) (*Model, *Out) {
	t.Helper()
	m, err := Build(b, o)
	require.NoError(t, err)
	out := m.NewOut()
	require.NoError(t, m.Eval(out, fill(t, m, f)))
	return m, out
}

// The exact map of a board that leaves its pith out holds no stress. Movement to 1e-5, stress at the 2 x 2
// points under 1e-4 of modulus times strain at 60 x 8, falling with the second order or better.
func TestExactMap(t *testing.T) {
	// exact small-strain movement: testdata/solvers/case_a.csv, closed form
	_, o := run(t, caseBoard("flat"), Options{Across: 60, Through: 8, Even: true}, even(-0.0075, -0.015))
	assert.InEpsilon(t, -1.339076, o.Cup, 1e-5)
	assert.InEpsilon(t, -3.440878, o.Width, 1e-5)
	assert.InDelta(t, -0.2731323, o.Boards[0].Thickness[0], 1e-5*3.44, "of the largest movement")
	assert.InDelta(t, -0.15, o.Boards[0].Thickness[1], 1e-5*3.44)
	coarse := worstStress(t, caseBoard("flat"), Options{Across: 30, Through: 4, Even: true})
	fine := worstStress(t, caseBoard("flat"), Options{Across: 60, Through: 8, Even: true})
	finer := worstStress(t, caseBoard("flat"), Options{Across: 120, Through: 16, Even: true})
	assert.Less(t, fine, 1e-4*500*0.015, "MPa")
	assert.Greater(t, math.Log2(fine/finer), 1.9, "order")
	t.Logf("largest stress of the exact map: 30x4 %.2g, 60x8 %.2g, 120x16 %.2g MPa", coarse, fine, finer)
}

func worstStress(t *testing.T, b []Timber, o Options) float64 {
	m, err := Build(b, o)
	require.NoError(t, err)
	f, err := m.Field(fill(t, m, even(-0.0075, -0.015)))
	require.NoError(t, err)
	worst := 0.0
	for _, p := range f[0].Points {
		for _, v := range [4]float64{p.XX, p.ZZ, p.XZ, p.Along} {
			worst = math.Max(worst, math.Abs(v))
		}
	}
	return worst
}

// The finite elements and the closed form of the board agree in size and sign, for every cut and lean; heart side
// turned round turns the warp round.
func TestAgainstClosedForm(t *testing.T) {
	const k = 1e-4 // so small that the closed form's finite map is linear
	for _, ring := range []species.RingAngle{0, 30, 45, -45, 90, -90} {
		for _, r := range []float64{100, 300, math.Inf(1)} {
			b := Board{Width: 150, Thickness: 16, Ring: ring, RingRadius: r}
			_, o := run(t, []Timber{{Board: b, Wood: caseWood}}, Options{}, even(-0.01*k, -0.02*k))
			f, err := b.Free(-0.01*k, -0.02*k)
			require.NoError(t, err)
			assert.InDelta(t, f.Width/k, o.Width/k, 1e-3*3, "%v %g", ring, r)
			assert.InDelta(t, f.CupBack/k, o.Cup/k, 2e-3, "%v %g", ring, r)
			assert.InDelta(t, f.Thickness[0]/k, o.Boards[0].Thickness[0]/k, 1e-3, "%v %g", ring, r)
			s, c := b.Local(-0.01*k, -0.02*k, 75)
			assert.InDelta(t, s/k, o.Boards[0].Strain[4]/k, 2e-4, "%v %g", ring, r)
			assert.InDelta(t, c/k, o.Boards[0].Curvature[4]/k, 1e-5, "%v %g", ring, r)
			b.HeartFront = true
			_, turned := run(t, []Timber{{Board: b, Wood: caseWood}}, Options{}, even(-0.01*k, -0.02*k))
			if ring == 0 && !math.IsInf(r, 1) {
				assert.Negative(t, o.Cup, "heart behind, drying: hollow")
				assert.InDelta(t, -o.Boards[0].Warp, turned.Boards[0].Warp, 1e-4*math.Abs(o.Cup))
			}
		}
	}
}

func TestBilayer(t *testing.T) {
	// row BIL-PSTRAIN: isotropic layers in plane strain, ground 1 mm on wood 15 mm; the wood swells by 0.01
	g := fe3(700)
	b := Timber{Board: Board{Width: 400, Thickness: 15, RingRadius: math.Inf(1)}, Wood: g, Front: []Coat{{Thickness: 1, E: 3000, Nu: 0.3}}}
	f := even(0.01, 0.01)
	f.L = []float64{0.01, 0.01}
	m, o := run(t, []Timber{b}, Options{HeldAlong: true}, f)
	assert.InDelta(t, -0.000700421, o.Boards[0].Curvature[4], 1e-6, "swelling wood under a stiff ground: hollow")
	// the ground's strain in the middle: the same stack by the closed form
	nu := 0.3
	r, err := Stack([]Layer{{E: 700 / (1 - nu*nu), Thickness: 15, Width: 1, Strain: 0.013}, {E: 3000 / (1 - nu*nu), Thickness: 1, Width: 1}})
	require.NoError(t, err)
	want := r.Strain0 + r.Curvature*(15-r.Centroid)
	assert.InEpsilon(t, want, o.FrontStrain[24], 1e-3)
	_ = m
	// the ground itself shrinking by as much bends the same way
	f = Movement{At: []float64{0, 1}, R: []float64{0, 0}, T: []float64{0, 0}, FrontCoats: []float64{-0.01}}
	_, shrink := run(t, []Timber{b}, Options{HeldAlong: true}, f)
	assert.InEpsilon(t, o.Boards[0].Curvature[4], shrink.Boards[0].Curvature[4], 1e-6)
}

func fe3(e float64) Elastic {
	return Elastic{ER: e, ET: e, EL: e, GRT: e / 2.6, NuRT: 0.3, NuLR: 0.3, NuLT: 0.3}
}

// Rows CUP-GRAD-*: strains that vary through the thickness; straight rings, stress nil along the grain but for
// Poisson's effect, so the wood is given none.
func TestGradientCup(t *testing.T) {
	w := Elastic{ER: 700, ET: 700, EL: 10000, GRT: 300}
	b := []Timber{{Board: Board{Width: 400, Thickness: 20, RingRadius: math.Inf(1)}, Wood: w}}
	lin := Movement{At: []float64{0, 1}, R: []float64{0, 0.008}, T: []float64{0, 0.008}}
	_, o := run(t, b, Options{}, lin)
	assert.InEpsilon(t, 0.0004, o.Boards[0].Curvature[4], 1e-8)
	assert.InEpsilon(t, 8, o.Cup, 1e-6)
	assert.InDelta(t, 0, o.FrontStress[25], 1e-9)
	var z, e []float64
	for i := range 101 {
		u := float64(i) / 100
		z, e = append(z, u), append(e, 0.008*u*u)
	}
	m, o := run(t, b, Options{Fineness: Fine}, Movement{At: z, R: e, T: e})
	assert.InEpsilon(t, 0.0004, o.Boards[0].Curvature[4], 1e-4)
	// parabola: sigma = -E 0.008 ((z/h)^2 - z/h + 1/6), -0.933 MPa at the faces
	u := 1 - m.Depth(0)/20
	assert.InDelta(t, -700*0.008*(u*u-u+1./6), o.FrontStress[25], 0.005*0.933)
	step := Movement{At: []float64{0, 0.75, 0.75, 1}, R: []float64{0, 0, 0.008, 0.008}, T: []float64{0, 0, 0.008, 0.008}}
	_, o = run(t, b, Options{}, step)
	assert.InEpsilon(t, 0.00045, o.Boards[0].Curvature[4], 1e-6, "outer quarter swollen: mean and slope keep the moment")
}

func TestJoinsBalance(t *testing.T) {
	b := caseC()
	b[1].Thickness, b[1].Proud = 14, 2
	for _, o := range []Options{{}, {Fineness: Fine}, {Flush: FlushBack}} {
		m, out := run(t, b, o, Movement{At: []float64{0, 1}, R: []float64{-0.01, 0}, T: []float64{-0.02, 0.001}})
		for j, jo := range out.Joins {
			size := 0.0
			for i := range jo.Force {
				size += math.Abs(jo.Force[i]) + math.Abs(jo.Slide[i])
			}
			assert.InDelta(t, 0, jo.N/size, 1e-9)
			assert.InDelta(t, 0, jo.V/size, 1e-9)
			assert.InDelta(t, 0, jo.M/size/18, 1e-9)
			require.Equal(t, len(m.JoinHeights(j)), len(jo.Pull))
		}
		n, mo, err := m.Unit()
		require.NoError(t, err)
		for j := range out.Joins {
			assert.InDelta(t, 1, n.Joins[j].N, 1e-9)
			assert.InDelta(t, 0, n.Joins[j].M, 1e-8)
			assert.InDelta(t, 0, mo.Joins[j].N, 1e-9)
			assert.InDelta(t, 1, mo.Joins[j].M, 1e-8)
		}
		assert.Positive(t, n.Width)
		assert.Positive(t, mo.Cup, "a moment that pulls the painted face rounds it")
	}
}

// Unit N and M on an even strip: strain N/(E h), curvature 12 M/(E h^3).
func TestUnitLoads(t *testing.T) {
	w := Elastic{ER: 700, ET: 700, EL: 10000, GRT: 300}
	m, err := Build([]Timber{{Board: Board{Width: 400, Thickness: 20, RingRadius: math.Inf(1)}, Wood: w}}, Options{})
	require.NoError(t, err)
	n, mo, err := m.Unit()
	require.NoError(t, err)
	assert.InEpsilon(t, 1./(700*20), n.FrontStrain[25], 1e-6)
	assert.InEpsilon(t, 400./(700*20), n.Width, 1e-6)
	assert.InEpsilon(t, 12./(700*8000)*400*400/8, mo.Cup, 1e-5)
	assert.InEpsilon(t, 6./(700*400), mo.FrontStrain[25], 1e-6)
}

// Twice the stiffness moves alike and doubles stress; twice the size doubles movement; the mirror image mirrors.
func TestScaling(t *testing.T) {
	f := Movement{At: []float64{0, 0.3, 1}, R: []float64{-0.01, -0.004, 0}, T: []float64{-0.02, -0.008, 0}}
	_, one := run(t, caseC(), Options{}, f)
	stiff, big, mirror := caseC(), caseC(), caseC()
	for i := range stiff {
		w := &stiff[i].Wood
		w.ER, w.ET, w.EL, w.GRT = 2*w.ER, 2*w.ET, 2*w.EL, 2*w.GRT
		b := &big[i]
		b.Width, b.Thickness, b.PithX, b.PithZ = 2*b.Width, 2*b.Thickness, 2*b.PithX, 2*b.PithZ
		mirror[2-i] = caseC()[i]
		mirror[2-i].PithX = 200 - mirror[2-i].PithX
	}
	_, two := run(t, stiff, Options{}, f)
	_, large := run(t, big, Options{}, f)
	_, other := run(t, mirror, Options{}, f)
	for i := range Places {
		assert.InDelta(t, one.Warp[i], two.Warp[i], 1e-8)
		assert.InDelta(t, 2*one.BackStress[i], two.BackStress[i], 1e-7)
		assert.InDelta(t, 2*one.Warp[i], large.Warp[i], 1e-8)
		assert.InDelta(t, one.FrontStress[i], large.FrontStress[i], 1e-7)
		assert.InDelta(t, one.Warp[i], other.Warp[Places-1-i], 1e-8)
	}
	assert.InDelta(t, one.Joins[0].Slide[4], -other.Joins[1].Slide[4], 1e-8)
}

func TestSameBitsOnAnyCores(t *testing.T) {
	f := Movement{At: []float64{0, 1}, R: []float64{-0.01, 0}, T: []float64{-0.02, 0.001}}
	old := runtime.GOMAXPROCS(1)
	_, a := run(t, caseC(), Options{}, f)
	runtime.GOMAXPROCS(8)
	_, b := run(t, caseC(), Options{}, f)
	runtime.GOMAXPROCS(old)
	assert.Equal(t, a.Warp, b.Warp)
	assert.Equal(t, a.Joins, b.Joins)
	assert.Equal(t, a.FrontStress, b.FrontStress)
}

func TestGrainSlopeTwists(t *testing.T) {
	b := caseBoard("flat")
	f := Movement{At: []float64{0, 1}, R: []float64{0, 0.005}, T: []float64{0, 0.01}}
	_, o := run(t, b, Options{}, f)
	assert.Zero(t, o.Twist)
	b[0].GrainSlope = 0.05
	_, o = run(t, b, Options{}, f)
	assert.InEpsilon(t, (o.Boards[0].MeanCurvature-o.Bow)*0.05, o.Twist, 0.01)
	f.L = []float64{0, 0.0002}
	_, o = run(t, b, Options{}, f)
	assert.Positive(t, o.Bow, "front longer along the grain: rounded along it too")
	assert.InEpsilon(t, 0.0001, o.Stretch, 0.2)
}

// Wetting from both faces pulls the middle, drying presses it (as measured in glued laminated timber outdoors).
func TestWettingPullsTheMiddle(t *testing.T) {
	b := []Timber{{Board: Board{Width: 140, Thickness: 60, RingRadius: math.Inf(1)}, Wood: caseWood}}
	wet := Movement{At: []float64{0, 0.2, 0.8, 1}, R: []float64{0.005, 0, 0, 0.005}, T: []float64{0.01, 0, 0, 0.01}}
	m, err := Build(b, Options{Fineness: Fine})
	require.NoError(t, err)
	middle := func(f Movement) float64 {
		fd, err := m.Field(fill(t, m, f))
		require.NoError(t, err)
		best, s := math.Inf(1), 0.0
		for _, p := range fd[0].Points {
			if d := math.Hypot(p.X-70, p.Z-30); d < best {
				best, s = d, p.XX
			}
		}
		return s
	}
	dry := wet
	dry.R, dry.T = []float64{-0.005, 0, 0, -0.005}, []float64{-0.01, 0, 0, -0.01}
	assert.Positive(t, middle(wet))
	assert.Negative(t, middle(dry))
}

// Stiffness that varies through the thickness: a strip of the same profile, by layers.
func TestVaryingStiffness(t *testing.T) {
	w := Elastic{ER: 700, ET: 700, EL: 10000, GRT: 300}
	m, err := Build([]Timber{{Board: Board{Width: 400, Thickness: 20, RingRadius: math.Inf(1)}, Wood: w}}, Options{})
	require.NoError(t, err)
	f := Movement{At: []float64{0, 0.2, 1}, R: []float64{0.01, 0, 0}, T: []float64{0.01, 0, 0}, Stiff: []float64{0.8, 1.05, 1.05}}
	load := make([]float64, m.Loads(0))
	a, err := m.Fill(load, 0, &f)
	require.NoError(t, err)
	o := m.NewOut()
	require.NoError(t, m.Eval(o, [][]float64{load}))
	var layers []Layer
	const n = 2000
	for i := range n {
		z := (float64(i) + 0.5) / n
		e, r := 0.0, 1.05
		if z < 0.2 {
			e, r = 0.01*(1-z/0.2), 0.8+0.25*z/0.2
		}
		layers = append(layers, Layer{E: 700 * r, Thickness: 20. / n, Width: 1, Strain: e})
	}
	want, err := Stack(layers)
	require.NoError(t, err)
	assert.InEpsilon(t, want.Curvature, o.Boards[0].Curvature[4], 2e-4)
	assert.Greater(t, a.Back, 1.0, "the soft skin is pressed by all of its strain, 0.8 e, but relieved by 0.8 of the stretch only")
	assert.Greater(t, a.Movement, 1e-3)
}
