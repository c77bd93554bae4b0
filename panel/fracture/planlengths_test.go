package fracture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats"

	"crossgrain/panel/internal/plan"
)

// planBattened is a panel on two battens, each with yielding fixings and free to slide along itself as a whole.
func planBattened(plates ...plan.Plate) (plan.Layout, PlanHold) {
	lay := plan.Layout{Plates: plates, Length: 800}
	width := 0.0
	for _, p := range plates {
		width += p.Width
	}
	var h PlanHold
	for _, y := range []float64{200, 600} {
		for i := range 4 {
			p := plan.Patch{X: width * (0.1 + 0.8*float64(i)/3), Y: y, Length: 15, Along: 15}
			h.Rows = append(h.Rows, PlanRow{Patch: p, Way: plan.U, Height: -7}, PlanRow{Patch: p, Way: plan.W, Sign: -1})
		}
	}
	n := len(h.Rows)
	h.H, h.Motions, h.R = make([]float64, n*n), 2, make([]float64, n*2)
	for i := range n {
		h.H[i*n+i] = 2e-4
		if h.Rows[i].Way == plan.U {
			h.R[2*i+i*2/n] = -1
		}
	}
	return lay, h
}

// planFronts leads the first tip of a line through the coarse mesh in one state.
func planFronts(t *testing.T, lay plan.Layout, l *PlanLine, h *PlanHold, s PlanState) (*planFollow, *planFront) {
	t.Helper()
	f := &planFollow{lay: lay, l: l, hold: h, states: []PlanState{s}, setting: PlanFine}
	x, y := f.meshes()
	f.ahead = len(y)
	rows := l.rowsOf(y, planBack, f.ahead, f.hold)
	rows.fine = 1
	var err error
	f.slow, err = l.newPlanMesh(lay, h, nil, x, rows)
	require.NoError(t, err)
	held, err := f.slow.hold(h, []*PlanState{&s})
	require.NoError(t, err)
	a, ok := newFront(l, f.slow.tips[0], f.slow.zip(held), nil, f.ahead)
	require.True(t, ok)
	a.run()
	return f, a
}

// All lengths from one elimination, against the panel meshed anew with the line open at three of them: forces, opening, and
// the energy, which for edges moved without free strain is half the forces times the movements. Faces that touch,
// boards that are not flush and members with motions of their own are in.
func TestPlanLengthsFromOneElimination(t *testing.T) {
	thick := planWood(300, 15)
	thick.Centre = -2
	thin := planWood(300, 11)
	for name, c := range map[string]struct {
		plates []plan.Plate
		rest   func(r PlanRow) float64
		load   float64
	}{
		"pulled":  {[]plan.Plate{planWood(300, 15), planWood(300, 15)}, func(r PlanRow) float64 { return 0.003 * (r.Patch.X - 300) }, 0},
		"bent":    {[]plan.Plate{planWood(300, 15), planWood(300, 15)}, func(r PlanRow) float64 { return 1e-4 * math.Pow(r.Patch.X-300, 2) }, 0},
		"stepped": {[]plan.Plate{thick, thin}, func(r PlanRow) float64 { return 0.002*(r.Patch.X-300) + 2e-5*math.Pow(r.Patch.X-300, 2) }, 0},
		"drying":  {[]plan.Plate{planWood(300, 15), planWood(300, 15)}, func(PlanRow) float64 { return 0 }, -0.004},
	} {
		lay, h := planBattened(c.plates...)
		s := planLoad(h, 2, plan.StrainX, c.load)
		rest := make([]float64, len(h.Rows))
		for i, r := range h.Rows {
			if r.Way == plan.U || name != "pulled" {
				rest[i] = c.rest(r)
			}
			s.Grips[i].Rest = rest[i]
		}
		l := &PlanLine{X: 300, Open: []PlanStretch{{To: 150}}}
		f, a := planFronts(t, lay, l, &h, s)
		work := func(force []float64) float64 { return -floats.Dot(force, rest) / 2 }
		sum, checked := 0.0, 0
		var zero float64
		for k, st := range a.stages {
			if k == 0 {
				zero = work(st.forces[0])
			} else {
				sum += a.steps[k-1].slow[0].sum()
			}
			if k != 2 && k != 10 && k != 30 {
				continue
			}
			checked++
			y := f.slow.y
			anew := &PlanLine{X: 300, Open: []PlanStretch{{To: y[st.row]}}}
			rows := anew.rowsOf(y, 0, 2, &PlanHold{})
			rows.fine = 1
			x, _ := f.meshes()
			m, err := anew.newPlanMesh(lay, &h, nil, x, rows)
			require.NoError(t, err)
			held, err := m.hold(&h, []*PlanState{&s})
			require.NoError(t, err)
			b, ok := newFront(anew, m.tips[0], m.zip(held), nil, 2)
			require.True(t, ok)
			b.settle()
			b.look(st.row)
			big := floats.Norm(st.forces[0], math.Inf(1))
			assert.InDeltaSlice(t, b.stages[0].forces[0], st.forces[0], 1e-6*big, name)
			require.Len(t, st.profile[0], len(b.stages[0].profile[0]))
			wide := 0.0
			for i, p := range b.stages[0].profile[0] {
				wide = math.Max(wide, math.Abs(p.Front)+math.Abs(p.Back))
				assert.InDelta(t, p.Front, st.profile[0][i].Front, 1e-6*wide+1e-9, name)
				assert.InDelta(t, p.Back, st.profile[0][i].Back, 1e-6*wide+1e-9, name)
			}
			if c.load == 0 {
				assert.InDelta(t, zero-work(b.stages[0].forces[0]), sum, 1e-6*zero, "%s, energy to %g mm", name, y[st.row])
			}
		}
		assert.Equal(t, 3, checked)
	}
}

