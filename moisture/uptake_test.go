package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var inf = math.Inf(1)

func films() []Faces {
	return []Faces{{inf, 0}, {0, inf}, {inf, inf}, {0, 0.1}, {20, 0.5}, {inf, 0.5}, {0.01, 0.02}, {1000, 0}, {100, 0.5}}
}

// The series and the half-space form were derived apart; they meet at the change-over.
func TestSeriesMeetsHalfSpace(t *testing.T) {
	for _, f := range films() {
		m := f.solve()
		for _, fo := range []float64{earlyFo, 2 * earlyFo} {
			early := halfSpace(f.Back, fo) + halfSpace(f.Front, fo)
			assert.InDelta(t, early, uptake(&m, fo), 2e-9, "%+v", f)
			assert.InDelta(t, 12*(lean(f.Front, fo)-lean(f.Back, fo)), f.Moment(fo), 1e-7, "%+v", f)
			for _, y := range []float64{0, 0.02, 0.1, 0.5, 0.95, 1} {
				assert.InDelta(t, halfSpaceAt(f.Back, y, fo)+halfSpaceAt(f.Front, 1-y, fo), f.Local(y, fo), 1e-8, "%+v %g", f, y)
			}
		}
	}
}

// Mean and first moment agree with quadrature of the local values, early and late.
func TestMomentsAgreeWithQuadrature(t *testing.T) {
	const n = 1000
	for _, f := range films() {
		for _, fo := range []float64{0.004, 0.05, 0.5, 2} {
			mean, first := 0.0, 0.0
			for i := range n {
				y := (float64(i) + 0.5) / n
				u := f.Local(y, fo)
				mean += u / n
				first += 12 * u * (y - 0.5) / n
			}
			assert.InDelta(t, mean, f.Uptake(fo), 1e-6, "%+v %g", f, fo)
			assert.InDelta(t, first, f.Moment(fo), 1e-5, "%+v %g", f, fo)
		}
	}
}

func TestUptakeExtremes(t *testing.T) {
	for _, f := range films() {
		assert.Zero(t, f.Uptake(0), "%+v", f)
		prev := -1e-12
		for fo := 1e-9; fo < 1e4; fo *= 1.5 {
			e := f.Uptake(fo)
			assert.GreaterOrEqual(t, e, prev-1e-12, "%+v %g", f, fo)
			prev = e
		}
		assert.InDelta(t, 1, prev, 1e-6, "%+v", f)
		mirror := Faces{f.Front, f.Back}
		assert.InDelta(t, f.Uptake(0.1), mirror.Uptake(0.1), 1e-12)
		assert.InDelta(t, f.Moment(0.1), -mirror.Moment(0.1), 1e-12, "mirror board, mirror cup")
		for _, share := range []float64{0, 1e-6, 0.01, 0.5, 0.95, 0.999999} {
			fo, err := f.Fourier(share)
			require.NoError(t, err)
			assert.InDelta(t, share, f.Uptake(fo), 1e-9, "%+v", f)
		}
	}
	assert.Positive(t, Faces{Front: inf}.Moment(0.1), "wet front: rounded")
	assert.Negative(t, Faces{Back: inf}.Moment(0.1), "wet back: hollow")
}

func TestBothFacesOpenIsAQuarterOfTheTime(t *testing.T) {
	one, err := Slab{20, 1e-10, Faces{Back: inf}}.Time(0.5)
	require.NoError(t, err)
	two, err := Slab{20, 1e-10, Faces{inf, inf}}.Time(0.5)
	require.NoError(t, err)
	assert.InEpsilon(t, one/4, two, 1e-9)
	thick, err := ResponseTime(40, 1e-10, 0.5)
	require.NoError(t, err)
	assert.InEpsilon(t, 4*one, thick, 1e-9)
}

