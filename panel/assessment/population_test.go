package assessment

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"crossgrain/moisture"
	"crossgrain/panel"
	"crossgrain/panel/internal/chance"
	"crossgrain/panel/response"
)

// Panels of a made-up kind: one part, whose share of limit grows in a straight line from the used-to 50 % on either side and
// reaches 1 after so many points, normal with mean 12 and standard deviation 3.
func straight(n int) (*held, []*one) {
	h := &held{keys: []key{{response.JoinTension, "join.a"}}}
	for rh := 20; rh <= 80; rh += 5 {
		h.grid = append(h.grid, moisture.Percent(float64(rh)))
	}
	var ones []*one
	for _, z := range chance.Normals(n, 2, 2, 7) {
		o := &one{}
		for _, rh := range h.grid {
			d := rh.Percent() - 50
			points := 12 + 3*z[0]
			if d > 0 {
				points = 12 + 3*z[1]
			}
			o.share = append(o.share, []float64{math.Abs(d) / points})
		}
		ones = append(ones, o)
	}
	return h, ones
}

func TestCountsAgainstTheNormalClosedForm(t *testing.T) {
	const n = 4000
	h, ones := straight(n)
	l := newLimited(h, ones, &weighed{evidence: &Evidence{}}, 0.5)
	at := distuv.Normal{Mu: 12, Sigma: 3}
	for _, points := range []float64{5, 8, 10, 12, 14} {
		one := at.CDF(points)
		low, high := moisture.Percent(50-points), moisture.Percent(50+points)
		c := l.side(low, -1)
		assert.InDelta(t, 100*one, c.Of100, 3*c.Error+0.1, "%g points drier", points)
		both := l.between(low, high)
		assert.InDelta(t, 100*(1-(1-one)*(1-one)), both.Of100, 3*both.Error+0.1, "%g points both ways", points)
	}
	// the range for 5 in 100: both sides alike, each to 1 - sqrt(0.95)
	r := l.rangeFor(5, 0.2, 0.8)
	want := at.Quantile(1 - math.Sqrt(0.95))
	assert.InDelta(t, 50-want, r.Low.Percent(), 0.6)
	assert.InDelta(t, 50+want, r.High.Percent(), 0.6)
	assert.Equal(t, "join_tension:join.a", r.LowBy)
	assert.LessOrEqual(t, r.Count.Of100, 5.0)
	m := l.limitMap(0.3, 0.7)
	for i := range m.Low {
		for k := range m.High {
			if i > 0 {
				assert.GreaterOrEqual(t, m.Of100[i][k], m.Of100[i-1][k], "a wider range is never better")
			}
			if k > 0 {
				assert.GreaterOrEqual(t, m.Of100[i][k], m.Of100[i][k-1])
			}
		}
	}
}

func TestRangeOfAPanelBeyondItsLimitAlready(t *testing.T) {
	h, ones := straight(200)
	for _, o := range ones {
		o.share[6][0] = 2 // at 50 %
	}
	r := newLimited(h, ones, &weighed{evidence: &Evidence{}}, 0.5).rangeFor(5, 0.2, 0.8)
	assert.True(t, r.None)
	assert.Equal(t, 100.0, r.Count.Of100)
}

// What passed counts where it was passed and not beyond. Panels of the made-up kind that lived at 42 to 58 %: a share of s over a
// season is passed with 2/s - 1 where that lies between 0 and 1. The rate of those above 1 among the survivors by plain drawing.
func TestSurvivalOnAMadePopulation(t *testing.T) {
	h, ones := straight(4000)
	h.lived = panel.Lived{Low: 0.42, High: 0.58}
	src := rand.New(rand.NewPCG(3, 4))
	alive, above := 0.0, 0.0
	draw := distuv.Normal{Mu: 12, Sigma: 3, Src: src}
	for range 200000 {
		s := 8 / min(draw.Rand(), draw.Rand())
		if e := 0.5 + 0.5*src.Float64(); e*s < 1 {
			alive++
			if s >= 1 {
				above++
			}
		}
	}
	for _, o := range ones {
		o.past = math.Max(o.share[5][0], o.share[7][0]) * 8 / 5 // from 5 points to 8
	}
	w, err := h.weigh(ones)
	require.NoError(t, err)
	require.True(t, w.evidence.Survival)
	l := newLimited(h, ones, w, 0.5)
	c := l.between(0.42, 0.58)
	assert.InDelta(t, 100*above/alive, c.Of100, 3*c.Error+0.3)
	none := newLimited(h, ones, &weighed{evidence: &Evidence{}}, 0.5)
	assert.Less(t, c.Of100, none.between(0.42, 0.58).Of100)
	assert.Equal(t, none.between(0.40, 0.60), l.between(0.40, 0.60), "it does not count for a drier climate")
	assert.LessOrEqual(t, l.between(0.40, 0.58).Of100, none.side(0.40, -1).Of100+c.Of100)
	h.lived.Why = "It was found changed when it was last looked at."
	w, err = h.weigh(ones)
	require.NoError(t, err)
	assert.False(t, w.evidence.Survival)
	assert.Nil(t, w.inside)
}