// Energy release times length is the energy set free, in the answer too.
func TestPlanReleaseAddsUp(t *testing.T) {
	lay, h := planBattened(planWood(600, 15))
	s := planLoad(h, 1, plan.StrainX, -0.004)
	l := &PlanLine{X: 300, Open: []PlanStretch{{To: 150}}}
	_, a := planFronts(t, lay, l, &h, s)
	runs, err := FollowPlan(lay, *l, h, nil, []PlanState{s}, PlanFine)
	require.NoError(t, err)
	p := runs[0].Points
	area, free := 0.0, 0.0
	for k := range len(p) - 2 {
		area += (p[k].Slow.Total() + p[k+1].Slow.Total()) / 2 * (p[k+1].End - p[k].End) * 15
	}
	for _, st := range a.steps {
		if a.z.p.y[st.row] >= 150-1e-6 {
			free += st.slow[0].sum()
		}
	}
	assert.InEpsilon(t, free, area, 0.02, "of one mesh, and of cells of no size")
	assert.True(t, runs[0].Through)
	c := runs[0].Curve()
	assert.Equal(t, p[0].Slow.Total(), c.Now().Slow)
	_, through := c.Stops(1e-9)
	assert.True(t, through)
	// and what holds lets go as the line opens
	first, last := p[0].Forces, p[len(p)-2].Forces
	assert.Less(t, math.Abs(last[0]), math.Abs(first[0]))
	quiet := planLoad(h, 1, plan.StrainX, 0)
	runs, err = FollowPlan(lay, *l, h, nil, []PlanState{quiet}, PlanFine)
	require.NoError(t, err)
	assert.Zero(t, runs[0].Points[0].Slow.Total())
}

// A split far from a batten is quiet and feels it more the nearer it comes.
func TestPlanRunsTowardsABatten(t *testing.T) {
	lay := plan.Layout{Plates: []plan.Plate{planWood(400, 15)}, Length: 1200}
	var h PlanHold
	for i := range 6 {
		h.Rows = append(h.Rows, PlanRow{Patch: plan.Patch{X: 25 + 70*float64(i), Y: 600, Length: 60, Along: 60}, Way: plan.U})
	}
	s := planLoad(h, 1, plan.StrainX, -0.005)
	r := planOne(t, lay, PlanStretch{To: 200}, h, nil, s)[0]
	most, place := 0.0, 0.0
	for _, p := range r.Points {
		if p.Slow.Total() > most {
			most, place = p.Slow.Total(), p.End
		}
	}
	assert.Less(t, r.Points[0].Slow.Total(), 0.1*most)
	assert.InDelta(t, 600, place, 100)
}

// Filled joins press at once, others when their gap is used up; the pressed faces carry the pull of the damp.
func TestPlanGaps(t *testing.T) {
	lay, h := planBattened(planWood(600, 15))
	s := planLoad(h, 1, plan.StrainX, 0.005)
	mouth := func(gap float64) float64 {
		p := planOne(t, lay, PlanStretch{From: 0, To: 600, Gap: gap}, h, nil, s)[0].Points[0].Profile
		for _, o := range p {
			assert.GreaterOrEqual(t, min(o.Front, o.Back), -gap-2e-3)
		}
		return p[0].Middle
	}
	free := mouth(10)
	assert.Less(t, free, -0.3, "nothing in the way")
	assert.InDelta(t, 0, mouth(0), 2e-3)
	assert.InDelta(t, free/2, mouth(-free/2), 0.05)
}