// Table of unequal films, worked out apart from this program: Fourier numbers at 50 and 95 %.
func TestUnequalFilms(t *testing.T) {
	for f, want := range map[Faces][2]float64{
		{20, 20}: {0.06855, 0.35038}, {20, 0.5}: {0.17906, 0.92155}, {50, 0.2}: {0.18766, 1.02456}, {10, 1}: {0.17147, 0.82548},
	} {
		for i, share := range []float64{0.5, 0.95} {
			fo, err := f.Fourier(share)
			require.NoError(t, err)
			assert.InDelta(t, want[i], fo, 5e-6, "%+v", f)
		}
	}
}

func TestPeakIsThePeak(t *testing.T) {
	for _, f := range films() {
		k, fo, err := f.Peak()
		require.NoError(t, err)
		if f.Back == f.Front {
			assert.Zero(t, k)
			continue
		}
		for _, d := range []float64{0.5, 0.98, 1.02, 2} {
			assert.Less(t, math.Abs(f.Moment(fo*d)), math.Abs(k)+1e-12, "%+v at %g", f, d)
		}
	}
}

func TestSwing(t *testing.T) {
	s := Slab{20, 1e-10, Faces{Back: inf}}
	share, _, err := s.Swing(1e14)
	require.NoError(t, err)
	assert.InDelta(t, 1, share, 1e-6, "slow swings arrive in full")
	share, _, err = s.Swing(1)
	require.NoError(t, err)
	assert.Less(t, share, 1e-3)
	both, lag, err := Slab{40, 1e-10, Faces{40, 40}}.Swing(30 * day)
	require.NoError(t, err)
	one, lag1, err := Slab{20, 1e-10, Faces{Front: 20}}.Swing(30 * day)
	require.NoError(t, err)
	assert.InDelta(t, one, both, 1e-12)
	assert.InDelta(t, lag1, lag, 1e-6)
	// Two faces unlike: between one of them sealed and both alike.
	lone, _, err := Slab{20, 1e-10, Faces{40, 0}}.Swing(day)
	require.NoError(t, err)
	mixed, _, err := Slab{20, 1e-10, Faces{40, 0.5}}.Swing(day)
	require.NoError(t, err)
	twin, _, err := Slab{20, 1e-10, Faces{40, 40}}.Swing(day)
	require.NoError(t, err)
	assert.Less(t, lone, mixed)
	assert.Less(t, mixed, twin)
	// A fast swing: the limit 1/|z| and a lag of an eighth of the period.
	share, lag, err = Slab{1000, 1e-12, Faces{Front: inf}}.Swing(day)
	require.NoError(t, err)
	assert.InEpsilon(t, AttenuationDepth(1e-12, day)/1000/math.Sqrt2, share, 1e-12)
	assert.InEpsilon(t, day/8.0, lag, 1e-12)
}

func TestBadBoards(t *testing.T) {
	for want, s := range map[string]Slab{
		"thickness must lie between 0.1 and 1000 mm": {0, 1e-10, Faces{Back: inf}},
		"diffusion coefficient must lie between":     {20, math.NaN(), Faces{Back: inf}},
		"both faces are sealed":                      {20, 1e-10, Faces{}},
		"biot numbers must be 0 or more":             {20, 1e-10, Faces{Back: -1}},
	} {
		_, err := s.Time(0.5)
		assert.ErrorContains(t, err, want)
		_, _, err = s.Peak()
		assert.ErrorContains(t, err, want)
		_, _, err = s.Swing(day)
		assert.ErrorContains(t, err, want)
	}
	_, err := ResponseTime(20, 1e-10, 1)
	assert.ErrorContains(t, err, "share of the change")
	_, _, err = Slab{20, 1e-10, Faces{Back: inf}}.Swing(0)
	assert.ErrorContains(t, err, "period must be above 0 s")
	assert.True(t, math.IsNaN(Faces{Back: inf}.Uptake(-1)))
	assert.True(t, math.IsNaN(Faces{Back: math.NaN()}.Moment(1)))
	assert.True(t, math.IsNaN(Faces{Back: inf}.Local(1.1, 1)))
	assert.Zero(t, Faces{}.Uptake(1))
}
