package moisture

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Curves of Bratasz et al., Table 1 (the file bratasz_gab.csv).
func poplar() *Branches {
	return &Branches{Ads: GAB{0.0595, 9.58, 0.73}, Des: GAB{0.0813, 7.88, 0.68}, Closure: 1, T: 20}
}

func oak() *Branches {
	return &Branches{Ads: GAB{0.0619, 7.36, 0.72}, Des: GAB{0.111, 7.26, 0.51}, Closure: 1, T: 20}
}

func at(s *Scan, b *Branches) float64 {
	u, _ := s.At(b, s.Humidity())
	return u
}

func walk(s *Scan, b *Branches, path ...float64) float64 {
	for _, h := range path {
		s.Commit(b, h)
	}
	return at(s, b)
}

func TestStarts(t *testing.T) {
	b := poplar()
	for _, h := range []float64{0, 0.1, 0.35, 0.5, 0.8, 1} {
		for from, want := range map[Start]float64{Ads: b.ads(h), Des: b.des(h), Settled: (b.ads(h) + b.des(h)) / 2} {
			s := StartAt(b, h, from)
			assert.InDelta(t, want, at(&s, b), 1e-12, "start %d at %g", from, h)
		}
	}
}

func TestBoundaryCurvesAreFollowed(t *testing.T) {
	for _, b := range []*Branches{poplar(), oak()} {
		up, down := StartAt(b, 0, Ads), StartAt(b, 0.96, Des)
		for i := 1; i <= 95; i++ {
			h := float64(i) / 100
			assert.InDelta(t, b.ads(h), walk(&up, b, h), 1e-14)
			h = 0.96 - h
			assert.InDelta(t, b.des(h), walk(&down, b, h), 1e-14)
		}
	}
}

// Crossings of the printed curves, worked out apart from this program.
func TestBranchesThatCrossAreJoinedThere(t *testing.T) {
	woods, err := printedGAB()
	require.NoError(t, err)
	for name, want := range map[string]float64{"oak": 0.9649, "sycamore": 0.8541, "lime": 0.9896, "poplar": 1, "larch": 0} {
		b := woods[name]
		c := b.join()
		assert.InDelta(t, want, c.h, 5e-5, name)
		assert.InDelta(t, c.us, b.des(c.h), 1e-15, name)
	}
	larch := woods["larch"] // no hysteresis: the mean of both curves, in every direction
	s := StartAt(&larch, 0.5, Des)
	for _, h := range []float64{0.5, 0.8, 0.3, 0, 1} {
		assert.InDelta(t, (larch.ads(h)+larch.des(h))/2, walk(&s, &larch, h), 1e-15)
	}
}

func TestFirstScansAreTheSimilarityForm(t *testing.T) {
	b := poplar()
	us := b.des(1)
	dry := StartAt(b, 0.65, Ads)
	assert.InDelta(t, ScanDrying(b.ads(0.35), b.des(0.35), b.ads(0.65), us), walk(&dry, b, 0.5, 0.35), 1e-15)
	wet := StartAt(b, 0.35, Des)
	assert.InDelta(t, ScanWetting(b.ads(0.65), b.ads(0.35), b.des(0.35), us), walk(&wet, b, 0.4, 0.65), 1e-15)
}

func TestLoopsCloseExactly(t *testing.T) {
	b := poplar()
	for _, from := range []Start{Settled, Ads, Des} {
		s := StartAt(b, 0.5, from)
		first := walk(&s, b, 0.65, 0.40)
		for range 200 {
			assert.Equal(t, first, walk(&s, b, 0.62, 0.45, 0.55, 0.5, 0.62, 0.40))
			assert.LessOrEqual(t, s.n, 3, "closed loops leave no trace")
		}
	}
}

func TestReturnPointMemory(t *testing.T) {
	b := poplar()
	s := StartAt(b, 0.5, Ads)
	path := []float64{0.80, 0.30, 0.70, 0.40, 0.60, 0.45, 0.55}
	seen := map[float64]float64{}
	for _, h := range path {
		seen[h] = walk(&s, b, h)
	}
	for i := len(path) - 3; i >= 0; i-- { // back out through the nested loops, each turning point is met again
		assert.Equal(t, seen[path[i]], walk(&s, b, path[i]), "return to %g", path[i])
	}
}

