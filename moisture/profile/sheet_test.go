package profile_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossgrain/moisture"
	"crossgrain/moisture/profile"
	"crossgrain/tables"
)

// step returns the share made by the mean and the factor of cupping after the Fourier number, for
// a sheet of 20 mm with the Biot numbers of its faces.
func step(t *testing.T, o profile.Options, f moisture.Faces, fo float64) (uptake, moment float64) {
	t.Helper()
	const d, h = 1e-10, 0.02
	s, err := profile.NewSheet(profile.Sheet{Thickness: 1000 * h, D0: d, Back: min(f.Back*d/h, 1e3), Front: min(f.Front*d/h, 1e3)}, o)
	require.NoError(t, err)
	require.NoError(t, s.StartSheet(0))
	end := fo * h * h / d
	for at, dt := 0.0, end/1e5; at < end; at, dt = at+dt, min(dt*1.02, end/400) {
		if at+dt > end*(1-1e-9) {
			dt = end - at
		}
		_, err := s.StepSheet(dt, 1, 1)
		require.NoError(t, err)
	}
	m0, m1 := s.Moments()
	return m0, m1 * 1000 * h
}

// rows calls f with the numbers in every id of the form, and with the expected value and tolerance.
func rows(t *testing.T, form string, f func(p []float64, want, tol float64)) {
	t.Helper()
	n, met := strings.Count(form, "%g"), 0
	for _, r := range tables.MustRead("checks_moisture").Rows {
		p, refs := make([]float64, n), make([]any, n)
		for i := range p {
			refs[i] = &p[i]
		}
		id := r.Text("id")
		if k, err := fmt.Sscanf(id, form, refs...); err != nil || k != n {
			continue
		}
		want, _ := r.Float("expected")
		tol, _ := r.Float("tolerance")
		met++
		f(p, want, tol)
	}
	require.NotZero(t, met, form)
}

// The closed forms are printed to 1e-5. From Fo 0.01 on 400 even intervals meet them; 40 even ones
// come within 7e-4 (a face that jumps costs half an interval) and the default, 24 graded, within 3e-3
// (the cupping; uptake through one face within 6e-4). Source: Crank 1975, ch. 4.
func TestPlaneSheetRows(t *testing.T) {
	fine := profile.Options{Cells: 400}
	var worst [2]float64
	check := func(name string, f moisture.Faces, fo, want, tol float64, moment bool) {
		if fo < 0.01 {
			return
		}
		pick := func(o profile.Options) float64 {
			u, m := step(t, o, f, fo)
			if moment {
				return m
			}
			return u
		}
		assert.InDelta(t, want, pick(fine), tol, "%s %v", name, fo)
		for i, c := range []struct {
			o   profile.Options
			tol float64
		}{{profile.Options{}, 7e-4}, {profile.Default(), 3e-3}} {
			e := math.Abs(pick(c.o) - want)
			worst[i] = max(worst[i], e)
			assert.Less(t, e, c.tol, "%d intervals, %s %v", c.o.Cells, name, fo)
		}
	}
	inf := math.Inf(1)
	rows(t, "CRK-E-%g", func(p []float64, want, tol float64) {
		check("CRK", moisture.Faces{Front: inf}, p[0], want, tol, false)
	})
	rows(t, "ROB-E-%g-%g", func(p []float64, want, tol float64) {
		check("ROB", moisture.Faces{Front: p[0]}, p[1], want, tol, false)
	})
	rows(t, "TWO-%g-%g-%g", func(p []float64, want, tol float64) {
		check("TWO", moisture.Faces{Back: p[0], Front: p[1]}, p[2], want, tol, false)
	})
	rows(t, "CUP-K-%g", func(p []float64, want, tol float64) {
		check("CUP", moisture.Faces{Front: inf}, p[0], want, tol, true)
	})
	t.Logf("largest error from Fo 0.01 on: %.1e (40 even), %.1e (24 graded)", worst[0], worst[1])
}