// A join open at the painted face only turns about what is left at the back.
func TestPlanHinge(t *testing.T) {
	lay, h := planBattened(planWood(600, 15))
	s := planLoad(h, 1, plan.StrainX, -0.004)
	now := func(o PlanStretch) PlanPoint {
		runs, err := FollowPlan(lay, PlanLine{X: 300, Open: []PlanStretch{o}}, h, nil, []PlanState{s}, PlanCoarse)
		require.NoError(t, err)
		return runs[0].Points[0]
	}
	through := now(PlanStretch{To: 400})
	hinge := now(PlanStretch{To: 400, Depth: 14})
	o := hinge.Profile[0]
	assert.Greater(t, o.Front, 10*math.Abs(o.Back))
	assert.InDelta(t, 0, o.Back+(o.Front-o.Back)*0.5/15, 0.05*o.Front, "still in the middle of what is left")
	assert.Less(t, hinge.Slow.Total(), through.Slow.Total())
	assert.Positive(t, hinge.Slow.Total())
	back := now(PlanStretch{To: 400, Depth: 14, Back: true}).Profile[0]
	assert.Greater(t, back.Back, 10*math.Abs(back.Front))
}

// Both tips of an inner split see the same by symmetry; one near the edge does not stop the other.
func TestPlanTwoTips(t *testing.T) {
	lay, h := planBattened(planWood(600, 15))
	s := planLoad(h, 1, plan.StrainX, -0.004)
	runs := planOne(t, lay, PlanStretch{From: 350, To: 450}, h, nil, s)
	require.Len(t, runs, 2)
	assert.False(t, runs[0].Up)
	assert.True(t, runs[1].Up)
	for k, p := range runs[0].Points {
		assert.InDelta(t, p.Slow.Total(), runs[1].Points[k].Slow.Total(), 1e-6*p.Slow.Total()+1e-12)
		assert.InDelta(t, 800-p.Start, runs[1].Points[k].End, 1e-6)
	}
	assert.Equal(t, 0.0, runs[0].Points[len(runs[0].Points)-1].Start)
	// a second open part in the way joins in
	l := PlanLine{X: 300, Open: []PlanStretch{{To: 150}, {From: 300, To: 400}}}
	runs, err := FollowPlan(lay, l, h, nil, []PlanState{s}, PlanFine)
	require.NoError(t, err)
	require.Len(t, runs, 3)
	for _, r := range runs {
		assert.True(t, r.Through)
		for _, p := range r.Points {
			assert.False(t, math.IsNaN(p.Slow.Total()+p.Sudden.Total()))
		}
	}
	// nothing open yet: nothing released at first
	runs = planOne(t, lay, PlanStretch{}, h, nil, s)
	assert.Zero(t, runs[0].Points[0].Slow.Total())
	assert.Positive(t, runs[0].Points[1].Slow.Total())
}

// The quick answer against the full one, with yielded wood: the present tip and two more lengths.
func TestPlanCoarse(t *testing.T) {
	lay, h, states, lines := planExample(t)
	for _, l := range lines[1:] {
		fine, err := FollowPlan(lay, l, h, []float64{2.5}, states, PlanFine)
		require.NoError(t, err)
		quick, err := FollowPlan(lay, l, h, []float64{2.5}, states, PlanCoarse)
		require.NoError(t, err)
		require.Len(t, quick, len(fine))
		for i, r := range quick {
			require.Len(t, r.Points, 3)
			assert.Equal(t, i, r.State)
			a, b := fine[i].Points[0], r.Points[0]
			t.Logf("x %g, state %d: slow %.5f, quick %.5f; sudden %.5f, %.5f", l.X, i, a.Slow.Total(), b.Slow.Total(), a.Sudden.Total(), b.Sudden.Total())
			assert.InEpsilon(t, a.Slow.Total(), b.Slow.Total(), 0.03)
			assert.InEpsilon(t, a.Sudden.Total(), b.Sudden.Total(), 0.06)
			mouth := func(p PlanPoint) float64 {
				if r.Up {
					return p.Profile[0].Middle
				}
				return p.Profile[len(p.Profile)-1].Middle
			}
			assert.InEpsilon(t, mouth(a), mouth(b), 0.05)
		}
	}
}