func TestWipingOut(t *testing.T) {
	b := poplar()
	direct, busy := StartAt(b, 0.5, Ads), StartAt(b, 0.5, Ads)
	walk(&direct, b, 0.70, 0.30)
	walk(&busy, b, 0.60, 0.45, 0.55, 0.50, 0.70, 0.50, 0.60, 0.40, 0.45, 0.30)
	for i := range 101 {
		h := float64(i) / 100
		u, du := direct.At(b, h)
		v, dv := busy.At(b, h)
		assert.Equal(t, u, v, "at %g", h)
		assert.Equal(t, du, dv, "at %g", h)
	}
}

func TestCongruency(t *testing.T) {
	// Loops between the same humidities have the same shape, whatever came before.
	b := poplar()
	size := func(from Start, before ...float64) float64 {
		s := StartAt(b, 0.5, from)
		walk(&s, b, before...)
		low := walk(&s, b, 0.45)
		return walk(&s, b, 0.55) - low
	}
	want := size(Ads, 0.55)
	assert.InDelta(t, (1-b.retained(b.join(), 0.45))*(b.ads(0.55)-b.ads(0.45)), want, 1e-15)
	assert.InDelta(t, want, size(Des, 0.2, 0.55), 1e-15)
	assert.InDelta(t, want, size(Settled, 0.9, 0.3, 0.8, 0.35, 0.55), 1e-15)
}

func TestAtDoesNotMove(t *testing.T) {
	b := poplar()
	s := StartAt(b, 0.5, Settled)
	walk(&s, b, 0.7, 0.4, 0.6)
	before := s
	for i := range 101 {
		s.At(b, float64(i)/100)
	}
	assert.Equal(t, before, s)
	s.Commit(b, math.NaN())
	assert.Equal(t, before, s)
	u, _ := s.At(b, math.NaN())
	assert.True(t, math.IsNaN(u))
}

// TestRandomHistories: every wood of the table, closures 0.9 to 1, random walks: rising in h, between
// the branches, continuous, slope right, and trial and commit agree.
func TestRandomHistories(t *testing.T) {
	woods, err := printedGAB()
	require.NoError(t, err)
	for name, w := range woods {
		for _, c := range []RH{0.9, 0.95, 1, 0} {
			w.Closure = c
			randomHistory(t, name, &w)
		}
	}
}

func randomHistory(t *testing.T, name string, b *Branches) {
	t.Helper()
	r := rand.New(rand.NewPCG(1, 2))
	s := StartAt(b, 0.5, Start(r.IntN(3)))
	for range 60 {
		prev := math.Inf(-1)
		for i := range 201 {
			h := float64(i) / 200
			u, slope := s.At(b, h)
			lo, hi := b.ads(h), b.des(h)
			ok := u >= prev-1e-12 && slope >= 0 && u >= min(lo, hi)-1e-9 && u <= max(lo, hi)+1e-9
			if !ok {
				t.Fatalf("%s, closure %v: u(%g) = %g after %g, slope %g, branches %g %g", name, b.Closure, h, u, prev, slope, lo, hi)
			}
			prev = u
		}
		h := r.Float64()
		want, _ := s.At(b, h)
		assert.InDelta(t, want, walk(&s, b, h), 1e-12, name)
		for _, d := range []float64{-1e-7, 1e-7} {
			u, _ := s.At(b, h+d)
			assert.InDelta(t, want, u, 1e-6, "%s: jump at %g", name, h)
		}
	}
}

func TestSlopeIsTheDerivative(t *testing.T) {
	b := oak()
	s := StartAt(b, 0.5, Settled)
	walk(&s, b, 0.8, 0.3, 0.6, 0.45)
	for _, h := range []float64{0.05, 0.2, 0.35, 0.44, 0.5, 0.55, 0.7, 0.9, 0.97, 0.99} {
		u1, _ := s.At(b, h-1e-6)
		u2, _ := s.At(b, h+1e-6)
		_, slope := s.At(b, h)
		assert.InEpsilon(t, (u2-u1)/2e-6, slope, 1e-5, "at %g", h)
	}
}

func TestManyTurningPointsMergeWithoutJump(t *testing.T) {
	b := poplar()
	s := StartAt(b, 0.9, Des)
	for i := range 40 { // 80 nested turning points, far more than are kept
		d := 0.4 * math.Pow(0.93, float64(i))
		for _, h := range []float64{0.5 - d, 0.5 + 0.98*d} {
			want, _ := s.At(b, h)
			before := at(&s, b)
			stay, _ := s.At(b, s.Humidity()) // the merge itself moves nothing
			assert.InDelta(t, before, stay, 1e-15)
			assert.InDelta(t, want, walk(&s, b, h), 1e-12)
			assert.LessOrEqual(t, s.n, loops)
		}
	}
}