// The sealed face and the middle of a sheet whose other face jumps, and a face that rises evenly
// until Fo 0.5. Source: Crank 1975, ch. 4.
func TestSealedFaceAndRampRows(t *testing.T) {
	const d, h = 1e-10, 0.02
	at := func(fo, ramp float64, cells int) *profile.Solver {
		s, err := profile.NewSheet(profile.Sheet{Thickness: 1000 * h, D0: d, Front: 1e3}, profile.Options{Cells: cells})
		require.NoError(t, err)
		require.NoError(t, s.StartSheet(0))
		air := func(fo float64) moisture.MC { return moisture.MC(min(fo/max(ramp, 1e-12), 1)) }
		const n = 2000
		last := moisture.MC(0)
		for i := 1; i <= n; i++ {
			x := float64(i) / n
			next := air(fo * x * x) // short steps first
			_, err := s.StepSheet(fo*h*h/d*(2*float64(i)-1)/n/n, last, next)
			require.NoError(t, err)
			last = next
		}
		return s
	}
	for _, c := range []struct {
		cells int
		more  float64
	}{{400, 1}, {40, 60}} {
		rows(t, "CRK-SEAL-%g", func(p []float64, want, tol float64) {
			assert.InDelta(t, want, at(p[0], 0, c.cells).MC(nil)[0], c.more*tol, "sealed face, %g", p[0])
		})
		rows(t, "CRK-MID-%g", func(p []float64, want, tol float64) {
			assert.InDelta(t, want, at(p[0], 0, c.cells).MC(nil)[c.cells/2], c.more*tol, "middle, %g", p[0])
		})
		rows(t, "CRK-RMP-%g", func(p []float64, want, tol float64) {
			assert.InDelta(t, want, at(p[0], 0.5, c.cells).Mean(), c.more*tol, "ramp, %g", p[0])
		})
	}
}

// Source: Carslaw and Jaeger 1959, ch. 3.
func TestSwingRows(t *testing.T) {
	swing := func(p []float64, o profile.Options) profile.Attenuation {
		s, err := profile.NewSheet(profile.Sheet{Thickness: p[0], D0: 1e-10, Front: min(p[2]*1e-10/p[0]*1000, 1e3)}, o)
		require.NoError(t, err)
		require.NoError(t, s.StartSheet(0.1))
		a, err := s.Swing(p[1] * day)
		require.NoError(t, err)
		return a
	}
	worst := 0.0
	rows(t, "SIN-M-%g-%g-%g", func(p []float64, want, tol float64) {
		assert.InDelta(t, want, swing(p, profile.Options{Cells: 400, Graded: true}).Mean.Share, tol, "%v", p)
		worst = max(worst, math.Abs(swing(p, profile.Default()).Mean.Share-want))
	})
	rows(t, "SIN-L-%g-%g-%g", func(p []float64, want, tol float64) {
		assert.InDelta(t, want, swing(p, profile.Options{Cells: 400, Graded: true}).Mean.Lag/day, tol, "%v", p)
	})
	t.Logf("share, default mesh: largest error %.1e", worst)
	assert.Less(t, worst, 1e-3)
}

// Against the closed form, small steps: halving the intervals must quarter the error.
func TestOrderInSpace(t *testing.T) {
	f := moisture.Faces{Back: 5, Front: 0.5}
	want := f.Uptake(0.1)
	last := 0.0
	for _, n := range []int{10, 20, 40, 80} {
		u, _ := step(t, profile.Options{Cells: n, Tol: 1e-10}, f, 0.1)
		e := math.Abs(u - want)
		if last > 0 {
			assert.InDelta(t, 2, math.Log2(last/e), 0.1, "%d intervals, error %.2e", n, e)
		}
		last = e
	}
}

// A year's sine with one face open, even steps against steps 16 times finer.
func TestOrderInTime(t *testing.T) {
	run := func(o profile.Options, n int) float64 {
		s, err := profile.NewSheet(profile.Sheet{Thickness: 20, D0: 5e-11, K: 5, Back: 1e-7}, o)
		require.NoError(t, err)
		require.NoError(t, s.StartSheet(0.10))
		air := func(i int) moisture.MC {
			return moisture.MC(0.10 + 0.03*math.Pow(math.Sin(math.Pi*float64(i)/float64(n)), 2))
		}
		for i := range n {
			_, err := s.StepSheet(40*day/float64(n), air(i), air(i+1))
			require.NoError(t, err)
		}
		return s.Mean()
	}
	for _, c := range []struct {
		scheme profile.Scheme
		order  float64
	}{{profile.SDIRK2, 2}, {profile.BackwardEuler, 1}} {
		o := profile.Options{Cells: 40, Scheme: c.scheme, Tol: 1e-11}
		want := run(profile.Options{Cells: 40, Tol: 1e-11}, 4096)
		a, b := math.Abs(run(o, 40)-want), math.Abs(run(o, 80)-want)
		assert.InDelta(t, c.order, math.Log2(a/b), 0.2, "scheme %d: errors %.2e, %.2e", c.scheme, a, b)
	}
}

// The quick answer and the solver agree: Source: closed form of the same faces.
func TestSlab(t *testing.T) {
	slab := moisture.Slab{Thickness: 20, Diffusion: 1e-10, Faces: moisture.Faces{Back: 20, Front: 0.5}}
	for _, share := range []float64{0.5, 0.95} {
		s, err := slab.Time(share)
		require.NoError(t, err)
		u, _ := step(t, profile.Options{}, slab.Faces, slab.Fourier(s))
		assert.InDelta(t, share, u, 5e-4)
	}
}