// A straight line through two observations with an unknown rest in common: y = r + b x, prior b ~ N(1, 0.5), r ~ N(0, 3). The
// posterior of b by the conjugate normal closed form.
func TestObservationsAgainstTheConjugateClosedForm(t *testing.T) {
	h := &held{keys: []key{{response.JoinTension, "join.a"}}}
	x, y := [2]float64{-2, 3}, [2]float64{2.4, 9.1}
	const sb, sr, se = 0.5, 3.0, 0.7
	for i := range x {
		h.seen = append(h.seen, sight{what: SeenWarp, value: y[i], instrument: se, rest: sr})
	}
	var ones []*one
	var b []float64
	for _, z := range chance.Normals(20000, 1, 1, 5) {
		b = append(b, 1+sb*z[0])
		ones = append(ones, &one{seen: []float64{b[len(b)-1] * x[0], b[len(b)-1] * x[1]}})
	}
	w, err := h.weigh(ones)
	require.NoError(t, err)
	require.True(t, w.evidence.Fits)
	// by hand: C = se^2 I + sr^2 11', precision of b = x'C^-1 x + 1/sb^2
	det := (se*se+sr*sr)*(se*se+sr*sr) - sr*sr*sr*sr
	inv := func(u, v [2]float64) float64 {
		return ((se*se+sr*sr)*(u[0]*v[0]+u[1]*v[1]) - sr*sr*(u[0]*v[1]+u[1]*v[0])) / det
	}
	p := inv(x, x) + 1/(sb*sb)
	mean := (inv(x, y) + 1/(sb*sb)) / p
	var got, square float64
	for i := range b {
		got += w.beyond[i] * b[i] / float64(len(b))
		square += w.beyond[i] * b[i] * b[i] / float64(len(b))
	}
	assert.InDelta(t, mean, got, 0.01)
	assert.InDelta(t, math.Sqrt(1/p), math.Sqrt(square-got*got), 0.01)
	h.seen[1].value = 60
	w, err = h.weigh(ones)
	require.NoError(t, err)
	assert.False(t, w.evidence.Fits, "no panel of the kind does that")
	for _, v := range w.beyond {
		require.Equal(t, 1.0, v, "and nothing is weighed by it")
	}
}

// Panels are drawn as the description has them, and each is then a truth of its own: the printed bands must hold 85 to 95 in 100 of
// them. With an observation on each truth, with its error, the bands become narrower and hold as many.
func TestBandsCoverAMadePopulation(t *testing.T) {
	p := described(t, "three_boards")
	q := Question{Setting: response.Quick, Samples: Samples{Held: 400, Seed: 2}}
	r := doubted(t, source(t, "three_boards"), q)
	plain := r.Case
	states, err := plain.Settle(r.grid())
	require.NoError(t, err)
	h := newHeld(p, q, states, r.Sweep)
	h.lived = panel.Lived{}
	truths := chance.Normals(250, len(p.Inputs()), 0, 99)
	g := nearestOf(h.grid, 0.35)
	const n = 400
	pool := make([]*one, 0, n)
	for _, z := range chance.Normals(n, len(p.Inputs()), 0, 11) {
		o, err := h.at(z)
		require.NoError(t, err)
		pool = append(pool, o)
	}
	warp := func(o *one) float64 { return o.warp[g] }
	top := func(o *one) float64 {
		best := 0.0
		for j, k := range h.keys {
			if k.SetsRange() {
				best = max(best, o.share[g][j])
			}
		}
		return best
	}
	values := func(f func(*one) float64) []float64 {
		x := make([]float64, len(pool))
		for i, o := range pool {
			x[i] = f(o)
		}
		return x
	}
	// the panel is measured at 35 and 60 %: its change of warp, to half a millimetre each
	h.seen = []sight{{what: SeenWarp, instrument: 0.5, rest: 6}, {what: SeenWarp, instrument: 0.5, rest: 6}}
	wet := nearestOf(h.grid, 0.60)
	for _, o := range pool {
		o.seen = []float64{o.warp[g], o.warp[wet]}
	}
	noise := rand.New(rand.NewPCG(1, 2))
	var in, after [2]int
	var narrower, of [2]int
	for _, z := range truths {
		truth, err := h.atWithout(z)
		require.NoError(t, err)
		rest := 3 * noise.NormFloat64()
		h.seen[0].value = rest + truth.warp[g] + 0.5*noise.NormFloat64()
		h.seen[1].value = rest + truth.warp[wet] + 0.5*noise.NormFloat64()
		w, err := h.weigh(pool)
		require.NoError(t, err)
		for k, f := range []func(*one) float64{top, warp} {
			v, x := f(truth), values(f)
			before := bandOf(x, nil)
			if before.Low <= v && v <= before.High {
				in[k]++
			}
			if chance.Effective(w.beyond) < few {
				continue
			}
			b := bandOf(x, w.beyond)
			of[k]++
			if b.Low <= v && v <= b.High {
				after[k]++
			}
			if b.High-b.Low < before.High-before.Low {
				narrower[k]++
			}
		}
	}
	for k, what := range []string{"share of limit", "warp"} {
		assert.InDelta(t, 90, 100*float64(in[k])/float64(len(truths)), 5, what)
		assert.InDelta(t, 90, 100*float64(after[k])/float64(of[k]), 6, what+" after it was measured")
	}
	assert.Greater(t, float64(narrower[1])/float64(of[1]), 0.95, "what was measured is known better")
}

// atWithout is at for a panel on which nothing is looked up.
func (h *held) atWithout(z []float64) (*one, error) {
	seen := h.seen
	h.seen = nil
	defer func() { h.seen = seen }()
	return h.at(z)
}
